"""What did not come at once and then came after all: `it's not coming on ... hang on ... now it is`."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.sayings import first_saying
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.state.conditions import Flaw
from narrate2report.read.things.operated import is_operated
from narrate2report.read.trials.answers import answer_of

TURNS: Final = frozenset("wait oh ah aha now then hang hold there finally eventually okay ok yes".split())
"""Words at which what was said of a trial turns into its opposite."""

COMES: Final = frozenset(
    "now then there it they she he that this is 's are does do did works goes comes on we go".split()
)
"""Words of a clause that says no more than that it came: `now it is`, `there it goes`."""

DELAYED: Final = tuple(
    [takes, *long]
    for takes in ("takes", "took", "taking", "needs")
    for long in (
        ["time"],
        ["a", "while"],
        ["a", "bit"],
        ["a", "minute"],
        ["a", "second"],
        ["a", "moment"],
        ["its", "time"],
    )
)
"""`the tube light is taking time, but it comes`: late, and no failure."""

HELD_UP: Final = frozenset({"not_working", "burned_out"})


def find_late_success(scene: Scene) -> list[Draft]:
    """The check of what at first did not come on, where nothing else tells of its trial."""
    spoken = scene.spoken
    for late in spoken.clauses[1:]:
        if not _has_come(spoken, late) or not scene.is_said(late.start):
            continue
        component = _held_up(scene, late)
        turned = turns(spoken, spoken.clauses[0].start, late.start) or late.link == "but"
        if component is not None and turned:
            return [
                Draft(
                    kind="check",
                    room=scene.room,
                    component=component,
                    at=late.start,
                    outcome="works",
                    because=(f"'{spoken.words(late.start, late.end)}': it came after all",),
                    confidence=0.7,
                )
            ]
    return []


def turns(spoken: Spoken, start: int, end: int) -> bool:
    """Whether the speaker waits or is surprised between two tokens."""
    return any(
        token.norm in TURNS or not token.text.strip(".…")
        for token in spoken.tokens[start : min(end + 1, len(spoken.tokens))]
    )


def not_overtaken(spoken: Spoken, flaws: Sequence[Flaw], checks: Sequence[Draft]) -> tuple[Flaw, ...]:
    """The flaws without those that a later success of the same sentence takes back."""
    return tuple(
        flaw
        for flaw in flaws
        if flaw.condition not in HELD_UP
        or not any(
            check.component == flaw.bearer.component
            and check.outcome == "works"
            and check.at > flaw.mention.start
            and turns(spoken, flaw.mention.end, check.at)
            for check in checks
        )
    )


def _has_come(spoken: Spoken, clause: Clause) -> bool:
    norms = spoken.norms(clause.start, clause.end)
    said = set(norms) <= COMES and len(norms) > 1 and norms[-1] not in {"is", "'s"} | {"now"}
    earlier = spoken.norms(clause.start - 1, clause.start) if clause.start else []
    if earlier == ["now"] and norms in (["it", "is"], ["it", "does"], ["they", "are"], ["they", "do"]):
        return True
    if norms[:1] == ["but"] and set(norms[1:]) <= COMES and {"comes", "works", "goes", "does"} & set(norms[1:]):
        return True
    now_it_is = norms[:1] == ["now"] and norms[-1:] in (["is"], ["does"], ["are"], ["do"])
    return now_it_is or (said and answer_of(spoken, clause) == "works") or norms in (["there", "it", "is"],)


def _held_up(scene: Scene, late: Clause) -> str | None:
    """What is said not to come, in a clause before: it is named there, or in focus."""
    spoken = scene.spoken
    for clause in spoken.clauses[: late.index]:
        fails = any(
            any(sense.id in HELD_UP for sense in term.of("condition"))
            for term in spoken.terms("condition", within=clause)
        )
        late_only = first_saying(spoken.norms(clause.start, clause.end), DELAYED) is not None
        if not (fails or late_only or spoken.has_cue("fails", within=clause)):
            continue
        named = [one.component for one in spoken.named if one.start < clause.end and one.relation == "topic"]
        component = named[-1] if named else scene.place.subject
        if component and is_operated(component, scene.vocabulary):
            return component
    return None
