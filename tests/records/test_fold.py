"""Decisions laid over a record and taken off again: whatever the findings file held already, nothing is lost."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from narrate2report.errors import BrokenRecord
from narrate2report.records.findings import Entry, Findings
from narrate2report.records.fold import folded, unfolded
from narrate2report.records.journal import EntryChange
from tests.records import makers
from tests.records.review import Reviewed, drafts, reviews


@given(reviews())
def test_the_record_holds_what_was_decided_last(review: Reviewed) -> None:
    record = folded(review.draft, review.lines)
    assert {entry.id: entry for entry in record.entries} == review.entries
    assert {unused.id: unused for unused in record.unused} == review.unused
    assert {(row.room, row.component): row for row in record.coverage} == review.coverage
    assert len(record.entries) == len(review.entries)


@given(reviews())
def test_taking_the_decisions_off_gives_the_draft(review: Reviewed) -> None:
    assert unfolded(folded(review.draft, review.lines), review.lines) == review.draft


@given(reviews(), st.data())
def test_a_file_that_lags_behind_by_any_number_of_lines_gives_the_same_record(
    review: Reviewed, data: st.DataObject
) -> None:
    record = folded(review.draft, review.lines)
    behind = folded(review.draft, review.lines[: data.draw(st.integers(0, len(review.lines)))])
    assert folded(behind, review.lines) == record
    assert folded(record, review.lines) == record


@given(reviews())
def test_what_was_there_keeps_its_place_and_sentences_stay_in_order(review: Reviewed) -> None:
    record = folded(review.draft, review.lines)
    drafted = [entry.id for entry in review.draft.entries]
    assert [entry.id for entry in record.entries if entry.id in drafted] == drafted
    assert [unused.id for unused in record.unused] == sorted(unused.id for unused in record.unused)


@given(drafts(), makers.entries)
def test_a_part_split_off_stands_behind_the_whole(draft: Findings, whole: Entry) -> None:
    record = draft.model_copy(update={"entries": (whole,), "recordings": ()})
    part = whole.model_copy(update={"id": "e0", "split_from": whole.id})
    assume(part.id != whole.id and whole.split_from is None)
    review = Reviewed(record)
    review.keep(EntryChange(before=None, after=part))
    assert folded(record, review.lines).entries == (whole, part)


@given(reviews(), st.data())
def test_a_record_changed_behind_the_journal_is_told_with_the_line(review: Reviewed, data: st.DataObject) -> None:
    record = folded(review.draft, review.lines)
    decided = {
        change.after.id: line.number
        for line in review.lines
        for change in line.changes
        if isinstance(change, EntryChange) and change.after and change.after.id in review.entries
    }
    assume(decided)
    victim = data.draw(st.sampled_from(sorted(decided)))
    entries = tuple(
        entry.model_copy(update={"note": f"{entry.note}, and more"}) if entry.id == victim else entry
        for entry in record.entries
    )
    with pytest.raises(BrokenRecord, match=f"line {decided[victim]} of the journal: left entry {victim} otherwise"):
        unfolded(record.model_copy(update={"entries": entries}), review.lines)
