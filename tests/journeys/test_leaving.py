"""From a record to what leaves the office beside the report: what the commands write, say and refuse."""

from __future__ import annotations

import csv
import hashlib
import json
import os
from pathlib import Path

import av
import openpyxl
import pytest

from narrate2report.cli import main
from narrate2report.records.beside import transcript_beside
from narrate2report.records.files import read_record, write_record
from narrate2report.records.findings import Findings
from narrate2report.records.transcript import Transcript
from narrate2report.seal.decided import Decided
from narrate2report.seal.sealing import STATEMENT, Sealer, sealed
from tests.drafted import SAMPLES, Drafted
from tests.intake.films import TEN_A_SECOND, write_film
from tests.intake.recordings import Kind, beeps, write_recording
from tests.publish import ics
from tests.seal.walk import draft, lay_out, on_disk

COMMANDS = ("worklist", "chapters")


@pytest.fixture
def walk(tmp_path: Path) -> Path:
    """A walk that is decided to the last gap; its recording is no film."""
    (tmp_path / "walk").mkdir()
    return lay_out(tmp_path / "walk")


@pytest.fixture
def closed(walk: Path) -> Path:
    write_record(walk, sealed(Decided(on_disk(walk)), walk, Sealer("Ida Pell", STATEMENT)))
    return walk


