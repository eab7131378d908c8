"""Has the speaker just come to a room that was named before: `the bathroom is on your left, and here we are`?"""

from __future__ import annotations

from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.walk.going import before_name
from narrate2report.read.walk.led_in import LEADING

DOORS = frozenset("door doors stairs steps gate hatch".split())
"""What one goes through or up to a room."""

GOING_ON = frozenset(
    "and then now i we am 'm are 're 'll will let us 's just go going step stepping head heading walk walking come"
    " coming in inside through down up right".split()
)
"""All the words of a clause that goes on through a door: `and in we go`."""


def arrives(spoken: Spoken, name_end: int) -> bool:
    """Whether a clause behind the room's name, which ends before token `name_end`, says no more than that one is
    there."""
    for cue in spoken.cues("arrived"):
        clause = spoken.clause_of(cue.start)
        alone = all(norm in LEADING for norm in spoken.norms(clause.start, cue.start))
        if cue.start >= name_end and alone and cue.end in {clause.end, spoken.clauses[-1].end}:
            return True
    return False


def goes_through_its_door(spoken: Spoken, clause: Clause, name_start: int) -> bool:
    """`opening the door to the garage and going in`: the clause after it goes where its door leads."""
    before = spoken.norms(clause.start, before_name(spoken, clause, name_start))
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    if before[-1:] not in (["to"], ["into"]) or not DOORS & set(before) or not following:
        return False
    goes = spoken.norms(following[0].start, following[0].end)
    return bool(goes) and goes[-1] in {"in", "inside", "through", "down", "up"} and set(goes) <= GOING_ON
