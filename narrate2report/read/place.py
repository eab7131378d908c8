"""Where the walk is and what is in focus: rooms entered, and which component a word means there."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from narrate2report.read.phrasebook import Mention, Sense
from narrate2report.read.spoken import COMPONENT_ROLES, Named, Spoken, relation_of
from narrate2report.read.stance import Mode, Stance
from narrate2report.read.vocabulary import Vocabulary

NOT_ENTERED = frozenset(
    "from than as like off by near toward towards behind beside between of same facing opposite above"
    " below outside until before after with for off past upstairs".split()
)
ENTERING = frozenset("into onto next now inside".split())
TOWARDS = frozenset("in to through out down up at on".split())
MOVING = frozenset(
    "do doing go going come coming move moving head heading walk walking step stepping back over on start"
    " starting next now we are through down up out am done finally last let off we're here cross crossing".split()
)
LEADING = frozenset(
    "okay ok so now and then next right alright well the a an our my this here 's is we are i am be come"
    " coming go going in into to on onto back over through out down up first last stop finally moving let us"
    " start starting with at it also just good great move step stepping walk walking head heading done yes"
    " yep um uh for of that other then inside second third that's".split()
)
INDEFINITE = frozenset("everything nothing something everyone everybody nobody".split())
ORDINALS = {"first": "1", "second": "2", "third": "3", "fourth": "4", "one": "1", "two": "2", "three": "3", "four": "4",
            "five": "5", "1": "1", "2": "2", "3": "3", "4": "4", "5": "5", "too": "2", "to": "2"}  # fmt: skip
LETTERED = {"room": "bedroom", "bed": "bedroom", "br": "bedroom", "bath": "bathroom"}
"""Short forms that are rooms when a letter or number follows them at the start of a sentence."""

NUMBERED = frozenset({"bedroom", "bathroom", "closet", "office", "half_bath", "balcony", "living_room", "storage"})
GIVEN_AWAY = ("bathroom", "kitchen")
"""Rooms that their own fixtures give away."""

LEFT_UNSAID = frozenset(
    {"bedroom", "hallway", "living_room", "dining_room", "entry", "kitchen", "bathroom", "whole_unit", ""}
)
"""Rooms from which people walk into the next without a word."""

WAY_IN = frozenset({"door", "lock", "doorbell", "peephole", "intercom", "threshold", "door_frame"})

FOCUS_SENTENCES = 3
"""For how many sentences a component stays the owner of plain words such as `shelf` or `seal`."""


@dataclass
class Place:
    """The room walked at the moment and the components lately spoken of, newest last."""

    room: str | None = None
    visits: list[tuple[str, int]] = field(default_factory=list)
    lately: list[tuple[str, int]] = field(default_factory=list)
    subject: str | None = None
    """The component that `it`, `this` and a bare remark mean."""

    @property
    def base(self) -> str:
        """The kind of the current room, without its number or name."""
        return (self.room or "").split(".")[0]

    def enter(self, room: str, number: int) -> None:
        """Walk into a room: what was in focus stays behind."""
        if room != self.room:
            self.room = room
            self.lately.clear()
            self.subject = None
            self.visits.append((room, number))

    def speak_of(self, component: str, number: int) -> None:
        """Note that a component was spoken of in sentence `number`."""
        others = [(one, when) for one, when in self.lately if one != component]
        self.lately = [*others[-8:], (component, number)]


def find_room(spoken: Spoken, place: Place, stances: Sequence[Stance]) -> str | None:
    """The room that the sentence walks into, if it does."""
    entered = None
    for mention in spoken.found.terms:
        sense = next(iter(mention.of("room")), None)
        if sense is None or stances[mention.start].mode not in {Mode.ASSERTED, Mode.FUTURE}:
            continue
        room, end = _numbered(spoken, mention, sense.id)
        if _is_entered(spoken, mention, end):
            same = entered is not None and entered.split(".")[0] == room
            entered = entered if same else _as_before(room, place)
    return entered or _lettered_room(spoken)


def _numbered(spoken: Spoken, mention: Mention, room: str) -> tuple[str, int]:
    """`bedroom two`, `the second bedroom`, `bedroom B`: the number becomes the suffix."""
    tokens = spoken.tokens
    if room not in NUMBERED:
        return room, mention.end
    if mention.end < len(tokens):
        after = tokens[mention.end].norm
        skip = 1 if after == "number" and mention.end + 1 < len(tokens) else 0
        after = tokens[mention.end + skip].norm
        last = mention.end + skip + 1 >= len(tokens)
        follows = "" if last else tokens[mention.end + skip + 1].text
        if (
            after in ORDINALS
            and (after not in {"to", "too"} or last or follows in {",", "."})
            and (last or not follows.isalpha() or after.isdigit() or _is_its_number(spoken, mention, skip))
        ):
            return f"{room}.{ORDINALS[after]}", mention.end + skip + 1
        if re.fullmatch(r"[b-h]", after) and (last or not follows.isalpha()):
            return f"{room}.{after}", mention.end + 1
    if (
        mention.start
        and tokens[mention.start - 1].norm in ORDINALS
        and tokens[mention.start - 1].norm not in {"one", "to", "too"}
    ):
        return f"{room}.{ORDINALS[tokens[mention.start - 1].norm]}", mention.end
    return room, mention.end


def _is_its_number(spoken: Spoken, mention: Mention, skip: int) -> bool:
    """`bedroom two the carpet is new`, and not `bedroom two windows`: the number counts nothing that follows."""
    tokens, at = spoken.tokens, mention.end + skip
    if tokens[at].norm in {"to", "too"} or not _opens(spoken, mention):
        return False
    if tokens[at].norm == "one":
        pointed = mention.start > 0 and tokens[mention.start - 1].norm in {"the", "this", "that", "a"}
        return not pointed and tokens[at + 1].tag in {"NNS", "DT", "PRP", "EX", "VBN"}
    return tokens[at + 1].tag in {"DT", "PRP", "PRP$", "EX", "RB", "UH", "VBN", "VBZ", "IN", "CD"}


def _opens(spoken: Spoken, mention: Mention) -> bool:
    """Whether only words that lead to a room stand before its name."""
    return all(token.norm in LEADING or not token.is_word for token in spoken.tokens[: mention.start])


def _lettered_room(spoken: Spoken) -> str | None:
    """`Room B`: a let room of a shared unit, at the start of a sentence."""
    norms = spoken.norms(0, 7)
    for at in range(len(norms) - 1):
        label = norms[at + 1].rstrip(".")
        kind, number = LETTERED.get(norms[at]), ORDINALS.get(label, label)
        opening = all(norm in LEADING or not norm.isalnum() for norm in norms[:at])
        spoken_number = norms[at + 1] not in {"to", "too"} and (label != "a" or norms[at] == "room")
        if kind and opening and spoken_number and re.fullmatch(r"[a-h]|[1-9]", number):
            return f"{kind}.{number}"
    return None


def _as_before(room: str, place: Place) -> str:
    """A room named without its number is the one of that kind that is being walked."""
    if "." not in room and place.base == room and place.room:
        return place.room
    return room


def _is_entered(spoken: Spoken, mention: Mention, end: int) -> bool:
    tokens = spoken.tokens
    clause = spoken.clause_of(mention.start)
    before = [token.norm for token in tokens[clause.start : mention.start]]
    if "not" in before or "never" in before:
        return False
    close = [word for word in before[-3:] if word not in {"the", "a", "this", "our", "your", "my"}]
    if close and close[-1] in NOT_ENTERED:
        return False
    next_token = tokens[end] if end < len(tokens) else None
    heads_noun = any(other.start == end and other.of(*COMPONENT_ROLES) for other in spoken.found.terms)
    if next_token is not None and next_token.norm in {"side", "key", "keys", "end", "wall", "half"} and not heads_noun:
        return False
    if _opens(spoken, mention):
        apart = next_token is not None and (
            next_token.norm in INDEFINITE or any(cue.start == end for cue in spoken.cues("outsider"))
        )
        return next_token is None or not (
            next_token.tag in {"NN", "NNS"}
            and not heads_noun
            and not apart
            and next_token.norm not in ORDINALS
            and mention.end == end
        )
    if heads_noun:
        return False
    alone = mention.end == clause.end and mention.start - clause.start <= 1
    if alone and not any(spoken.named_terms(earlier) for earlier in spoken.clauses[: clause.index]):
        return True
    if next_token is not None and next_token.norm == "here" and close[-1:] == ["in"]:
        return True
    leading = all(word in LEADING for word in before)
    moving = bool(set(before) & MOVING) and "from" not in before
    enters = bool(close) and (close[-1] in ENTERING or (close[-1] in TOWARDS | MOVING and moving))
    return enters or (leading and (bool(before) or next_token is None))


def implied_room(spoken: Spoken, place: Place, stances: Sequence[Stance], vocabulary: Vocabulary) -> str | None:
    """A room that was entered without a word: a toilet is not in a kitchen, and a walk starts at the front door."""
    base = place.base
    if base in {"", "whole_unit"}:
        for room in spoken.found.implied_rooms:
            return room
        if place.room is None and _speaks_of_way_in(spoken, stances):
            return "entry"
    for mention in spoken.found.terms:
        for sense in mention.of("component"):
            owners = [room for room in GIVEN_AWAY if sense.id in vocabulary.rooms[room].owns]
            if not owners or base in owners or relation_of(spoken, mention.start) != "topic":
                continue
            if stances[mention.start].mode is Mode.ASSERTED and base in LEFT_UNSAID:
                return owners[0]
    return None


def _speaks_of_way_in(spoken: Spoken, stances: Sequence[Stance]) -> bool:
    """A walk that starts with the door, the lock or the bell starts at the entry."""
    return any(
        sense.id in WAY_IN
        and stances[mention.start].mode is Mode.ASSERTED
        and relation_of(spoken, mention.start) == "topic"
        for mention in spoken.found.terms
        for sense in mention.of("component", "else")
    )


def name_components(spoken: Spoken, place: Place, number: int, vocabulary: Vocabulary) -> tuple[Named, ...]:
    """Which component each component word means: certain words first, then plain words beside them."""
    chosen: dict[int, tuple[Mention, str]] = {}
    for mention in spoken.found.terms:
        certain = [sense.id for sense in mention.of("component")]
        if not certain or _is_other_word(spoken, mention) or _is_material_of(spoken, mention, chosen):
            continue
        chosen[mention.start] = (
            mention,
            _in_context(mention, chosen, place, number) or _of_room(certain, place, vocabulary),
        )
    for mention in spoken.found.terms:
        plain = mention.of("near", "in", "else")
        if mention.start in chosen or not plain or mention.of("component") or _is_other_word(spoken, mention):
            continue
        if _is_material_of(spoken, mention, chosen):
            continue
        component = _plain_meaning(mention, plain, chosen, place, number, vocabulary)
        if component:
            chosen[mention.start] = (mention, component)
    return tuple(
        Named(component, mention.start, mention.end, relation_of(spoken, start))
        for start, (mention, component) in sorted(chosen.items())
    )


def _in_context(mention: Mention, chosen: dict[int, tuple[Mention, str]], place: Place, number: int) -> str | None:
    """What a certain word means beside its owner or in this room, where the vocabulary says so: `sliding door` of a
    wardrobe, `lock` of a window, `curtain` in a bathroom."""
    owners = {sense.beside: sense.id for sense in mention.of("near")}
    for _, (_, one) in sorted(chosen.items(), reverse=True):
        if one in owners:
            return owners[one]
    if place.lately and number - place.lately[-1][1] <= 1 and place.lately[-1][0] in owners and not chosen:
        return owners[place.lately[-1][0]]
    return next((sense.id for sense in mention.of("in") if sense.beside == place.base), None)


def _of_room(candidates: list[str], place: Place, vocabulary: Vocabulary) -> str:
    """Of several components called alike, the one that the room has."""
    term = vocabulary.rooms.get(place.base)
    usual = [one for one in candidates if term and (one in term.owns or one in term.expects)]
    return (usual or candidates)[0]


def _plain_meaning(
    mention: Mention,
    senses: tuple[Sense, ...],
    chosen: dict[int, tuple[Mention, str]],
    place: Place,
    number: int,
    vocabulary: Vocabulary,
) -> str | None:
    by_owner: dict[str, str] = {}
    for sense in senses:
        if sense.role == "near":
            by_owner.setdefault(sense.beside, sense.id)
    earlier = [component for start, (_, component) in sorted(chosen.items()) if start < mention.start]
    later = [component for start, (_, component) in sorted(chosen.items()) if mention.start < start <= mention.end + 3]
    for owner in [*later, *reversed(earlier)]:
        if owner in by_owner:
            return by_owner[owner]
    standalone = any(sense.role in {"else", "in"} for sense in senses)
    reach = 1 if standalone else FOCUS_SENTENCES
    for sense in senses:
        if sense.role == "in" and sense.beside == place.base:
            return sense.id
    for owner, when in reversed(place.lately):
        if number - when <= reach and (family := _family_match(owner, by_owner, vocabulary)):
            return family
    for role in ("in", "else"):
        for sense in senses:
            if sense.role == role and (role == "else" or sense.beside == place.base):
                return sense.id
    return None


def _family_match(owner: str, by_owner: dict[str, str], vocabulary: Vocabulary) -> str | None:
    """The meaning beside a component, or beside what that component is a part of."""
    for one in (owner, *vocabulary.components[owner].part_of):
        if one in by_owner:
            return by_owner[one]
    return None


def _is_material_of(spoken: Spoken, mention: Mention, chosen: dict[int, tuple[Mention, str]]) -> bool:
    """`the floor is vinyl plank`: after a component, a word that is both is what it is made of."""
    if not mention.of("material", "type"):
        return False
    clause = spoken.clause_of(mention.start)
    before = [other for start, (other, _) in chosen.items() if start < mention.start and start >= clause.start]
    if not before:
        flawed = spoken.has_term("condition", within=clause)
        return clause.link == ":" and clause.index == 1 and bool(chosen) and not flawed
    between = spoken.norms(before[-1].end, mention.start)
    return bool(set(between) & {"is", "'s", "are", "was", ":", "in"}) and "on" not in between


def _follows_component(spoken: Spoken, mention: Mention) -> bool:
    """`the tub drains fine`: right after another component and with no other verb to come, it is the verb."""
    if not any(other.end == mention.start and other.of(*COMPONENT_ROLES) for other in spoken.found.terms):
        return False
    clause = spoken.clause_of(mention.start)
    return not any(token.is_finite for token in spoken.tokens[mention.end : clause.end])


def _is_other_word(spoken: Spoken, mention: Mention) -> bool:
    """Whether a component word is used as a verb (`it drains`) or adjective (`a light scratch`)."""
    if mention.end - mention.start > 1:
        return False
    tokens = spoken.tokens
    token = tokens[mention.start]
    before = tokens[mention.start - 1].norm if mention.start else ""
    counted = (
        bool(mention.start)
        and tokens[mention.start - 1].tag == "CD"
        and mention.end == spoken.clause_of(mention.start).end
    )
    if (before in {"them", "all", "both", "they", "each"} or counted) and mention.of("works"):
        return True
    if before in {
        "to",
        "will",
        "not",
        "please",
        "you",
        "i",
        "we",
        "they",
        "it",
        "would",
        "can",
        "must",
        "should",
    } and token.tag.startswith("VB"):
        return True
    if (
        mention.of("works", "action", "condition")
        and token.tag in {"VBZ", "VBP", "VBD", "VB"}
        and before not in {"the", "a", "this", "that", "no"}
    ):
        return True
    after = tokens[mention.end] if mention.end < len(tokens) else None
    clause = spoken.clause_of(mention.start)
    sole = (
        clause.end - clause.start == 1
        and clause.index > 0
        and bool(spoken.named_terms(spoken.clauses[clause.index - 1]))
    )
    if mention.of("works") and token.norm.endswith("s") and sole:
        return True
    if (
        mention.of("works")
        and mention.start
        and tokens[mention.start - 1].tag == "NNS"
        and _follows_component(spoken, mention)
    ):
        return True
    if mention.of("works") and token.norm.endswith("s") and _follows_component(spoken, mention):
        return True
    if mention.of("works") and before in {"is", "'s", "are", "was"} and token.tag in {"VBG", "NN", "JJ"}:
        return True
    if [t.norm for t in tokens[mention.end : mention.end + 2]] in (
        ["of", "it"],
        ["of", "that"],
        ["of", "this"],
    ):
        return True
    if token.norm == "light" and after is not None:
        return after.tag in {"JJ"} or any(
            other.start == mention.end and other.of("condition", "colour") for other in spoken.found.terms
        )
    return False
