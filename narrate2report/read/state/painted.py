"""What was painted, told as work that was done: `we had all the walls painted in here two weeks ago`, `the walls and
the trim got painted Tuesday`, `I painted the ceiling myself`."""

from __future__ import annotations

from typing import Final

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.meant.negations import negation_before
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.modes import Mode
from narrate2report.read.speech.spoken import Named, Spoken

PAINTED: Final = frozenset("painted repainted redecorated".split())
OURS: Final = frozenset("i we painter painters guys crew owner landlord he".split())
BEEN: Final = frozenset("was were got been have had 's is are has just".split())
SPOILT: Final = frozenset("over shut closed stuck brown black purple red pink blue".split())
"""What follows where paint is a flaw, or no more than a colour: `painted shut`, `painted it red`."""

PAINTABLE: Final = frozenset(
    "wall ceiling trim baseboard door door_frame closet_door cabinet railing deck radiator fence window_sill floor"
    " stair siding gate garage_door threshold paint".split()
)


def find_painted(scene: Scene) -> list[Draft]:
    """Drafts for everything that is said to have been painted, where no phrase of the vocabulary tells of it."""
    spoken = scene.spoken
    drafts: list[Draft] = []
    for at, token in enumerate(spoken.tokens):
        if token.norm not in PAINTED or scene.mode(at) not in {Mode.ASSERTED, Mode.PAST} or _is_other(spoken, at):
            continue
        clause = spoken.clause_of(at)
        after = set(spoken.norms(at + 1, at + 4))
        if (
            SPOILT & after
            or negation_before(spoken, clause, at)
            or {"years", "decade"} & set(spoken.norms(at, clause.end))
        ):
            continue
        words = spoken.words(max(clause.start, at - 2), at + 1)
        drafts += [
            Draft(
                kind="condition",
                room=scene.room,
                component=one.component,
                at=at,
                condition="freshly_painted",
                assertion="present",
                because=(f"'{words}' tells that it was painted", f"said of '{spoken.words(one.start, one.end)}'"),
                confidence=0.75,
            )
            for one in _what(spoken, at)
            if one.component in PAINTABLE
        ]
    return drafts


def _is_other(spoken: Spoken, at: int) -> bool:
    """`freshly painted`: the vocabulary tells of it; `the door is painted charcoal` only tells its colour."""
    known = any(
        term.start <= at < term.end and any(not sense.beside for sense in term.of("condition"))
        for term in spoken.found.terms
    )
    coloured = any(term.start == at + 1 and term.of("colour", "material") for term in spoken.found.terms)
    return known or (coloured and spoken.norms(at - 1, at) in (["is"], ["'s"], ["are"], [","]))


def _what(spoken: Spoken, at: int) -> list[Named]:
    """The things painted: between `had` and the verb, before `got painted`, or after `we painted`."""
    clause = spoken.clause_of(at)
    before = spoken.norms(clause.start, at)
    named = [one for one in spoken.named_in(clause) if one.relation != "place"]
    had = next(
        (here for here in range(at - 1, clause.start - 1, -1) if spoken.tokens[here].norm in {"had", "have"}), None
    )
    if had is not None:
        between = [one for one in named if had < one.start < at]
        if between:
            return between
    if set(before[-3:]) & BEEN:
        return [one for one in named if one.end <= at]
    if set(before[-2:]) & OURS:
        return [one for one in named if one.start > at and one.start - at <= 4]
    return []
