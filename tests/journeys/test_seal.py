"""Closing a record, checking it, adding to it: what is asked, what is told, and what no command ever changes."""

from __future__ import annotations

import io
import shutil
import sys
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from narrate2report.cli import main
from narrate2report.errors import BadInput, CannotDecide
from narrate2report.records.files import read_record, record_json, write_record
from narrate2report.records.findings import Acknowledged, Decision, Findings
from narrate2report.records.journal import Change as Changed
from narrate2report.records.journal import CoverageChange, EntryChange
from narrate2report.records.journal_file import line_bytes
from narrate2report.records.schema import published
from narrate2report.records.transcript import Recording
from narrate2report.review.desk import Desk
from narrate2report.review.requests import Change, Facts, Undo
from narrate2report.review.view import progress
from narrate2report.seal.sealing import STATEMENT
from tests.drafted import Drafted
from tests.journeys.test_draft import NOTES
from tests.publish.walk import findings as hand_made
from tests.records.review import AT, Reviewed

DECLARED = ["--by", "Ida Pell", "--statement", "As I saw it."]


@pytest.fixture
def walk(tmp_path: Path) -> Path:
    """A drafted walk on which nobody has decided anything."""
    (tmp_path / "walk.txt").write_text(NOTES, encoding="utf-8")
    out = tmp_path / "walk.findings.json"
    assert main(["draft", str(tmp_path / "walk.txt"), "--out", str(out), "--quiet"]) == 0
    return out


def decide(path: Path, *, leave_entries: int = 0, leave_gaps: int = 0) -> None:
    """Decide all but some in the journal alone, as after a crash: the findings file lags behind."""
    made = Reviewed(read_record(path, Findings))
    who = {"state": "accepted", "decided": Decision(by="Ida Pell", at=AT)}
    said = Acknowledged(looked="not_looked_at", by="Ida Pell", at=AT)
    entries = list(made.draft.entries)
    gaps = [row for row in made.draft.coverage if row.status == "not_noted"]
    changes: list[Changed] = [
        EntryChange(before=entry, after=entry.model_copy(update=who)) for entry in entries[leave_entries:]
    ]
    changes += [
        CoverageChange(before=row, after=row.model_copy(update={"acknowledged": said})) for row in gaps[leave_gaps:]
    ]
    for change in changes:
        made.keep(change)
    path.with_name("walk.journal.jsonl").write_bytes(b"".join(line_bytes(line) for line in made.lines))


@pytest.fixture
def closed(walk: Path) -> Path:
    decide(walk)
    assert main(["seal", str(walk), *DECLARED, "--quiet"]) == 0
    return walk


