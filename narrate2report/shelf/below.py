"""What lies on a shelf: findings files with all that belongs to them, and recordings that nobody drafted yet."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from narrate2report.records.below import folders_below
from narrate2report.records.beside import FINDINGS_ENDING, JOURNAL_ENDING, is_recording

SETTLEMENT_ENDING = "settlement.json"


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


def lying_on(shelf: Path) -> Iterator[FolderFiles]:
    """Each folder that holds a walk, in the order of their names. Raises BadInput as `folders_below` does."""
    for folder in folders_below(shelf):
        files = folder.files
        here = FolderFiles(
            folder.inside,
            findings={name: _stamps(files, name) for name in files if name.endswith(FINDINGS_ENDING)},
            settlements={name: _stamp(files[name]) for name in files if name.endswith(SETTLEMENT_ENDING)},
            recordings=tuple(filter(is_recording, files)),
        )
        if here.findings or here.settlements or here.recordings:
            yield here


def _stamps(files: Mapping[str, os.DirEntry[str]], findings: str) -> str:
    journal = files.get(findings.removesuffix(FINDINGS_ENDING) + JOURNAL_ENDING)
    return _stamp(files[findings]) + (f" {_stamp(journal)}" if journal else "")


def _stamp(file: os.DirEntry[str]) -> str:
    facts = file.stat(follow_symlinks=False)
    return f"{facts.st_mtime_ns}:{facts.st_size}"
