"""One walk under review: the record as it stands, its journal, and the one way to decide something about it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from narrate2report.errors import BadInput, BrokenRecord, CannotDecide, NarrateError
from narrate2report.records.beside import journal_beside
from narrate2report.records.digest import written_as
from narrate2report.records.files import read_record, write_record
from narrate2report.records.findings import Entry, Findings, Still
from narrate2report.records.fold import folded, name_of
from narrate2report.records.journal import Action, Change, JournalLine
from narrate2report.records.moments import stamp
from narrate2report.records.walk import walk_of
from narrate2report.review import requests as ask
from narrate2report.review.decisions import Hand, Standing, decide
from narrate2report.review.journal import Journal
from narrate2report.review.spine import Sentence, sentences
from narrate2report.review.undoing import reverse, to_redo, to_undo


class Camera(Protocol):
    """Takes pictures out of the recordings of a walk and keeps them as files."""

    def take(self, findings: Findings, wanted: ask.TakeStill) -> Still:
        """The picture at the moment that is asked for, on disk; raises BadInput where there is none."""


class Stale(CannotDecide):
    """Another window has decided about the same parts since; `lines` are its decisions."""

    def __init__(self, lines: Sequence[JournalLine]) -> None:
        who = ", ".join(dict.fromkeys(line.by for line in lines))
        super().__init__(f"this was decided in another window meanwhile (by {who}); look at it and decide again")
        self.lines = tuple(lines)


class Sealed(CannotDecide):
    """The record was sealed while it was open here: nothing can be decided about it any more."""


@dataclass(frozen=True)
class Kept:
    """The line that was written, and those that other windows wrote since this one last looked."""

    line: JournalLine
    others: tuple[JournalLine, ...]


class Desk:
    """A walk that is being reviewed. Every decision is on disk before `decide` returns.

    Two of them, in one program or two, may be open on the same walk: the second to decide about the same thing is
    told what the first one decided. Raises BadInput for a sealed record and for what cannot be read or written,
    BrokenRecord for files that do not fit.
    """

    def __init__(self, findings: Path, now: Callable[[], str] | None = None) -> None:
        self.path = findings
        self.camera: Camera | None = None
        self._now = now or stamp
        self._seen_file = self._looked_at = written_as(findings)
        on_disk = read_record(findings, Findings)
        if on_disk.seal is not None:
            raise BadInput(f"{findings}: is sealed and stays as it is; start an addendum: narrate2report amend FILE")
        self._journal = Journal(journal_beside(findings))
        with self._journal.locked():
            self._journal.refresh()
        walk = walk_of(on_disk, self._journal.lines, findings)
        self.findings = walk.findings
        self._draft = walk.draft
        self._draft_sha256 = walk.draft_sha256
        self.spine: tuple[Sentence, ...] = sentences(walk.draft)

    @property
    def lines(self) -> tuple[JournalLine, ...]:
        """The journal as far as this desk has read it."""
        return tuple(self._journal.lines)

    @property
    def set_aside(self) -> Path | None:
        """Where the torn end of the journal was put, if there was one."""
        return self._journal.set_aside

    def look(self) -> None:
        """Take in what other programs have decided about the same walk, and the seal if one was put on it."""
        with self._journal.locked():
            self._take_in()
            self._take_in_seal()

    def decide(self, wanted: ask.Request, by: str, seen: int) -> Kept:
        """Keep one decision. `seen` is the number of the last journal line that the person has seen.

        Raises Stale where another window has meanwhile decided about the same thing, and CannotDecide where the
        record does not allow it; nothing is written then.
        """
        with self._journal.locked():
            self._take_in()
            self._check_file()
            others = self._journal.lines[seen:]
            number = max(len(self._journal.lines), 1) + 1
            hand = Hand(by=by, at=self._now(), number=number)
            changes, takes_back = self._changes(wanted, hand, others)
            if not self._journal.lines:
                self._journal.begin(hand.at, by, self._draft_sha256)
            line = self._journal.append(hand.at, by, _action(wanted), changes, takes_back)
            self.findings = folded(self._draft, self._journal.lines)
        return Kept(line, tuple(others))

    def put_down(self) -> None:
        """Write the record with all decisions into the findings file; the journal stays what it rests on.

        A record that was sealed meanwhile holds them, and stays as it is.
        """
        with self._journal.locked():
            self._take_in()
            try:
                self._check_file()
            except Sealed:
                return
            write_record(self.path, self.findings)
            self._seen_file = written_as(self.path)

    def _changes(
        self, wanted: ask.Request, hand: Hand, others: Sequence[JournalLine]
    ) -> tuple[tuple[Change, ...], int | None]:
        if isinstance(wanted, ask.Undo | ask.Redo):
            if others:
                raise Stale(others)
            line = (to_undo if isinstance(wanted, ask.Undo) else to_redo)(self._journal.lines)
            return reverse(line), line.number
        self._check_fresh(_names(wanted), others)
        still = None
        if isinstance(wanted, ask.TakeStill):
            if self.camera is None:
                raise CannotDecide("no pictures can be taken here")
            still = self.camera.take(self.findings, wanted)
        return decide(Standing(self.findings, self.spine, self._first()), wanted, hand, still), None

    def _first(self) -> dict[str, Entry]:
        """Each entry as it came into the record: drafted, added, or split off."""
        first = {entry.id: entry for entry in self._draft.entries}
        for change in (change for line in self._journal.lines for change in line.changes):
            if isinstance(change.after, Entry):
                first.setdefault(change.after.id, change.after)
        return first

    def _check_fresh(self, names: set[tuple[str, ...]], others: Sequence[JournalLine]) -> None:
        clashing = [line for line in others if names & {name_of(change)[1:] for change in line.changes}]
        if clashing:
            raise Stale(clashing)

    def _take_in(self) -> None:
        if self._journal.refresh():
            self.findings = folded(self._draft, self._journal.lines)

    def _take_in_seal(self) -> None:
        now = written_as(self.path)
        if now in (self._seen_file, self._looked_at, None):
            return
        with suppress(NarrateError):  # a file that is broken is told to whoever decides something
            on_disk = read_record(self.path, Findings)
            self.findings = on_disk if on_disk.seal is not None else self.findings
            self._looked_at = now

    def _check_file(self) -> None:
        """Whether the findings file is still that of this review. Raises Sealed or BrokenRecord where it is not."""
        on_file = written_as(self.path)
        if on_file in (self._seen_file, None):
            return
        on_disk = read_record(self.path, Findings)
        if on_disk.seal is not None:
            raise Sealed(f"{self.path.name} was sealed meanwhile and stays as it is")
        now = walk_of(on_disk, self._journal.lines, self.path)
        if now.draft_sha256 != self._draft_sha256:
            raise BrokenRecord(f"{self.path}: was drafted anew meanwhile; close this review and open it again")
        self._seen_file = on_file


def _names(wanted: ask.Decide) -> set[tuple[str, ...]]:
    """What a request is about, as the journal names it: entries, sentences, gaps."""
    match wanted:
        case ask.Accept() | ask.Drop() | ask.Reopen() | ask.Merge():
            return {(entry,) for entry in wanted.entries}
        case ask.Add():
            return {(sentence,) for sentence in wanted.sentences}
        case ask.Acknowledge():
            return {(gap.room, gap.component) for gap in wanted.gaps}
        case _:
            return {(wanted.entry,)}


def _action(wanted: ask.Request) -> Action:
    return "still" if isinstance(wanted, ask.RemoveStill) else wanted.action
