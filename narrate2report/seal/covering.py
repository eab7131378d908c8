"""Which files a seal covers, under the names by which they lie beside the record."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from narrate2report.errors import BadInput
from narrate2report.records.beside import journal_beside, place_of, transcript_beside
from narrate2report.records.digest import digest_file
from narrate2report.records.findings import Findings, SealedFile

Role = Literal["recording", "transcript", "journal", "still"]


@dataclass(frozen=True)
class Belonging:
    """A file that belongs to a record; `sha256` where the record itself knows it.

    One that is not `needed` is covered where it lies there: the notes or captions that a record was read from.
    """

    role: Role
    file: str
    sha256: str | None = None
    needed: bool = True


def belongings(findings: Findings, path: Path) -> tuple[Belonging, ...]:
    """The files of the record at `path`: recordings, transcript, pictures, journal."""
    return tuple(dict.fromkeys(_belongings(findings, path)))


def _belongings(findings: Findings, path: Path) -> Iterator[Belonging]:
    for recording in findings.recordings:
        yield Belonging("recording", recording.file, recording.sha256, needed=recording.media)
    listened = any(recording.media for recording in findings.recordings)
    yield Belonging("transcript", transcript_beside(path).name, needed=listened)
    for entry in findings.entries:
        for still in entry.stills:
            yield Belonging("still", still.file, still.sha256)
    # Last, so that it is hashed as late as can be: a review that is still open adds to it.
    yield Belonging("journal", journal_beside(path).name)


def covered_files(findings: Findings, path: Path) -> tuple[SealedFile, ...]:
    """The files of the record with their size and SHA-256, as a seal names them.

    Raises BadInput for one that is missing, or that is not the file which the record was made from.
    """
    return tuple(file for one in belongings(findings, path) if (file := _covered(one, path)) is not None)


def _covered(one: Belonging, path: Path) -> SealedFile | None:
    place = place_of(one.file, path)
    if not place.is_file():
        if not one.needed:
            return None
        raise BadInput(f"{place}: the {one.role} is missing; a seal covers it, so put it beside {path.name}")
    digest = digest_file(place)
    if one.sha256 is not None and digest.sha256 != one.sha256:
        raise BadInput(f"{place}: is not the {one.role} that the record was made with; put that one beside {path.name}")
    return SealedFile(role=one.role, file=one.file, sha256=digest.sha256, bytes=digest.bytes)
