"""`... and the ceiling too`, `ceiling: same`, `blinds, same story`: a component that shares what was said before."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.meant.negations import none_there
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.modes import Mode
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.focus import is_adverse
from narrate2report.read.things.whereabouts import ROOM_GENERAL

SAME_WORDS = frozenset("also too same ditto likewise worse".split())
LONGEST_ECHO = 7
"""Words that a clause may have and still only echo the one before."""


LIKEWISE = frozenset("also too ditto likewise".split())
"""Words that say of another thing that it does as well; `same` may be said of its looks."""


def _so_does(spoken: Spoken, clause: Clause) -> bool:
    """`the fridge is cold and so is the freezer`, `and so did the oven`."""
    norms = spoken.norms(clause.start, clause.end)
    at = norms.index("so") if "so" in norms[:2] else len(norms)
    return norms[at + 1 : at + 2] in (["is"], ["'s"], ["are"], ["does"], ["do"], ["did"], ["was"], ["were"]) and any(
        one.start <= clause.start + at + 4 for one in spoken.named_in(clause)
    )


BADLY = (["as", "bad"], ["no", "better"], ["not", "better"], ["equally", "bad"], ["much", "better"])


def _is_as_bad(spoken: Spoken, clause: Clause) -> bool:
    """`the oven is filthy and the racks are just as bad`, `the hob is no better`, `isn't much better`."""
    norms = [norm for norm in spoken.norms(clause.start, clause.end) if norm not in {"any", "a", "lot"}]
    return norms[-2:] in BADLY and (norms[-2] != "much" or "not" in norms)


def _is_told_itself(spoken: Spoken, clause: Clause) -> bool:
    """`the bell also I am pressing`: a clause with a verb of its own echoes nothing."""
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    inside = range(clause.start, following[0].end if following and following[0].link == "" else clause.end)
    return any(spoken.tokens[at].tag == "VBG" for at in inside)


WITH_SAME = SAME_WORDS | frozenset("the thing story here there deal again exact as well".split())


def _only_says_same(spoken: Spoken, clause: Clause) -> bool:
    """`ceiling, same thing`."""
    norms = set(spoken.norms(clause.start, clause.end))
    return bool(norms & SAME_WORDS) and norms <= WITH_SAME


def _ends_in_as_well(spoken: Spoken, clause: Clause) -> bool:
    """`trim as well`, and not `the bed is ours as well`."""
    plain = not any(spoken.tokens[at].is_finite for at in range(clause.start, clause.end))
    return plain and spoken.norms(clause.end - 2, clause.end) == ["as", "well"]


MORE = frozenset("and a little bit some more few another also".split())


def _is_more_of_it(spoken: Spoken, clause: Clause) -> bool:
    """`mold along the sealant, and a little on the ceiling`: an amount, and where."""
    norms = spoken.norms(clause.start, clause.end)
    at = next((at for at, norm in enumerate(norms) if norm in {"on", "in", "along"}), 0)
    return at > 1 and set(norms[:at]) <= MORE


def _takes_up_another(spoken: Spoken, clause: Clause) -> bool:
    """`the carpet's theirs, so is the sofa`: what its own sentence says, and nothing said before."""
    return any(spoken.named_in(earlier) for earlier in spoken.clauses[: clause.index])


def _none_of_it(
    scene: Scene, clause: Clause, none: str, drafts: Sequence[Draft], before: Sequence[Draft]
) -> list[Draft]:
    """`... and none on the tiles`: the flaw that was told last is not on what the clause names."""
    spoken = scene.spoken
    if spoken.has_term("condition", "works", within=clause):
        return []
    own = [one for one in drafts if one.kind == "condition" and one.at < clause.start]
    flaws = [one for one in own or before if not scene.vocabulary.is_sound(one.condition or "")][-1:]
    topics = [one for one in spoken.named_in(clause) if one.component != ROOM_GENERAL]
    return [
        replace(
            flaw,
            room=spoken.room,
            component=topic.component,
            at=topic.start,
            assertion="absent",
            quantity=None,
            size=None,
            where=None,
            severity=None,
            pre_existing=False,
        ).with_reason(f"absent because of '{none}'")
        for flaw in flaws
        for topic in topics
        if topic.component != flaw.component
    ]


def find_echoes(scene: Scene, drafts: Sequence[Draft], before: Sequence[Draft]) -> list[Draft]:
    """Conditions of the latest statement, copied to a component of which a clause says only `same` or `too`.

    `drafts` are those of this sentence, `before` the conditions of the last sentence that had any.
    """
    spoken, stances = scene.spoken, scene.stances
    found = []
    for clause in spoken.clauses:
        norms = set(spoken.norms(clause.start, clause.end))
        norms |= {"also"} if _ends_in_as_well(spoken, clause) else set()
        as_bad = _is_as_bad(spoken, clause)
        norms |= {"same"} if as_bad else set()
        told = {"topic", "of"} if {"also", "too"} & norms or _is_more_of_it(spoken, clause) else {"topic"}
        topics = [one for one in spoken.named_in(clause) if one.relation in told and one.component != ROOM_GENERAL]
        following = spoken.clauses[clause.index + 1 : clause.index + 2]
        if topics and following and (following[0].link == ":" or _only_says_same(spoken, following[0])):
            norms |= set(spoken.norms(following[0].start, following[0].end))
        if (none := none_there(spoken, clause)) is not None:
            found += _none_of_it(scene, clause, none, drafts, before)
            continue
        so_does = _so_does(spoken, clause)
        if (
            not (norms & SAME_WORDS or so_does or _is_more_of_it(spoken, clause))
            or not topics
            or clause.end - clause.start > LONGEST_ECHO
        ):
            continue
        if stances[clause.start].mode not in {Mode.ASSERTED, Mode.PAST}:
            continue
        told_there = spoken.has_term("condition", "works", within=clause) and not as_bad
        if told_there or _is_told_itself(spoken, clause):
            continue
        tried = [one for one in drafts if one.kind == "check" and one.at < clause.start]
        if tried and (norms & LIKEWISE or so_does):
            words = spoken.words(clause.start, clause.end)
            found += [
                replace(tried[-1], room=spoken.room, component=topic.component, at=topic.start).with_reason(
                    f"'{words}'"
                )
                for topic in topics
                if topic.component != tried[-1].component
            ]
            continue
        own = [one for one in drafts if one.kind == "condition" and one.at < clause.start]
        earlier = own or list(before)
        if as_bad:
            earlier = [one for one in earlier if is_adverse(one, scene.vocabulary)]
        if not earlier or (so_does and not own and _takes_up_another(spoken, clause)):
            continue
        first_at = spoken.clause_of(earlier[-1].at) if earlier[-1] in drafts else None
        shared = [one for one in earlier if first_at is None or one.at in first_at]
        told_of = {one.component for one in drafts if one.kind == "condition" and one.at > clause.start}
        told_of_trial = {one.component for one in drafts if one.kind == "check"}
        for topic in topics:
            if (so_does and topic.component in told_of) or topic.component in told_of_trial:
                continue  # so is the paper holder ... no, the paper holder is fine
            words = spoken.words(clause.start, clause.end)
            found += [
                replace(one, room=spoken.room, component=topic.component, at=topic.start).with_reason(f"'{words}'")
                for one in {(one.condition, one.assertion): one for one in shared}.values()
                if one.component != topic.component
            ]
    return found
