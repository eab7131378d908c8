"""Work told as going on: `we're replacing it`, `they're redoing that`, and what is opened to find out: `I'll pull it
and see`."""

from __future__ import annotations

from typing import Final

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.pointing import POINTING
from narrate2report.read.work.trades import LEADING, trades_in

IS_AT_IT: Final = frozenset("am 'm are 're is 's".split())
OTHERS: Final = frozenset("we they he she owner landlord maintenance office management".split())
BETWEEN: Final = frozenset("just also probably definitely all still only both".split())
OWN_WORK: Final = frozenset("replace touch_up".split())
"""What a speaker does on the walk by no chance: `I'm replacing that`; `I'm tightening it` may be done by now."""

THEIR_WORK: Final = OWN_WORK | frozenset("repair secure treat clean supply".split())
NOW: Final = frozenset("now here".split())
DISMANTLES: Final = (
    ("pull",), ("take", "apart"), ("take", "off"), ("take", "down"), ("take", "out"), ("strip",), ("open", "up"),
    ("unscrew",), ("dismantle",), ("drop",), ("have", "apart"), ("have", "off"), ("pull", "apart"),
)  # fmt: skip
"""What is done to a thing to find out what ails it."""

FINDS: Final = frozenset("see look check find".split())
WILL: Final = frozenset("will 'll going gon gotta need must".split())


def is_under_way(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`it won't clean up, so we're replacing it`, `the landlord's redoing this floor`: told as being done."""
    if spoken.tokens[mention.start].tag != "VBG" or spoken.has_cue("often", "condition"):
        return False
    lead = [norm for norm in spoken.norms(clause.start, mention.start) if norm not in LEADING | BETWEEN]
    be = spoken.norms(max(clause.start, mention.start - 2), mention.start)
    if not IS_AT_IT & set(be):
        return False
    who = [norm for norm in lead if norm not in IS_AT_IT]
    trade = any(one.start in clause and one.end <= mention.start for one in trades_in(spoken))
    action = mention.of("action")[0].id
    if who == ["i"]:
        done = action in OWN_WORK and not NOW & set(spoken.norms(mention.end, clause.end))
    else:
        done = action in THEIR_WORK and (trade or (len(who) == 1 and who[0] in OTHERS))
    return done and _has_object(spoken, mention, clause)


def _has_object(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """Something pointed to or named after the verb: it is this that is worked on."""
    inside = spoken.norms(mention.start, min(clause.end, mention.end + 2))
    another = {"new", "another", "one"} & set(inside)
    return (
        bool(POINTING & set(inside))
        or bool(another)
        or any(one.start in clause and one.start >= mention.end for one in spoken.named)
    )


BACK: Final = frozenset("come coming be go going pop popping swing swinging stop return check checking look".split())
ONES_OWN: Final = frozenset("i we he she they".split())


def returns_to_see(spoken: Spoken, clause: Clause) -> Mention | None:
    """`I come back later to see if it stopped`, `we'll be back next week to check`: a look that is still to come."""
    for at in range(clause.start + 1, clause.end - 2):
        if spoken.tokens[at].norm not in BACK or spoken.norms(at + 1, at + 2) != ["back"]:
            continue
        lead = set(spoken.norms(clause.start, at))
        rest = spoken.norms(at + 2, min(len(spoken.tokens), at + 9))
        seen = any(rest[here] in {"to", "and"} and FINDS & set(rest[here + 1 : here + 3]) for here in range(len(rest)))
        if ONES_OWN & lead and not {"not", "you", "to"} & (lead - {"going", "gon"}) and seen:
            return Mention(at, at + 2)
    return None


def opens_to_see(spoken: Spoken, clause: Clause) -> Mention | None:
    """`I'll pull it and see what's stuck`, `I'm gonna take that apart and have a look`: a look at what ails it, still
    to come."""
    norms = spoken.norms(clause.start, clause.end)
    will = next((at for at, norm in enumerate(norms) if norm in WILL), None)
    if will is None or {"you", "they", "not"} & set(norms[:will]):
        return None
    later = spoken.norms(clause.end, min(len(spoken.tokens), clause.end + 5))
    for at in range(will + 1, len(norms)):
        for verb, *particle in DISMANTLES:
            rest = norms[at + 1 :]
            if norms[at] != verb or not POINTING & set(rest[:2]) or not set(particle) <= set(rest[:3]):
                continue
            if FINDS & (set(rest[1:]) | set(later)):
                return Mention(clause.start + at, clause.start + at + 1)
    return None
