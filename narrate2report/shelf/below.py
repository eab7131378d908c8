"""What lies below a folder: findings files with all that belongs to them, and recordings that nobody drafted yet.

One pass over the folders; no file is opened. Names are kept as text, since a Path for each of 100,000 is slow.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from narrate2report.errors import BadInput
from narrate2report.records.beside import FINDINGS_ENDING, JOURNAL_ENDING, is_recording

SETTLEMENT_ENDING = "settlement.json"
DEEPEST = 32
"""Folders within folders; whoever has more has gone in a circle."""


@dataclass(frozen=True)
class FolderFiles:
    """The files of one folder that matter here."""

    inside: str
    """The folder below the shelf, with `/` after it; empty for the shelf itself."""
    findings: dict[str, str]
    """Name to a stamp that changes when the record or its journal does: a decision changes what a record says."""
    settlements: dict[str, str]
    """Name to a stamp that changes when the file does."""
    recordings: tuple[str, ...]


def folders_below(shelf: Path) -> Iterator[FolderFiles]:
    """Each folder that holds a walk, in the order of their names. Links and hidden folders are passed over.

    Raises BadInput where `shelf` is no folder, or one below it cannot be read.
    """
    if not shelf.is_dir():
        raise BadInput(f"{shelf}: is no folder")
    yield from _below(str(shelf), "", 0)


def _below(shelf: str, inside: str, depth: int) -> Iterator[FolderFiles]:
    files: dict[str, os.DirEntry[str]] = {}
    folders: list[str] = []
    try:
        with os.scandir(os.path.join(shelf, inside)) as found:  # noqa: PTH118
            for one in found:
                if one.name.startswith("."):
                    continue
                if one.is_file(follow_symlinks=False):
                    files[one.name] = one
                elif one.is_dir(follow_symlinks=False) and not one.name.endswith(".stills"):
                    folders.append(one.name)
    except OSError as error:
        raise BadInput(f"{Path(shelf) / inside}: cannot be read ({error.strerror})") from error
    here = FolderFiles(
        inside,
        findings={name: _stamps(files, name) for name in sorted(files) if name.endswith(FINDINGS_ENDING)},
        settlements={name: _stamp(files[name]) for name in sorted(files) if name.endswith(SETTLEMENT_ENDING)},
        recordings=tuple(filter(is_recording, sorted(files))),
    )
    if here.findings or here.settlements or here.recordings:
        yield here
    if depth < DEEPEST:
        for name in sorted(folders):
            yield from _below(shelf, f"{inside}{name}/", depth + 1)


def _stamps(files: dict[str, os.DirEntry[str]], findings: str) -> str:
    journal = files.get(findings.removesuffix(FINDINGS_ENDING) + JOURNAL_ENDING)
    return _stamp(files[findings]) + (f" {_stamp(journal)}" if journal else "")


def _stamp(file: os.DirEntry[str]) -> str:
    facts = file.stat(follow_symlinks=False)
    return f"{facts.st_mtime_ns}:{facts.st_size}"
