"""Is the speaker now in a room that is named: `the bath is on your left, and here we are`, `here in the hall`?"""

from __future__ import annotations

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.walk.doing import own_verb
from narrate2report.read.walk.led_in import LEADING
from narrate2report.read.walk.ways import ARRIVING, before_name

DOORS = frozenset("door doors stairs steps gate hatch".split())
"""What one goes through or up to a room."""

GOING_ON = frozenset(
    "and then now i we am 'm are 're 'll will let us 's just go going step stepping head heading walk walking come"
    " coming in inside through down up right".split()
)
"""All the words of a clause that goes on through a door: `and in we go`."""

BEGINNING = frozenset("start starting started begin beginning".split())


def has_come_there(spoken: Spoken, mention: Mention, end: int) -> bool:
    """Whether the speaker is now in the room of `mention`, whose name (with its number) ends before token `end`."""
    clause = spoken.clause_of(mention.start)
    return (
        arrives(spoken, end)
        or _goes_through_its_door(spoken, clause, mention.start)
        or _stands_there(spoken, clause, mention, end)
        or _begins_there(spoken, clause, mention.start, end)
    )


def arrives(spoken: Spoken, name_end: int) -> bool:
    """Whether a clause behind the room's name, which ends before token `name_end`, says no more than that one is
    there."""
    for cue in spoken.cues("arrived"):
        clause = spoken.clause_of(cue.start)
        alone = all(norm in LEADING for norm in spoken.norms(clause.start, cue.start))
        if cue.start >= name_end and alone and cue.end in {clause.end, spoken.clauses[-1].end}:
            return True
    return False


def _goes_through_its_door(spoken: Spoken, clause: Clause, name_start: int) -> bool:
    """`opening the door to the garage and going in`: the clause after it goes where its door leads."""
    before = spoken.norms(clause.start, before_name(spoken, clause, name_start))
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    if before[-1:] not in (["to"], ["into"]) or not DOORS & set(before) or not following:
        return False
    goes = spoken.norms(following[0].start, following[0].end)
    return bool(goes) and goes[-1] in {"in", "inside", "through", "down", "up"} and set(goes) <= GOING_ON


def _begins_there(spoken: Spoken, clause: Clause, name_start: int, end: int) -> bool:
    """`we're starting at the front door, just inside, in the entrance`: a clause that tells nothing but the room, soon
    after one that tells that the walk begins."""
    at = before_name(spoken, clause, name_start)
    where = [norm for norm in spoken.norms(clause.start, at) if norm not in {"just", "right", "here"}]
    if end != clause.end or len(where) != 1 or where[0] not in ARRIVING:
        return False
    for earlier in reversed(spoken.clauses[: clause.index]):
        verb = own_verb(spoken, earlier, earlier.end)
        if verb is not None and spoken.tokens[verb].norm in BEGINNING:
            return True
        if any(token.is_verb for token in spoken.tokens[earlier.start : earlier.end]):
            return False
    return False


def _stands_there(spoken: Spoken, clause: Clause, mention: Mention, end: int) -> bool:
    """`the alarm here in the hall`, `in the hallway here`, `on this porch`: what is pointed at is where one stands."""
    at = before_name(spoken, clause, mention.start)
    if at <= clause.start or spoken.tokens[at - 1].norm not in ARRIVING:
        return False
    if mention.of("room")[0].id == "whole_unit":
        return False  # in this flat
    pointed = spoken.tokens[at].norm == "this" and at < mention.start
    return pointed or spoken.norms(at - 2, at - 1) == ["here"] or spoken.norms(end, end + 1) == ["here"]
