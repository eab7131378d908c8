"""From a record to a paper: what the command writes, what it says of what is missing, and when it writes nothing."""

from __future__ import annotations

import hashlib
import tempfile
from pathlib import Path

import numpy as np
import pytest

from narrate2report.cli import main
from narrate2report.intake.frames import Frame
from narrate2report.intake.still_file import as_png
from narrate2report.records.files import write_record
from narrate2report.seal.decided import Decided
from narrate2report.seal.sealing import STATEMENT, Sealer, sealed
from tests.publish.pdf import ReadBack
from tests.publish.test_report_pdf import png
from tests.seal.walk import draft, lay_out, on_disk


@pytest.fixture
def walk(tmp_path: Path) -> Path:
    """A walk that is decided to the last gap, with its recording, journal and still."""
    (tmp_path / "walk").mkdir()
    return lay_out(tmp_path / "walk")


@pytest.fixture
def closed(walk: Path) -> Path:
    write_record(walk, sealed(Decided(on_disk(walk)), walk, Sealer("Ida Pell", STATEMENT)))
    return walk


def printed(walk: Path, *more: str) -> ReadBack:
    folder = Path(tempfile.mkdtemp(dir=walk.parent))
    assert main(["report", str(walk), "--to", str(folder), "--only", "pdf", "--quiet", *more]) == 0
    (made,) = folder.iterdir()
    assert made.suffix == ".pdf"
    return ReadBack(made.read_bytes())


