"""A file of ours is the old one or the new one, whatever happens while it is written."""

from __future__ import annotations

import errno
import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings

from narrate2report.errors import BadInput, BrokenRecord, NarrateError, NoRoom
from narrate2report.records.files import read_record, record_json, write_record, write_whole
from narrate2report.records.findings import Findings
from narrate2report.records.transcript import Transcript
from tests.records import makers

same_folder = settings(suppress_health_check=[HealthCheck.function_scoped_fixture])


class PulledPlug(BaseException):
    """The machine stops here: nothing after this runs, as with a power cut seen from the program."""


@pytest.fixture
def old(tmp_path: Path) -> Iterator[Path]:
    path = tmp_path / "flat.findings.json"
    path.write_bytes(b"old")
    yield path
    assert [child.name for child in tmp_path.iterdir()] == ["flat.findings.json"]


@pytest.mark.parametrize("step", ["fsync", "replace"])
@pytest.mark.parametrize(
    ("code", "kind", "advice"), [(errno.ENOSPC, NoRoom, "make room"), (errno.EIO, BadInput, "choose another place")]
)
def test_a_disk_that_fails_leaves_the_old_file_and_nothing_else(
    old: Path, monkeypatch: pytest.MonkeyPatch, step: str, code: int, kind: type[NarrateError], advice: str
) -> None:
    def fail(*_: object, **__: object) -> None:
        raise OSError(code, os.strerror(code))

    monkeypatch.setattr(os, step, fail)
    with pytest.raises(kind, match=rf"flat.findings.json: cannot be written .*{advice}"):
        write_whole(old, b"new")
    assert old.read_bytes() == b"old"


@pytest.mark.parametrize("step", ["fsync", "replace"])
def test_a_program_that_is_stopped_leaves_the_old_file_and_nothing_else(
    old: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    def stop(*_: object, **__: object) -> None:
        raise PulledPlug

    monkeypatch.setattr(os, step, stop)
    with pytest.raises(PulledPlug):
        write_whole(old, b"new")
    assert old.read_bytes() == b"old"


def test_the_content_is_on_the_disk_before_it_takes_the_name(old: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    steps: list[str] = []
    fsync, replace = os.fsync, os.replace

    def seen_fsync(handle: int) -> None:
        steps.append("fsync")
        fsync(handle)

    def seen_replace(source: Path, target: Path) -> None:
        steps.append("replace")
        replace(source, target)

    monkeypatch.setattr(os, "fsync", seen_fsync)
    monkeypatch.setattr(os, "replace", seen_replace)
    write_whole(old, b"new")
    assert steps[:2] == ["fsync", "replace"]
    assert old.read_bytes() == b"new"


def test_a_folder_that_is_not_there_is_named(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match="nowhere"):
        write_whole(tmp_path / "nowhere" / "flat.json", b"new")


@given(record=makers.records)
@same_folder
def test_findings_come_back_as_they_were_written(record: Findings, tmp_path: Path) -> None:
    path = tmp_path / "any.findings.json"
    write_record(path, record)
    first = path.read_bytes()
    again = read_record(path, Findings)
    assert again == record
    write_record(path, again)
    assert path.read_bytes() == first


@given(record=makers.transcripts)
@same_folder
def test_a_transcript_comes_back_as_it_was_written(record: Transcript, tmp_path: Path) -> None:
    path = tmp_path / "any.transcript.json"
    write_record(path, record)
    assert read_record(path, Transcript) == record


def test_a_field_that_nobody_knows_is_refused_by_name(tmp_path: Path) -> None:
    path = tmp_path / "odd.findings.json"
    path.write_text('{"schema": "narrate2report/findings/1", "grade": "B"}', encoding="utf-8")
    with pytest.raises(BrokenRecord, match=r"odd.findings.json: not a findings file: .+"):
        read_record(path, Findings)


@pytest.mark.parametrize(
    ("content", "told"),
    [(b"{", "not JSON"), (b"\xff\xfe", "not JSON"), (b"[]", "not a findings file"), (b"", "not JSON")],
)
def test_a_broken_file_is_named_with_what_is_wrong(tmp_path: Path, content: bytes, told: str) -> None:
    path = tmp_path / "torn.findings.json"
    path.write_bytes(content)
    with pytest.raises(BrokenRecord, match=f"torn.findings.json: {told}"):
        read_record(path, Findings)


def test_a_missing_file_is_named(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match=r"gone.findings.json: cannot be read"):
        read_record(tmp_path / "gone.findings.json", Findings)


@given(record=makers.records)
def test_the_schema_stands_first_in_the_file(record: Findings) -> None:
    assert next(iter(record_json(record))) == "schema"


@pytest.mark.parametrize(
    "content",
    [
        b'{"schema": "\\u001b[31m"}',
        b'{"schema": "\\ud800"}',
        '{"schema": "\u202e"}'.encode(),
        b"[" * 100_000,
    ],
    ids=["terminal command", "half a pair", "turned direction", "nested without end"],
)
def test_a_record_that_would_harm_a_terminal_or_the_program_is_refused(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "flat.findings.json"
    path.write_bytes(content)
    with pytest.raises(BrokenRecord, match=r"flat.findings.json: (holds characters|not JSON)"):
        read_record(path, Findings)
