"""What is not there by a verb that says so: `the blind lacks one slat`, `drawer not have handle`, `there are not`."""

from __future__ import annotations

from collections.abc import Iterator

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Named, Spoken
from narrate2report.read.state.missing import is_not_ours, may_be_absent
from narrate2report.read.things.details import quantity_before
from narrate2report.read.things.whereabouts import ROOM_GENERAL

LACKS = frozenset({"lack", "lacks", "lacking", "lacked"})

MISSES = frozenset({"miss", "misses"})
"""Of a thing and not of somebody they say that it lacks something: `it misses one shelf`."""

REACH = 4
"""Tokens between the verb and what is lacked: `lacks one of the shelves`."""

SOMEBODY = frozenset("i we you us tenant tenants resident residents people body one's".split())
NONE_OF_THEM = frozenset({"none", "neither", "no"})
HAVING = frozenset({"has", "have", "had", "got"})

FILLING = frozenset("so now and but here there yet already anymore more any is are was were not none no".split())
"""All that `so now there are not any` may hold."""


def lacked(scene: Scene) -> list[Draft]:
    """The components of a sentence that a verb says are not there."""
    if is_not_ours(scene.spoken):
        return []
    return [*_after_verbs(scene), *_without_any(scene), *_none_has(scene)]


def _after_verbs(scene: Scene) -> Iterator[Draft]:
    spoken = scene.spoken
    for at, token in enumerate(spoken.tokens):
        end = _verb_ends(spoken, at)
        if end is None or not scene.is_said(at):
            continue
        clause = spoken.clause_of(at)
        one = next((one for one in spoken.named_in(clause) if end <= one.start <= end + REACH), None)
        if one is not None and one.relation != "place" and _counts(scene, one):
            yield _draft(scene, one, clause, spoken.words(at, one.end) or token.norm)


def _verb_ends(spoken: Spoken, at: int) -> int | None:
    """The token after a verb of lacking that starts at token `at`."""
    norms = spoken.norms(at, at + 3)
    if any(cue.start <= at < cue.end for cue in spoken.cues("fails")):
        return None  # misses the strike
    if norms[0] == "lost" and _was_of_it(spoken, at):
        return at + 1
    if norms[:3] == ["not", "got", "its"] and spoken.norms(at - 1, at) in (["has"], ["have"]):
        return at + 3
    if norms[0] in LACKS:
        return at + (2 if norms[1:2] == ["of"] else 1)
    if norms[0] in MISSES and at and spoken.norms(at - 1, at)[0] not in {"i", "we", "you", "they", "not", "to"}:
        return at + 1
    if norms[:2] != ["not", "have"] or {"i", "we", "you", "they"} & set(spoken.norms(max(0, at - 2), at)):
        return None
    counted = [token.tag for token in spoken.tokens[at + 2 : at + 3]] == ["CD"]
    its = at + 2 + (spoken.norms(at + 2, at + 3) in (["the"], ["its"], ["their"]))
    return its if counted or any(one.start == its for one in spoken.named) else None


def _was_of_it(spoken: Spoken, at: int) -> bool:
    """`the hinge has lost a screw`: said of a thing; whoever lost a key is somebody."""
    clause = spoken.clause_of(at)
    before = [one for one in spoken.named_in(clause) if one.end <= at and one.relation == "topic"]
    between = spoken.norms(before[-1].end, at) if before else ["somebody"]
    return set(between) <= {"has", "have", "'s", "'ve", "also", "then"}


def _without_any(scene: Scene) -> Iterator[Draft]:
    """`curtains I took to wash, so now there are not`: a clause that only denies that there is what was named."""
    spoken = scene.spoken
    for clause in spoken.clauses:
        norms = spoken.norms(clause.start, clause.end)
        if "there" not in norms or not {"not", "none"} & set(norms) or not scene.is_said(clause.start):
            continue
        before = [one for one in spoken.named if one.start < clause.start + norms.index("there")]
        inside = [one for one in before if one.start in clause]
        rest = spoken.norms(inside[-1].end if inside else clause.start, clause.end)
        if set(rest) <= FILLING and before and before[-1].relation == "topic" and _counts(scene, before[-1]):
            yield _draft(scene, before[-1], clause, spoken.words(clause.start, clause.end))


def _none_has(scene: Scene) -> Iterator[Draft]:
    """`none of the windows has a screen`, `neither drawer has a handle`, `not one of them has a cover`."""
    spoken = scene.spoken
    for clause in spoken.clauses:
        norms = spoken.norms(clause.start, clause.end)
        opens = next((at for at, norm in enumerate(norms[:3]) if norm in NONE_OF_THEM or norm == "not"), None)
        verb = next((at for at, norm in enumerate(norms) if norm in HAVING), None)
        if opens is None or verb is None or verb < opens or not scene.is_said(clause.start + verb):
            continue
        if norms[opens] == "not" and norms[opens + 1 : opens + 2] != ["one"]:
            continue
        named = [one for one in spoken.named_in(clause) if one.start > clause.start + verb]
        if set(norms[opens:verb]) & SOMEBODY or not named or named[0].start > clause.start + verb + REACH:
            continue
        flawed = any(clause.start + verb < term.start < named[0].start for term in spoken.terms("condition"))
        if not flawed and named[0].relation != "place" and _counts(scene, named[0]):
            yield _draft(scene, named[0], clause, spoken.words(clause.start + opens, named[0].end))


def _counts(scene: Scene, one: Named) -> bool:
    if one.component == ROOM_GENERAL:
        return False
    return not may_be_absent(one.component, scene.room, scene.vocabulary)


def _draft(scene: Scene, one: Named, clause: Clause, words: str) -> Draft:
    quantity = quantity_before(scene.spoken, one.start, clause)
    return Draft.of_named(one, scene.room, "missing", f"'{words}'", confidence=0.7, quantity=quantity)