def test_the_paper_lies_in_its_folder_and_nothing_else_changed(walk: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = {path: path.read_bytes() for path in walk.parent.rglob("*") if path.is_file()}
    folder = walk.parent.parent / "new" / "papers"
    assert main(["report", str(walk), "--to", str(folder)]) == 0
    assert sorted(path.name for path in folder.iterdir()) == ["walk.resident.html", "walk.resident.pdf"]
    assert "Reviewed, not sealed, for the resident" in capsys.readouterr().out
    assert {path: path.read_bytes() for path in walk.parent.rglob("*") if path.is_file()} == before
    read = ReadBack((folder / "walk.resident.pdf").read_bytes())
    assert set(read.links) == {"../../walk/walk.mp4#t=75.30,78.30"}


def test_decisions_that_only_the_journal_holds_are_printed(walk: Path) -> None:
    write_record(walk, draft())
    read = printed(walk)
    assert "DRAFT" not in read.text
    assert "Backsplash" not in read.text  # dropped
    assert "not looked at: sink" in read.text


def test_a_draft_is_a_draft(walk: Path) -> None:
    walk.with_name("walk.journal.jsonl").unlink()
    write_record(walk, draft())
    read = printed(walk)
    assert all("DRAFT" in page for page in read.pages)
    assert "2 entries and 1 part not spoken of still to be decided" in read.text


def test_a_sealed_record_shows_its_seal_and_what_it_proves(closed: Path) -> None:
    read = printed(closed)
    seal = on_disk(closed).seal
    assert seal is not None
    assert "Sealed. Closed by Ida Pell" in read.text
    assert "Sealed by Ida Pell" in read.text
    assert seal.sha256 in read.text.replace(" ", "")
    assert "What it does not prove" in read.text


@pytest.mark.parametrize("reader", ["resident", "owner", "office"])
def test_a_record_that_no_longer_matches_its_seal_is_not_printed(
    closed: Path, reader: str, capsys: pytest.CaptureFixture[str]
) -> None:
    closed.write_bytes(closed.read_bytes().replace(b'"chip"', b'"dent"'))
    folder = closed.parent / "out"
    assert main(["report", str(closed), "--to", str(folder), "--for", reader]) == 2
    assert "does not match its seal" in capsys.readouterr().err
    assert not folder.exists()


def test_a_recording_or_picture_that_is_missing_is_said_where_it_would_stand(walk: Path) -> None:
    (walk.parent / "walk.mp4").unlink()
    (walk.parent / "walk.stills" / "e1-1.png").unlink()
    read = printed(walk)
    assert read.links == []
    assert "It did not lie beside the record when this report was made." in read.text
    assert "Picture not shown: its file is missing." in read.text


def test_another_recording_or_picture_under_the_same_name_is_not_shown(walk: Path) -> None:
    (walk.parent / "walk.mp4").write_bytes(b"another")
    (walk.parent / "walk.stills" / "e1-1.png").write_bytes(png())
    read = printed(walk)
    assert read.links == []
    assert "another one: its size differs" in read.text
    assert "its file is not the picture that was taken" in read.text


def test_a_file_that_is_no_picture_is_said_in_its_place(walk: Path) -> None:
    assert "its file is no picture that can be printed" in printed(walk).text


def test_links_go_to_where_the_firm_keeps_its_videos(walk: Path) -> None:
    (walk.parent / "walk.mp4").unlink()
    read = printed(walk, "--link-base", "https://films.example/{file}?at={seconds}")
    assert set(read.links) == {"https://films.example/walk.mp4?at=75.30"}


@pytest.mark.parametrize("base", ["javascript:alert(1)", "films.example", "https://", "file:///etc", "https://a b/"])
def test_a_link_base_that_is_no_web_address_is_refused(
    walk: Path, base: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["report", str(walk), "--to", str(walk.parent / "out"), "--link-base", base]) == 2
    assert "no web address" in capsys.readouterr().err


def test_a_folder_that_is_a_file_is_refused_in_one_line(walk: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["report", str(walk), "--to", str(walk)]) == 2
    assert capsys.readouterr().err.count("\n") == 1


def test_the_paper_of_the_office_holds_what_gave_no_entry(walk: Path) -> None:
    assert "Okay, moving on." in printed(walk, "--for", "office").text
    assert "Okay, moving on." not in printed(walk, "--for", "owner").text
    assert "Okay, moving on." not in printed(walk).text


@pytest.mark.parametrize(("longest", "width"), [(1000, 80), (32, 32)])
def test_pictures_are_printed_as_taken_or_smaller_where_there_are_very_many(
    walk: Path, monkeypatch: pytest.MonkeyPatch, longest: int, width: int
) -> None:
    monkeypatch.setattr("narrate2report.commands.at_hand.longest_side", lambda _: longest)
    place = walk.parent / "walk.stills" / "e1-1.png"
    place.write_bytes(as_png(Frame(time_s=0.0, pixels=np.full((40, 80, 3), 90, np.uint8))))
    taken = hashlib.sha256(place.read_bytes()).hexdigest()
    walk.with_name("walk.journal.jsonl").unlink()
    record = on_disk(walk)
    stills = (record.entries[0].stills[0].model_copy(update={"sha256": taken}),)
    entries = (record.entries[0].model_copy(update={"stills": stills}), *record.entries[1:])
    write_record(walk, record.model_copy(update={"entries": entries}))
    read = printed(walk)
    assert read.picture_widths == [width]
    assert "Picture at 1:16" in read.text
    assert hashlib.sha256(place.read_bytes()).hexdigest() == taken


@pytest.mark.parametrize(
    ("more", "name"),
    [
        ((), "walk.resident.pdf"),
        (("--for", "owner"), "walk.owner.pdf"),
        (("--for", "office"), "walk.office.pdf"),
        (("--language", "es"), "walk.resident.es.pdf"),
    ],
)
def test_the_name_of_the_file_says_for_whom_it_is(walk: Path, more: tuple[str, ...], name: str) -> None:
    folder = walk.parent / "out"
    assert main(["report", str(walk), "--to", str(folder), "--only", "pdf", "--quiet", *more]) == 0
    assert [path.name for path in folder.iterdir()] == [name]


def test_the_resident_may_read_it_in_spanish(walk: Path) -> None:
    read = printed(walk, "--language", "es", "--response-days", "14")
    assert read.root["/Lang"] == "es"
    assert all("Traducción de cortesía" in page for page in read.pages)
    assert "Encimera" in read.text
    assert "There's a chip on the counter." in read.text
    assert "en un plazo de 14 días" in read.text


def test_only_the_residents_copy_is_translated(walk: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = walk.parent / "out"
    assert main(["report", str(walk), "--to", str(folder), "--language", "es", "--for", "office"]) == 2
    assert "only the resident's copy is translated" in capsys.readouterr().err
    assert not folder.exists()


@pytest.mark.parametrize("days", ["0", "-3", "366", "fourteen", "1.5", "٣", "9" * 5000])
def test_days_that_are_none_are_refused(walk: Path, days: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["report", str(walk), "--to", str(walk.parent / "out"), f"--response-days={days}"]) == 2
    assert "a number of days from 1 to 365" in capsys.readouterr().err


def test_the_sealed_record_in_the_copy_of_the_office_still_verifies(closed: Path) -> None:
    read = printed(closed, "--for", "office")
    content = read.attachments["walk.findings.json"][1]
    assert content == closed.read_bytes()
    captions = read.attachments["walk.vtt"][1].decode()
    assert "There's a chip on the counter." in captions
    assert "moving on." in captions
    closed.write_bytes(content)
    assert main(["verify", str(closed), "--quiet"]) == 0


def test_the_copy_of_the_resident_holds_no_more_than_it_tells(closed: Path) -> None:
    read = printed(closed)
    content = b"".join(inside for _, inside in read.attachments.values()).decode()
    assert set(read.attachments) == {"walk.resident.json", "walk.vtt"}
    assert "backsplash" not in content  # dropped
    assert "Okay, moving on." not in content


def test_labels_of_ones_own_are_printed(walk: Path) -> None:
    (walk.parent / "words").mkdir()
    (walk.parent / "words" / "labels_es.yaml").write_text("components:\n  countertop: mesada\n", "utf-8")
    assert "Mesada" in printed(walk, "--language", "es", "--vocab", str(walk.parent / "words")).text
