"""Is a room what the speaker does next, or all that is left: `we'll take the kitchen next`, `only the loo left`?"""

from __future__ import annotations

from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.walk.doing import own_verb
from narrate2report.read.walk.ways import TAKEN_UP, before_name

BY_AND_BY = frozenset(
    tuple(after.split())
    for after in (
        "", "next", "now", "then", "first", "quickly", "too", "quick", "please", "here", "open", "up", "out of the way",
        "off the list", "over with", "done", "done next", "now then", "on the way", "on my way", "on our way", "again",
    )
)  # fmt: skip
"""All that may follow the room that is taken up: `let's get the bathroom out of the way`."""

LEFT = frozenset({("left",), ("remaining",), ("to", "go"), ("remains",)})
ONLY = frozenset("only just leaves leaving that is 's there with us".split())
"""All that may stand before a room that is left over: `that just leaves the loo to go`."""

NEXT = frozenset(
    tuple(after.split())
    for after in (
        "now", "time", "next", "then", "comes", "comes next", "comes now", "follows", "is next", "'s next",
        "is up next", "'s up next",
    )
)  # fmt: skip
"""All that may follow a room whose turn it is: `bedroom now`, `the kitchen comes`."""

TURNING_TO_IT = frozenset("and so then now okay right".split())


def is_taken_up(spoken: Spoken, clause: Clause, name_start: int, end: int) -> bool:
    """Whether the room is what the speaker does next, or all that is left to be done."""
    at = before_name(spoken, clause, name_start)
    after = tuple(spoken.norms(end, clause.end))
    if after in BY_AND_BY and _is_done(spoken, clause, at):
        return True
    lead = {norm for norm in spoken.norms(clause.start, at) if norm not in TURNING_TO_IT}
    return (after in LEFT and lead <= ONLY) or (after in NEXT and not lead)


def _is_done(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`I'm gonna check the bath`, `ticking off bedroom two`: what the speaker does ends at token `at`."""
    if at > clause.start + 1 and spoken.tokens[at - 1].norm in {"off", "up"} and spoken.tokens[at - 2].norm in TAKEN_UP:
        at -= 1
    taken = at > clause.start and spoken.tokens[at - 1].norm in TAKEN_UP
    return taken and own_verb(spoken, clause, at) == at - 1
