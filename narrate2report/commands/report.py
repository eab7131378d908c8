"""`report FILE --to FOLDER`: a record as a paper to print, hand over and sign."""

from __future__ import annotations

import tempfile
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from rich.console import Console

from narrate2report.commands.at_hand import (
    added_to,
    address,
    checked_base,
    fitted_stills,
    made_at,
    record_at_hand,
    recordings_at_hand,
    stills_at_hand,
    transcript_at_hand,
    written,
)
from narrate2report.commands.words import word_folders
from narrate2report.errors import BadInput
from narrate2report.publish.language import language
from narrate2report.publish.report_attached import Attached, attached_to
from narrate2report.publish.report_entries import Telling
from narrate2report.publish.report_html import html_of
from narrate2report.publish.report_links import Links
from narrate2report.publish.report_pdf import Paper, pdf_of
from narrate2report.publish.report_values import Reader, Report, Respond, Standing
from narrate2report.publish.report_whole import Around, report_of, telling_of
from narrate2report.records.beside import walk_name
from narrate2report.records.files import read_bytes

Form = Literal["pdf", "html"]
FORMS: tuple[Form, ...] = ("pdf", "html")


@dataclass(frozen=True)
class WantedReport:
    """What the person at the keyboard asked for.

    Raises BadInput for a link base that is no web address, and for a translation that is not for the resident.
    """

    file: Path
    to: Path
    reader: Reader = "resident"
    paper: Paper = "letter"
    link_base: str | None = None
    quiet: bool = False
    forms: tuple[Form, ...] = FORMS
    language: str = "en"
    response_days: int | None = None
    response_source: str = ""
    vocabulary: Path | None = None

    def __post_init__(self) -> None:
        if self.language != "en" and self.reader != "resident":
            raise BadInput(f"--language {self.language}: only the resident's copy is translated; leave out --for")
        checked_base(self.link_base)

    @property
    def respond(self) -> Respond:
        """The resident's time to answer, and who or what says how long it is."""
        return Respond(self.response_days, self.response_source)


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
        fitted, spoilt = fitted_stills(stills, Path(smaller))
        around = Around(Links(opened, wanted.link_base), missing_recordings, missing_stills | spoilt)
        telling = telling_of(
            findings, wanted.reader, around, language(wanted.language, *word_folders(wanted.vocabulary))
        )
        content = report_of(telling, name, standing, around, wanted.respond)
        for_whom = wanted.reader if wanted.language == "en" else f"{wanted.reader}.{wanted.language}"
        made = {f"{name}.{for_whom}.{form}": _made(form, content, fitted, telling, wanted) for form in wanted.forms}
    places = written(wanted.to, made)
    if not wanted.quiet:
        _tell(places, standing, wanted.reader, added_to(wanted.file, findings))
    return places


def _made(form: Form, content: Report, stills: Mapping[str, Path], telling: Telling, wanted: WantedReport) -> bytes:
    if form == "html":
        return html_of(content, stills)
    return pdf_of(content, stills, made_at(telling.findings), wanted.paper, _attached(telling, content.name, wanted))


def _attached(telling: Telling, name: str, wanted: WantedReport) -> tuple[Attached, ...]:
    """What goes into the PDF. A sealed record goes in byte for byte, so that it still matches its seal."""
    whole = read_bytes(wanted.file) if telling.findings.seal else None
    heard = transcript_at_hand(wanted.file) if wanted.reader == "office" else None
    return attached_to(telling, name, whole, heard.stretches if heard else ())


def _tell(places: tuple[Path, ...], standing: Standing, reader: Reader, minds: Iterable[str]) -> None:
    words = language()
    console = Console(highlight=False, markup=False)
    for place in places:
        console.print(f"{place}: {words.standings[standing]}, for {words.readers[reader]}", soft_wrap=True)
    for mind in minds:
        console.print(mind, soft_wrap=True)
