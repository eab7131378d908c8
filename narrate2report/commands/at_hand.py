"""What lies around a record when something is made of it: how far it has come, which of its files can be shown or
opened, how they are reached from the folder that is written to, and the writing itself.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from datetime import UTC, datetime
from pathlib import Path
from urllib.parse import quote, urlsplit

from narrate2report.errors import BadInput, NarrateError
from narrate2report.publish.report_pdf import longest_side
from narrate2report.publish.report_values import Standing
from narrate2report.records.addenda import addenda_beside
from narrate2report.records.beside import place_of, transcript_beside
from narrate2report.records.digest import digest_file
from narrate2report.records.files import read_record, write_whole
from narrate2report.records.findings import Findings, Still
from narrate2report.records.transcript import Recording, Transcript
from narrate2report.records.walk import read_walk
from narrate2report.seal.decided import Decided, decided
from narrate2report.seal.verifying import check_seal

_NO_PICTURE = "picture_unfit"
_PICTURES = {b"\xff\xd8\xff": ".jpg", b"\x89PNG": ".png"}


def record_at_hand(file: Path) -> tuple[Findings, Standing]:
    """The record with every decision of its journal, and how far it has come.

    Raises BadInput for a sealed record that does not match its seal, and as `read_walk` does.
    """
    findings = read_walk(file)
    if findings.seal is None:
        return findings, "reviewed" if isinstance(decided(findings), Decided) else "draft"
    _, mismatches = check_seal(file)
    if mismatches:
        raise BadInput(f"{file}: does not match its seal, so nothing is printed of it; see: narrate2report verify FILE")
    return findings, "sealed"


def added_to(file: Path, findings: Findings) -> Iterator[str]:
    """A line where addenda lie beside the record: what is made of it alone does not have what they say."""
    try:
        added = addenda_beside(file, findings).sealed
    except NarrateError as error:
        yield f"Of this record alone; of its addenda: {error}"
        return
    if added:
        yield f"A sealed addendum lies beside it, {added[-1].path.name}, which is not in this: name that one for it."


def stills_at_hand(findings: Findings, file: Path) -> tuple[dict[str, Path], dict[str, str]]:
    """The pictures that are as they were taken, by SHA-256, and why others are not: keys of `Language.missing`."""
    found: dict[str, Path] = {}
    missing: dict[str, str] = {}
    for still in (still for entry in findings.entries if entry.stands for still in entry.stills):
        place = place_of(still.file, file)
        why = _why_not(place, still)
        if why:
            missing[still.sha256] = why
        else:
            found[still.sha256] = place
    return found, missing


def fitted_stills(stills: Mapping[str, Path], folder: Path) -> tuple[dict[str, Path], dict[str, str]]:
    """The pictures in the size in which they are printed, made smaller in a folder where there are very many."""
    # The library of pictures takes its time to load, and most commands show none.
    from narrate2report.intake.smaller import smaller_jpeg

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


def recordings_at_hand(findings: Findings, file: Path) -> tuple[dict[str, Path], dict[str, str]]:
    """Where each recording lies, by its name in the record, and why others are not at hand: such keys."""
    places: dict[str, Path] = {}
    missing: dict[str, str] = {}
    for recording in findings.recordings:
        place = place_of(recording.file, file)
        why = _lacking(place, recording)
        if why:
            missing[recording.file] = why
        else:
            places[recording.file] = place
    return places, missing


def transcript_at_hand(file: Path) -> Transcript | None:
    """What was heard, where it lies beside the record and can be read; a broken one is the business of `verify`."""
    try:
        return read_record(transcript_beside(file), Transcript)
    except NarrateError:
        return None


def address(place: Path, folder: Path) -> str:
    """How a file is reached from a folder: relative where it can be, so that both can be moved together.

    A browser counts from the folder by whose name a page was opened, and knows nothing of links between folders. So a
    relative address is given only where it leads to the file from the folder as it is named and from where it is.
    """
    try:
        relative = os.path.relpath(place.absolute(), folder.absolute())
    except ValueError:  # another drive
        return place.resolve().as_uri()
    if all(_leads_to(place, view, relative) for view in (folder.absolute(), folder.resolve())):
        return quote(Path(relative).as_posix())
    return place.resolve().as_uri()


def _leads_to(place: Path, folder: Path, relative: str) -> bool:
    return Path(os.path.normpath(folder / relative)).resolve() == place.resolve()


def checked_base(link_base: str | None) -> str | None:
    """Where the videos lie on the web, as given. Raises BadInput for what is no web address."""
    if link_base is None:
        return None
    parts = urlsplit(link_base)
    if parts.scheme not in {"http", "https"} or not parts.netloc or set(link_base) & set(' \t\r\n"<>'):
        raise BadInput(f"--link-base {link_base}: no web address; write it as https://host/folder/{{file}}")
    return link_base


def made_at(findings: Findings) -> datetime:
    """The newest time in the record, so that the same record gives the same bytes."""
    times = [findings.seal.sealed_at] if findings.seal else []
    times += [entry.decided.at for entry in findings.entries if entry.decided]
    times += [one.recorded_at for one in findings.recordings if one.recorded_at]
    return max(_moments(times), default=datetime.fromtimestamp(0, UTC))


def folder_for(folder: Path) -> Path:
    """The folder to write to, made where it is not there. Raises BadInput where it cannot be."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise BadInput(f"{folder}: is no folder that can be written to ({error.strerror or error})") from error
    return folder


def written(folder: Path, made: Mapping[str, bytes]) -> tuple[Path, ...]:
    """Write each file under its name into a folder, made where it is not there, and say where they are."""
    folder_for(folder)
    places = tuple(folder / name for name in made)
    for place, whole in zip(places, made.values(), strict=True):
        write_whole(place, whole)
    return places


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


def _lacking(place: Path, recording: Recording) -> str:
    if not place.is_file():
        return "recording_gone"
    return "" if place.stat().st_size == recording.bytes else "recording_changed"


def _moments(times: list[str]) -> Iterator[datetime]:
    for told in times:
        try:
            at = datetime.fromisoformat(told)
        except ValueError:
            continue
        yield at if at.tzinfo else at.replace(tzinfo=UTC)
