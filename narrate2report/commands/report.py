"""`report FILE --to FOLDER`: a record as a paper to print, hand over and sign."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Literal
from urllib.parse import quote, urlsplit

from rich.console import Console

from narrate2report.commands.words import word_folders
from narrate2report.errors import BadInput, NarrateError
from narrate2report.intake.smaller import smaller_jpeg
from narrate2report.publish.language import language
from narrate2report.publish.report_attached import Attached, attached_to
from narrate2report.publish.report_entries import Telling
from narrate2report.publish.report_html import html_of
from narrate2report.publish.report_links import Links
from narrate2report.publish.report_pdf import Paper, longest_side, pdf_of
from narrate2report.publish.report_values import Reader, Report, Respond, Standing
from narrate2report.publish.report_whole import Around, report_of, telling_of
from narrate2report.records.beside import place_of, transcript_beside, walk_name
from narrate2report.records.digest import digest_file
from narrate2report.records.files import read_bytes, read_record, write_whole
from narrate2report.records.findings import Findings, Still
from narrate2report.records.transcript import Recording, Stretch, Transcript
from narrate2report.records.walk import read_walk
from narrate2report.seal.decided import Decided, decided
from narrate2report.seal.verifying import check_seal

_NO_PICTURE = "picture_unfit"
_PICTURES = {b"\xff\xd8\xff": ".jpg", b"\x89PNG": ".png"}

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
        if self.link_base is None:
            return
        parts = urlsplit(self.link_base)
        if parts.scheme not in {"http", "https"} or not parts.netloc or set(self.link_base) & set(' \t\r\n"<>'):
            raise BadInput(f"--link-base {self.link_base}: no web address; write it as https://host/folder/{{file}}")

    @property
    def respond(self) -> Respond:
        """The resident's time to answer, and who or what says how long it is."""
        return Respond(self.response_days, self.response_source)


def report(wanted: WantedReport) -> tuple[Path, ...]:
    """Write the report and say where it is. All of its forms are made before the first is written.

    Raises NarrateError, with nothing written, where that cannot be.
    """
    findings, standing = _record(wanted.file)
    opened, missing_recordings = _recordings(findings, wanted)
    stills, missing_stills = _stills(findings, wanted.file)
    name = walk_name(wanted.file)
    with tempfile.TemporaryDirectory(prefix="narrate2report-") as smaller:
        fitted, spoilt = _fitted(stills, Path(smaller))
        around = Around(Links(opened, wanted.link_base), missing_recordings, missing_stills | spoilt)
        telling = telling_of(
            findings, wanted.reader, around, language(wanted.language, *word_folders(wanted.vocabulary))
        )
        content = report_of(telling, name, standing, around, wanted.respond)
        made = {form: _made(form, content, fitted, telling, wanted) for form in wanted.forms}
    folder = _folder(wanted.to)
    for_whom = wanted.reader if wanted.language == "en" else f"{wanted.reader}.{wanted.language}"
    places = tuple(folder / f"{name}.{for_whom}.{form}" for form in made)
    for place, whole in zip(places, made.values(), strict=True):
        write_whole(place, whole)
    if not wanted.quiet:
        _tell(places, standing, wanted.reader)
    return places


def _made(form: Form, content: Report, stills: Mapping[str, Path], telling: Telling, wanted: WantedReport) -> bytes:
    if form == "html":
        return html_of(content, stills)
    return pdf_of(content, stills, _made_at(telling.findings), wanted.paper, _attached(telling, content.name, wanted))


def _attached(telling: Telling, name: str, wanted: WantedReport) -> tuple[Attached, ...]:
    """What goes into the PDF. A sealed record goes in byte for byte, so that it still matches its seal."""
    whole = read_bytes(wanted.file) if telling.findings.seal else None
    return attached_to(telling, name, whole, _heard(wanted.file) if wanted.reader == "office" else ())


def _heard(file: Path) -> tuple[Stretch, ...]:
    """What was heard, where the transcript lies beside the record; a broken one is the business of `verify`."""
    place = transcript_beside(file)
    try:
        return read_record(place, Transcript).stretches if place.is_file() else ()
    except NarrateError:
        return ()


