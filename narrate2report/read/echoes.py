"""`... and the ceiling too`, `ceiling: same`, `blinds, same story`: a component that shares what was said before."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from narrate2report.read.clauses import Clause
from narrate2report.read.draft import Draft
from narrate2report.read.modes import Mode, Stance
from narrate2report.read.spoken import Spoken
from narrate2report.read.whereabouts import ROOM_GENERAL

SAME_WORDS = frozenset("also too same ditto likewise worse".split())
LONGEST_ECHO = 7
"""Words that a clause may have and still only echo the one before."""


MORE = frozenset("and a little bit some more few another also".split())


def _is_more_of_it(spoken: Spoken, clause: Clause) -> bool:
    """`mold along the sealant, and a little on the ceiling`: an amount, and where."""
    norms = spoken.norms(clause.start, clause.end)
    at = next((at for at, norm in enumerate(norms) if norm in {"on", "in", "along"}), 0)
    return at > 1 and set(norms[:at]) <= MORE


def find_echoes(
    spoken: Spoken, stances: Sequence[Stance], drafts: Sequence[Draft], before: Sequence[Draft]
) -> list[Draft]:
    """Conditions of the latest statement, copied to a component of which a clause says only `same` or `too`.

    `drafts` are those of this sentence, `before` the conditions of the last sentence that had any.
    """
    found = []
    for clause in spoken.clauses:
        norms = set(spoken.norms(clause.start, clause.end))
        told = {"topic", "of"} if {"also", "too"} & norms or _is_more_of_it(spoken, clause) else {"topic"}
        topics = [one for one in spoken.named_in(clause) if one.relation in told and one.component != ROOM_GENERAL]
        following = spoken.clauses[clause.index + 1 : clause.index + 2]
        if topics and following and following[0].link == ":":
            norms |= set(spoken.norms(following[0].start, following[0].end))
        if (
            not (norms & SAME_WORDS or _is_more_of_it(spoken, clause))
            or not topics
            or clause.end - clause.start > LONGEST_ECHO
        ):
            continue
        if stances[clause.start].mode not in {Mode.ASSERTED, Mode.PAST}:
            continue
        if spoken.has_term("condition", "works", within=clause):
            continue
        earlier = [one for one in drafts if one.kind == "condition" and one.at < clause.start] or list(before)
        if not earlier:
            continue
        first_at = spoken.clause_of(earlier[-1].at) if earlier[-1] in drafts else None
        shared = [one for one in earlier if first_at is None or one.at in first_at]
        for topic in topics:
            words = spoken.words(clause.start, clause.end)
            found += [
                replace(one, room=spoken.room, component=topic.component, at=topic.start).with_reason(f"'{words}'")
                for one in {(one.condition, one.assertion): one for one in shared}.values()
                if one.component != topic.component
            ]
    return found