def test_a_draft_is_refused_with_what_is_open_and_how_much(walk: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = walk.read_bytes()
    assert main(["seal", str(walk), *DECLARED]) == 2
    told = capsys.readouterr().err
    assert told.count("\n") == 1
    assert "entries undecided (Kitchen, countertop: chip" in told
    assert "not spoken of and not acknowledged (" in told
    assert "more" in told
    assert walk.read_bytes() == before


def test_one_entry_or_one_gap_left_is_enough_to_refuse(walk: Path, capsys: pytest.CaptureFixture[str]) -> None:
    decide(walk, leave_entries=1)
    assert main(["seal", str(walk), *DECLARED]) == 2
    assert "1 entry undecided (Kitchen, countertop: chip" in capsys.readouterr().err
    decide(walk, leave_gaps=1)
    assert main(["seal", str(walk), *DECLARED]) == 2
    assert "1 part not spoken of and not acknowledged (Kitchen, " in capsys.readouterr().err


def test_sealing_lays_the_journal_over_the_record_and_prints_the_seal(
    walk: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    decide(walk)
    assert main(["seal", str(walk), *DECLARED]) == 0
    record = read_record(walk, Findings)
    assert record.seal is not None
    assert record.seal.sha256 in capsys.readouterr().out
    assert {entry.state for entry in record.entries} == {"accepted"}
    Draft202012Validator(published("findings.schema.json")).validate(record_json(record))
    assert [file.file for file in record.seal.files] == ["walk.txt", "walk.journal.jsonl"]


def test_verify_says_what_holds_and_ends_with_0(closed: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["verify", str(closed)]) == 0
    told = capsys.readouterr().out
    assert "sealed by Ida Pell" in told
    assert "“As I saw it.”" in told
    assert "not signed" in told
    seal = read_record(closed, Findings).seal
    assert seal is not None
    assert main(["verify", str(closed), "--quiet", "--seal", seal.sha256.upper()]) == 0
    assert capsys.readouterr().out == ""


def test_verify_tells_each_mismatch_on_a_line_and_ends_with_1(closed: Path, capsys: pytest.CaptureFixture[str]) -> None:
    notes = closed.with_name("walk.txt")
    notes.write_text(NOTES.replace("chip", "hole"), encoding="utf-8")
    assert main(["verify", str(closed), "--seal", "0" * 64]) == 1
    lines = capsys.readouterr().out.splitlines()
    assert [line.partition(": expected")[0] for line in lines] == [
        "seal: walk.findings.json: the seal that you hold",
        "files: walk.txt: its SHA-256",
        f"{closed}: 2 mismatches",
    ]
    closed.write_bytes(b"\x00")
    assert main(["verify", str(closed)]) == 1
    assert "expected a findings record" in capsys.readouterr().out


@pytest.mark.parametrize(
    "arguments",
    [["verify", "none.json"], ["verify", "{walk}"], ["verify", "{walk}", "--seal", "abc"], ["amend", "{walk}"]],
    ids=["no file", "not sealed", "no hash", "not sealed either"],
)
def test_where_there_is_nothing_to_verify_or_amend_one_line_says_so(
    walk: Path, arguments: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([one.replace("{walk}", str(walk)) for one in arguments]) == 2
    assert capsys.readouterr().err.count("\n") == 1


def test_no_command_changes_a_sealed_record(closed: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = {file.name: file.read_bytes() for file in closed.parent.iterdir()}
    notes = str(closed.with_name("walk.txt"))
    assert main(["draft", notes, "--out", str(closed)]) == 2
    assert main(["seal", str(closed), *DECLARED]) == 2
    assert "narrate2report amend" in capsys.readouterr().err.replace("-m ", "")
    assert main(["amend", str(closed), "--out", str(closed)]) == 2
    assert main(["amend", str(closed)]) == 0
    assert main(["show", str(closed)]) == 0
    assert main(["verify", str(closed)]) == 0
    assert {name: closed.with_name(name).read_bytes() for name in before} == before
    assert "walk.addendum-1.findings.json" in capsys.readouterr().out


def test_a_torn_journal_is_not_sealed_over(walk: Path, capsys: pytest.CaptureFixture[str]) -> None:
    decide(walk)
    journal = walk.with_name("walk.journal.jsonl")
    journal.write_bytes(journal.read_bytes()[:-20])
    assert main(["seal", str(walk), *DECLARED]) == 2
    assert "torn off" in capsys.readouterr().err


def test_the_sample_drafted_from_sound_is_sealed_with_its_recording_and_verifies(
    move_in: Drafted, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for file in (move_in.out, move_in.transcript, move_in.recording):
        shutil.copy(file, tmp_path)
    walk = tmp_path / move_in.out.name
    decide(walk)
    assert main(["seal", str(walk), *DECLARED, "--quiet"]) == 0
    assert main(["verify", str(walk)]) == 0
    recording = tmp_path / move_in.recording.name
    whole = recording.read_bytes()
    middle = len(whole) // 2
    recording.write_bytes(whole[:middle] + bytes([whole[middle] ^ 1]) + whole[middle + 1 :])
    capsys.readouterr()
    assert main(["verify", str(walk)]) == 1
    (line, _) = capsys.readouterr().out.splitlines()
    assert line.startswith("files: move-in.mp4: its SHA-256")


def test_a_review_that_was_left_open_neither_changes_a_sealed_record_nor_its_journal(walk: Path) -> None:
    decide(walk)
    desk = Desk(walk)
    assert main(["seal", str(walk), *DECLARED, "--quiet"]) == 0
    before = {file.name: file.read_bytes() for file in walk.parent.iterdir()}
    with pytest.raises(CannotDecide, match="was sealed meanwhile"):
        desk.decide(Undo(), "Ida Pell", len(desk.lines))
    desk.put_down()
    assert {name: walk.with_name(name).read_bytes() for name in before} == before
    assert main(["verify", str(walk), "--quiet"]) == 0
    with pytest.raises(BadInput, match="is sealed"):
        Desk(walk)


def test_an_addendum_is_reviewed_like_any_record_sealed_and_verified_with_what_it_adds_to(
    closed: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["amend", str(closed)]) == 0
    addendum = closed.with_name("walk.addendum-1.findings.json")
    desk = Desk(addendum)
    entry = desk.findings.entries[0]
    desk.decide(Change(entry=entry.id, facts=Facts(note="Filled on the 9th.")), "Ida Pell", 0)
    assert main(["seal", str(addendum), *DECLARED, "--quiet"]) == 0
    assert main(["verify", str(addendum)]) == 0
    assert "adds to walk.findings.json" in capsys.readouterr().out
    record = read_record(addendum, Findings)
    assert record.entries[0].note == "Filled on the 9th."
    closed.unlink()
    assert main(["verify", str(addendum)]) == 1
    assert "addendum: walk.findings.json: the record before it: expected present" in capsys.readouterr().out


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_name_and_statement_are_asked_in_a_terminal(walk: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    decide(walk)
    monkeypatch.setattr(sys, "stdin", Terminal("Ida Pell\n\n"))
    assert main(["seal", str(walk), "--quiet"]) == 0
    seal = read_record(walk, Findings).seal
    assert seal is not None
    assert (seal.sealed_by, seal.statement) == ("Ida Pell", STATEMENT)


@pytest.mark.parametrize(
    ("given", "told"), [([], "--by NAME"), (["--by", "Ida Pell"], "--statement TEXT"), (["--by", " "], "needs a name")]
)
def test_without_a_terminal_they_must_be_given(
    walk: Path,
    given: list[str],
    told: str,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    decide(walk)
    monkeypatch.setattr(sys, "stdin", io.StringIO())
    statement = ["--statement", "As I saw it."] if given == ["--by", " "] else []
    before = walk.read_bytes()
    assert main(["seal", str(walk), *given, *statement]) == 2
    assert told in capsys.readouterr().err
    assert walk.read_bytes() == before


def test_a_key_is_made_signs_and_is_recognised(
    walk: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    decide(walk)
    typed = iter(["open sesame", "open sesame", "open sesame"])
    monkeypatch.setattr("narrate2report.commands.seal.getpass", lambda _: next(typed))
    monkeypatch.setattr(sys, "stdin", Terminal())
    firm, rival = tmp_path / "firm.pem", tmp_path / "rival.pem"
    assert main(["key", "new", str(firm)]) == 0
    assert main(["seal", str(walk), *DECLARED, "--key", str(firm)]) == 0
    monkeypatch.setattr(sys, "stdin", io.StringIO())
    assert main(["key", "new", str(rival)]) == 2
    assert main(["key", "new", str(rival), "--no-passphrase"]) == 0
    capsys.readouterr()
    assert main(["verify", str(walk), "--key", str(tmp_path / "firm.public.pem")]) == 0
    assert "signed with key" in capsys.readouterr().out
    assert main(["verify", str(walk), "--key", str(tmp_path / "rival.public.pem")]) == 1
    assert "the key that signed: expected" in capsys.readouterr().out


def test_a_walk_on_which_nothing_was_to_decide_can_be_sealed_and_verifies(tmp_path: Path) -> None:
    (tmp_path / "walk.txt").write_text("[0:00] Hello there, good morning.\n", encoding="utf-8")
    walk = tmp_path / "walk.findings.json"
    assert main(["draft", str(tmp_path / "walk.txt"), "--out", str(walk), "--quiet"]) == 0
    record = read_record(walk, Findings)
    assert (record.entries, record.coverage) == ((), ())
    assert main(["seal", str(walk), *DECLARED, "--quiet"]) == 0
    assert main(["verify", str(walk)]) == 0
    assert walk.with_name("walk.journal.jsonl").read_text("utf-8").count("\n") == 1


def test_a_seal_that_fails_leaves_no_journal_behind(tmp_path: Path) -> None:
    walk = tmp_path / "walk.findings.json"
    clip = Recording(file="gone.mp4", sha256="a" * 64, bytes=9, duration_s=9.0)
    write_record(walk, hand_made().model_copy(update={"recordings": (clip,)}))
    assert main(["seal", str(walk), *DECLARED, "--quiet"]) == 2
    assert [one.name for one in tmp_path.iterdir() if one.suffix != ".lock"] == [walk.name]


def test_an_open_review_is_told_of_the_seal(walk: Path) -> None:
    decide(walk)
    desk = Desk(walk)
    desk.look()
    assert not progress(desk.findings, desk.lines)["sealed"]
    assert main(["seal", str(walk), *DECLARED, "--quiet"]) == 0
    desk.look()
    seal = read_record(walk, Findings).seal
    told = progress(desk.findings, desk.lines)
    assert seal is not None
    assert (told["sealed"], told["seal"]) == (True, seal.sha256)
    with pytest.raises(CannotDecide, match="was sealed meanwhile"):
        desk.decide(Undo(), "Jo Marr", len(desk.lines))
