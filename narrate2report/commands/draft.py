"""`draft INPUT... --out FILE`: recording or transcript in, findings file out.

The stages in order: gather, listen, read, write, show. Nothing is written before every input
has proved usable.
"""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from pathlib import Path

from rich.console import Console, RenderableType

from narrate2report.commands.listening import Ears, seen_ears
from narrate2report.commands.planned import expected_rooms, read_plan
from narrate2report.commands.typed import command
from narrate2report.commands.words import word_folders
from narrate2report.errors import BadInput, BrokenRecord
from narrate2report.intake.gather import Clips, gather
from narrate2report.publish.explain import explain
from narrate2report.publish.summary import first_to_look_at, numbers, summary
from narrate2report.read.coverage import UNPLANNED
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.lexis.words import Tokenizer
from narrate2report.read.outcome import Reading
from narrate2report.read.reading import Reader
from narrate2report.records.beside import heard_beside, journal_beside, transcript_beside
from narrate2report.records.expected import Expected
from narrate2report.records.files import read_record, write_record
from narrate2report.records.findings import Findings
from narrate2report.records.header import GivenFacts, with_given
from narrate2report.records.transcript import Transcript

LONGEST_NAME = 200
"""Bytes of a file name; most systems allow 255, and its transcript and temporary files have longer ones."""


@dataclass(frozen=True)
class Wanted:
    """What the person at the keyboard asked for."""

    inputs: tuple[Path, ...]
    out: Path
    facts: GivenFacts = field(default_factory=GivenFacts)
    model: str | None = None
    track: int | None = None
    by_sound: bool = True
    keep_location: bool = False
    vocabulary: Path | None = None
    plan: Path | None = None
    quiet: bool = False
    as_json: bool = False
    explain: bool = False
    say_next: bool = True


def draft(wanted: Wanted) -> Findings:
    """Write the findings file that was asked for, print what it holds, and return it.

    Raises NarrateError when an input, the vocabulary or the model cannot be used; no file is written then.
    """
    findings, reading = make_draft(
        wanted, lambda: load_vocabulary(*word_folders(wanted.vocabulary)), seen_ears(wanted.model, quiet=wanted.quiet)
    )
    _tell(wanted, findings, reading)
    return findings


def make_draft(wanted: Wanted, words: Callable[[], Vocabulary], ears: Ears) -> tuple[Findings, Reading]:
    """Write the findings file that was asked for and return it with its reading; nothing is printed.

    `words` is called, and anything is heard, once every input has proved usable. Raises NarrateError as `draft` does.
    """
    _check_place(wanted)
    given = gather(wanted.inputs, track=wanted.track, keep_location=wanted.keep_location)
    vocabulary = words()
    plan, facts = _planned(wanted, vocabulary)
    reader = Reader(vocabulary, Tokenizer(remembers=True))  # what the sound is asked of is read again after it
    if isinstance(given, Transcript):
        transcript = given
        reading = reader.read(transcript, plan=plan)
    else:
        _check_transcript_place(transcript_beside(wanted.out), given)
        keep = heard_beside(wanted.out)
        transcript = ears.hear(given, keep)
        asked = reader.ask(transcript) if wanted.by_sound else ()
        weighed = ears.weigh(asked, given, transcript, keep) if asked else ()
        reading = reader.read(transcript, weighed=weighed, plan=plan)
    findings = reading.findings.model_copy(update={"walkthrough": with_given(reading.findings.walkthrough, facts)})
    if transcript is not given:
        write_record(transcript_beside(wanted.out), transcript)
    write_record(wanted.out, findings)
    return findings, reading


def _planned(wanted: Wanted, vocabulary: Vocabulary) -> tuple[Expected, GivenFacts]:
    """The rooms that the walk is measured against, and its facts: without others, the unit is the plan's."""
    if wanted.plan is None:
        return UNPLANNED, wanted.facts
    file = read_plan(wanted.plan, vocabulary)
    return expected_rooms(file, vocabulary), replace(wanted.facts, unit=wanted.facts.unit or file.unit.unit)


