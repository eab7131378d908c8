"""Drafts become entries: ids that last, evidence with links, repetitions merged, withdrawals taken out."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import takewhile

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.speech.sentences import Sentence
from narrate2report.read.speech.spoken import Spoken
from narrate2report.records.findings import SOUND, Entry, Evidence, Heard, Size

REMEMBERED = 6
"""For how many sentences a flaw can be referred to as `the dent`."""

SETTLED = 2
"""For how many sentences a doubt waits to be settled."""

WET = {"leak", "damp"}

BREATH = 4
"""How many sentences back a correction can reach."""


@dataclass(eq=False)
class _Line:
    """A draft with the sentences that are its evidence."""

    draft: Draft
    sentences: list[Sentence]
    heard: tuple[Heard, ...]
    number: int


class Ledger:
    """The entries of a walk as they come."""

    def __init__(self) -> None:
        self._lines: list[_Line] = []

    def add(self, draft: Draft, spoken: Spoken, number: int) -> None:
        """Enter a draft with its sentence as evidence; a denial or a piece of work said twice in a row is
        one entry."""
        if draft.retries and self._retry(draft, spoken, number):
            return
        if self._settles(draft, spoken, number):
            return
        once_more = draft.restates or draft.assertion == "absent" or draft.outcome == "not_tested"
        adds_nothing = once_more or _adds_nothing(draft, spoken)
        if adds_nothing or draft.condition in {*SOUND, "missing"}:
            for line in self._since(number - 1):
                repeated = line.sentences[-1].text == spoken.sentence.text  # That one's good. That one's good.
                repeated = repeated or _is_summed_up(line.draft, draft)  # One rack, should be two. So one's missing.
                if (adds_nothing or repeated) and line.number < number and line.draft.same_statement(draft):
                    line.sentences.append(spoken.sentence)
                    line.number = number if repeated else line.number
                    return
        self._lines.append(_Line(draft, [*draft.also, spoken.sentence], spoken.heard, number))

    def _settles(self, draft: Draft, spoken: Spoken, number: int) -> bool:
        """`might be a leak. I felt it, it's dry`, `yes, definitely a crack`: what was doubtful just before is so,
        or not so, and both sentences tell it."""
        if draft.kind != "condition" or draft.assertion == "possible":
            return False
        for line in self._since(number - SETTLED):
            old = line.draft
            dry = draft.assertion == "absent" and {old.condition, draft.condition} == WET
            same = dry or old.condition == draft.condition
            if old.assertion == "possible" and old.component == draft.component and same and line.number < number:
                line.draft = replace(draft, where=draft.where or old.where).with_reason("settles what was doubtful")
                line.sentences.append(spoken.sentence)
                return True
        return False

    def _since(self, number: int) -> Iterator[_Line]:
        """The entries of sentence `number` and after, newest first."""
        return takewhile(lambda line: line.number >= number, reversed(self._lines))

    def _retry(self, draft: Draft, spoken: Spoken, number: int) -> bool:
        """`nothing. Again... there it goes`: the second try settles what the first left open."""
        for line in self._since(number - BREATH):
            old = line.draft
            if old.kind == "check" and (old.room, old.component) == (draft.room, draft.component):
                if old.outcome == "not_tested":
                    return False
                line.draft = replace(draft, because=(*old.because, *draft.because))
                line.sentences.append(spoken.sentence)
                return True
        return False

    def knows(self, condition: str, room: str, number: int) -> bool:
        """Whether a flaw was entered for this room within the last sentences."""
        return any(
            line.draft.condition == condition and line.draft.room == room and line.number < number
            for line in self._since(number - REMEMBERED)
        )

    def correct_place(self, spoken: Spoken, number: int, where: str) -> bool:
        """`No, sorry, the right one.`: put the right place on the newest flaw, with this sentence as evidence too."""
        for line in self._since(number - 1):
            if line.draft.kind in {"condition", "check"}:
                reason = f"place corrected by '{spoken.text}'"
                line.draft = replace(line.draft, where=where).with_reason(reason)
                line.sentences.append(spoken.sentence)
                return True
        return False

    def measure(self, spoken: Spoken, number: int, size: Size) -> bool:
        """`There's a scratch. It's four inches long.`: put the size on the flaw just before, if it has none."""
        line = next(self._since(number - 1), None)
        if line is None:
            return False
        draft = line.draft
        if draft.condition in (None, *SOUND) or draft.assertion == "absent" or draft.size is not None:
            return False
        line.draft = replace(draft, size=size).with_reason(f"its size is told after it: '{spoken.text}'")
        line.sentences.append(spoken.sentence)
        return True

    def withdraw(self, number: int, wanted: set[str], instead: Sequence[Draft]) -> None:
        """Take back what was said just before sentence `number`: what `instead` corrects, else the newest.

        Looks back over the sentences of one breath; entries of other kinds than `wanted` stay.
        """
        recent = [
            line for line in self._since(number - BREATH) if line.draft.kind in wanted and line.draft not in instead
        ]
        same = [line for line in recent if any(_replaces(one, line.draft) for one in instead)]
        named = {(one.kind, one.component) for one in instead}
        same = [line for line in same if (line.draft.kind, line.draft.component) in named] or same
        newest = [line for line in recent if line.number >= number - 1]
        newest = [line for line in newest if line.draft.condition == "missing"] or newest
        if same or newest:
            self._lines.remove((same or newest)[0])

    def take_back(self, since: int, is_mistaken: Callable[[Draft], bool]) -> list[Draft]:
        """Take back the newest entry of sentence `since` and after that proves mistaken, with the others of its
        component that tell of the same failure; gives what was taken back."""
        mistaken = [line for line in self._since(since) if is_mistaken(line.draft)]
        taken = []
        for line in mistaken:
            first = mistaken[0].draft
            again = line.number == mistaken[0].number and line.draft.component == first.component
            if line is mistaken[0] or (again and "fails" in {line.draft.outcome, first.outcome}):
                self._lines.remove(line)
                taken.append(line.draft)
        return taken

    def close(self) -> tuple[tuple[Entry, ...], Mapping[str, tuple[str, ...]]]:
        """All entries in the order they were said, and the ids of those that each sentence is evidence of."""
        told: dict[str, tuple[str, ...]] = {}
        entries = []
        for entry_id, line in zip(self._ids(), self._lines, strict=True):
            entries.append(_entry(entry_id, line))
            for sentence in line.sentences:
                told[sentence.id] = (*told.get(sentence.id, ()), entry_id)
        return tuple(entries), told

    def _ids(self) -> list[str]:
        seen: dict[str, int] = {}
        ids = []
        for line in self._lines:
            base = _entry_id(line)
            seen[base] = seen.get(base, 0) + 1
            ids.append(base if seen[base] == 1 else f"{base}-{seen[base]}")
        return ids


ANEW = frozenset("a an another other second also too more again one two three some both".split())
"""Words that tell of a flaw of its own: `and another by the door`."""


def _adds_nothing(draft: Draft, spoken: Spoken) -> bool:
    """`Toilet runs. You can hear it, it's running.`: the same once more, with no number, size or place of its own."""
    if draft.kind != "condition" or draft.quantity or draft.size or draft.where:
        return False
    clause = spoken.clause_of(draft.at)
    return not ANEW & set(spoken.norms(clause.start, draft.at + 1))


def _is_summed_up(told: Draft, draft: Draft) -> bool:
    """Whether no others are said to be missing than the sentence before came to."""
    counted = told.quantity is not None and draft.quantity in {None, told.quantity}
    return counted and draft.condition == "missing" == told.condition


def _replaces(one: Draft, before: Draft) -> bool:
    """Whether a draft is of the same sort as one before it, so that it can stand in its place."""
    return (one.kind, one.condition) == (before.kind, before.condition) or one.kind == "handover" == before.kind


def _entry_id(line: _Line) -> str:
    """An id from what was said where, so that drafting again gives the same statement the same id."""
    draft, first = line.draft, line.sentences[0]
    what = draft.condition or draft.outcome or draft.action or (draft.attribute.name if draft.attribute else "")
    parts = (first.recording, f"{first.start:.2f}", draft.kind, draft.component, what)
    return "e" + hashlib.sha256("|".join(parts).encode()).hexdigest()[:8]


def _entry(entry_id: str, line: _Line) -> Entry:
    draft = line.draft
    return Entry(
        id=entry_id,
        kind=draft.kind,
        room=draft.room,
        component=draft.component,
        condition=draft.condition,
        assertion=draft.assertion,
        outcome=draft.outcome,
        action=draft.action,
        party=draft.party,
        quantity=draft.quantity,
        direction=draft.direction,
        attribute=draft.attribute,
        where=draft.where,
        size=draft.size,
        severity=draft.severity,
        pre_existing=draft.pre_existing,
        evidence=tuple(_evidence(sentence) for sentence in line.sentences),
        heard=line.heard,
        confidence=draft.confidence,
        because=draft.because,
    )


def _evidence(sentence: Sentence) -> Evidence:
    return Evidence.of(sentence.recording, sentence.start, sentence.end, sentence.text, sentence.id)
