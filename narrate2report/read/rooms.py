"""Which room a sentence walks into: `okay, on into the hall bath`, `bedroom two`, `upstairs`."""

from __future__ import annotations

import re
from collections.abc import Sequence

from narrate2report.read.clauses import Clause
from narrate2report.read.modes import Mode, Stance
from narrate2report.read.numbers import whole_number
from narrate2report.read.phrase_tree import COMPONENT_ROLES, Mention
from narrate2report.read.place import Place
from narrate2report.read.spoken import Spoken

NOT_ENTERED = frozenset(
    "from than as like off by near toward towards behind beside between of same facing opposite above over"
    " below outside until before after with for off past upstairs".split()
)

ENTERING = frozenset("into onto next now inside".split())

TOWARDS = frozenset("in to through out down up at on".split())

MOVING = frozenset(
    "do doing go going come coming move moving head heading walk walking step stepping back over on start"
    " starting next now we are through down up out am done finally last let off we're here cross crossing".split()
)

LEADING = frozenset(
    "okay ok so now and then next right alright well the a an our my your this here 's is we are i am be come"
    " coming go going in into to on onto back over through out down up first last lastly stop finally moving let us"
    " start starting with at it also just good great move step stepping walk walking head heading done yes"
    " yep um uh for of that other then inside second third that's big little nice large small lovely cute"
    " cozy tiny spacious huge bright main own".split()
)

LEADING_ADJECTIVES = frozenset("big little nice large small main own whole other".split())
INDEFINITE = frozenset("everything nothing something everyone everybody nobody".split())

DOINGS = frozenset("does says said handles sends takes wants keeps charges closes calls bills does will".split())
"""What people in an office do: `the office does the charges`."""

ORDINALS = {"first": "1", "second": "2", "third": "3", "fourth": "4", "one": "1", "two": "2", "three": "3", "four": "4",
            "five": "5", "1": "1", "2": "2", "3": "3", "4": "4", "5": "5", "too": "2", "to": "2"}  # fmt: skip

LETTERED = {"room": "bedroom", "bed": "bedroom", "br": "bedroom", "bath": "bathroom"}
"""Short forms that are rooms when a letter or number follows them at the start of a sentence."""

NUMBERED = frozenset({"bedroom", "bathroom", "closet", "office", "half_bath", "balcony", "living_room", "storage"})


def find_room(spoken: Spoken, place: Place, stances: Sequence[Stance]) -> str | None:
    """The room that the sentence walks into, if it does."""
    entered = None
    if _lists_rooms(spoken):
        return None
    for mention in spoken.terms("room"):
        sense = mention.of("room")[0]
        invited = stances[mention.start].mode is Mode.INSTRUCTION and _is_invited(spoken, mention)
        shown = stances[mention.start].mode is Mode.HYPOTHETICAL and _is_introduced(spoken, mention, mention.end)
        if stances[mention.start].mode not in {Mode.ASSERTED, Mode.FUTURE} and not invited and not shown:
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
    if before[-2:] == ["in", "my"]:
        return False  # I have one like it in my store room
    earlier = spoken.clauses[max(0, clause.index - 1) : clause.index + 1]
    if any(spoken.has_cue("not_entering", within=one) for one in earlier):
        return False
    if "not" in before or "never" in before or _something_goes(spoken, clause.start, mention.start):
        return False
    heads_noun = any(other.start == end and other.of(*COMPONENT_ROLES) for other in spoken.found.terms)
    if not heads_noun and _is_introduced(spoken, mention, end):
        return True
    close = [word for word in before[-3:] if word not in {"the", "a", "this", "our", "your", "my"}]
    if close and close[-1] in NOT_ENTERED:
        return False
    next_token = tokens[end] if end < len(tokens) else None
    aside = next_token is not None and next_token.norm in {"side", "key", "keys", "end", "wall", "half"}
    if aside and not heads_noun and before[-1:] != ["now"]:
        return False
    if next_token is not None and next_token.norm in DOINGS:
        return False
    staffed = before[-1:] == ["the"] and tokens[mention.start].norm == "office"
    if staffed and next_token is not None and next_token.is_word and not heads_noun:
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
    if heads_noun or _leads_there(spoken, mention, end):
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


LEADING_OUT = frozenset("the a an our your out to onto into through on".split())


def _leads_there(spoken: Spoken, mention: Mention, end: int) -> bool:
    """`the slider out to the balcony is stiff`: a door that is spoken of from this side."""
    tokens, at = spoken.tokens, mention.start
    while at > 0 and tokens[at - 1].norm in LEADING_OUT:
        at -= 1
    door = any(term.end == at and term.of(*COMPONENT_ROLES) for term in spoken.found.terms)
    return door and end < len(tokens) and tokens[end].is_finite and "to" in spoken.norms(at, mention.start)


DETERMINED = frozenset("the a an our your my this that".split())
THROUGH = frozenset("through around round off past to on down up after behind beyond".split())
"""A clause that begins so, and ends with a room, leads into it: `through this door is the kitchen`."""


def _is_introduced(spoken: Spoken, mention: Mention, end: int) -> bool:
    """`That brings us to the kitchen`, `to the left is your bedroom`, `you will see the kitchen here`."""
    tokens, clause = spoken.tokens, spoken.clause_of(mention.start)
    at = mention.start
    while at > clause.start and (tokens[at - 1].norm in DETERMINED | LEADING_ADJECTIVES or tokens[at - 1].tag == "JJ"):
        at -= 1
    after = tokens[end].norm if end < clause.end else ""
    if end < clause.end and after not in {"here", "now", "next", "then", "please"}:
        return False
    before = spoken.clauses[clause.index - 1] if clause.index and at == clause.start else clause
    for cue in spoken.cues("entering", within=before):
        if cue.end in {at, before.end} and (spoken.norms(cue.start, cue.end) != ["see"] or after == "here"):
            return True
    stands = tokens[at - 1].norm in {"is", "'s", "are"} if at > clause.start else False
    return stands and tokens[clause.start].norm in THROUGH and at - clause.start > 1


def _names_a_thing(spoken: Spoken, clause: Clause) -> bool:
    return any(sense.id != "room_general" for term in spoken.named_terms(clause) for sense in term.of(*COMPONENT_ROLES))


def _something_goes(spoken: Spoken, start: int, end: int) -> bool:
    """`the same stuff runs through the kitchen`: a thing goes there, and nobody walks."""
    tokens = spoken.tokens
    return any(
        tokens[at].tag == "VBZ" and tokens[at].norm not in {"'s", "is"} and tokens[at - 1].tag in {"NN", "NNS"}
        for at in range(start + 1, end)
    )
