"""A journal is read only when every line is what it was when it was written."""

from __future__ import annotations

import hashlib
import json
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from narrate2report.errors import BadInput, BrokenRecord
from narrate2report.records.journal import JournalLine
from narrate2report.records.journal_file import check_lines, line_bytes, parse_lines, read_journal
from tests.records.review import Reviewed, reviews
from tests.records.test_schema import _smallest

same_folder = settings(suppress_health_check=[HealthCheck.function_scoped_fixture])


def written(review: Reviewed) -> bytes:
    return b"".join(line_bytes(line) for line in review.lines)


@given(review=reviews())
@same_folder
def test_a_journal_comes_back_as_it_was_written(review: Reviewed, tmp_path: Path) -> None:
    path = tmp_path / "walk.journal.jsonl"
    path.write_bytes(written(review))
    assert read_journal(path, JournalLine) == tuple(review.lines)


@given(reviews(), st.data())
def test_its_end_is_read_on_from_any_line(review: Reviewed, data: st.DataObject) -> None:
    at = data.draw(st.integers(1, len(review.lines)))
    start, end = (b"".join(map(line_bytes, part)) for part in (review.lines[:at], review.lines[at:]))
    assert parse_lines(end, Path("j"), JournalLine, start) == tuple(review.lines[at:])


@given(reviews())
def test_each_line_names_the_bytes_of_the_one_before(review: Reviewed) -> None:
    raw = written(review).splitlines()
    for before, line in pairwise(raw):
        assert json.loads(line)["previous"] == hashlib.sha256(before).hexdigest()


@given(reviews(), st.data())
def test_any_flipped_byte_but_in_the_last_line_is_told_with_its_line(review: Reviewed, data: st.DataObject) -> None:
    raw = bytearray(written(review))
    last = len(line_bytes(review.lines[-1]))
    if len(raw) == last:
        return
    at = data.draw(st.integers(0, len(raw) - last - 1))
    line = bytes(raw[:at]).count(b"\n") + 1
    raw[at] ^= data.draw(st.integers(1, 255))
    _, faults = check_lines(bytes(raw), JournalLine)
    assert {fault.line for fault in faults} & {line, line + 1}


@given(reviews(), st.data())
def test_a_line_that_was_taken_out_is_missed(review: Reviewed, data: st.DataObject) -> None:
    lines = [line_bytes(line) for line in review.lines]
    if len(lines) < 2:
        return
    gone = data.draw(st.integers(0, len(lines) - 2))
    _, faults = check_lines(b"".join(lines[:gone] + lines[gone + 1 :]), JournalLine)
    assert faults[0].line == gone + 1


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (lambda raw: raw[:-1], "torn off"),
        (lambda raw: raw + b"\n", "line 2: what stands there should be a decision"),
        (lambda raw: raw.replace(b'"number":1', b'"number":2'), "its number should be 1, is 2"),
        (lambda raw: raw.replace(b'"begin"', b'"accept"'), "its action should be begin"),
        (lambda raw: raw.replace(b":", b": ", 1), "its form should be canonical JSON"),
        (lambda raw: raw.replace(b'"number"', b'"nomber"'), "not a line of a journal"),
        (lambda raw: b"\xff" + raw, "should be a decision"),
        (lambda _: b"", "is empty"),
    ],
    ids=["torn", "empty line", "number", "action", "form", "field", "no text", "empty"],
)
def test_what_is_wrong_is_named(tmp_path: Path, change: object, told: str) -> None:
    assert callable(change)
    path = tmp_path / "walk.journal.jsonl"
    path.write_bytes(change(written(Reviewed(_smallest()))))
    with pytest.raises(BrokenRecord, match=rf"walk.journal.jsonl: .*{told}"):
        read_journal(path, JournalLine)


def test_a_missing_journal_is_named(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match=r"walk.journal.jsonl: cannot be read"):
        read_journal(tmp_path / "walk.journal.jsonl", JournalLine)
