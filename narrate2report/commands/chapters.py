"""`chapters FILE --to FOLDER`: the chapters of each recording, and a copy of it that holds them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import Literal

from rich.console import Console

from narrate2report.commands.at_hand import (
    folder_for,
    made_at,
    record_at_hand,
    recordings_at_hand,
    transcript_at_hand,
)
from narrate2report.errors import BadInput
from narrate2report.intake.chaptered_copy import Additions, copy_ending, make_chaptered_copy
from narrate2report.publish.captions import shown_in_turn
from narrate2report.publish.chapters import Chapter, chapters_of, in_a_row, webvtt_chapters
from narrate2report.publish.standing import Heading, heading_of
from narrate2report.records.beside import CHAPTERS_MARK, place_of
from narrate2report.records.digest import digest_file
from narrate2report.records.files import write_whole
from narrate2report.records.findings import Findings
from narrate2report.records.timed_text import TimedText
from narrate2report.records.transcript import Recording, Transcript
from narrate2report.wording import counted

Form = Literal["vtt", "video"]
FORMS: tuple[Form, ...] = ("vtt", "video")


@dataclass(frozen=True)
class WantedChapters:
    """What the person at the keyboard asked for."""

    file: Path
    to: Path
    quiet: bool = False
    forms: tuple[Form, ...] = FORMS


@dataclass(frozen=True)
class _Copy:
    """A recording at hand, where its copy goes, and what goes in."""

    source: Path
    out: Path
    additions: Additions


def chapters(wanted: WantedChapters) -> tuple[Path, ...]:
    """Write the chapters of every recording, and a copy with them of each that lies beside the record.

    Raises NarrateError where a recording that was asked for is not at hand or cannot be copied as it is; what was
    written before that is whole.
    """
    findings, standing = record_at_hand(wanted.file)
    heading = heading_of(findings, standing, made_at(findings))
    whole = {one.file: chapters_of(findings, heading, one.file) for one in findings.recordings}
    texts = {wanted.to / f"{_stem(one, findings)}{CHAPTERS_MARK}.vtt": one for one in findings.recordings}
    copies = _copies(findings, heading, whole, wanted) if "video" in wanted.forms else []
    _refuse_own_files([*texts, *(copy.out for copy in copies)], findings, wanted.file)
    folder_for(wanted.to)
    told = Console(highlight=False, markup=False, quiet=wanted.quiet)
    if "vtt" in wanted.forms:
        for place, one in texts.items():
            write_whole(place, webvtt_chapters(whole[one.file], heading).encode("utf-8"))
            told.print(f"{place}: {heading.mark}", soft_wrap=True)
    for copy in copies:
        make_chaptered_copy(copy.source, copy.out, copy.additions)
        told.print(f"{copy.out}: {heading.mark}, {_number(copy.additions)}", soft_wrap=True)
    return (*(texts if "vtt" in wanted.forms else ()), *(copy.out for copy in copies))


def _copies(findings: Findings, heading: Heading, whole: dict[str, Chapter], wanted: WantedChapters) -> list[_Copy]:
    """What is to be copied; all recordings are looked at before the first is."""
    media = [one for one in findings.recordings if one.media]
    if not media:
        raise BadInput(f"{wanted.file}: was made from a transcript, so there is no recording to copy; use --only vtt")
    places, missing = recordings_at_hand(findings, wanted.file)
    for one in media:
        if one.file in missing or digest_file(places[one.file]).sha256 != one.sha256:
            raise BadInput(
                f"{wanted.file}: {one.file} does not lie beside it as it was recorded; put it there, or use --only vtt"
            )
    transcript = transcript_at_hand(wanted.file)  # a copy can do without captions
    copies = []
    for one in media:
        place, captions = places[one.file], tuple(_captions(one, transcript))
        additions = Additions(heading.about, heading.mark, in_a_row(whole[one.file]), captions)
        copies.append(_Copy(place, wanted.to / f"{_stem(one, findings)}{CHAPTERS_MARK}{copy_ending(place)}", additions))
    return copies


def _refuse_own_files(places: list[Path], findings: Findings, file: Path) -> None:
    """No file that the record rests on is written over, whatever it is called."""
    own = {place_of(one.file, file).resolve() for one in findings.recordings}
    for place in places:
        if place.resolve() in own:
            raise BadInput(f"{place}: is a recording of this walk; choose another folder")


def _captions(one: Recording, transcript: Transcript | None) -> Iterator[TimedText]:
    """The captions of a recording, if it is the very one that was heard."""
    if transcript is None or one.sha256 not in {other.sha256 for other in transcript.recordings}:
        return
    yield from shown_in_turn([stretch for stretch in transcript.stretches if stretch.recording == one.file])


def _stem(one: Recording, findings: Findings) -> str:
    """`walk` for `walk.mp4`, or its whole name where another recording differs only by its ending."""
    name = PurePosixPath(one.file)
    alike = [other for other in findings.recordings if PurePosixPath(other.file).stem.lower() == name.stem.lower()]
    return name.stem if len(alike) == 1 else name.name


def _number(additions: Additions) -> str:
    captions = counted(len(additions.captions), "caption") if additions.captions else "no captions"
    return f"{counted(len(additions.chapters), 'chapter')}, {captions}"
