"""What would not go whatever was done: `I couldn't get the fan to start`, `can't get anything out of it`, `it never got
going`, `something's wrong with the washer`, `goes up halfway and stops`,
`the back two just tick`, `the other ring stays cold`.

The words are put together as people please, so that no list of sayings would hold them.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.inflect import infinitive
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.operated import is_device
from narrate2report.read.things.pointing import POINTING

MAKES = frozenset("get make persuade coax convince".split())
GOES = frozenset(
    "run start work light go come turn switch fire respond heat spin catch engage ignite kick move cool cycle flush"
    " power started running working going lit open opened close closed shut unlocked locked budge".split()
)
"""What one wants a thing to do."""

FAILS_TO = frozenset("not unable never cannot".split())
FURTHEST = 6
"""Tokens between what was tried and what should have come of it: `get the big oven at the back to light`."""

HARDLY_ANY = frozenset("anything any".split())
WRONG = frozenset("wrong amiss up".split())
FAULTS = frozenset("problem fault issue".split())
STARTED = frozenset("going started running".split())

NOISES = frozenset("tick click hum buzz whine whirr groan spark twitch grunt".split())
"""What a thing does that does nothing else."""

STAYS = frozenset({"stay", "remain"})
UNHEATED = frozenset("cold cool lukewarm tepid".split())
HEATED = frozenset(
    "burner cooktop range oven radiator heater furnace towel_bar dryer microwave bathtub shower faucet".split()
)
"""What is meant to get hot, or to run hot."""

HALFWAY = frozenset("halfway partway midway half part inch inches foot".split())
STOPS = frozenset("stop stops stopped stick sticks stuck jam jams jammed quit quits die dies died hang hangs".split())
JOINING = frozenset("and then but so it she he just way up down open or up , about only".split())
"""Words between the two: `halfway up and then it just stops`."""


def find_in_vain(scene: Scene) -> list[Draft]:
    """The failed trials that a sentence tells so."""
    for clause in scene.spoken.clauses:
        for tells in (_got_nowhere, _never_got_going, _is_wrong, _stops_short, _only_sounds, _stays_cold):
            at = tells(scene.spoken, clause)
            component = _meant(scene, clause, at) if at is not None and scene.is_said(at) else None
            if tells is _stays_cold and component not in HEATED:
                continue
            if at is not None and component is not None:
                return [_fails(scene, clause, at, component)]
    return []


def _fails(scene: Scene, clause: Clause, at: int, component: str) -> Draft:
    return Draft(
        kind="check",
        room=scene.room,
        component=component,
        at=at,
        outcome="fails",
        because=(f"'{scene.spoken.words(at, clause.end)}': tried in vain",),
        confidence=0.7,
    )


def _meant(scene: Scene, clause: Clause, at: int) -> str | None:
    """The device that the clause names, goes on with, or points to."""
    spoken = scene.spoken
    named = [one.component for one in spoken.named_in(clause) if spoken.tokens[one.start - 1].norm != "to"]
    carried = [one.component for one in scene.bearers.subjects_of(clause)]
    earlier = [one.component for one in reversed(spoken.named) if one.end <= at]
    focus = [scene.place.subject] if scene.place.subject else []
    found = [one for one in named or carried or earlier or focus if is_device(one, scene.vocabulary)]
    return found[0] if found else None


def _got_nowhere(spoken: Spoken, clause: Clause) -> int | None:
    """`couldn't get the fan to start`, `can't get it going`, `unable to get any heat out of it`."""
    norms = spoken.norms()
    for at in range(clause.start, clause.end):
        if not FAILS_TO & set(norms[clause.start : at]) or infinitive(norms[at]) not in MAKES:
            continue
        after = norms[at + 1 : min(clause.end, at + 1 + FURTHEST)]
        if HARDLY_ANY & set(after[:1]) and ("out", "of") in pairwise(after):
            return at
        if any(norm in GOES for norm in after[1:]) or _to_move(after):
            return at
    return None


def _to_move(after: Sequence[str]) -> bool:
    """`can't get this window up`, `couldn't get the blind down`."""
    pointed = after[:1] != [] and after[0] in POINTING | {"the", "either"}
    return pointed and bool({"up", "down"} & set(after[1:3])) and "to" not in after


def _never_got_going(spoken: Spoken, clause: Clause) -> int | None:
    """`it never got going`."""
    norms = spoken.norms()
    for at in range(clause.start, clause.end - 2):
        if norms[at] == "never" and norms[at + 1] in {"got", "gets"} and norms[at + 2] in STARTED:
            return at
    return None


def _is_wrong(spoken: Spoken, clause: Clause) -> int | None:
    """`something's wrong with the washer`, `there's something up with this oven`, `there's a problem with it`."""
    norms = spoken.norms()
    for at in range(clause.start, clause.end - 1):
        if norms[at] in WRONG and norms[at + 1] == "with" and "something" in norms[clause.start : at]:
            return at
        if norms[at] in FAULTS and norms[at + 1] == "with" and norms[at - 1 : at] in (["a"], ["some"]):
            return at
    return None


def _stops_short(spoken: Spoken, clause: Clause) -> int | None:
    """`goes up about halfway and stops`, `opens a few inches, then it sticks`."""
    norms = spoken.norms()
    for at in range(clause.start, clause.end):
        if norms[at] not in STOPS or not (HALFWAY & set(norms[max(0, at - FURTHEST) : at])):
            continue
        short = max(here for here in range(at) if norms[here] in HALFWAY)
        between = norms[short + 1 : at]
        if between and set(between) <= JOINING and {"and", "then", "but"} & set(between):
            return at
    return None


def _only_sounds(spoken: Spoken, clause: Clause) -> int | None:
    """`the back two just tick`, `that one only hums`."""
    for at in range(clause.start + 1, clause.end):
        sounds = infinitive(spoken.tokens[at].norm) in NOISES and spoken.tokens[at].tag.startswith(("VB", "NN"))
        if sounds and spoken.tokens[at - 1].norm in {"just", "only"} and at + 1 == clause.end and at - 1 > clause.start:
            return at
    return None


def _stays_cold(spoken: Spoken, clause: Clause) -> int | None:
    """`the other two rings stay cold`, `it stays lukewarm`, `the hot side never gets past lukewarm`."""
    norms = spoken.norms()
    for at in range(clause.start + 1, clause.end):
        if norms[at] not in UNHEATED:
            continue
        stays = any(infinitive(norm) in STAYS for norm in norms[max(clause.start, at - 2) : at])
        never = "never" in norms[clause.start : at] and norms[at - 1] in {"past", "above", "beyond", "than"}
        if stays or never:
            return at
    return None
