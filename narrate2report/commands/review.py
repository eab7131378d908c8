"""`review FILE`: decide each entry beside the recording, in the browser or the terminal."""

from __future__ import annotations

import sys
import webbrowser
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from typing import Any

from rich.console import Console

from narrate2report.commands.seal import seal_walk
from narrate2report.commands.walk_recordings import WalkRecordings
from narrate2report.commands.words import word_folders
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.records.findings import Findings
from narrate2report.records.header import first_told
from narrate2report.records.journal_file import KindOfLine
from narrate2report.review.choices import Choice, Choices
from narrate2report.review.deciding import Deciding
from narrate2report.review.desk import Desk
from narrate2report.review.serving import serve
from narrate2report.review.walk_site import WalkSite
from narrate2report.seal.sealing import STATEMENT, Sealer
from narrate2report.wording import plain, room_name


def review(file: Path, *, by: str | None, vocabulary: Path | None, browser: bool) -> None:
    """Serve the review page of a findings file until interrupted, then put the decisions into the file.

    Raises NarrateError for a file that cannot be reviewed.
    """
    choices = choices_of(load_vocabulary(*word_folders(vocabulary)))
    console = Console(stderr=True, highlight=False, markup=False)

    def seal(by: str, statement: str) -> str:
        return seal_walk(file, Sealer(by, statement)).sha256

    with open_walk(file, console) as (desk, recordings), suppress(KeyboardInterrupt):
        serve(WalkSite(desk, choices, recordings, seal, by or "", STATEMENT), opening(console, browser=browser))
    open_entries = sum(entry.state == "proposed" for entry in desk.findings.entries)
    console.print(f"{file}: {open_entries} of {len(desk.findings.entries)} entries are to decide.")
    sys.stderr.flush()


def opening(console: Console, *, browser: bool) -> Callable[[str], None]:
    """What is done with the page's address once the server answers there."""

    def opened(address: str) -> None:
        print(address, flush=True)  # noqa: T201 - the address alone, for whoever opens it otherwise
        console.print("This address works once, in one browser. Ctrl-C ends the review; every decision is kept.")
        if browser and not webbrowser.open(address):
            console.print("No browser could be opened; open the address above in one.")

    return opened


@contextmanager
def put_down_in_the_end(desk: Deciding[KindOfLine, Any], console: Console) -> Iterator[None]:
    """The decisions are put into the record's file, however the review ends; what was torn is told."""
    if desk.set_aside is not None:
        console.print(f"The end of the journal was torn; it was never shown as kept and lies in {desk.set_aside.name}.")
    try:
        yield
    finally:
        if desk.lines:
            desk.put_down()


@contextmanager
def open_walk(file: Path, console: Console) -> Iterator[tuple[Desk, WalkRecordings]]:
    """A walk ready for decisions, with its recordings; in the end the decisions are put into the findings file."""
    desk = Desk(file)
    recordings = WalkRecordings(file, desk.findings.recordings)
    desk.camera = recordings
    with put_down_in_the_end(desk, console), closing(recordings):
        yield desk, recordings


def spoken_name(findings: Findings) -> str:
    """Who walked, as far as the record knows: proposed as the name of who decides."""
    return first_told(findings.walkthrough.inspector) or ""


def choices_of(vocabulary: Vocabulary) -> Choices:
    """What the vocabulary offers to choose from, by name."""
    return Choices(
        rooms=tuple(Choice(name, term.label or room_name(name), term.say) for name, term in vocabulary.rooms.items()),
        components=tuple(
            Choice(name, term.label or plain(name), term.say) for name, term in vocabulary.components.items()
        ),
        conditions=tuple(
            Choice(name, term.label or plain(name), (*term.nouns, *term.adjectives, *term.phrases))
            for name, term in vocabulary.conditions.items()
        ),
        sound=frozenset(name for name in vocabulary.conditions if vocabulary.is_sound(name)),
    )
