"""What is attached to a PDF: the record and the words it rests on, never more than the copy itself tells its reader.

The office gets the record as it stands, to check its seal, and the captions of everything that was heard. Every
other reader gets the entries of their copy and the words that these rest on; that is no sealed record, and says so.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from narrate2report.publish.captions import webvtt
from narrate2report.publish.report_entries import Telling
from narrate2report.records.canonical import readable_bytes
from narrate2report.records.files import record_json
from narrate2report.records.findings import Coverage, Entry, Findings
from narrate2report.records.transcript import Stretch

Relationship = Literal["source", "data", "supplement"]
"""AFRelationship of PDF/A-3: what the report was made from; the same facts for machines; something to go with it."""
Told = Literal["record", "extract", "captions", "captions_quoted"]
"""By which words an attachment is described."""


@dataclass(frozen=True)
class Attached:
    """A file inside a PDF. `about` is the recording, where it belongs to one."""

    name: str
    content: bytes
    kind: str
    relationship: Relationship
    told: Told
    about: str = ""


def attached_to(
    telling: Telling, name: str, whole: bytes | None = None, heard: Sequence[Stretch] = ()
) -> tuple[Attached, ...]:
    """The attachments of one reader's copy of the walk called `name`.

    `whole` is the record as it lies on disk and `heard` everything that was heard: both are for the office alone.
    """
    office = telling.reader == "office"
    if office:
        content = whole or readable_bytes(record_json(telling.findings))
        record = Attached(f"{name}.findings.json", content, "application/json", "source", "record")
    else:
        content = readable_bytes(record_json(extract(telling)))
        record = Attached(f"{name}.{telling.reader}.json", content, "application/json", "data", "extract")
    stretches = tuple(heard) if office and heard else tuple(quoted(telling, with_unused=office))
    return record, *_captions(telling.findings, name, stretches, "captions" if office else "captions_quoted")


def extract(telling: Telling) -> Findings:
    """The record with nothing in it that this copy leaves out. It carries no seal, since none would match it."""
    findings = telling.findings
    seen = {entry.id for entry in telling.entries()}
    return findings.model_copy(
        update={
            "entries": tuple(_told(entry, telling) for entry in findings.entries if entry.id in seen),
            "recordings": tuple(
                one.model_copy(update={"device": None, "location": None}) for one in findings.recordings
            ),
            "coverage": tuple(_silent(row, telling) for row in findings.coverage),
            "unused": (),
            "seal": None,
        }
    )


def quoted(telling: Telling, *, with_unused: bool) -> Iterator[Stretch]:
    """The words that a copy rests on, in the order spoken, each stretch once."""
    pieces = [(one.recording, one.start, one.end, one.quote) for entry in telling.entries() for one in entry.evidence]
    if with_unused:
        pieces += [(one.recording, one.start, one.end, one.text) for one in telling.findings.unused]
    for recording, start, end, text in sorted(set(pieces)):
        yield Stretch(recording=recording, start=start, end=end, text=text)


def _captions(findings: Findings, name: str, stretches: Sequence[Stretch], told: Told) -> Iterator[Attached]:
    several = len(findings.recordings) > 1
    for number, recording in enumerate(findings.recordings, start=1):
        spoken = [one for one in stretches if one.recording == recording.file and one.doubt is None]
        if spoken:
            file = f"{name}.{number}.vtt" if several else f"{name}.vtt"
            yield Attached(file, webvtt(spoken).encode(), "text/vtt", "supplement", told, recording.file)


def _told(entry: Entry, telling: Telling) -> Entry:
    """An entry without what only the office keeps of it."""
    decided = entry.decided.model_copy(update={"why": None}) if entry.decided else None
    kept: dict[str, object] = {"decided": decided}
    if telling.reader == "resident":
        kept |= {"note": None, "heard": ()}
    return entry.model_copy(update=kept)


def _silent(row: Coverage, telling: Telling) -> Coverage:
    if row.acknowledged is None or telling.reader != "resident":
        return row
    return row.model_copy(update={"acknowledged": row.acknowledged.model_copy(update={"note": None})})
