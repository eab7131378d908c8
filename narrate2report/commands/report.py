"""`report FILE --to FOLDER`: a record as a paper to print, hand over and sign."""

from __future__ import annotations

import tempfile
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from rich.console import Console

from narrate2report.commands.at_hand import (
    NO_PICTURE,
    address,
    checked_base,
    folder_for,
    made_at,
    record_at_hand,
    recordings_at_hand,
    stills_at_hand,
)
from narrate2report.errors import BadInput
from narrate2report.intake.smaller import smaller_jpeg
from narrate2report.publish.report_html import html_of
from narrate2report.publish.report_links import Links
from narrate2report.publish.report_pdf import Paper, longest_side, pdf_of
from narrate2report.publish.report_values import Reader, Report
from narrate2report.publish.report_whole import Around, report_of
from narrate2report.records.beside import walk_name
from narrate2report.records.files import write_whole
from narrate2report.records.findings import Findings

Form = Literal["pdf", "html"]
FORMS: tuple[Form, ...] = ("pdf", "html")


@dataclass(frozen=True)
class WantedReport:
    """What the person at the keyboard asked for. Raises BadInput for a link base that is no web address."""

    file: Path
    to: Path
    reader: Reader = "resident"
    paper: Paper = "letter"
    link_base: str | None = None
    quiet: bool = False
    forms: tuple[Form, ...] = FORMS

    def __post_init__(self) -> None:
        checked_base(self.link_base)


def report(wanted: WantedReport) -> tuple[Path, ...]:
    """Write the report and say where it is. All of its forms are made before the first is written.

    Raises NarrateError, with nothing written, where that cannot be.
    """
    findings, standing = record_at_hand(wanted.file)
    recordings, missing_recordings = recordings_at_hand(findings, wanted.file)
    opened = {name: address(place, wanted.to) for name, place in recordings.items()}
    stills, missing_stills = stills_at_hand(findings, wanted.file)
    name = walk_name(wanted.file)
    with tempfile.TemporaryDirectory(prefix="narrate2report-") as smaller:
        fitted, spoilt = _fitted(stills, Path(smaller))
        around = Around(Links(opened, wanted.link_base), missing_recordings, missing_stills | spoilt)
        content = report_of(findings, name, standing, wanted.reader, around)
        made = {form: _made(form, content, fitted, findings, wanted) for form in wanted.forms}
    folder = folder_for(wanted.to)
    places = tuple(folder / f"{name}.report.{form}" for form in made)
    for place, whole in zip(places, made.values(), strict=True):
        write_whole(place, whole)
    if not wanted.quiet:
        _tell(places, content)
    return places


def _made(form: Form, content: Report, stills: Mapping[str, Path], findings: Findings, wanted: WantedReport) -> bytes:
    if form == "html":
        return html_of(content, stills)
    return pdf_of(content, stills, made_at(findings), wanted.paper)


def _tell(places: tuple[Path, ...], content: Report) -> None:
    console = Console(highlight=False, markup=False)
    for place in places:
        console.print(f"{place}: {content.standing_word}, for {content.reader_word}", soft_wrap=True)


def _fitted(stills: Mapping[str, Path], folder: Path) -> tuple[dict[str, Path], dict[str, str]]:
    """The pictures in the size in which they are printed, made smaller in a folder where there are very many."""
    longest = longest_side(len(stills))
    fitted: dict[str, Path] = {}
    spoilt: dict[str, str] = {}
    for sha256, place in stills.items():
        try:
            content = smaller_jpeg(place, longest)
        except BadInput:
            spoilt[sha256] = NO_PICTURE
            continue
        fitted[sha256] = place if content is None else folder / f"{sha256}.jpg"
        if content is not None:
            fitted[sha256].write_bytes(content)
    return fitted, spoilt