def _check_place(wanted: Wanted) -> None:
    """Find out before an hour of listening that the result could not be written."""
    if wanted.out.name in {"", "-"}:
        raise BadInput(f"--out '{wanted.out}': name the findings file to write, best NAME.findings.json")
    if len(os.fsencode(wanted.out.name)) > LONGEST_NAME:
        raise BadInput(f"{wanted.out.name[:40]}...: this name is too long; choose one of {LONGEST_NAME} bytes at most")
    if wanted.out.is_dir():
        raise BadInput(f"{wanted.out}: is a folder; name the findings file to write in it")
    if not wanted.out.parent.is_dir():
        raise BadInput(f"{wanted.out.parent}: no such folder; make it first")
    if any(path.resolve() == wanted.out.resolve() for path in wanted.inputs):
        raise BadInput(f"{wanted.out}: is the input itself; recordings and transcripts are never overwritten")
    if wanted.out.is_symlink() or (wanted.out.exists() and not wanted.out.is_file()):
        raise BadInput(f"{wanted.out}: is a link or a device and no ordinary file; choose another name")
    _check_nothing_is_lost(wanted.out)


def _check_nothing_is_lost(out: Path) -> None:
    """A draft takes the place of an earlier draft, never of a person's decisions or of another file.

    Decisions stand in the journal before they stand in the findings file, and a journal outlives a lost one.
    """
    if out.exists() and out.stat().st_size:
        _check_nobody_decided(out)
    journal = journal_beside(out)
    if journal.is_symlink() or (journal.exists() and (not journal.is_file() or journal.stat().st_size)):
        raise BadInput(f"{journal}: is there, with the decisions about an earlier draft; choose another --out name")


def _check_nobody_decided(out: Path) -> None:
    try:
        before = read_record(out, Findings)
    except BrokenRecord as error:
        raise BadInput(f"{out}: is there already and is no findings file; choose another name") from error
    if before.seal is not None:
        raise BadInput(f"{out}: is sealed; choose another name for a new draft")
    decided = [entry for entry in before.entries if entry.state != "proposed" or entry.stills]
    settled = [row for row in before.coverage if row.acknowledged is not None]
    if decided or settled or before.amends is not None:
        raise BadInput(f"{out}: holds decisions of a person; choose another name for a new draft")


def _check_transcript_place(place: Path, given: Clips) -> None:
    """What is heard takes the place of what was heard of the same recordings, and of nothing else."""
    if not place.is_symlink() and not place.exists():
        return
    if place.is_symlink() or not place.is_file():
        raise BadInput(f"{place}: is in the way of the transcript; choose another --out name")
    try:
        before = read_record(place, Transcript) if place.stat().st_size else None
    except BrokenRecord as error:
        raise BadInput(f"{place}: is there already and is no transcript of ours; choose another --out name") from error
    heard = {recording.sha256 for recording in before.recordings} if before else set()
    if heard - {clip.recording.sha256 for clip in given.clips}:
        raise BadInput(f"{place}: is the transcript of another recording; choose another --out name")


def _tell(wanted: Wanted, findings: Findings, reading: Reading) -> None:
    if wanted.as_json:
        told = {"findings": str(wanted.out), **numbers(findings)}
        sys.stdout.write(json.dumps(told, ensure_ascii=False) + "\n")
        return
    pages: list[RenderableType] = []
    if wanted.explain:
        pages.append(explain(reading.sentences))
    if not wanted.quiet:
        pages.append(summary(findings))
    console = Console(highlight=False, markup=False)
    for page in pages:
        console.print(page)
    if wanted.say_next and not wanted.quiet:
        console.print(f"\nWritten: {wanted.out}", soft_wrap=True)
        for folder in word_folders(wanted.vocabulary):
            console.print(f"Read with your words from {folder}", soft_wrap=True)
        if (first := first_to_look_at(findings)) is not None:
            console.print(f"Next: {command('show', wanted.out, first.id)}", soft_wrap=True)
