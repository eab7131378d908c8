"""The coverage of a record for the terminal: what was expected and not spoken of, alarms before everything else."""

from __future__ import annotations

from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from narrate2report.publish.summary import alarms_in_numbers
from narrate2report.records.findings import Coverage, CoverageStatus, Findings
from narrate2report.records.silence import rooms_never_walked
from narrate2report.wording import LOOKED, called_out, capital, counted, listed, room_name

STATUSES: dict[CoverageStatus, str] = {
    "not_noted": "not spoken of",
    "noted": "noted",
    "described_sound": "described as sound",
}


def coverage_list(findings: Findings) -> RenderableType:
    """Alarms that nobody spoke of, rooms never walked, then each room with its parts by what was said of them."""
    lines = [Text(line, style="bold") for line in called_out(findings)]
    return Group(*lines, *([Text()] if lines else []), _rooms(findings), _sum(findings))


def numbers(findings: Findings) -> dict[str, object]:
    """The same for machines, all of it plain JSON."""
    rows = findings.coverage
    return {
        "alarms_not_spoken_of": alarms_in_numbers(findings),
        "never_walked": list(rooms_never_walked(findings)),
        "counts": {status: sum(row.status == status for row in rows) for status in STATUSES},
        "open": sum(row.is_open for row in rows),
        "rooms": {
            room: {row.component: row.status for row in rows if row.room == room}
            for room in dict.fromkeys(row.room for row in rows)
        },
    }


def _rooms(findings: Findings) -> RenderableType:
    if not findings.coverage:
        return Text("Nothing was expected: no room was walked, and no plan names any.")
    table = Table(box=None, padding=(0, 2, 0, 0), pad_edge=False)
    for head in ("Room", *STATUSES.values()):
        table.add_column(capital(head), overflow="fold")
    for room in dict.fromkeys(row.room for row in findings.coverage):
        rows = [row for row in findings.coverage if row.room == room]
        table.add_row(Text(room_name(room)), *(Text(_told(rows, status)) for status in STATUSES))
    return table


def _told(rows: list[Coverage], status: CoverageStatus) -> str:
    """The parts of one status; those of which a person has said something stand after the others, with it."""
    meant = [row for row in rows if row.status == status]
    told = [listed(row.component for row in meant if row.acknowledged is None)]
    for looked, words in LOOKED.items():
        names = [row.component for row in meant if row.acknowledged and row.acknowledged.looked == looked]
        told += [f"{words}: {listed(names)}"] if names else []
    return "; ".join(filter(None, told)) or "–"


def _sum(findings: Findings) -> Text:
    counts = {status: sum(row.status == status for row in findings.coverage) for status in STATUSES}
    told = ", ".join(f"{number} {STATUSES[status]}" for status, number in counts.items())
    left = sum(row.is_open for row in findings.coverage)
    open_told = f" {counted(left, 'gap')} to be settled in the review." if left else ""
    return Text(f"\n{counted(len(findings.coverage), 'part')} expected: {told}.{open_told}")
