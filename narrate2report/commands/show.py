"""`show FILE [ID]`: the entries of a findings file, or one of them with where it was said."""

from __future__ import annotations

from pathlib import Path

from rich.console import Console

from narrate2report.errors import BadInput
from narrate2report.publish.detail import detail
from narrate2report.publish.summary import summary
from narrate2report.records.files import read_record
from narrate2report.records.findings import Entry, Findings


def show(file: Path, entry_id: str | None) -> None:
    """Print all entries of a findings file, or the one with this id.

    Raises BadInput for an id that the file does not hold, and what reading the file raises.
    """
    findings = read_record(file, Findings)
    console = Console(highlight=False, markup=False)
    if entry_id is None:
        console.print(summary(findings))
    else:
        console.print(detail(_entry(findings, entry_id, file), findings))


def _entry(findings: Findings, entry_id: str, file: Path) -> Entry:
    for entry in findings.entries:
        if entry.id == entry_id:
            return entry
    raise BadInput(f"{file}: no entry {entry_id!r} among its {len(findings.entries)}; show the file to see them")
