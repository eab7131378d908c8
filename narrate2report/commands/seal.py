"""`seal FILE`: a record that is decided to the last gap, closed under a person's name."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import dataclass
from getpass import getpass
from pathlib import Path

from rich.console import Console

from narrate2report.commands.typed import command
from narrate2report.errors import BadInput
from narrate2report.records.beside import journal_beside
from narrate2report.records.files import read_record, write_record
from narrate2report.records.findings import Findings, Seal
from narrate2report.records.fold import folded
from narrate2report.records.journal import JournalLine
from narrate2report.records.journal_file import draft_sha256, read_journal
from narrate2report.records.moments import stamp
from narrate2report.review.journal import Journal
from narrate2report.seal.decided import Decided, Open, decided
from narrate2report.seal.sealing import STATEMENT, Sealer, sealed
from narrate2report.seal.signing import read_signing_key
from narrate2report.wording import counted

NAMED = 3
"""How many of what is open are named; the rest is counted."""


@dataclass(frozen=True)
class WantedSeal:
    """What the person at the keyboard asked for; name and statement are asked in the terminal where they miss."""

    file: Path
    by: str | None = None
    statement: str | None = None
    key: Path | None = None
    quiet: bool = False


def seal(wanted: WantedSeal) -> None:
    """Seal a record and print the hash to keep. Raises NarrateError, with nothing written, where that cannot be."""
    ready_to_seal(wanted.file)  # before anything is asked
    sealer = Sealer(
        by=wanted.by or _asked("Your name", "--by NAME"),
        statement=wanted.statement or _asked("What you declare", "--statement TEXT", STATEMENT),
        key=read_signing_key(wanted.key, lambda: asked_passphrase(f"Passphrase of {wanted.key}: "))
        if wanted.key
        else None,
    )
    made = seal_walk(wanted.file, sealer)
    if not wanted.quiet:
        _tell(made, wanted.file)


def ready_to_seal(file: Path) -> Decided:
    """The record with every decision of its journal. Raises BadInput, naming some of it, where something is open."""
    on_disk = read_record(file, Findings)
    if on_disk.seal is not None:
        raise BadInput(f"{file}: is sealed already and stays as it is; to add to it: {command('amend', file)}")
    journal = journal_beside(file)
    record = decided(folded(on_disk, read_journal(journal, JournalLine)) if journal.is_file() else on_disk)
    if isinstance(record, Open):
        raise BadInput(f"{file}: cannot be sealed yet: {_still_open(record)}; decide first, then seal")
    return record


def seal_walk(file: Path, sealer: Sealer) -> Seal:
    """Seal the record as its journal has it, while no review can add to that; the file is the old or the sealed one.

    Where nothing was there to decide, the journal begins with who seals. Raises what `ready_to_seal` and `sealed`
    raise, with nothing written.
    """
    place = journal_beside(file)
    journal = Journal(place, JournalLine)
    with journal.locked():
        record = ready_to_seal(file)
        begun = not place.exists()
        try:
            if begun:
                draft = draft_sha256(record.findings)
                journal.begin(stamp(), sealer.by.strip(), draft)
            findings = sealed(record, file, sealer)
            write_record(file, findings)
        except BaseException:
            if begun:
                place.unlink(missing_ok=True)
            raise
    if findings.seal is None:
        raise AssertionError("sealed without a seal")
    return findings.seal


def asked_passphrase(prompt: str) -> str:
    """Typed unseen. Raises BadInput where there is no terminal to type it in."""
    if not sys.stdin.isatty():
        raise BadInput("this key is locked by a passphrase, which can only be typed in a terminal")
    return getpass(prompt)


def _still_open(record: Open) -> str:
    told = []
    if record.entries:
        told.append(f"{counted(len(record.entries), 'entry', 'entries')} undecided ({_some(record.named_entries())})")
    if record.gaps:
        gaps = counted(len(record.gaps), "part")
        told.append(f"{gaps} not spoken of and not acknowledged ({_some(record.named_gaps())})")
    return " and ".join(told)


def _some(names: Sequence[str]) -> str:
    more = [f"and {len(names) - NAMED} more"] if len(names) > NAMED else []
    return "; ".join([*names[:NAMED], *more])


def _asked(what: str, option: str, proposed: str = "") -> str:
    if not sys.stdin.isatty():
        raise BadInput(f"who seals must be named and declare something: {option} is missing")
    console = Console(stderr=True, highlight=False, markup=False)
    if proposed:
        console.print(f"{what}; Enter for: {proposed}")
    return console.input(f"{what}: ").strip() or proposed


def _tell(made: Seal, file: Path) -> None:
    console = Console(highlight=False, markup=False)
    console.print(f"Sealed: {file}, with {counted(len(made.files), 'file')}", soft_wrap=True)
    console.print(f"by {made.sealed_by} at {made.sealed_at}", soft_wrap=True)
    console.print(f"Seal: {made.sha256}", soft_wrap=True)
    console.print("Send this line to both sides today: the seal proves only what you can compare it with.")
    console.print(f"To check it: {command('verify', file)}", soft_wrap=True)
