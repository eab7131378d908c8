"""Fewer than there should be: `one shelf short`, `down to three knobs`, `should be two racks, I count one`, what is off
its whole: `two blades off the blinds`, the one of two that is not there: `towel bar's up, the paper holder isn't`,
what is not where it is due: `there was supposed to be a gate key too, and I can't find it`."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Final

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.numbers import whole_number
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Named, Spoken
from narrate2report.read.state.missing import is_not_ours, may_be_absent
from narrate2report.read.things.operated import LEFT_ALONE
from narrate2report.read.things.whereabouts import ROOM_GENERAL

SHOULD: Final = (
    ["should", "be"],
    ["should", "have"],
    ["ought", "to"],
    ["supposed", "to"],
    ["meant", "to"],
    ["would", "expect"],
    ["'d", "expect"],
)
COUNTS: Final = frozenset("see count find got have has had there only there's".split())
KEPT_LOCKED: Final = frozenset({"mailbox", "gate", "garage_door"})
"""What there is one of: counted, it stands for its keys."""
THERE: Final = frozenset("there up on in here fitted present present. place".split())
DUE: Final = (*SHOULD, ["used", "to"])
IS_NOT: Final = re.compile(
    r"(?:(?:and|but|so|now|yet|well|then) )*"
    r"(?:(?:i|we) (?:(?:do|did|can|could|have|has) )?not (?:see|find|have|get|got|seen|found)(?: (?:it|one|any|that))?"
    r"|(?:it|that) (?:is|'s|was) (?:not|gone|nowhere)(?: (?:here|there|in|on|around|to be seen))*"
    r"|there (?:is|'s|was) (?:none|not(?: (?:one|any))?)(?: (?:here|there|left))?)"
    r"(?: (?:now|anymore|today|anywhere|any more|on it|in it|with it))*"
)
"""A clause that says of what was just named that it is not there, and nothing else."""
NOT: Final = (["is", "not"], ["'s", "not"], ["are", "not"], ["was", "not"])


def find_shortfalls(scene: Scene) -> list[Draft]:
    """The components of a sentence of which it says that one or more are not there."""
    if is_not_ours(scene.spoken) or scene.spoken.ends_with_question():
        return []
    found: dict[str, Draft] = {}
    for draft in (
        *_short(scene),
        *_fewer_than_due(scene),
        *_off_its_whole(scene),
        *_the_other_is_not(scene),
        *_not_where_due(scene),
    ):
        found.setdefault(draft.component, draft)
    return list(found.values())


def _short(scene: Scene) -> Iterator[Draft]:
    """`the fridge is one shelf short`, `short of a rack`, `down to three knobs`, `one only of two shelves`."""
    spoken = scene.spoken
    for one in spoken.named:
        clause = spoken.clause_of(one.start)
        if not _counts(scene, one):
            continue
        before, after = spoken.norms(clause.start, one.start), spoken.norms(one.end, clause.end)
        lead = [norm for norm in before if norm not in {"the", "of", "its", "a", "an", "one", "two", "three"}]
        counted = whole_number(spoken.tokens, one.start - 1) if one.start else None
        is_short = (
            after[:1] == ["short"] and after[1:2] != ["of"] and bool({"one", "two", "a", "three"} & set(before[-2:]))
        )
        down_to = before[-3:-1] == ["down", "to"] and counted is not None
        if is_short or lead[-1:] == ["short"] or down_to:
            words = spoken.words(clause.start, clause.end)
            number = counted[0] if counted is not None and is_short else None
            yield Draft.of_named(one, scene.room, "missing", f"'{words}': short", confidence=0.7, quantity=number)


def _fewer_than_due(scene: Scene) -> Iterator[Draft]:
    """`there should be two racks, I count one`, `one rack only, supposed to be two`, `one shelf where there should be
    two`."""
    spoken = scene.spoken
    for clause in spoken.clauses:
        norms = spoken.norms(clause.start, clause.end)
        told = _told_due(norms, SHOULD)
        if told is None:
            continue
        due = _first_number(spoken, Clause(clause.index, clause.start + told, clause.end, clause.link))
        later = spoken.clauses[clause.index + 1 : clause.index + 3]
        found = next((number for other in later if (number := _counted(spoken, other)) is not None), None)
        one, last = _what(scene, clause), clause
        if found is None:
            before = [one for one in spoken.named if one.start < clause.start + told and _counts(scene, one)]
            found = _number_of(spoken, before[-1]) if before else None
            one = before[-1] if before else None
        else:
            last = later[-1]
        if one is not None and one.component in KEPT_LOCKED:
            continue  # keys: one post box, should be two of those
        if due is not None and found is not None and found < due and one is not None:
            words = spoken.words(min(one.start, clause.start), last.end)
            yield Draft.of_named(one, scene.room, "missing", f"'{words}'", confidence=0.7, quantity=due - found)


def _number_of(spoken: Spoken, one: Named) -> int | None:
    """`one of the oven racks`, `one oven rack`: the number said of a thing, if it is one of few."""
    counted = whole_number(spoken.tokens, one.start - 1) if one.start else None
    return counted[0] if counted is not None else None


COUNTING: Final = frozenset("a an one two three four five six couple few several some another".split())
"""Words that open a count of what is off: `a couple of slats off the blind`."""
MEASURES: Final = frozenset(
    "inch inches foot feet yard yards metre metres meter meters mile miles hand hands step steps coat coats bit bits"
    " day days week weeks percent layer hour hours way room rooms door doors money quid pounds load light".split()
)
"""What is not off a thing though it is said so: `a foot off the floor`, `a room off the hall`, `two coats off it`."""


def _off_its_whole(scene: Scene) -> Iterator[Draft]:
    """`two blades off the verticals`, `a knob off the cooker`: a part that is not on what it belongs to."""
    spoken = scene.spoken
    for clause in spoken.clauses:
        norms = spoken.norms(clause.start, clause.end)
        if "off" not in norms[2:7] or not COUNTING & set(norms[:2]):
            continue
        at = clause.start + 2 + norms[2:7].index("off")
        if (called := next((one for one in spoken.named_in(clause) if one.start < at < one.end), None)) is not None:
            if called.end == clause.end and _counts(scene, called):  # two knobs off the stove: known by that name
                words = spoken.words(clause.start, clause.end)
                number = _number_of(spoken, called)
                yield Draft.of_named(called, scene.room, "missing", f"'{words}'", confidence=0.65, quantity=number)
            continue
        whole = next((one for one in spoken.named_in(clause) if at < one.start <= at + 2), None)
        part, lead = spoken.tokens[at - 1], spoken.tokens[clause.start : at]
        if whole is None or part.tag not in {"NN", "NNS"} or part.norm in MEASURES or not scene.is_said(at):
            continue
        if any(token.is_finite or (token.tag in {"IN", "VB", "VBG"} and token.norm != "of") for token in lead):
            continue
        if any(term.start < at < term.end for term in spoken.terms("condition", within=clause)):
            continue  # a knob off: known as a word for it
        own = [one for one in spoken.named_in(clause) if one.end == at and _counts(scene, one)]
        if not own and may_be_absent(whole.component, scene.room, scene.vocabulary):
            continue
        words = spoken.words(clause.start, whole.end)
        number = next(
            (found[0] for here in range(clause.start, at) if (found := whole_number(spoken.tokens, here))), None
        )
        told = own[-1] if own else whole
        yield Draft.of_named(told, scene.room, "missing", f"'{words}'", confidence=0.65, quantity=number)


def _first_number(spoken: Spoken, clause: Clause) -> int | None:
    found = (whole_number(spoken.tokens, at) for at in range(clause.start, clause.end))
    return next((number[0] for number in found if number is not None), None)


def _counted(spoken: Spoken, clause: Clause) -> int | None:
    """The number of a clause that tells how many there are."""
    norms = set(spoken.norms(clause.start, clause.end))
    return _first_number(spoken, clause) if COUNTS & norms or clause.end - clause.start <= 3 else None


def _what(scene: Scene, clause: Clause) -> Named | None:
    spoken = scene.spoken
    inside = [one for one in spoken.named_in(clause) if _counts(scene, one)]
    before = [one for one in spoken.named if one.start < clause.start and _counts(scene, one)]
    return next(iter([*inside[:1], *before[-1:]]), None)


def _the_other_is_not(scene: Scene) -> Iterator[Draft]:
    """`towel bar's there, paper holder is not`: what was said of the one is denied of the other."""
    spoken = scene.spoken
    for clause in spoken.clauses[1:]:
        ends = [norm for norm in spoken.norms(clause.start, clause.end) if norm not in {"but", "and"}]
        before = spoken.clauses[clause.index - 1]
        there = THERE & set(spoken.norms(before.end - 2, before.end))
        named = [one for one in spoken.named_in(clause) if one.relation == "topic" and _counts(scene, one)]
        if not there or not named or ends[-2:] not in NOT or not spoken.named_in(before):
            continue
        if named[-1].end == clause.end - 2 and scene.is_said(named[-1].start):
            words = spoken.words(before.start, clause.end)
            yield Draft.of_named(named[-1], scene.room, "missing", f"'{words}'", confidence=0.7)


def _not_where_due(scene: Scene) -> Iterator[Draft]:
    """`there should have been a second fob, and there isn't one here`: due in one clause, denied in the next."""
    spoken = scene.spoken
    for clause in spoken.clauses[:-1]:
        told = _told_due(spoken.norms(clause.start, clause.end), DUE)
        if told is None:
            continue
        due = clause.start + told
        one = next((one for one in spoken.named_in(clause) if one.start > due), None)
        if one is None or not _can_be_due(scene, one) or not _is_denied_next(spoken, clause):
            continue
        if not any(token.tag == "IN" for token in spoken.tokens[due : one.start]):  # not: a notice on the fridge
            words = spoken.words(clause.start, spoken.clauses[clause.index + 1].end)
            yield Draft.of_named(one, scene.room, "missing", f"'{words}'", confidence=0.7)


def _told_due(norms: Sequence[str], words: Sequence[Sequence[str]]) -> int | None:
    """Where two words say that something is due."""
    return next((at for at in range(len(norms)) if norms[at : at + 2] in words), None)


def _is_denied_next(spoken: Spoken, clause: Clause) -> bool:
    """Whether the next clause, or the next two, only say that it is not there."""
    after = spoken.clauses[clause.index + 1 : clause.index + 3]
    rest = [spoken.tokens[clause.end : one.end] for one in after]
    return any(IS_NOT.fullmatch(" ".join(token.norm for token in tokens if token.is_word)) for tokens in rest)


def _can_be_due(scene: Scene, one: Named) -> bool:
    group = scene.vocabulary.components[one.component].group
    return one.relation != "place" and group not in LEFT_ALONE - {"handed_over", "furnished"}


def _counts(scene: Scene, one: Named) -> bool:
    if one.component == ROOM_GENERAL or one.relation == "place" or not scene.is_said(one.start):
        return False
    group = scene.vocabulary.components[one.component].group
    return not may_be_absent(one.component, scene.room, scene.vocabulary) and group not in LEFT_ALONE - {"handed_over"}
