"""A review in which anything may be decided: random, and such as the program itself would keep it."""

from __future__ import annotations

from dataclasses import dataclass, field

from hypothesis import strategies as st

from narrate2report.records.findings import Acknowledged, Decision, Entry, Findings, Unused
from narrate2report.records.journal import Change, CoverageChange, EntryChange, JournalLine, UnusedChange
from narrate2report.records.journal_file import draft_sha256, line_sha256
from tests.records import makers

AT = "2026-03-06T10:00:00.000Z"


@st.composite
def drafts(draw: st.DrawFn) -> Findings:
    """Any record that is no one's yet; ids are its own, sentences numbered, as drafting leaves them."""
    record = draw(makers.records)
    entries = tuple(
        entry.model_copy(update={"id": f"e{number}", "split_from": None})
        for number, entry in enumerate(draw(st.lists(makers.entries, max_size=4)), 1)
    )
    numbers = sorted(draw(st.sets(st.integers(1, 30), max_size=4)))
    unused = tuple(draw(makers.unused).model_copy(update={"id": f"s{number:04d}"}) for number in numbers)
    rows = {(row.room, row.component): row for row in record.coverage}
    return record.model_copy(
        update={"entries": entries, "unused": unused, "coverage": tuple(rows.values()), "seal": None}
    )


@dataclass
class Reviewed:
    """A draft, the lines of its journal, and the parts of the record as they stand after the last line."""

    draft: Findings
    lines: list[JournalLine] = field(default_factory=list)

    def __post_init__(self) -> None:
        draft = draft_sha256(self.draft)
        self.lines.append(JournalLine(number=1, at=AT, by="Ida Pell", action="begin", previous=draft))
        self.entries = {entry.id: entry for entry in self.draft.entries}
        self.unused = {unused.id: unused for unused in self.draft.unused}
        self.coverage = {(row.room, row.component): row for row in self.draft.coverage}

    def keep(self, *changes: Change) -> None:
        for change in changes:
            self._lay(change)
        self.lines.append(
            JournalLine(
                number=len(self.lines) + 1,
                at=AT,
                by="Ida Pell",
                action="change",
                changes=changes,
                previous=line_sha256(self.lines[-1]),
            )
        )

    def take_back(self, number: int) -> None:
        swapped = [
            change.model_copy(update={"before": change.after, "after": change.before})
            for change in reversed(self.lines[number - 1].changes)
        ]
        self.keep(*swapped)

    def _lay(self, change: Change) -> None:
        if isinstance(change, CoverageChange):
            self.coverage[change.after.room, change.after.component] = change.after
            return
        stands: dict[str, Entry] | dict[str, Unused] = self.entries if isinstance(change, EntryChange) else self.unused
        if change.before is not None:
            del stands[change.before.id]
        if change.after is not None:
            stands[change.after.id] = change.after  # type: ignore[assignment]


@st.composite
def reviews(draw: st.DrawFn) -> Reviewed:
    """A draft with some decisions: entries changed, added, taken out again, sentences used, gaps acknowledged."""
    review = Reviewed(draw(drafts()))
    for step in range(draw(st.integers(0, 8))):
        _decide(draw, review, step)
    return review


def _decide(draw: st.DrawFn, review: Reviewed, step: int) -> None:
    match draw(st.sampled_from(["change", "add", "split", "use", "acknowledge", "undo"])):
        case "change" if review.entries:
            before = review.entries[draw(st.sampled_from(sorted(review.entries)))]
            after = draw(makers.entries).model_copy(update={"id": before.id, "split_from": before.split_from})
            review.keep(EntryChange(before=before, after=after))
        case "add":
            added = draw(makers.entries).model_copy(update={"id": f"a{step}", "split_from": None})
            review.keep(EntryChange(before=None, after=added))
        case "split" if review.entries:
            whole = review.entries[draw(st.sampled_from(sorted(review.entries)))]
            part = whole.model_copy(update={"id": f"p{step}", "split_from": whole.id})
            review.keep(EntryChange(before=None, after=part))
        case "use" if review.unused:
            used = review.unused[draw(st.sampled_from(sorted(review.unused)))]
            decided = Decision(by="Ida Pell", at=AT)
            entry = draw(makers.entries).model_copy(update={"id": f"u{step}", "split_from": None, "decided": decided})
            review.keep(EntryChange(before=None, after=entry), UnusedChange(before=used, after=None))
        case "acknowledge" if review.coverage:
            row = review.coverage[draw(st.sampled_from(sorted(review.coverage)))]
            said = Acknowledged(looked="not_looked_at", by="Ida Pell", at=AT)
            review.keep(CoverageChange(before=row, after=row.model_copy(update={"acknowledged": said})))
        case "undo" if len(review.lines) > 1:
            review.take_back(review.lines[-1].number)
