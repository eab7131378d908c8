"""The sample recording from sound to entries, as a newcomer meets it."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path
from urllib.parse import unquote

import pytest
from jsonschema import Draft202012Validator

from narrate2report.cli import main
from narrate2report.listen.aligner import Aligner
from narrate2report.listen.whisper import Whisper
from narrate2report.records.files import read_record
from narrate2report.records.findings import Findings
from narrate2report.records.schema import published
from narrate2report.records.settlement import Settlement
from narrate2report.records.transcript import Transcript
from tests.drafted import SAMPLES, Drafted
from tests.records.media_fragments import temporal
from tests.scoring import load_gold, load_lines, score

README = SAMPLES.parent / "README.md"


def test_its_entries_are_those_marked_by_hand(move_in: Drafted) -> None:
    entries = json.loads(move_in.out.read_text(encoding="utf-8"))["entries"]
    result = score(load_gold(SAMPLES / "move-in.gold.json"), entries, load_lines(SAMPLES / "move-in.times.json"))
    assert result.missed_adverse == ()
    assert result.f1 >= 0.95, (result.missed, result.extra)
    assert result.early_s <= 0.5


def test_every_link_opens_at_most_half_a_second_before_the_first_word(move_in: Drafted) -> None:
    words = [word for stretch in _transcript(move_in).stretches for word in stretch.words]
    for entry in move_in.findings.entries:
        for piece in entry.evidence:
            name, _, fragment = piece.link.partition("#")
            opened = temporal(fragment)
            assert unquote(name) == "move-in.mp4"
            assert opened == (piece.start, piece.end)
            first = next(word for word in words if word.end > piece.start)
            assert first.text.strip(" ,.").lower() in piece.quote.lower()
            assert 0 <= first.start - piece.start <= 0.5


def test_quotes_are_the_transcripts_own_words(move_in: Drafted) -> None:
    said = " ".join(stretch.text for stretch in _transcript(move_in).stretches)
    for entry in move_in.findings.entries:
        for piece in entry.evidence:
            assert piece.quote in said


def test_both_files_are_what_their_schemas_say(move_in: Drafted) -> None:
    for path, schema in (
        (move_in.out, "findings.schema.json"),
        (move_in.transcript, "transcript.schema.json"),
    ):
        Draft202012Validator(published(schema)).validate(json.loads(path.read_text(encoding="utf-8")))


def test_a_second_run_hears_nothing_again_and_gives_the_same_bytes(
    move_in: Drafted, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for path in (move_in.out, move_in.transcript, move_in.heard):
        shutil.copy(path, tmp_path)
    monkeypatch.setattr(Whisper, "hear", _never)
    monkeypatch.setattr(Aligner, "likelihoods", _never)
    again = tmp_path / move_in.out.name
    assert main(["draft", str(move_in.recording), "--out", str(again), "--quiet"]) == 0
    for path in (move_in.out, move_in.transcript, move_in.heard):
        assert (tmp_path / path.name).read_bytes() == path.read_bytes()


def test_holding_words_against_the_sound_changes_nothing_of_what_was_heard(
    move_in: Drafted, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shutil.copy(move_in.heard, tmp_path)
    monkeypatch.setattr(Whisper, "hear", _never)
    monkeypatch.setattr(Aligner, "likelihoods", _never)
    again = tmp_path / move_in.out.name
    assert main(["draft", str(move_in.recording), "--out", str(again), "--quiet", "--repair-by-text"]) == 0
    assert (tmp_path / move_in.transcript.name).read_bytes() == move_in.transcript.read_bytes()
    by_text = read_record(again, Findings)
    assert not [one for entry in by_text.entries for one in entry.heard if one.sound or one.asked]


def test_the_kept_transcript_reads_as_its_recording_does_without_asking_the_sound(
    move_in: Drafted, tmp_path: Path
) -> None:
    out, by_text = tmp_path / "again.findings.json", tmp_path / "text" / move_in.out.name
    assert main(["draft", str(move_in.transcript), "--out", str(out), "--quiet"]) == 0
    assert list(tmp_path.iterdir()) == [out]
    by_text.parent.mkdir()
    shutil.copy(move_in.heard, by_text.parent)
    assert main(["draft", str(move_in.recording), "--out", str(by_text), "--quiet", "--repair-by-text"]) == 0
    assert out.read_bytes() == by_text.read_bytes()
    apart = {"heard", "confidence", "because"}
    told = [
        [one.model_dump(exclude=apart) for one in read_record(path, Findings).entries] for path in (out, move_in.out)
    ]
    assert told[0] == told[1], "on the sample the sound changes no entry"


def test_a_run_that_is_stopped_goes_on_where_it_was(
    move_in: Drafted, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    kept = move_in.heard.read_bytes().splitlines(keepends=True)
    windows = [line for line in kept if b'"words"' in line]
    half = windows[: len(windows) // 2]
    (tmp_path / move_in.heard.name).write_bytes(b"".join(half))
    out = tmp_path / move_in.out.name
    with monkeypatch.context() as patched:
        patched.setattr(Whisper, "hear", _stop)
        assert main(["draft", str(move_in.recording), "--out", str(out), "--quiet"]) == 130
    assert capsys.readouterr().err.count("\n") == 1
    assert [path.name for path in tmp_path.iterdir()] == [move_in.heard.name]
    assert (tmp_path / move_in.heard.name).read_bytes() == b"".join(half)


def test_a_run_that_is_stopped_while_it_weighs_keeps_all_that_was_heard(
    move_in: Drafted, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    kept = [line for line in move_in.heard.read_bytes().splitlines(keepends=True) if b'"weights"' not in line]
    (tmp_path / move_in.heard.name).write_bytes(b"".join(kept))
    again = tmp_path / move_in.out.name
    with monkeypatch.context() as patched:
        patched.setattr(Aligner, "likelihoods", _stop)
        assert main(["draft", str(move_in.recording), "--out", str(again), "--quiet"]) == 130
    assert capsys.readouterr().err.count("\n") == 1
    assert (tmp_path / move_in.heard.name).read_bytes() == b"".join(kept)
    monkeypatch.setattr(Whisper, "hear", _never)
    assert main(["draft", str(move_in.recording), "--out", str(again), "--quiet"]) == 0
    assert again.read_bytes() == move_in.out.read_bytes()


def test_the_demo_names_every_file_and_the_next_commands(
    move_in: Drafted, move_out: Drafted, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for name, drafted in (("move-in", move_in), ("move-out", move_out)):
        shutil.copy(drafted.heard, tmp_path / f".{name}.heard.jsonl")
    assert main(["demo", "--folder", str(tmp_path)]) == 0
    told = capsys.readouterr().out
    made = [path for path in tmp_path.iterdir() if not path.name.startswith(".")]
    assert {path.name for path in made} == {
        *("move-in.mp4", "move-in.findings.json", "move-in.transcript.json", "judged.yaml", "unit.yaml"),
        *("move-out.mp4", "move-out.findings.json", "move-out.transcript.json"),
        *("changes.json", "changes.journal.jsonl", "flat.settlement.json", "flat.letter.txt"),
        *("flat.statement.resident.pdf", "flat.statement.resident.html"),
    }
    for path in made:
        assert str(path) in told or path.suffix in {".jsonl", ".yaml"} or path.name == "move-out.transcript.json"
    assert f"narrate2report show {tmp_path / 'move-in.findings.json'}" in told
    _as_the_readme_says(read_record(tmp_path / "flat.settlement.json", Settlement))
    before = {path: path.read_bytes() for path in made}
    assert main(["demo", "--folder", str(tmp_path)]) == 0
    assert "which stands" in capsys.readouterr().out
    assert {path: path.read_bytes() for path in made} == before


def _as_the_readme_says(settlement: Settlement) -> None:
    """Every amount of its table is in the settlement, with its sign, and no other."""
    table = README.read_text(encoding="utf-8").partition("| line | amount | how |")[2].partition("\n\n")[0]
    told = [
        amount.replace(",", "") for amount in re.findall(r"^\|[^|]+\| \**([−+]? ?[\d,.]+)\** \|", table, re.MULTILINE)
    ]
    assert settlement.interest is not None
    sums = [f"{'−' if one.owed_by == 'resident' else '+'} {one.amount}" for one in settlement.sums]
    charges = [f"− {charge.amount}" for charge in settlement.charges]
    balance = settlement.balance
    assert told == [str(balance.held), f"+ {settlement.interest.amount}", *sums, *charges, str(balance.amount)]
    assert balance.to == "resident"
    days = {due.day.isoformat() for due in settlement.due if due.day}
    assert days == {"2026-06-06"}
    assert {str(due.plan_by) for due in settlement.due} == {"2026-06-05"}
    assert "provisional, since nobody reviewed the two drafts" in README.read_text(encoding="utf-8")
    assert ["no person has decided" in reason for reason in settlement.provisional_because] == [True, True]


def test_the_demo_overwrites_no_recording_of_yours(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    yours = tmp_path / "move-in.mp4"
    yours.write_bytes(b"mine")
    assert main(["demo", "--folder", str(tmp_path)]) == 2
    assert "another file than the sample's" in capsys.readouterr().err
    assert yours.read_bytes() == b"mine"


def _transcript(drafted: Drafted) -> Transcript:
    return read_record(drafted.transcript, Transcript)


def _never(*_: object) -> None:
    raise AssertionError("it was listened to again")


def _stop(*_: object) -> None:
    raise KeyboardInterrupt