def _tell(places: tuple[Path, ...], standing: Standing, reader: Reader) -> None:
    words = language()
    console = Console(highlight=False, markup=False)
    for place in places:
        console.print(f"{place}: {words.standings[standing]}, for {words.readers[reader]}", soft_wrap=True)


def _record(file: Path) -> tuple[Findings, Standing]:
    """The record with every decision of its journal, and how far it has come."""
    findings = read_walk(file)
    if findings.seal is None:
        return findings, "reviewed" if isinstance(decided(findings), Decided) else "draft"
    _, mismatches = check_seal(file)
    if mismatches:
        raise BadInput(f"{file}: does not match its seal, so nothing is printed of it; see: narrate2report verify FILE")
    return findings, "sealed"


def _stills(findings: Findings, file: Path) -> tuple[dict[str, Path], dict[str, str]]:
    """The pictures that are as they were taken, and why others are not shown."""
    found: dict[str, Path] = {}
    missing: dict[str, str] = {}
    for still in (still for entry in findings.entries if entry.state != "dropped" for still in entry.stills):
        place = place_of(still.file, file)
        why = _why_not(place, still)
        if why:
            missing[still.sha256] = why
        else:
            found[still.sha256] = place
    return found, missing


def _fitted(stills: Mapping[str, Path], folder: Path) -> tuple[dict[str, Path], dict[str, str]]:
    """The pictures in the size in which they are printed, made smaller in a folder where there are very many."""
    longest = longest_side(len(stills))
    fitted: dict[str, Path] = {}
    spoilt: dict[str, str] = {}
    for sha256, place in stills.items():
        try:
            content = smaller_jpeg(place, longest)
        except BadInput:
            spoilt[sha256] = _NO_PICTURE
            continue
        fitted[sha256] = place if content is None else folder / f"{sha256}.jpg"
        if content is not None:
            fitted[sha256].write_bytes(content)
    return fitted, spoilt


def _why_not(place: Path, still: Still) -> str:
    if not place.is_file():
        return "picture_gone"
    if digest_file(place).sha256 != still.sha256:
        return "picture_changed"
    with place.open("rb") as file:
        head = file.read(4)
    if not any(head.startswith(first) and place.suffix == ending for first, ending in _PICTURES.items()):
        return _NO_PICTURE
    return ""


def _recordings(findings: Findings, wanted: WantedReport) -> tuple[dict[str, str], dict[str, str]]:
    """How each recording at hand is reached from the report, and why others are not."""
    places: dict[str, str] = {}
    missing: dict[str, str] = {}
    for recording in findings.recordings:
        place = place_of(recording.file, wanted.file)
        why = _lacking(place, recording)
        if why:
            missing[recording.file] = why
        else:
            places[recording.file] = _address(place, wanted.to)
    return places, missing


def _lacking(place: Path, recording: Recording) -> str:
    if not place.is_file():
        return "recording_gone"
    return "" if place.stat().st_size == recording.bytes else "recording_changed"


def _address(place: Path, folder: Path) -> str:
    """Relative where it can be, so that the folders can be moved together."""
    try:
        return quote(Path(os.path.relpath(place.resolve(), folder.resolve())).as_posix())
    except ValueError:  # another drive
        return place.resolve().as_uri()


def _made_at(findings: Findings) -> datetime:
    """The newest time in the record, so that the same record gives the same bytes."""
    times = [findings.seal.sealed_at] if findings.seal else []
    times += [entry.decided.at for entry in findings.entries if entry.decided]
    times += [one.recorded_at for one in findings.recordings if one.recorded_at]
    return max(_moments(times), default=datetime.fromtimestamp(0, UTC))


def _moments(times: list[str]) -> Iterator[datetime]:
    for told in times:
        try:
            at = datetime.fromisoformat(told)
        except ValueError:
            continue
        yield at if at.tzinfo else at.replace(tzinfo=UTC)


def _folder(folder: Path) -> Path:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise BadInput(f"{folder}: is no folder that can be written to ({error.strerror or error})") from error
    return folder
