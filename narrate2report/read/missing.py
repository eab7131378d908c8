"""What should be there and is not, and what should not be there and is: from what is said of components themselves."""

from __future__ import annotations

from narrate2report.read.bearers import ROOM_GENERAL
from narrate2report.read.denial import negation_before
from narrate2report.read.draft import Draft
from narrate2report.read.lookalikes import says_nothing
from narrate2report.read.scene import Scene
from narrate2report.read.spoken import Spoken
from narrate2report.read.stance import Mode

NOTES = frozenset("note notes message number".split())
"""What is left for somebody to read is no debris."""

LEAVERS = frozenset("you they tenant tenants somebody someone he she people residents".split())


def left_behind(scene: Scene) -> list[Draft]:
    """`there's a dresser they left down here`: things left in a home that should be empty."""
    spoken, stances, room, vocabulary = scene.spoken, scene.stances, scene.room, scene.vocabulary
    for clause in spoken.clauses:
        norms = spoken.norms(clause.start, clause.end)
        at = next(
            (at for at, norm in enumerate(norms) if norm == "left" and set(norms[max(0, at - 2) : at]) & LEAVERS), None
        )
        if at is None or stances[clause.start + at].mode not in {Mode.ASSERTED, Mode.PAST}:
            continue
        inside = [
            term
            for term in spoken.found.terms
            if spoken.clause_of(term.start).index in {clause.index, clause.index - (clause.link == "")}
        ]
        if (
            any(term.of("condition") and not says_nothing(spoken, term) for term in inside)
            or at + 1 >= len(norms)
            or norms[at + 1] in {"it", "this", "that"}
            or NOTES & set(norms[at + 1 : at + 3])
        ):
            continue
        groups = {vocabulary.components[one.component].group for one in spoken.named}
        if "handed_over" in groups or norms[at + 1 : at + 2] == ["us"]:
            continue
        words = spoken.words(clause.start, clause.end)
        return [
            Draft(
                kind="condition", room=room, component=ROOM_GENERAL, at=clause.start + at, condition="debris",
                assertion="present", because=(f"left behind: '{words}'",), confidence=0.6,
            )
        ]  # fmt: skip
    return []


ANSWERS: dict[str, str] = {"no": "missing", "none": "missing", "nil": "missing", "yes": "present"}
"""What a note's one-word answer after a component means: `anti-tip: yes`, `stopper: none`."""


def _answered(spoken: Spoken, room: str) -> list[Draft]:
    drafts = []
    for one in spoken.named:
        clause = spoken.clause_of(one.start)
        rest = spoken.norms(one.end, clause.end)
        following = spoken.clauses[clause.index + 1 : clause.index + 2]
        if not rest and following and following[0].link in {":", "-"}:
            rest = spoken.norms(following[0].start, following[0].end)
        if len(rest) == 1 and rest[0] in ANSWERS and one.relation == "topic":
            drafts.append(
                Draft(
                    kind="condition", room=room, component=one.component, at=one.start, condition=ANSWERS[rest[0]],
                    assertion="present", because=(f"'{rest[0]}' answers '{spoken.words(one.start, one.end)}'",),
                )
            )  # fmt: skip
    return drafts


def missing_parts(scene: Scene) -> list[Draft]:
    """`the microwave has no plate`, `no racks`: a denied component is missing, if no flaw of it is denied."""
    spoken, stances, room, vocabulary = scene.spoken, scene.stances, scene.room, scene.vocabulary
    drafts = _answered(spoken, room)
    flaw_starts = {
        mention.start
        for mention in spoken.found.terms
        if mention.of("condition", "works") and not says_nothing(spoken, mention)
    }
    for one in spoken.named:
        clause = spoken.clause_of(one.start)
        group = vocabulary.components[one.component].group
        close = negation_before(spoken, clause, one.start)
        if (close or "").lower() not in {"no", "without", "without a", "no sign of"} or one.component == ROOM_GENERAL:
            continue
        gap = spoken.norms(clause.start, one.start)
        near = [norm for norm in gap[-3:] if norm in {"no", "without", "of"}]
        if not near or "never" in spoken.norms() or any(at in flaw_starts for at in range(clause.start, clause.end)):
            continue
        if stances[one.start].mode is not Mode.ASSERTED or (
            group in {"surfaces", "handed_over"} and one.component != "remote_control"
        ):
            continue
        drafts.append(
            Draft(
                kind="condition", room=room, component=one.component, at=one.start,
                condition="missing", assertion="present",
                because=(f"'{spoken.words(one.start, one.end)}' after '{close}'",), confidence=0.7,
            )
        )  # fmt: skip
    return drafts
