"""A size that is told in the sentence after its flaw, as people who walk and look do."""

from __future__ import annotations

import pytest

from narrate2report.records.findings import Entry
from tests.read.told import Narrator


def told(entries: Narrator, *lines: str) -> list[Entry]:
    return [entry for entry in entries(*lines, room="kitchen").entries if entry.kind == "condition"]


@pytest.mark.parametrize(
    ("flaw", "after", "size"),
    [
        ("The chip on the countertop is bigger.", "It's close to two inches now.", "two inches"),
        ("There's a scratch on the door.", "Maybe four inches long.", "four inches"),
        ("The wall has a dent.", "About the size of a golf ball.", "size of a golf ball"),
    ],
)
def test_it_belongs_to_that_flaw_and_is_evidence_of_it(entries: Narrator, flaw: str, after: str, size: str) -> None:
    (entry,) = told(entries, flaw, after)
    assert entry.size is not None
    assert entry.size.text == size
    assert [piece.quote for piece in entry.evidence] == [flaw, after]
    assert any("its size is told after it" in reason for reason in entry.because)


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("The cabinets are clean.", "It's about ten feet wide."),
        ("The door has no scratches.", "It's seven feet tall."),
        ("There's a stain on the floor.", "If it's over two inches, we charge."),
        ("There's a scratch on the door, an inch long.", "Say four feet of clearance here."),
    ],
)
def test_a_size_of_something_else_is_put_on_no_flaw(entries: Narrator, before: str, after: str) -> None:
    sizes = [entry.size.text for entry in told(entries, before, after) if entry.size]
    assert sizes in ([], ["an inch"])
