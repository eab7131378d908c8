"""A comparison as it stands: its file with every decision of the journal beside it, and the two records it is about.

Whoever uses a comparison reads it by `read_comparison`: a decision is kept when its line is in the journal, which the
file may lag behind.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from narrate2report.errors import BrokenRecord
from narrate2report.records.addenda import not_compared
from narrate2report.records.beside import journal_beside, place_of
from narrate2report.records.comparison import SIDES, TO_JUDGE, Comparison, Side
from narrate2report.records.comparison_fold import drafted, folded
from narrate2report.records.comparison_journal import JudgingLine
from narrate2report.records.files import read_record
from narrate2report.records.findings import Entry, Findings
from narrate2report.records.journal_file import draft_sha256, kept_lines
from narrate2report.records.walk import read_walk


@dataclass(frozen=True)
class Judged:
    """A comparison as it was made, the hash that its journal begins with, and what it became by the decisions."""

    draft: Comparison
    draft_sha256: str
    comparison: Comparison


@dataclass(frozen=True)
class Record:
    """One of the two records of a comparison, and its file."""

    path: Path
    findings: Findings
    entries: dict[str, Entry]
    late: tuple[str, ...] = ()
    """Sealed addenda to it that the comparison does not know, by their files."""


Records = dict[Side, Record]
"""Both records."""


def read_comparison(path: Path) -> Comparison:
    """The comparison at `path` with every decision that was kept.

    Raises BrokenRecord where the file or its journal is broken or they do not belong together, or where one later
    entry stands in two changes that may be charged, BadInput where one cannot be read.
    """
    on_disk = read_record(path, Comparison)
    comparison = judged(on_disk, kept_lines(journal_beside(path), JudgingLine), path).comparison
    _check_once(path, [one for change in comparison.changes if change.outcome in TO_JUDGE for one in change.after])
    return comparison


def judged(on_disk: Comparison, lines: Sequence[JudgingLine], path: Path) -> Judged:
    """The comparison read from `path` brought together with its journal. Raises BrokenRecord for another's journal."""
    names = Counter(change.id for change in on_disk.changes)
    if twice := [name for name, times in names.items() if times > 1]:
        raise BrokenRecord(f"{path}: the change {twice[0]!r} stands in it twice; compare again")
    draft = drafted(on_disk, lines)
    sha256 = draft_sha256(draft)
    if lines and lines[0].previous != sha256:
        raise BrokenRecord(f"{journal_beside(path)}: belongs to another comparison than {path}; keep them apart")
    return Judged(draft, sha256, folded(draft, lines))


def read_records(comparison: Comparison, path: Path) -> Records:
    """Both records of the comparison at `path`, each with its decisions.

    Raises BrokenRecord where a change names no entry or one that its record does not hold, where a flaw stands in two
    changes, and what reading raises.
    """
    records = {side: _record(comparison, side, path) for side in SIDES}
    for change in comparison.changes:
        if not (change.before or change.after):
            raise BrokenRecord(f"{path}: the change {change.id!r} is about no entry; compare again")
        for side in SIDES:
            missing = [entry for entry in change.of(side) if entry not in records[side].entries]
            if missing:
                file = records[side].path.name
                raise BrokenRecord(f"{path}: names the entry {missing[0]!r}, which {file} does not hold; compare again")
    for side in SIDES:
        # What is sound may stand beside several changes; a flaw makes one.
        named = [one for change in comparison.changes for one in change.of(side)]
        _check_once(path, [one for one in named if records[side].entries[one].is_adverse])
    return records


def _check_once(path: Path, entries: Sequence[str]) -> None:
    for name, times in Counter(entries).items():
        if times > 1:
            raise BrokenRecord(f"{path}: the entry {name!r} stands in more than one change; compare again")


def _record(comparison: Comparison, side: Side, path: Path) -> Record:
    compared = comparison.before if side == "before" else comparison.after
    place = place_of(compared.stands_in, path)
    findings = read_walk(place)
    late = tuple(one.path.name for one in not_compared(compared, path, findings).sealed)
    return Record(place, findings, {entry.id: entry for entry in findings.entries}, late)
