"""A record as the shelf knows it: where it stands, and its words to be searched."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from narrate2report.errors import NarrateError
from narrate2report.records.findings import Findings
from narrate2report.records.header import first_told
from narrate2report.records.moments import fragment
from narrate2report.records.shelved import Shelved, Standing
from narrate2report.records.walk import read_walk
from narrate2report.wording import REASONS, named, plain, room_name


@dataclass(frozen=True)
class Line:
    """Something to be found: its words, and what is shown of it."""

    words: str
    told: str
    quote: str
    start: float
    link: str


@dataclass(frozen=True)
class Told:
    """A record on the shelf, its lines, and the recordings it is of."""

    shelved: Shelved
    lines: tuple[Line, ...] = ()
    recordings: tuple[str, ...] = ()


def tell(file: Path, path: str) -> Told:
    """What the record `file` says, called `path` on the shelf; one that cannot be read says why."""
    try:
        findings = read_walk(file)
    except NarrateError as error:
        return Told(Shelved(path, "broken", fault=" ".join(str(error).split())))
    head = findings.walkthrough
    unit, kind, date = map(first_told, (head.unit, head.kind, head.date))
    undecided = sum(entry.is_open for entry in findings.entries) + sum(gap.is_open for gap in findings.coverage)
    standing: Standing = "sealed" if findings.seal else "to_review" if undecided else "reviewed"
    kept = [entry for entry in findings.entries if entry.stands]
    return Told(
        Shelved(path, standing, unit, kind, date, entries=len(kept), open=0 if findings.seal else undecided),
        tuple(_lines(findings)),
        tuple(recording.file for recording in findings.recordings),
    )


def _lines(findings: Findings) -> Iterator[Line]:
    """Entries first, then the sentences that gave none: together they are all that was said."""
    for entry in findings.entries:
        if not entry.stands:
            continue
        piece = entry.evidence[0]
        quotes = " ".join(one.quote for one in entry.evidence)
        words = f"{room_name(entry.room)} {plain(entry.component)} {named(entry)} {quotes} {entry.note or ''}"
        yield Line(words, named(entry), piece.quote, piece.start, piece.link)
    for left in findings.unused:
        told = f"no entry: {REASONS[left.reason]}"
        yield Line(left.text, told, left.text, left.start, fragment(left.recording, left.start, left.end))
