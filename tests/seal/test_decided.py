"""Only a record in which a person has decided everything can be sealed."""

from __future__ import annotations

import pytest
from hypothesis import given

from narrate2report.records.findings import Findings
from narrate2report.seal.decided import Decided, Open, decided
from tests.records.review import Reviewed, reviews
from tests.seal.walk import draft, review


def test_a_draft_is_open_and_says_in_plain_words_what_is() -> None:
    record = decided(draft())
    assert isinstance(record, Open)
    assert record.named_entries() == ["Kitchen, countertop: chip (1:15)", "Kitchen, backsplash: chip (1:15)"]
    assert record.named_gaps() == ["Kitchen, sink"]


def test_a_draft_cannot_pass_for_a_decided_record() -> None:
    with pytest.raises(ValueError, match="draft"):
        Decided(draft())


@given(reviews())
def test_what_is_decided_is_what_persons_decided(made: Reviewed) -> None:
    findings: Findings = made.draft
    undecided = {entry.id for entry in findings.entries if entry.state == "proposed" or entry.decided is None}
    gaps = {
        (row.room, row.component) for row in findings.coverage if row.status == "not_noted" and row.acknowledged is None
    }
    record = decided(findings)
    if isinstance(record, Open):
        assert {entry.id for entry in record.entries} == undecided
        assert {(gap.room, gap.component) for gap in record.gaps} == gaps
        assert undecided or gaps
    else:
        assert not undecided
        assert not gaps


def test_an_accepted_entry_that_nobody_decided_is_open() -> None:
    made = review()
    entry = made.entries["e1"].model_copy(update={"decided": None})
    record = decided(draft().model_copy(update={"entries": (entry,), "coverage": ()}))
    assert isinstance(record, Open)
    assert record.entries == (entry,)
