"""`worklist FILE --to FOLDER`: what has to be done, as a workbook, as CSV and for a calendar."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from rich.console import Console

from narrate2report.commands.at_hand import (
    added_to,
    address,
    checked_base,
    made_at,
    record_at_hand,
    recordings_at_hand,
    stills_at_hand,
    written,
)
from narrate2report.publish.calendar import calendar_of
from narrate2report.publish.entry_words import why_missing
from narrate2report.publish.report_links import Links
from narrate2report.publish.report_values import Standing
from narrate2report.publish.standing import heading_of
from narrate2report.publish.work_list import Stills, WorkList, work_list
from narrate2report.publish.work_list_csv import csv_of
from narrate2report.publish.work_list_xlsx import xlsx_of
from narrate2report.records.beside import walk_name
from narrate2report.records.findings import Findings
from narrate2report.wording import counted

Form = Literal["xlsx", "csv", "ics"]
WRITERS: dict[Form, Callable[[WorkList], bytes]] = {
    "xlsx": xlsx_of,
    "csv": csv_of,
    "ics": lambda listed: calendar_of(listed.heading, listed.tasks),
}
FORMS: tuple[Form, ...] = tuple(WRITERS)


@dataclass(frozen=True)
class WantedList:
    """What the person at the keyboard asked for. Raises BadInput for a link base that is no web address."""

    file: Path
    to: Path
    link_base: str | None = None
    quiet: bool = False
    forms: tuple[Form, ...] = FORMS

    def __post_init__(self) -> None:
        checked_base(self.link_base)


def worklist(wanted: WantedList) -> tuple[Path, ...]:
    """Write the list in each form that was asked for. All of them are made before the first is written.

    Raises NarrateError, with nothing written, where that cannot be.
    """
    findings, standing = record_at_hand(wanted.file)
    listed = _listed(findings, standing, wanted)
    name = walk_name(wanted.file)
    places = written(wanted.to, {f"{name}.worklist.{form}": WRITERS[form](listed) for form in wanted.forms})
    if not wanted.quiet:
        console = Console(highlight=False, markup=False)
        for place in places:
            told = counted(len(listed.tasks), "line")
            console.print(f"{place}: {listed.heading.mark}, {told}", soft_wrap=True)
        for mind in added_to(wanted.file, findings):
            console.print(mind, soft_wrap=True)
    return places


def _listed(findings: Findings, standing: Standing, wanted: WantedList) -> WorkList:
    recordings, _ = recordings_at_hand(findings, wanted.file)
    stills, missing = stills_at_hand(findings, wanted.file)
    opened = {name: address(place, wanted.to) for name, place in recordings.items()}
    why = {sha256: why_missing(key) for sha256, key in missing.items()}
    shown = Stills({sha256: address(place, wanted.to) for sha256, place in stills.items()}, why)
    heading = heading_of(findings, standing, made_at(findings))
    return work_list(findings, heading, Links(opened, wanted.link_base), shown)
