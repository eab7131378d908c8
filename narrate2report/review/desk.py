"""One walk under review: the record as it stands, its journal, and the one way to decide something about it."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Protocol

from narrate2report.errors import BadInput, CannotDecide, NarrateError
from narrate2report.records.digest import written_as
from narrate2report.records.files import read_record, write_record
from narrate2report.records.findings import Entry, Findings, Still
from narrate2report.records.fold import folded, name_of
from narrate2report.records.journal import Change, JournalLine
from narrate2report.records.walk import walk_of
from narrate2report.review import requests as ask
from narrate2report.review.deciding import Deciding, Name, Sealed
from narrate2report.review.decisions import Standing, decide
from narrate2report.review.hand import Hand
from narrate2report.review.spine import Sentence, sentences


class Camera(Protocol):
    """Takes pictures out of the recordings of a walk and keeps them as files."""

    def take(self, findings: Findings, wanted: ask.TakeStill) -> Still:
        """The picture at the moment that is asked for, on disk; raises BadInput where there is none."""


class Desk(Deciding[JournalLine, ask.Decide]):
    """A walk that is being reviewed.

    Two of them, in one program or two, may be open on the same walk: the second to decide about the same thing is
    told what the first one decided. Raises BadInput for a sealed record as well.
    """

    made_by = "drafted"

    def __init__(self, findings: Path, now: Callable[[], str] | None = None) -> None:
        super().__init__(findings, JournalLine, now)
        self.camera: Camera | None = None
        self._looked_at = self._seen_file
        on_disk = read_record(findings, Findings)
        if on_disk.seal is not None:
            raise BadInput(f"{findings}: is sealed and stays as it is; start an addendum: narrate2report amend FILE")
        with self._journal.locked():
            self._journal.refresh()
        walk = walk_of(on_disk, self._journal.lines, findings)
        self.findings = walk.findings
        self._draft = walk.draft
        self._draft_sha256 = walk.draft_sha256
        self.spine: tuple[Sentence, ...] = sentences(walk.draft)

    def look(self) -> None:
        """Take in what other programs have decided about the same walk, and the seal if one was put on it."""
        super().look()
        now = written_as(self.path)
        if now in (self._seen_file, self._looked_at, None):
            return
        with suppress(NarrateError):  # a file that is broken is told to whoever decides something
            on_disk = read_record(self.path, Findings)
            self.findings = on_disk if on_disk.seal is not None else self.findings
            self._looked_at = now

    def _decided(self, wanted: ask.Decide, hand: Hand) -> tuple[Change, ...]:
        still = None
        if isinstance(wanted, ask.TakeStill):
            if self.camera is None:
                raise CannotDecide("no pictures can be taken here")
            still = self.camera.take(self.findings, wanted)
        return decide(Standing(self.findings, self.spine, self._first()), wanted, hand, still)

    def _first(self) -> dict[str, Entry]:
        """Each entry as it came into the record: drafted, added, or split off."""
        first = {entry.id: entry for entry in self._draft.entries}
        for change in (change for line in self._journal.lines for change in line.changes):
            if isinstance(change.after, Entry):
                first.setdefault(change.after.id, change.after)
        return first

    def _names(self, wanted: ask.Decide) -> set[Name]:
        match wanted:
            case ask.Accept() | ask.Drop() | ask.Reopen() | ask.Merge():
                return {(entry,) for entry in wanted.entries}
            case ask.Add():
                return {(sentence,) for sentence in wanted.sentences}
            case ask.Acknowledge():
                return {(gap.room, gap.component) for gap in wanted.gaps}
            case _:
                return {(wanted.entry,)}

    def _touched(self, line: JournalLine) -> set[Name]:
        return {name_of(change)[1:] for change in line.changes}

    def _called(self, wanted: ask.Request) -> str:
        return "still" if isinstance(wanted, ask.RemoveStill) else wanted.action

    def _fold(self) -> None:
        self.findings = folded(self._draft, self._journal.lines)

    def _draft_on_file(self) -> str:
        on_disk = read_record(self.path, Findings)
        if on_disk.seal is not None:
            raise Sealed(f"{self.path.name} was sealed meanwhile and stays as it is")
        return walk_of(on_disk, self._journal.lines, self.path).draft_sha256

    def _write(self) -> None:
        write_record(self.path, self.findings)