def files_of(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def told(walk: Path) -> list[dict[str, str]]:
    with (walk.parent / "out" / "walk.worklist.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_the_list_lies_in_its_folder_in_three_forms_and_nothing_else_changed(
    walk: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = files_of(walk.parent)
    folder = walk.parent.parent / "new" / "papers"
    assert main(["worklist", str(walk), "--to", str(folder)]) == 0
    assert sorted(files_of(folder)) == ["walk.worklist.csv", "walk.worklist.ics", "walk.worklist.xlsx"]
    assert capsys.readouterr().out.count("Reviewed, not sealed, 1 line") == 3
    assert files_of(walk.parent) == before
    sheet = openpyxl.load_workbook(folder / "walk.worklist.xlsx")["Work list"]
    links = {str(cell.hyperlink.target).replace("\\", "/") for cell in sheet[3] if cell.hyperlink}
    assert "../../walk/walk.mp4" in links
    assert len(ics.read((folder / "walk.worklist.ics").read_bytes()).inside) == 1


def test_decisions_that_only_the_journal_holds_count(walk: Path) -> None:
    write_record(walk, draft())
    assert main(["worklist", str(walk), "--to", str(walk.parent / "out"), "--only", "csv", "--quiet"]) == 0
    (row,) = told(walk)
    assert (row["Part"], row["Reviewed"], row["Record"]) == ("Countertop", "yes", "Reviewed, not sealed")


def test_a_missing_recording_leaves_the_time_without_a_link(walk: Path) -> None:
    (walk.parent / "walk.mp4").unlink()
    (walk.parent / "walk.stills" / "e1-1.png").unlink()
    assert main(["worklist", str(walk), "--to", str(walk.parent / "out"), "--quiet"]) == 0
    (row,) = told(walk)
    assert (row["Time"], row["Link"]) == ("1:15", "")
    assert row["Picture"] == "walk.stills/e1-1.png (its file is missing)"


def test_links_go_to_where_the_firm_keeps_its_videos(walk: Path) -> None:
    base = "https://films.example/{file}?at={seconds}"
    assert main(["worklist", str(walk), "--to", str(walk.parent / "out"), "--link-base", base, "--quiet"]) == 0
    assert told(walk)[0]["Link"] == "https://films.example/walk.mp4?at=75.30"
    calendar = ics.read((walk.parent / "out" / "walk.worklist.ics").read_bytes())
    assert calendar.inside[0].raw("URL") == "https://films.example/walk.mp4?at=75.30"


def test_a_seal_is_named_in_every_file(closed: Path) -> None:
    write_film(closed.parent / "other.mp4")
    seal = on_disk(closed).seal
    assert seal is not None
    out = closed.parent / "out"
    assert main(["worklist", str(closed), "--to", str(out), "--quiet"]) == 0
    assert main(["chapters", str(closed), "--to", str(out), "--only", "vtt", "--quiet"]) == 0
    assert main(["annotations", str(closed), "--to", str(out / "walk.jsonld")]) == 0
    assert told(closed)[0]["Record"] == f"Sealed, SHA-256 {seal.sha256}"
    calendar = ics.read((out / "walk.worklist.ics").read_bytes())
    assert seal.sha256 in calendar.inside[0].text("DESCRIPTION")
    assert seal.sha256 in str(openpyxl.load_workbook(out / "walk.worklist.xlsx")["Work list"]["A1"].value)
    assert seal.sha256 in (out / "walk.chapters.vtt").read_text(encoding="utf-8")
    assert seal.sha256 in json.loads((out / "walk.jsonld").read_text(encoding="utf-8"))["label"]


@pytest.mark.parametrize("command", ["worklist", "chapters", "annotations"])
def test_nothing_is_made_of_a_record_that_no_longer_matches_its_seal(
    closed: Path, command: str, capsys: pytest.CaptureFixture[str]
) -> None:
    closed.write_bytes(closed.read_bytes().replace(b'"chip"', b'"dent"'))
    to = closed.parent / ("out.jsonld" if command == "annotations" else "out")
    assert main([command, str(closed), "--to", str(to)]) == 2
    assert "does not match its seal" in capsys.readouterr().err
    assert not to.exists()


@pytest.mark.parametrize("command", COMMANDS)
def test_a_folder_that_is_a_file_is_refused_in_one_line(
    walk: Path, command: str, capsys: pytest.CaptureFixture[str]
) -> None:
    only = ["--only", "vtt"] if command == "chapters" else []
    assert main([command, str(walk), "--to", str(walk), *only]) == 2
    assert capsys.readouterr().err.count("\n") == 1


@pytest.mark.parametrize("command", ["worklist", "annotations"])
def test_a_link_base_that_is_no_web_address_is_refused(
    walk: Path, command: str, capsys: pytest.CaptureFixture[str]
) -> None:
    to = walk.parent / ("out.jsonld" if command == "annotations" else "out")
    assert main([command, str(walk), "--to", str(to), "--link-base", "javascript:alert(1)"]) == 2
    assert "no web address" in capsys.readouterr().err
    assert not to.exists()


def filmed(folder: Path, recording: Path, **facts: object) -> Path:
    """The walk of the tests, about a recording that can be played."""
    file = lay_out(folder)
    file.with_name("walk.journal.jsonl").unlink()
    (folder / "walk.mp4").unlink()
    raw = recording.read_bytes()
    one = draft().recordings[0]
    known = {"file": recording.name, "sha256": hashlib.sha256(raw).hexdigest(), "bytes": len(raw), "duration_s": 4.0}
    one = one.model_copy(update=known | facts)
    pieces = [
        entry.evidence[0].model_copy(update={"recording": one.file, "start": 1.5, "end": 2.5})
        for entry in draft().entries
    ]
    entries = [
        entry.model_copy(update={"evidence": (piece,)}) for entry, piece in zip(draft().entries, pieces, strict=True)
    ]
    write_record(file, draft().model_copy(update={"recordings": (one,), "entries": tuple(entries)}))
    heard = read_record(transcript_beside(file), Transcript)
    said = [heard.stretches[0].model_copy(update={"recording": one.file, "start": 1.5, "end": 2.5})]
    write_record(transcript_beside(file), heard.model_copy(update={"recordings": (one,), "stretches": tuple(said)}))
    return file


def titles(film: Path) -> list[tuple[float, str]]:
    with av.open(str(film)) as container:
        return [
            (float(one["start"] * one["time_base"]), one["metadata"]["title"])
            for one in container.chapters()
            if one["time_base"]
        ]


def test_a_film_gets_chapters_and_captions_and_stays_as_it_is(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = filmed(tmp_path, write_film(tmp_path / "hall.mp4"))
    before = files_of(tmp_path)
    out = tmp_path / "films"
    assert main(["chapters", str(file), "--to", str(out)]) == 0
    assert sorted(files_of(out)) == ["hall.chapters.mp4", "hall.chapters.vtt"]
    assert {name: content for name, content in files_of(tmp_path).items() if not name.startswith("films")} == before
    assert titles(out / "hall.chapters.mp4") == [
        (0.0, "Condition report, unit 2B (DRAFT – not fully reviewed)"),
        (1.5, "Kitchen, countertop: chip; Kitchen, backsplash: chip"),
    ]
    assert "2 chapters, 1 caption" in capsys.readouterr().out
    with av.open(str(out / "hall.chapters.mp4")) as container:
        assert [stream.type for stream in container.streams][:2] == ["video", "subtitle"]


def test_sound_alone_gets_chapters_too(tmp_path: Path) -> None:
    file = filmed(tmp_path, write_recording(tmp_path / "hall.m4a", Kind(".m4a", "aac"), beeps(48_000)))
    assert main(["chapters", str(file), "--to", str(tmp_path), "--only", "video", "--quiet"]) == 0
    assert [start for start, _ in titles(tmp_path / "hall.chapters.m4a")] == [0.0, 1.5]


def test_a_copy_without_a_transcript_or_with_that_of_another_recording_has_no_captions(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = filmed(tmp_path, write_film(tmp_path / "hall.mp4"))
    heard = read_record(transcript_beside(file), Transcript)
    other = heard.recordings[0].model_copy(update={"sha256": "e" * 64})
    write_record(transcript_beside(file), heard.model_copy(update={"recordings": (other,)}))
    assert main(["chapters", str(file), "--to", str(tmp_path), "--only", "video"]) == 0
    transcript_beside(file).unlink()
    assert main(["chapters", str(file), "--to", str(tmp_path), "--only", "video"]) == 0
    assert capsys.readouterr().out.count("no captions") == 2


def test_a_missing_or_other_recording_is_refused_before_anything_is_written(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = filmed(tmp_path, write_film(tmp_path / "hall.mp4"))
    write_film(tmp_path / "hall.mp4", times_s=TEN_A_SECOND[:9])
    for _ in range(2):
        assert main(["chapters", str(file), "--to", str(tmp_path / "films")]) == 2
        line = capsys.readouterr().err
        assert "hall.mp4 does not lie beside it as it was recorded" in line
        assert line.count("\n") == 1
        assert not (tmp_path / "films").exists()
        (tmp_path / "hall.mp4").unlink(missing_ok=True)
    assert main(["chapters", str(file), "--to", str(tmp_path / "films"), "--only", "vtt"]) == 0


def test_another_recording_of_the_same_name_and_size_gets_no_chapters(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    film = write_film(tmp_path / "hall.mp4")
    file = filmed(tmp_path, film)
    raw = film.read_bytes()
    film.write_bytes(raw[:-1] + bytes([raw[-1] ^ 1]))
    assert main(["chapters", str(file), "--to", str(tmp_path / "films")]) == 2
    assert "does not lie beside it as it was recorded" in capsys.readouterr().err


def test_a_walk_read_from_a_transcript_has_chapters_but_no_copy(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = filmed(tmp_path, write_film(tmp_path / "hall.mp4"), media=False)
    assert main(["chapters", str(file), "--to", str(tmp_path / "films")]) == 2
    assert "was made from a transcript" in capsys.readouterr().err
    assert main(["chapters", str(file), "--to", str(tmp_path / "films"), "--only", "vtt", "--quiet"]) == 0
    assert "backsplash" in (tmp_path / "films" / "hall.chapters.vtt").read_text(encoding="utf-8")


def test_no_recording_is_ever_written_over(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    film = write_film(tmp_path / "hall.chapters.mp4")
    file = filmed(tmp_path, film)
    link = tmp_path / "films" / "hall.chapters.chapters.mp4"
    link.parent.mkdir()
    link.symlink_to(film)
    before = film.read_bytes()
    assert main(["chapters", str(file), "--to", str(link.parent), "--only", "video"]) == 2
    assert "is a recording of this walk" in capsys.readouterr().err
    link.unlink()
    os.link(film, link)
    assert main(["chapters", str(file), "--to", str(link.parent), "--only", "video", "--quiet"]) == 0
    assert film.read_bytes() == before


def test_annotations_name_the_recording_as_it_is_reached_from_their_file(walk: Path) -> None:
    (walk.parent / "out").mkdir()
    to = walk.parent / "out" / "walk.jsonld"
    assert main(["annotations", str(walk), "--to", str(to)]) == 0
    (one,) = json.loads(to.read_text(encoding="utf-8"))["first"]["items"]
    assert one["target"]["source"]["id"] == "../walk.mp4"
    assert main(["annotations", str(walk), "--to", str(to), "--link-base", "https://films.example/v/"]) == 0
    (one,) = json.loads(to.read_text(encoding="utf-8"))["first"]["items"]
    assert one["target"]["source"]["id"] == "https://films.example/v/walk.mp4"


@pytest.mark.parametrize(
    ("to", "more", "told"),
    [
        ("walk.txt", (), "are written as .jsonld"),
        ("nowhere/walk.jsonld", (), "no such folder"),
        ("mine.json", (), "holds no annotations"),
        ("walk.jsonld", ("--link-base", "https://films.example/{file}?at={seconds}"), "leave {seconds} out"),
    ],
)
def test_annotations_that_cannot_be_written_are_refused_in_one_line(
    walk: Path, to: str, more: tuple[str, ...], told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    (walk.parent / "mine.json").write_text("{}", encoding="utf-8")
    before = files_of(walk.parent)
    assert main(["annotations", str(walk), "--to", str(walk.parent / to), *more]) == 2
    line = capsys.readouterr().err
    assert told in line
    assert line.count("\n") == 1
    assert files_of(walk.parent) == before


def test_the_sample_becomes_a_film_in_which_each_chapter_is_a_room_or_the_start_of_an_entry(
    move_in: Drafted, tmp_path: Path
) -> None:
    record = tmp_path / "move-in.findings.json"
    record.write_bytes(move_in.out.read_bytes())
    transcript_beside(record).write_bytes(move_in.transcript.read_bytes())
    (tmp_path / "move-in.mp4").write_bytes((SAMPLES / "move-in.mp4").read_bytes())
    assert main(["chapters", str(record), "--to", str(tmp_path / "films"), "--quiet"]) == 0
    findings = read_record(record, Findings)
    wanted = {visit.start for visit in findings.rooms} | {
        piece.start for one in findings.entries for piece in one.evidence
    }
    made = titles(tmp_path / "films" / "move-in.chapters.mp4")
    assert [start for start, _ in made] == pytest.approx(sorted(wanted | {0.0}), abs=0.0005)
