"""Decisions that stand only in the journal: a findings file that lags behind it, or is gone, costs nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

from narrate2report.cli import main
from narrate2report.records.beside import journal_beside
from narrate2report.records.files import read_record, write_record
from narrate2report.records.findings import Findings, Seal
from narrate2report.records.walk import read_walk
from narrate2report.review import requests as ask
from narrate2report.review.desk import Desk

NOTES = """\
[0:00] We start in the kitchen.
[0:06] There's a chip on the front edge of the counter, about a quarter inch.
[0:12] I'm checking for any cracks in the sink.
[0:17] All four burners light.
"""


@pytest.fixture
def decided(tmp_path: Path) -> Path:
    """A findings file that knows of no decision; its journal holds two."""
    source, out = tmp_path / "walk.txt", tmp_path / "walk.findings.json"
    source.write_text(NOTES, encoding="utf-8")
    assert main(["draft", str(source), "--out", str(out), "--quiet"]) == 0
    desk = Desk(out)
    first, second = (entry.id for entry in desk.findings.entries)
    desk.decide(ask.Change(entry=first, facts=ask.Facts(note="left of the stove")), "Ida Pell", 0)
    desk.decide(ask.Drop(entries=(second,)), "Ida Pell", 2)
    assert {entry.state for entry in read_record(out, Findings).entries} == {"proposed"}
    return out


def drafted_again(out: Path) -> int:
    return main(["draft", str(out.with_name("walk.txt")), "--out", str(out), "--quiet"])


def test_a_new_draft_sees_decisions_that_the_findings_file_does_not_hold_yet(
    decided: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = decided.read_bytes()
    assert drafted_again(decided) == 2
    (line,) = capsys.readouterr().err.splitlines()
    assert "choose another --out name" in line
    assert decided.read_bytes() == before


def test_a_new_draft_does_not_part_a_journal_from_its_record(decided: Path) -> None:
    record = decided.read_bytes()
    decided.unlink()
    assert drafted_again(decided) == 2
    assert not decided.exists()
    decided.write_bytes(record)
    assert [entry.state for entry in Desk(decided).findings.entries] == ["changed", "dropped"]


def test_an_empty_journal_keeps_nobody_from_drafting_anew(decided: Path) -> None:
    journal_beside(decided).write_bytes(b"")
    assert drafted_again(decided) == 0


def test_show_tells_what_was_decided_though_only_the_journal_knows(
    decided: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "200")
    assert main(["show", str(decided)]) == 0
    rows = [line.split() for line in capsys.readouterr().out.splitlines()]
    assert [row[-2] for row in rows if row and row[0] in {"0:06", "0:17"}] == ["changed", "dropped"]
    assert main(["show", str(decided), read_walk(decided).entries[0].id]) == 0
    told = capsys.readouterr().out
    assert "changed by Ida Pell" in told
    assert "left of the stove" in told


def test_a_torn_last_line_is_passed_over_and_left_where_it_is(decided: Path) -> None:
    journal = journal_beside(decided)
    whole = journal.read_bytes()
    journal.write_bytes(whole[:-1])
    assert [entry.state for entry in read_walk(decided).entries] == ["changed", "proposed"]
    assert journal.read_bytes() == whole[:-1]


def test_a_journal_of_another_draft_is_told_and_nothing_of_it_shown(
    decided: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    other = decided.with_name("other.txt")
    other.write_text(NOTES.replace("chip", "scratch"), encoding="utf-8")
    out = decided.with_name("other.findings.json")
    assert main(["draft", str(other), "--out", str(out), "--quiet"]) == 0
    journal_beside(decided).rename(journal_beside(out))
    capsys.readouterr()
    assert main(["show", str(out)]) == 2
    told = capsys.readouterr()
    assert "another draft" in told.err
    assert told.out == ""


def test_a_sealed_record_is_shown_as_it_is(decided: Path) -> None:
    seal = Seal(sha256="0" * 64, sealed_at="2026-03-06T10:00:00Z", sealed_by="Ida Pell", statement="So.", files=())
    record = read_record(decided, Findings).model_copy(update={"seal": seal})
    write_record(decided, record)
    assert read_walk(decided) == record
