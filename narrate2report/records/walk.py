"""A walk as it stands: the findings file with every decision of the journal beside it laid over.

A decision is kept when its line is in the journal, which the findings file may lag behind by any number of lines.
Reading only: a line that a crash has torn off was never shown as kept, and is passed over where it stands.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from narrate2report.errors import BrokenRecord
from narrate2report.records.beside import journal_beside
from narrate2report.records.files import read_record
from narrate2report.records.findings import Findings
from narrate2report.records.fold import folded, unfolded
from narrate2report.records.journal import JournalLine
from narrate2report.records.journal_file import draft_sha256, kept_lines


@dataclass(frozen=True)
class Walk:
    """A draft, what it became by the decisions of its journal, and the hash that the journal's first line names."""

    draft: Findings
    draft_sha256: str
    findings: Findings


def read_walk(path: Path) -> Findings:
    """The record at `path` with every decision that was kept. A sealed record is as it is.

    Raises BrokenRecord where the record or its journal is broken or they do not belong together, BadInput where one
    cannot be read.
    """
    on_disk = read_record(path, Findings)
    if on_disk.seal is not None:
        return on_disk
    lines = kept_lines(journal_beside(path), JournalLine)
    return walk_of(on_disk, lines, path).findings if lines else on_disk


def walk_of(on_disk: Findings, lines: Sequence[JournalLine], path: Path) -> Walk:
    """The record read from `path` brought together with the lines of its journal.

    Raises BrokenRecord where these lines are about another draft.
    """
    findings = folded(on_disk, lines)
    draft = unfolded(findings, lines)
    sha256 = draft_sha256(draft)
    if lines and lines[0].previous != sha256:
        raise BrokenRecord(f"{journal_beside(path)}: belongs to another draft than {path}; keep them apart")
    return Walk(draft, sha256, findings)
