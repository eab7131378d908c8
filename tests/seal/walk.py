"""A small invented walk on disk, decided to the last gap: recording, transcript, picture, journal, record."""

from __future__ import annotations

import hashlib
from pathlib import Path

from narrate2report.records.beside import journal_beside, stills_beside, transcript_beside
from narrate2report.records.files import read_record, write_record
from narrate2report.records.findings import (
    Acknowledged,
    Coverage,
    Decision,
    Entry,
    Findings,
    Header,
    Heard,
    Sourced,
    Still,
    TranscriptFacts,
    Unused,
)
from narrate2report.records.fold import folded
from narrate2report.records.journal import CoverageChange, EntryChange
from narrate2report.records.journal_file import line_bytes
from narrate2report.records.transcript import Engine, Recording, Stretch, Transcript
from tests.publish.walk import entry, evidence
from tests.records.review import AT, Reviewed

CLIP = bytes(range(256)) * 2
PICTURE = b"a picture" * 9
QUOTE = "There's a chip on the counter."
WHO = Decision(by="Ida Pell", at=AT)

RECORDING = Recording(file="walk.mp4", sha256=hashlib.sha256(CLIP).hexdigest(), bytes=len(CLIP), duration_s=90.0)
STILL = Still(file="walk.stills/e1-1.png", recording="walk.mp4", time=76.5, sha256=hashlib.sha256(PICTURE).hexdigest())


def draft() -> Findings:
    return Findings(
        walkthrough=Header(unit=(Sourced(value="2B", source="given"),)),
        recordings=(RECORDING,),
        transcript=TranscriptFacts(
            engine="given",
            model=None,
            model_sha256=None,
            language="en",
            vocabulary_version="0" * 64,
            time_precision="word",
        ),
        entries=(
            entry(
                id="e1",
                evidence=(evidence(75.3, QUOTE),),
                heard=(Heard(heard="chip", read="chip", why="a repair as any other", sureness=0.7),),
            ),
            entry(id="e2", evidence=(evidence(75.3, QUOTE),), component="backsplash"),
        ),
        rooms=(),
        coverage=(
            Coverage(room="kitchen", component="sink", status="not_noted"),
            Coverage(room="kitchen", component="countertop", status="noted"),
        ),
        unused=(
            Unused(
                id="s2",
                recording="walk.mp4",
                start=80,
                end=82,
                text="Okay, moving on.",
                reason="moving",
                because="moving on",
            ),
        ),
    )


def transcript() -> Transcript:
    return Transcript(
        recordings=(RECORDING,),
        engine=Engine(name="given"),
        time_precision="word",
        stretches=(
            Stretch(recording="walk.mp4", start=75.3, end=78.3, text=QUOTE),
            Stretch(recording="walk.mp4", start=80, end=82, text="Okay,  moving on."),
        ),
    )


def review(start: Findings | None = None) -> Reviewed:
    """Everything is decided: one accepted with a picture, one dropped, the gap acknowledged."""
    made = Reviewed(start or draft())
    made.keep(became(made, "e1", state="accepted", decided=WHO))
    made.keep(became(made, "e1", stills=(STILL,)))
    made.keep(became(made, "e2", state="dropped", decided=WHO))
    row = made.coverage["kitchen", "sink"]
    said = Acknowledged(looked="not_looked_at", by="Ida Pell", at=AT)
    made.keep(CoverageChange(before=row, after=row.model_copy(update={"acknowledged": said})))
    return made


def became(made: Reviewed, name: str, **fields: object) -> EntryChange:
    before: Entry = made.entries[name]
    return EntryChange(before=before, after=before.model_copy(update=fields))


def lay_out(folder: Path, made: Reviewed | None = None, record: Findings | None = None) -> Path:
    """The files of a walk; the findings file holds what is decided unless another record is given."""
    made = made or review()
    path = folder / "walk.findings.json"
    write_record(path, record or folded(made.draft, made.lines))
    (folder / "walk.mp4").write_bytes(CLIP)
    write_record(transcript_beside(path), transcript())
    write_journal(path, made)
    stills_beside(path).mkdir()
    (folder / STILL.file).write_bytes(PICTURE)
    return path


def write_journal(path: Path, made: Reviewed) -> None:
    journal_beside(path).write_bytes(b"".join(line_bytes(line) for line in made.lines))


def on_disk(path: Path) -> Findings:
    return read_record(path, Findings)
