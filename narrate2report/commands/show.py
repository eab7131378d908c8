"""`show FILE [ID]`: the entries of a findings file, or one of them with where it was said."""

from __future__ import annotations

from pathlib import Path

from rich.console import Console

from narrate2report.errors import BadInput
from narrate2report.publish.detail import detail
from narrate2report.publish.summary import summary
from narrate2report.records.beside import place_of
from narrate2report.records.findings import Entry, Findings
from narrate2report.records.walk import read_walk


def show(file: Path, entry_id: str | None) -> None:
    """Print all entries of a findings file, or the one with this id.

    Decisions that stand only in the journal beside it are shown too.
    Raises BadInput for an id that the file does not hold, and what reading the file raises.
    """
    findings = read_walk(file)
    console = Console(highlight=False, markup=False)
    if entry_id is None:
        console.print(summary(findings))
    else:
        page = detail(_entry(findings, entry_id, file), findings, at_hand(findings, file))
        console.print(page, crop=False)


def at_hand(findings: Findings, file: Path) -> dict[str, str]:
    """The address of each recording that lies beside the findings file.

    A file of another size is another recording, and links into it would mislead.
    Raises BrokenRecord for a record that names a recording outside its own folder.
    """
    found = {}
    for recording in findings.recordings:
        place = place_of(recording.file, file)
        if recording.media and place.is_file() and place.stat().st_size == recording.bytes:
            found[recording.file] = place.resolve().as_uri()
    return found


def _entry(findings: Findings, entry_id: str, file: Path) -> Entry:
    for entry in findings.entries:
        if entry.id == entry_id:
            return entry
    raise BadInput(f"{file}: no entry {entry_id!r} among its {len(findings.entries)}; show the file to see them")
