"""Where the walk is and what is in focus: rooms entered, and which component a word means there."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from functools import partial
from itertools import pairwise

from narrate2report.read.clauses import Clause
from narrate2report.read.numbers import whole_number
from narrate2report.read.phrasebook import COMPONENT_ROLES, Mention, Sense
from narrate2report.read.spoken import Named, Spoken, relation_of
from narrate2report.read.stance import Mode, Stance
from narrate2report.read.vocabulary import Vocabulary

NOT_ENTERED = frozenset(
    "from than as like off by near toward towards behind beside between of same facing opposite above over"
    " below outside until before after with for off past upstairs".split()
)
ENTERING = frozenset("into onto next now inside".split())
TOWARDS = frozenset("in to through out down up at on".split())
MOVING = frozenset(
    "forgot do doing go going come coming move moving head heading walk walking step stepping back over on start"
    " starting next now we are through down up out am done finally last let off we're here cross crossing".split()
)
LEADING = frozenset(
    "okay ok so now and then next right alright well the a an our my your this here 's is we are i am be come"
    " coming go going in into to on onto back over through out down up first last stop finally moving let us"
    " start starting with at it also just good great move step stepping walk walking head heading done yes"
    " yep um uh for of that other then inside second third that's big little nice large small lovely cute"
    " cozy tiny spacious huge bright main own".split()
)
INDEFINITE = frozenset("everything nothing something everyone everybody nobody".split())
DOINGS = frozenset("does says said handles sends takes wants keeps charges closes calls bills does will".split())
"""What people in an office do: `the office does the charges`."""

ORDINALS = {"first": "1", "second": "2", "third": "3", "fourth": "4", "one": "1", "two": "2", "three": "3", "four": "4",
            "five": "5", "1": "1", "2": "2", "3": "3", "4": "4", "5": "5", "too": "2", "to": "2"}  # fmt: skip
LETTERED = {"room": "bedroom", "bed": "bedroom", "br": "bedroom", "bath": "bathroom"}
"""Short forms that are rooms when a letter or number follows them at the start of a sentence."""

NUMBERED = frozenset({"bedroom", "bathroom", "closet", "office", "half_bath", "balcony", "living_room", "storage"})
LEFT_UNSAID = frozenset(
    {"bedroom", "hallway", "living_room", "dining_room", "entry", "kitchen", "bathroom", "whole_unit", ""}
)
"""Rooms from which people walk into the next without a word."""

WAY_IN = frozenset({"door", "lock", "doorbell", "peephole", "intercom", "threshold", "door_frame"})

HOLDING = frozenset({"in", "inside", "between"})
"""Before a component in a condition phrase they make it the one that bears the condition."""

FOCUS_SENTENCES = 3
"""For how many sentences a component stays the owner of plain words such as `shelf` or `seal`."""


@dataclass
class Place:
    """The room walked at the moment and the components lately spoken of, newest last."""

    room: str | None = None
    visits: list[tuple[str, int]] = field(default_factory=list)
    lately: list[tuple[str, int]] = field(default_factory=list)
    came_from: str | None = None
    """The room that a closet is in, while the closet is walked."""
    closing: bool = False
    """Whether the walk is near its end."""
    subject: str | None = None
    """The component that `it`, `this` and a bare remark mean."""

    @property
    def base(self) -> str:
        """The kind of the current room, without its number or name."""
        return (self.room or "").split(".")[0]

    def enter(self, room: str, number: int) -> None:
        """Walk into a room: what was in focus stays behind."""
        if room != self.room:
            self.came_from = self.room if room.split(".")[0] == "closet" else None
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
    if _lists_rooms(spoken):
        return None
    for mention in spoken.terms("room"):
        sense = mention.of("room")[0]
        invited = stances[mention.start].mode is Mode.INSTRUCTION and _is_invited(spoken, mention)
        if stances[mention.start].mode not in {Mode.ASSERTED, Mode.FUTURE} and not invited:
            continue
        room, end = _numbered(spoken, mention, sense.id)
        if _is_entered(spoken, mention, end):
            same = entered is not None and entered.split(".")[0] == room
            entered = entered if same else _as_before(room, place)
    return entered or _lettered_room(spoken) or _storey(spoken)


def _lists_rooms(spoken: Spoken) -> bool:
    """`it has two bedrooms, hall and kitchen`: what there is, and no way through it."""
    counted = [m for m in spoken.terms("rooms") if m.start and spoken.tokens[m.start - 1].tag == "CD"]
    return bool(counted) and len(spoken.terms("room", "rooms")) > 1


def _is_invited(spoken: Spoken, mention: Mention) -> bool:
    """`please come into the hall`: the resident is led on."""
    before = spoken.norms(max(0, mention.start - 5), mention.start)
    return bool({"come", "step", "follow"} & set(before)) and bool(
        {"in", "into", "to", "through", "out", "onto"} & set(before)
    )


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
        kind = LETTERED.get(norms[at])
        if kind is None:
            continue
        label = norms[at + 1].rstrip(".")
        number = ORDINALS.get(label, label)
        opening = all(norm in LEADING or not norm.isalnum() for norm in norms[:at])
        spoken_number = norms[at + 1] not in {"to", "too"} and (label != "a" or norms[at] == "room")
        if opening and spoken_number and re.fullmatch(r"[a-h]|[1-9]", number):
            return f"{kind}.{number}"
    return None


def _storey(spoken: Spoken) -> str | None:
    """`Upstairs.`: on the way to another floor."""
    first = spoken.clauses[0] if spoken.clauses else None
    words = [] if first is None else [n for n in spoken.norms(first.start, first.end) if n not in LEADING]
    return "stairs" if words in (["upstairs"], ["downstairs"]) else None


def _as_before(room: str, place: Place) -> str:
    """A room named without its number is the one of that kind that is being walked."""
    if "." not in room and place.base == room and place.room:
        return place.room
    return room


def _is_entered(spoken: Spoken, mention: Mention, end: int) -> bool:
    tokens = spoken.tokens
    clause = spoken.clause_of(mention.start)
    before = [token.norm for token in tokens[clause.start : mention.start]]
    if "not" in before or "never" in before or _something_goes(spoken, clause.start, mention.start):
        return False
    close = [word for word in before[-3:] if word not in {"the", "a", "this", "our", "your", "my"}]
    if close and close[-1] in NOT_ENTERED:
        return False
    next_token = tokens[end] if end < len(tokens) else None
    heads_noun = any(other.start == end and other.of(*COMPONENT_ROLES) for other in spoken.found.terms)
    if next_token is not None and next_token.norm in {"side", "key", "keys", "end", "wall", "half"} and not heads_noun:
        return False
    if next_token is not None and next_token.norm in DOINGS:
        return False
    if before[-2:] == ["the", "office"] or (before[-1:] == ["the"] and tokens[mention.start].norm == "office"):
        if next_token is not None and next_token.is_word and not heads_noun:
            return False  # the office is putting a new counter in
    if _opens(spoken, mention):
        apart = next_token is not None and (
            next_token.norm in INDEFINITE or any(cue.start == end for cue in spoken.cues("outsider"))
        )
        return next_token is None or not (
            next_token.tag in {"NN", "NNS"}
            and not heads_noun
            and not apart
            and next_token.norm not in ORDINALS
            and whole_number(tokens, end) is None
            and mention.end == end
        )
    if heads_noun:
        return False
    alone = mention.end == clause.end and mention.start - clause.start <= 1 and not {"a", "an", "one"} & set(before)
    goes_on = clause.link in {"and", "or"} and any(
        term.of("room") and spoken.clause_of(term.start).index == clause.index - 1 for term in spoken.found.terms
    )
    if goes_on and not {"into", "to"} & set(spoken.norms(0, mention.start)):
        return False  # the same stuff runs through the living room and the kitchen
    if alone and not any(_names_a_thing(spoken, earlier) for earlier in spoken.clauses[: clause.index]):
        return True
    if next_token is not None and next_token.norm == "here" and close[-1:] == ["in"]:
        return True
    leading = all(word in LEADING for word in before)
    moving = bool(set(before) & MOVING) and "from" not in before
    enters = bool(close) and (close[-1] in ENTERING or (close[-1] in TOWARDS | MOVING and moving))
    return enters or (leading and (bool(before) or next_token is None))


def _names_a_thing(spoken: Spoken, clause: Clause) -> bool:
    return any(sense.id != "room_general" for term in spoken.named_terms(clause) for sense in term.of(*COMPONENT_ROLES))


def _something_goes(spoken: Spoken, start: int, end: int) -> bool:
    """`the same stuff runs through the kitchen`: a thing goes there, and nobody walks."""
    tokens = spoken.tokens
    return any(
        tokens[at].tag == "VBZ" and tokens[at].norm not in {"'s", "is"} and tokens[at - 1].tag in {"NN", "NNS"}
        for at in range(start + 1, end)
    )


def glanced_room(spoken: Spoken) -> str | None:
    """`The one in the hall, though, nothing.`: the room of a thing that is told of from elsewhere."""
    for mention in spoken.found.terms:
        room = next((sense.id for sense in mention.of("room")), None)
        before = spoken.norms(max(0, mention.start - 4), mention.start)
        if room and before[-2:] == ["in", "the"] and "one" in before and mention.start <= 6:
            return room
    return None


def implied_room(spoken: Spoken, place: Place, stances: Sequence[Stance], vocabulary: Vocabulary) -> str | None:
    """A room that was entered without a word: a toilet is not in a kitchen, and a walk starts at the front door."""
    base = place.base
    if place.came_from and _is_back_out(spoken, place, stances, vocabulary):
        return place.came_from
    if spoken.found.implied_rooms and ("back", "to") in pairwise(spoken.norms()):
        return spoken.found.implied_rooms[0]
    if base in {"", "whole_unit"}:
        for room in spoken.found.implied_rooms:
            return room
        if place.room is None and _speaks_of_way_in(spoken, stances):
            return "entry"
    for mention in spoken.terms("component"):
        if any(sense.beside == base for sense in mention.of("in")):
            continue
        for sense in mention.of("component"):
            owners = [room for room, term in vocabulary.rooms.items() if sense.id in term.known_by]
            if not owners or (base in vocabulary.rooms and sense.id in vocabulary.rooms[base].owns):
                continue
            if relation_of(spoken, mention.start) != "topic" or _is_elsewhere(spoken, mention):
                continue
            if stances[mention.start].mode is Mode.ASSERTED and base in LEFT_UNSAID:
                return owners[0]
    return None


def _is_back_out(spoken: Spoken, place: Place, stances: Sequence[Stance], vocabulary: Vocabulary) -> bool:
    """`The windows open`: out of a closet again, for it has none."""
    closet, room = vocabulary.rooms["closet"], vocabulary.rooms.get((place.came_from or "").split(".")[0])
    return any(
        sense.id not in (*closet.owns, *closet.expects)
        and room is not None
        and sense.id in (*room.owns, *room.expects)
        and stances[mention.start].mode is Mode.ASSERTED
        and relation_of(spoken, mention.start) == "topic"
        for mention in spoken.found.terms
        for sense in mention.of("component")
    )


def _is_elsewhere(spoken: Spoken, mention: Mention) -> bool:
    """`the upstairs tub overflowed`: on another floor than this."""
    return bool(
        {"upstairs", "downstairs", "neighbor", "neighbour"}
        & set(spoken.norms(max(0, mention.start - 2), mention.start))
    )


def _speaks_of_way_in(spoken: Spoken, stances: Sequence[Stance]) -> bool:
    """A walk that starts with the door, the lock or the bell starts at the entry."""
    return any(
        sense.id in WAY_IN
        and stances[mention.start].mode is Mode.ASSERTED
        and relation_of(spoken, mention.start) == "topic"
        for mention in spoken.terms("component", "else")
        for sense in mention.of("component", "else")
    )


def name_components(spoken: Spoken, place: Place, number: int, vocabulary: Vocabulary) -> tuple[Named, ...]:
    """Which component each component word means: certain words first, then plain words beside them."""
    chosen: dict[int, tuple[Mention, str]] = {}
    for mention in spoken.terms("component"):
        certain = [sense.id for sense in mention.of("component")]
        if _is_other_word(spoken, mention) or _is_material_of(spoken, mention, chosen):
            continue
        chosen[mention.start] = (
            mention,
            _in_context(mention, chosen, place, number) or _of_room(certain, place, vocabulary),
        )
    for mention in spoken.terms("near", "in", "else"):
        plain = mention.of("near", "in", "else")
        if mention.start in chosen or mention.of("component") or _is_other_word(spoken, mention):
            continue
        if _is_material_of(spoken, mention, chosen):
            continue
        component = _plain_meaning(mention, plain, chosen, place, number, vocabulary, partial(_stands_by, spoken))
        if component:
            chosen[mention.start] = (mention, component)
    for start, (mention, _) in sorted(chosen.items()):
        if mention.of("component") and mention.of("near"):  # a slat, where a bed was only said in plain words
            before = {at: one for at, one in chosen.items() if at < start}
            owned = _in_context(mention, before, Place(), number) if before else None
            chosen[start] = (mention, owned) if owned else chosen[start]
    _put_on_what_has_it(spoken, chosen)
    within = [
        Named(found, phrase.start + 1, phrase.end, "of")
        for phrase in spoken.found.terms
        if phrase.start in spoken.found.within and (found := meaning_within(spoken, phrase, place, number, vocabulary))
    ]
    whole = tuple(
        Named(
            component,
            mention.start,
            mention.end,
            "place" if _tells_a_side(spoken, mention) else relation_of(spoken, start),
            _outdoors(component, place, vocabulary),
        )
        for start, (mention, component) in sorted(chosen.items())
    )
    return tuple(sorted((*whole, *within), key=lambda one: one.start))


INNER_FACES = frozenset({"floor", "wall", "ceiling"})
FURNISHED = frozenset({"cabinet", "vanity", "oven", "closet", "dishwasher", "refrigerator", "freezer", "drawer", "sink",
                       "microwave", "washer", "dryer", "shower", "medicine_cabinet", "pantry", "range_hood"})  # fmt: skip


def _put_on_what_has_it(spoken: Spoken, chosen: dict[int, tuple[Mention, str]]) -> None:
    """`the floor of the cabinet`: no floor of a room; what is said of it is said of the cabinet."""
    for start, (mention, component) in sorted(chosen.items()):
        if component not in INNER_FACES or spoken.norms(mention.end, mention.end + 1) != ["of"]:
            continue
        for at in (mention.end + 1, mention.end + 2):
            if at in chosen and chosen[at][1] in FURNISHED:
                chosen[start] = mention, chosen.pop(at)[1]
                break


def _outdoors(component: str, place: Place, vocabulary: Vocabulary) -> str | None:
    """The room of what is only found outside, when it is spoken of from inside: the driveway through the window."""
    if component in vocabulary.rooms["garage"].owns and place.base in {"exterior", "yard", "parking"}:
        return "garage"
    if place.base not in LEFT_UNSAID:
        return None
    return next((room for room in ("exterior", "yard") if component in vocabulary.rooms[room].owns), None)


def _tells_a_side(spoken: Spoken, mention: Mention) -> bool:
    """`over on the patio door side`: a component that only says which side."""
    return spoken.norms(mention.end, mention.end + 1) in (["side"], ["end"])


def meaning_within(spoken: Spoken, phrase: Mention, place: Place, number: int, vocabulary: Vocabulary) -> str | None:
    """The component that a condition phrase names by itself: the drain in `hair in the drain`."""
    for mention in spoken.found.within.get(phrase.start, ()):
        marks = {sense.id for sense in phrase.of("condition")} <= {"stain", "debris", "mark", "residue", "paint_drip"}
        holding = HOLDING | {"on"} if marks else HOLDING
        if not holding & set(spoken.norms(max(phrase.start, mention.start - 2), mention.start)):
            continue
        certain = [sense.id for sense in mention.of("component")]
        if certain:
            return _of_room(certain, place, vocabulary)
        plain = mention.of("near", "in", "else")
        component = _plain_meaning(mention, plain, {}, place, number, vocabulary, partial(_stands_by, spoken))
        if component:
            return component
    return None


def _stands_by(spoken: Spoken, start: int) -> bool:
    before = spoken.norms(max(0, start - 3), start)
    return bool(set(before) & {"by", "near", "beside", "opposite"}) or before[:2] == ["next", "to"]


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
    is_beside: Callable[[int], bool],
) -> str | None:
    """What a plain word means: beside its owner, in this room, or where nothing else fits.

    `is_beside` tells that a component is only what the thing stands by: `the drawer by the fridge`.
    """
    by_owner: dict[str, str] = {}
    for sense in senses:
        if sense.role == "near":
            by_owner.setdefault(sense.beside, sense.id)
    owners = [(start, component) for start, (_, component) in sorted(chosen.items()) if not is_beside(start)]
    earlier = [component for start, component in owners if start < mention.start]
    later = [component for start, component in owners if mention.start < start <= mention.end + 3]
    for owner in [*later, *reversed(earlier)]:
        if owner in by_owner:
            return by_owner[owner]
    standalone = any(sense.role in {"else", "in"} for sense in senses)
    reach = 1 if standalone else FOCUS_SENTENCES
    for sense in senses:
        if sense.role == "in" and sense.beside == place.base:
            return sense.id
    for owner, when in reversed(place.lately):
        if number - when <= (FOCUS_SENTENCES if owner == place.subject else reach) and (
            family := _family_match(owner, by_owner, vocabulary)
        ):
            return family
    for role in ("in", "else"):
        for sense in senses:
            if sense.role == role and (role == "else" or sense.beside == place.base):
                return sense.id
    return next((by_owner[one] for start, one in owners if start > mention.start and one in by_owner), None)


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
        headed = clause.link == ":" and clause.index == 1 and bool(chosen) and not flawed
        return headed or _only_tells_what(spoken, mention, chosen)
    between = spoken.norms(before[-1].end, mention.start)
    if {"the", "this", "that"} & set(between[-2:]):
        return False
    return bool(set(between) & {"is", "'s", "are", "was", ":", "in"}) and "on" not in between


ONLY_BE = frozenset("it 's is they are a an all of the kind well and".split())


def _only_tells_what(spoken: Spoken, mention: Mention, chosen: dict[int, tuple[Mention, str]]) -> bool:
    """`the counter is fine, it's granite`, `stove, electric, glass top`: a clause that only says what the one named
    before is."""
    clause = spoken.clause_of(mention.start)
    if clause.link not in {",", "and", ""} or not clause.index or mention.end != clause.end:
        return False
    if not set(spoken.norms(clause.start, mention.start)) <= ONLY_BE:
        return False
    earlier = [component for start, (_, component) in sorted(chosen.items()) if start < mention.start]
    own = {sense.id for sense in mention.of(*COMPONENT_ROLES)}
    types = {sense.beside for sense in mention.of("type") if sense.beside}
    return bool(earlier) and (earlier[-1] in types or (bool(mention.of("material")) and earlier[-1] in own))


def _follows_component(spoken: Spoken, mention: Mention) -> bool:
    """`the tub drains fine`: right after another component and with no other verb to come, it is the verb."""
    if not any(other.end == mention.start and other.of(*COMPONENT_ROLES) for other in spoken.found.terms):
        return False
    clause = spoken.clause_of(mention.start)
    return not any(token.is_finite for token in spoken.tokens[mention.end : clause.end])


def _opens_a_note(spoken: Spoken, mention: Mention) -> bool:
    """`Lock good.`: a first word followed by what is said of it is a noun, whatever else it could be."""
    if mention.start != spoken.clause_of(mention.start).start:
        return False
    return any(term.start == mention.end and term.of("condition") for term in spoken.found.terms)


def _is_sole(spoken: Spoken, mention: Mention) -> bool:
    """`front door opens, closes, locks`: alone in its clause, in a list of what a component does."""
    for clause in reversed(spoken.clauses[: spoken.clause_of(mention.start).index + 1]):
        words = [at for at in range(clause.start, clause.end) if spoken.tokens[at].norm != "and"]
        if clause.start <= mention.start < clause.end:
            if words != [mention.start]:
                return False
        elif spoken.named_terms(clause) and (len(words) > 1 or not spoken.has_term("works", within=clause)):
            return True
        elif not spoken.has_term("works", within=clause):
            return False
    return False


SAID_OF = frozenset("'s is are was were works has looks turns feels".split())
"""Verbs right after which a word is what they are said of: `lock works`."""


def _is_other_word(spoken: Spoken, mention: Mention) -> bool:
    """Whether a component word is used as a verb (`it drains`) or adjective (`a light scratch`)."""
    if mention.end - mention.start > 1:
        return False
    tokens = spoken.tokens
    token = tokens[mention.start]
    if spoken.norms(mention.end, mention.end + 1) in ([one] for one in SAID_OF) or _opens_a_note(spoken, mention):
        return False
    before = tokens[mention.start - 1].norm if mention.start else ""
    counted = (
        bool(mention.start)
        and tokens[mention.start - 1].tag == "CD"
        and mention.end == spoken.clause_of(mention.start).end
        and (
            token.tag.startswith("VB")
            or token.norm in {"lock", "light", "drain"}
            or tokens[max(0, mention.start - 2)].norm in {"all", "both"}
        )
    )
    agrees = before == "each" or not token.norm.endswith("s")
    if (before in {"them", "all", "both", "they", "each"} or counted) and mention.of("works") and agrees:
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
    sole = _is_sole(spoken, mention)
    if mention.of("works") and token.norm.endswith("s") and sole:
        return True
    if (
        mention.of("works")
        and mention.start
        and tokens[mention.start - 1].tag in {"NNS", "NNP", "NNPS"}
        and tokens[mention.start - 1].norm.endswith("s")
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
