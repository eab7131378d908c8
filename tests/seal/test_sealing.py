"""What a seal holds, and what is refused one."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

import pytest
import rfc8785

from narrate2report.errors import BadInput, BrokenRecord, NarrateError
from narrate2report.records.files import write_record
from narrate2report.records.findings import Findings
from narrate2report.seal.decided import Decided
from narrate2report.seal.sealing import STATEMENT, Sealer, sealed
from narrate2report.seal.verifying import verify
from tests.seal.conftest import NOON
from tests.seal.walk import draft, lay_out, on_disk, review, transcript

IDA = Sealer("Ida Pell", STATEMENT)


def seal_of(path: Path) -> Findings:
    return sealed(Decided(on_disk(path)), path, IDA, NOON)


def test_a_seal_names_who_when_what_and_every_file(ready: Path) -> None:
    seal = seal_of(ready).seal
    assert seal is not None
    assert (seal.sealed_by, seal.sealed_at, seal.statement) == ("Ida Pell", "2026-03-06T12:00:00Z", STATEMENT)
    assert [(file.role, file.file) for file in seal.files] == [
        ("recording", "walk.mp4"),
        ("transcript", "walk.transcript.json"),
        ("still", "walk.stills/e1-1.png"),
        ("journal", "walk.journal.jsonl"),
    ]
    for file in seal.files:
        raw = (ready.parent / file.file).read_bytes()
        assert (file.bytes, file.sha256) == (len(raw), hashlib.sha256(raw).hexdigest())


def test_its_hash_can_be_made_again_from_the_file_by_anybody(closed: Path) -> None:
    content = json.loads(closed.read_bytes())
    sha256 = content["seal"].pop("sha256")
    del content["seal"]["signature"]
    assert hashlib.sha256(rfc8785.dumps(content)).hexdigest() == sha256


def test_the_same_record_sealed_at_the_same_moment_has_the_same_bytes(ready: Path, tmp_path: Path) -> None:
    for name in ("one.json", "two.json"):
        write_record(tmp_path / name, seal_of(ready))
    assert (tmp_path / "one.json").read_bytes() == (tmp_path / "two.json").read_bytes()


@pytest.mark.parametrize("name", ["walk.mp4", "walk.transcript.json", "walk.journal.jsonl", "walk.stills/e1-1.png"])
def test_a_missing_file_is_named(ready: Path, name: str) -> None:
    (ready.parent / name).unlink()
    with pytest.raises(BadInput, match=f"{Path(name).name}: the .+ is missing"):
        seal_of(ready)


@pytest.mark.parametrize("name", ["walk.mp4", "walk.stills/e1-1.png"])
def test_another_recording_or_picture_is_refused(ready: Path, name: str) -> None:
    (ready.parent / name).write_bytes(b"another")
    with pytest.raises(BadInput, match=f"{Path(name).name}: is not the"):
        seal_of(ready)


@pytest.mark.parametrize("kept", [True, False], ids=["notes kept", "notes gone"])
def test_a_record_of_notes_is_sealed_with_the_notes_where_they_lie_there(tmp_path: Path, *, kept: bool) -> None:
    whole = draft()
    notes = whole.recordings[0].model_copy(update={"media": False, "duration_s": None})
    path = lay_out(tmp_path, review(whole.model_copy(update={"recordings": (notes,)})))
    (tmp_path / "walk.transcript.json").unlink()
    if not kept:
        (tmp_path / "walk.mp4").unlink()
    record = seal_of(path)
    assert record.seal is not None
    roles = [file.role for file in record.seal.files]
    assert roles == [*(["recording"] if kept else []), "still", "journal"]
    write_record(path, record)
    assert verify(path).mismatches == ()


def test_words_that_were_never_said_are_not_sealed(ready: Path) -> None:
    told = transcript()
    other = told.stretches[0].model_copy(update={"text": "There's no chip on the counter."})
    write_record(
        ready.with_name("walk.transcript.json"), told.model_copy(update={"stretches": (other, *told.stretches[1:])})
    )
    with pytest.raises(BrokenRecord, match=r"would not verify: evidence: entry e1: its words.*and 1 more"):
        seal_of(ready)


def test_a_record_changed_behind_its_journal_is_not_sealed(ready: Path) -> None:
    record = on_disk(ready)
    entry = record.entries[0].model_copy(update={"severity": "severe"})
    write_record(ready, record.model_copy(update={"entries": (entry, *record.entries[1:])}))
    with pytest.raises(BrokenRecord, match="line 3 of the journal: left entry e1 otherwise"):
        seal_of(ready)


def test_a_sealed_record_is_not_sealed_again(closed: Path) -> None:
    with pytest.raises(BadInput, match="sealed already"):
        seal_of(closed)


@pytest.mark.parametrize(
    ("by", "statement"),
    [
        (" ", STATEMENT),
        ("Ida Pell", ""),
        ("Ida\x1b[31m", STATEMENT),
        ("\u200b\ufeff", STATEMENT),
        ("Ida Pell", " \u2060 "),
    ],
)
def test_nobody_seals_without_a_name_and_a_statement(by: str, statement: str) -> None:
    with pytest.raises(NarrateError, match="a seal needs a"):
        Sealer(by, statement)


@pytest.mark.parametrize("name", ["../walk.mp4", "/etc/passwd", "..", "", "a\\b.mp4", "C:walk.mp4"])
def test_no_file_outside_the_folder_is_covered(ready: Path, name: str) -> None:
    record = on_disk(ready)
    recording = record.recordings[0].model_copy(update={"file": name})
    with pytest.raises(BrokenRecord, match="outside its own folder"):
        sealed(Decided(record.model_copy(update={"recordings": (recording,)})), ready, IDA, NOON)
