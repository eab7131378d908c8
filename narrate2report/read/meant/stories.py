"""What happened once, to somebody else or in another home, told to warn: `I had a fella upstairs set a hot skillet
down on one of these, it burned a ring in it`. None of it is here, until the walk is come back to."""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from narrate2report.read.speech.clauses import Clause, bare_start
from narrate2report.read.speech.sayings import first_saying
from narrate2report.read.speech.spoken import Spoken

TELLERS: Final = frozenset({"i", "we"})
MET: Final = frozenset("had seen saw known knew".split())
HELPERS: Final = frozenset("have 've once even actually just".split())
PERSONS: Final = frozenset(
    "fella fellow fellas guy guys lady ladies woman man gentleman couple family tenant tenants resident residents"
    " renter renters student students kid kids girl girls lad lads bloke chap client clients person people folks one"
    " crowd lot".split()
)
HOMES: Final = frozenset("house place unit apartment flat home property condo".split())
SOME: Final = frozenset(
    "a an one this some another two three several plenty few couple lots of people folks tenants".split()
)
ONCE: Final = (("one", "time"), ("once",), ("last", "year"), ("years", "ago"), ("where",), ("who",), ("that", "had"))
CLOSE: Final = 5
"""Words after a person or a home within which it is told who or when: `a girl in here once who ...`."""
ELSEWHERE: Final = ("the", "other")
NEXT_DOOR: Final = frozenset("upstairs downstairs above below".split())
HIRED: Final = frozenset(
    "come fix look clean do replace install repair patch paint out in over check service sort re-do redo here coming"
    " through lined booked scheduled".split()
)
"""What somebody is had for: `we had a guy fix it` is no story, it was done here."""


def tells_a_story(spoken: Spoken, clause: Clause) -> bool:
    """Whether a clause opens with what somebody did, or what a home was like, that the speaker once knew."""
    start = bare_start(spoken.tokens, clause)
    norms = spoken.norms(start, min(len(spoken.tokens), start + 14))
    if norms[:1] and norms[0] not in TELLERS:
        return False
    at = 1
    while norms[at : at + 1] and norms[at] in HELPERS:
        at += 1
    if not norms[at : at + 1] or norms[at] not in MET or norms[at + 1 : at + 2] == ["it"]:
        return False
    opened = at + 1
    about = next((here for here in range(opened, min(len(norms), opened + 4)) if norms[here] in PERSONS | HOMES), None)
    if about is None or not (norms[opened] in SOME or norms[about] in {"people", "folks", "tenants"}):
        return False
    follows = norms[about + 1 :]
    if NEXT_DOOR & set(follows[:1]) or ("in", "number") in pairwise(follows[:7]) or ELSEWHERE in pairwise(follows[:7]):
        return True
    once = first_saying(follows, ONCE)
    if once is not None and once < CLOSE:
        return True
    if norms[about] in HOMES or not follows or HIRED & set(follows[:2]):
        return False
    verb = spoken.tokens[start + about + 1]
    return verb.tag in {"VB", "VBD", "VBP", "VBN"} and not HIRED & set(follows[:3])
