"""Which room a sentence walks into: `okay, on into the hall bath`, `bedroom two`, `upstairs`."""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.lexis.numbers import whole_number
from narrate2report.read.lexis.phrase_tree import COMPONENT_ROLES, Mention
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.speech.modes import Mode, Stance
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.walk.arriving import arrives
from narrate2report.read.walk.entering import is_entered
from narrate2report.read.walk.going import goes_there
from narrate2report.read.walk.led_in import LEADING, is_introduced
from narrate2report.read.walk.place import Place, kind_of
from narrate2report.read.walk.room_numbers import lettered_room, next_numbered, numbered
from narrate2report.read.walk.room_uses import used_room
from narrate2report.read.walk.taking_up import is_taken_up


def find_room(spoken: Spoken, place: Place, stances: Sequence[Stance], vocabulary: Vocabulary) -> str | None:
    """The room that the sentence walks into, if it does."""
    entered = None
    if _lists_rooms(spoken):
        return None
    for mention in spoken.terms("room"):
        sense = mention.of("room")[0]
        if _is_no_room_here(spoken, mention, place):
            continue
        invited = stances[mention.start].mode is Mode.INSTRUCTION and _is_invited(spoken, mention)
        told_of = stances[mention.start].mode in {Mode.HYPOTHETICAL, Mode.ELSEWHERE}
        shown = told_of and (is_introduced(spoken, mention, mention.end) or arrives(spoken, mention.end))
        invited = invited or (stances[mention.start].mode is Mode.QUESTION and _is_proposed(spoken))
        if stances[mention.start].mode not in {Mode.ASSERTED, Mode.FUTURE} and not invited and not shown:
            continue
        room, end = numbered(spoken, mention, sense.id)
        if is_entered(spoken, mention, end):
            same = entered is not None and kind_of(entered) == room
            only_says_where = entered is not None and _says_where(spoken, mention, end)
            entered = entered if same or only_says_where else _as_before(room, place)
    entered = entered or _room_of_its_thing(spoken, place, stances) or _greatest(spoken) or next_numbered(spoken, place)
    return entered or used_room(spoken, stances, vocabulary) or lettered_room(spoken) or _storey(spoken)


def _is_no_room_here(spoken: Spoken, mention: Mention, place: Place) -> bool:
    """`WC: flushes`, in a bathroom: the toilet in it; `loft four`, before the walk begins: the unit; `outside, good`,
    of the other side of a thing."""
    said = spoken.norms(mention.start, mention.end)
    if said == ["wc"]:
        return place.base == "bathroom"
    if said == ["loft"]:
        return place.room is None or whole_number(spoken.tokens, mention.end) is not None
    other_side = said == ["outside"] and spoken.norms(mention.end, mention.end + 1) == [","]
    return other_side and bool(spoken.terms("condition", "works")) and not spoken.terms(*COMPONENT_ROLES)


def _says_where(spoken: Spoken, mention: Mention, end: int) -> bool:
    """`fourth bedroom, back of the house`: a side of the house, said alone, tells where the room before it is."""
    clause = spoken.clause_of(mention.start)
    alone = clause.start in (mention.start, mention.start - 1) and clause.end in (end, end + 1)
    return clause.index > 0 and clause.link in {",", ""} and alone and mention.of("room")[0].id == "exterior"


CALLED_BY = {
    "loo": "half_bath", "toilet": "half_bath", "lav": "half_bath", "lavatory": "half_bath", "john": "half_bath",
    "bath": "bathroom",
}  # fmt: skip
"""Things by which the room that they are in is called: `popping my head in the loo`."""


def _room_of_its_thing(spoken: Spoken, place: Place, stances: Sequence[Stance]) -> str | None:
    """`through to the loo`, said where there is none: the room that has it is gone to, and not the thing."""
    if place.base in {"bathroom", "half_bath"}:
        return None
    for mention in spoken.terms(*COMPONENT_ROLES):
        room = CALLED_BY.get(spoken.tokens[mention.start].norm) if mention.end - mention.start == 1 else None
        said = stances[mention.start].mode in {Mode.ASSERTED, Mode.FUTURE}
        clause = spoken.clause_of(mention.start)
        if room is None or not said or mention.end != clause.end:
            continue
        named = (spoken, clause, mention.start, mention.end)
        if goes_there(*named) or is_taken_up(*named):
            return room
    return None


def _greatest(spoken: Spoken) -> str | None:
    """`last one, the master`, `back in the primary`: the bedroom that needs no other name."""
    for clause in spoken.clauses:
        at = clause.end - 1
        if spoken.norms(at - 1, clause.end) not in (["the", "primary"], ["the", "master"]):
            continue
        led = all(norm in LEADING for norm in spoken.norms(clause.start, at - 1))
        led = led and not any(one.start < at for one in spoken.terms("component"))
        if led or goes_there(spoken, clause, at, clause.end):
            return "bedroom.primary"
    return None


CLIMBING = frozenset("go going head heading climb climbing up down nipping popping nip pop carrying moving".split())


def _lists_rooms(spoken: Spoken) -> bool:
    """`it has two bedrooms, hall and kitchen`: what there is, and no way through it."""
    counted = [m for m in spoken.terms("rooms") if m.start and spoken.tokens[m.start - 1].tag == "CD"]
    return bool(counted) and len(spoken.terms("room", "rooms")) > 1


def _is_invited(spoken: Spoken, mention: Mention) -> bool:
    """`please come into the hall`: the resident is led on."""
    before = spoken.norms(max(0, mention.start - 5), mention.start)
    return bool({"come", "step", "follow", "bring", "take"} & set(before)) and bool(
        {"in", "into", "to", "through", "out", "onto"} & set(before)
    )


PROPOSING = frozenset("shall ready want can could should".split())


def _is_proposed(spoken: Spoken) -> bool:
    """`shall we go through to the kitchen?`: asked, and done, if the rest leads there. What another is asked for is
    not: `could you go to the bathroom?`"""
    before = spoken.norms(0, 5)
    others = {"you", "he", "she", "they"} & set(before) and before[:3] != ["do", "you", "want"]
    return bool(PROPOSING & set(before)) and not others


def _storey(spoken: Spoken) -> str | None:
    """`Upstairs.`, `now we go to the top`: on the way to another floor."""
    opening = [clause for clause in spoken.clauses[:2] if not clause.index or not clause.link]
    if not opening:
        return None
    norms = spoken.norms(opening[0].start, opening[-1].end)
    words = [norm for norm in norms if norm not in LEADING | CLIMBING | {"me", "i", "will", "'ll"}]
    goes = bool(CLIMBING & set(norms)) and words in (["top"], ["floor"], ["upper", "floor"], ["top", "floor"])
    return "stairs" if goes or words in (["upstairs"], ["downstairs"]) else None


def _as_before(room: str, place: Place) -> str:
    """A room named without its number is the one of that kind that is being walked."""
    if "." not in room and place.base == room and place.room:
        return place.room
    return room
