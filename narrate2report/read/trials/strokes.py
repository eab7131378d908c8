"""Trials told by the strokes of a thing alone: `outside tap, on, off`, `up she goes ... and down`, `I open it, shut`.

No verb tells of a result. What is moved both ways, or through three of its settings, has done what it is meant to do.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Named, Spoken
from narrate2report.read.things.operated import is_operated
from narrate2report.read.trials.answers import FILLING
from narrate2report.read.trials.trials import is_means

BOTH_WAYS: Final = tuple(
    frozenset(pair.split())
    for pair in (
        "on off",
        "up down",
        "in out",
        "open shut",
        "open close",
        "open closed",
        "over back",
        "out back",
        "forth back",
        "left right",
    )
)
SETTINGS: Final = frozenset("low medium high slow fast full half dim bright brighter max".split())
ENOUGH_SETTINGS: Final = 3

FAULTS: Final = frozenset("not_working sticking broken misaligned".split())

STROKES: Final = frozenset().union(*BOTH_WAYS) | SETTINGS
BESIDE: Final = FILLING | frozenset(
    "goes go comes come they again then there all way straight first speed setting forth opened closed".split()
)
"""Words beside a stroke that do not change it."""


def find_strokes(scene: Scene) -> list[Draft]:
    """The passed check of what a sentence moves both ways, where nothing else tells its result."""
    spoken = scene.spoken
    if spoken.ends_with_question() or _is_flawed(scene):
        return []
    moved: list[str] = []
    one: Named | None = None
    for clause in spoken.clauses:
        named = [
            other
            for other in spoken.named_in(clause)
            if other.relation == "topic" and is_operated(other.component, scene.vocabulary)
        ]
        if named and not is_means(spoken, named[-1]) and (one is None or named[-1].component != one.component):
            one, moved = named[-1], []
        strokes = _strokes(spoken, clause)
        if strokes and (not scene.is_said(clause.start) or spoken.has_cue("negation", within=clause)):
            return []
        moved += strokes
        if one is None or not _is_moved(moved) or not strokes:
            continue
        return [
            Draft(
                kind="check",
                room=scene.room,
                component=one.component,
                at=clause.start,
                outcome="works",
                because=(f"moved: {', '.join(moved)}", f"'{spoken.words(one.start, one.end)}' was named"),
                confidence=0.65,
            )
        ]
    return []


def _is_moved(moved: Sequence[str]) -> bool:
    return any(pair <= set(moved) for pair in BOTH_WAYS) or len(SETTINGS & set(moved)) >= ENOUGH_SETTINGS


def _strokes(spoken: Spoken, clause: Clause) -> list[str]:
    """The strokes of a clause that tells of nothing else, but for the name of what is moved."""
    named = {at for one in spoken.named_in(clause) for at in range(one.start, one.end)}
    norms = [
        token.norm
        for at, token in enumerate(spoken.tokens[clause.start : clause.end], clause.start)
        if at not in named and token.is_word
    ]
    strokes = [norm for norm in norms if norm in STROKES]
    return strokes if strokes and set(norms) <= STROKES | BESIDE else []


def _is_flawed(scene: Scene) -> bool:
    """Whether the sentence tells of a fault in moving: then what works of it is left to its own words."""
    return any(
        sense.id in FAULTS and not sense.beside and not scene.says_nothing(term) for term, sense in scene.flaws()
    )
