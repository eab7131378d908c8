"""From a recording to captions, and from captions to the same entries."""

from __future__ import annotations

from pathlib import Path

import pytest

from narrate2report.cli import main
from narrate2report.records.files import read_record, write_record
from narrate2report.records.findings import Findings
from narrate2report.records.transcript import Transcript
from tests.drafted import Drafted


def meanings(findings: Findings) -> list[str]:
    """What each entry says, apart from where it was said and how sure that is."""
    apart = {"id", "evidence", "confidence", "because", "heard"}
    return sorted(entry.model_dump_json(exclude=apart) for entry in findings.entries)


@pytest.mark.parametrize("ending", [".vtt", ".srt"])
def test_captions_give_the_entries_of_the_recording(move_in: Drafted, tmp_path: Path, ending: str) -> None:
    captions, out = tmp_path / f"walk{ending}", tmp_path / "walk.findings.json"
    assert main(["captions", str(move_in.transcript), "--to", str(captions)]) == 0
    assert main(["draft", str(captions), "--out", str(out), "--quiet"]) == 0
    again = read_record(out, Findings)
    assert meanings(again) == meanings(move_in.findings)
    late = [
        abs(one.evidence[0].start - other.evidence[0].start)
        for one, other in zip(again.entries, move_in.findings.entries, strict=True)
    ]
    assert sum(gap < 2.0 for gap in late) >= 0.9 * len(late)


def two_clips(move_in: Drafted, folder: Path) -> Path:
    transcript = read_record(move_in.transcript, Transcript)
    other = transcript.recordings[0].model_copy(update={"file": "two.mp4"})
    path = folder / "walk.transcript.json"
    write_record(path, transcript.model_copy(update={"recordings": (*transcript.recordings, other)}))
    return path


def test_of_several_clips_one_must_be_named(
    move_in: Drafted, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    source, to = two_clips(move_in, tmp_path), tmp_path / "one.vtt"
    assert main(["captions", str(source), "--to", str(to)]) == 2
    assert "name one with --recording: move-in.mp4, two.mp4" in capsys.readouterr().err
    assert not to.exists()
    assert main(["captions", str(source), "--to", str(to), "--recording", "move-in.mp4"]) == 0
    assert to.read_text(encoding="utf-8").startswith("WEBVTT\n")


@pytest.mark.parametrize(
    ("to", "told"),
    [("walk.txt", "are written as .vtt"), ("nowhere/walk.vtt", "no such folder"), ("mine.vtt", "holds no captions")],
)
def test_captions_that_cannot_be_written_are_refused_in_one_line(
    move_in: Drafted, tmp_path: Path, to: str, told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "mine.vtt").write_text("my own notes", encoding="utf-8")
    assert main(["captions", str(move_in.transcript), "--to", str(tmp_path / to)]) == 2
    line = capsys.readouterr().err
    assert told in line
    assert line.count("\n") == 1
    assert (tmp_path / "mine.vtt").read_text(encoding="utf-8") == "my own notes"
    assert [path.name for path in tmp_path.iterdir()] == ["mine.vtt"]


def test_what_is_no_transcript_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "walk.transcript.json").write_text("{}", encoding="utf-8")
    assert main(["captions", str(tmp_path / "walk.transcript.json"), "--to", str(tmp_path / "walk.vtt")]) == 2
    assert "not a transcript file" in capsys.readouterr().err
