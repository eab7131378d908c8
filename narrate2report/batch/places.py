"""What lies where: recordings below folders or by patterns, here or at addresses that fsspec knows.

A place is a text: a path, or an address with `://` in it. Only addresses need fsspec, which comes with the extra
`cluster`.
"""

from __future__ import annotations

import glob
import os
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from narrate2report.batch import remote
from narrate2report.errors import BadInput
from narrate2report.records.below import folders_below
from narrate2report.records.beside import FINDINGS_ENDING, is_recording
from narrate2report.records.digest import digest_file
from narrate2report.records.files import read_bytes
from narrate2report.records.task import Lying

TEXT_SUFFIXES = frozenset({".vtt", ".srt", ".txt", ".md"})
"""Transcripts are drafted only where a pattern asks for this very ending: most text files are none."""


@dataclass(frozen=True)
class Here:
    """Files of one folder: what is to be drafted, and the records beside it."""

    folder: str
    recordings: tuple[Lying, ...]
    records: tuple[Lying, ...]


def look(wanted: Iterable[str]) -> list[Here]:
    """All folders in which something lies that `wanted` (folders, files, patterns) asks for, in order of their names.

    Links and hidden files are passed over. Raises BadInput for what is not there, or cannot be read.
    """
    recordings: dict[str, dict[str, Lying]] = {}
    for place in wanted:
        for lying in _found(place):
            recordings.setdefault(folder_of(lying.place), {})[lying.place] = lying
    return [
        Here(folder, tuple(lying for _, lying in sorted(files.items())), tuple(_records_in(folder)))
        for folder, files in sorted(recordings.items())
    ]


def is_address(place: str) -> bool:
    """Whether a place is an address for fsspec, and not a path of this machine."""
    return "://" in place


def as_place(named: str, *, anywhere: bool) -> str:
    """A place as it was named; with `anywhere`, a path as other programs and machines find it too."""
    named = named.removeprefix("file://")
    if is_address(named) or not anywhere:
        return named
    return os.path.abspath(named)  # noqa: PTH100 - links are to stay as they are named


def folder_of(place: str) -> str:
    """The folder in which something lies."""
    return place.rpartition("/")[0] if is_address(place) else str(Path(place).parent)


def name_of(place: str) -> str:
    """The name of a file without its folder."""
    return place.rpartition("/")[2] if is_address(place) else Path(place).name


def beside(place: str, name: str) -> str:
    """A file of that name in the folder of another."""
    return f"{folder_of(place)}/{name}" if is_address(place) else str(Path(place).with_name(name))


def read_place(place: str) -> bytes:
    """All of a small file. Raises BadInput where it cannot be read."""
    return remote.read(place) if is_address(place) else read_bytes(Path(place))


def digest_place(place: str) -> str:
    """The SHA-256 of a file. Raises BadInput where it cannot be read."""
    return remote.digest(place) if is_address(place) else digest_file(Path(place)).sha256


def _found(place: str) -> Iterator[Lying]:
    """The recordings that a place asks for, and transcripts where it asks for their ending."""
    pattern = any(mark in place for mark in "*?[") and not os.path.lexists(place)
    text = {PurePosixPath(place).suffix.lower()} & TEXT_SUFFIXES
    if is_address(place):
        found = remote.found(place, pattern=pattern)
    else:
        found = _matching(place) if pattern else _named(place)
    nothing = True
    for lying in found:
        nothing = False
        name = name_of(lying.place)
        if is_recording(name) or PurePosixPath(name).suffix.lower() in text:
            yield lying
        elif not pattern and name == name_of(place):
            raise BadInput(f"{place}: is not named like a recording; 'narrate2report draft' may take it all the same")
    if nothing and pattern:
        raise BadInput(f"{place}: nothing there matches this")


def _named(path: str) -> Iterator[Lying]:
    if os.path.isdir(path):  # noqa: PTH112
        yield from _below(path)
    elif (lying := _lying(path, links=True)) is not None:
        yield lying
    else:
        raise BadInput(f"{path}: no such folder or recording")


def _matching(pattern: str) -> Iterator[Lying]:
    for path in sorted(glob.glob(pattern, recursive=True)):  # noqa: PTH207 - a pattern may begin at any drive
        if os.path.isdir(path):  # noqa: PTH112
            yield from _below(path)
        elif (lying := _lying(path)) is not None:
            yield lying


def _below(folder: str) -> Iterator[Lying]:
    for here in folders_below(Path(folder)):
        for file in here.files.values():
            if (lying := _lying(file.path)) is not None:
                yield lying


def _lying(path: str, *, links: bool = False) -> Lying | None:
    """An ordinary file as it lies there now; None for all else."""
    # A Path for each of 100,000 files is slow.
    if not os.path.isfile(path) or (os.path.islink(path) and not links):  # noqa: PTH113, PTH114
        return None
    try:
        facts = os.stat(path)  # noqa: PTH116
    except OSError:
        return None  # gone meanwhile
    return Lying(path, facts.st_size, facts.st_mtime)


def _records_in(folder: str) -> Iterator[Lying]:
    if is_address(folder):
        yield from remote.found(f"{folder}/*{FINDINGS_ENDING}", pattern=True)
        return
    for path in sorted(Path(folder).glob(f"*{FINDINGS_ENDING}")):
        if (lying := _lying(str(path))) is not None:
            yield lying
