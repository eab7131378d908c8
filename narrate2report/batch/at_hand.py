"""The files of a task on the machine that works on it: as they lie there, or fetched and sent back."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from narrate2report.batch import remote
from narrate2report.batch.places import beside, is_address, name_of
from narrate2report.errors import BadInput
from narrate2report.records.beside import journal_beside, transcript_beside
from narrate2report.records.task import Task


@dataclass(frozen=True)
class AtHand:
    """Where the recording lies on this machine, and where its record is to be written."""

    recording: Path
    findings: Path


@contextmanager
def at_hand(task: Task) -> Iterator[AtHand]:
    """The files of a task. What was written is sent back at the end, the record last; at an exception nothing is.

    Raises BadInput where the recording is not there, or is another one than where the batch was started.
    """
    if not is_address(task.recording):
        recording = Path(task.recording)
        _check_size(recording, task)
        yield AtHand(recording, Path(task.findings))
        return
    with tempfile.TemporaryDirectory(prefix="narrate2report-") as scratch:
        recording = Path(scratch) / name_of(task.recording)
        findings = Path(scratch) / name_of(task.findings)
        # What lies there already has a say in whether a draft may take its place.
        for file in (recording, findings, journal_beside(findings), transcript_beside(findings)):
            remote.fetch(beside(task.recording, file.name), file)
        _check_size(recording, task)
        yield AtHand(recording, findings)
        for file in (transcript_beside(findings), findings):
            if file.exists():
                remote.send(file, beside(task.findings, file.name))


def _check_size(recording: Path, task: Task) -> None:
    try:
        size = recording.stat().st_size
    except OSError as error:
        raise BadInput(f"{task.recording}: cannot be found by who is to draft it ({error.strerror})") from error
    if size != task.bytes:
        raise BadInput(f"{task.recording}: has {size} bytes, not {task.bytes} as when it was listed; run this again")
