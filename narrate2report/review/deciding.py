"""The one way to decide something about a record on disk, whatever the record is.

It is on disk before it is told as kept; two windows, in one program or two, lose nothing; all is taken back by lines
like any other. What can be asked for, and what that changes, is left to the desk of each kind of record.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Generic, TypeVar

from narrate2report.errors import BrokenRecord, CannotDecide
from narrate2report.records.beside import journal_beside
from narrate2report.records.digest import written_as
from narrate2report.records.journal import Altered, Line
from narrate2report.records.journal_file import KindOfLine
from narrate2report.records.moments import stamp
from narrate2report.review import requests as ask
from narrate2report.review.hand import Hand
from narrate2report.review.journal import Journal
from narrate2report.review.undoing import reverse, to_redo, to_undo

Name = tuple[str, ...]
"""What a decision is about."""

Wanted = TypeVar("Wanted", bound=ask.Asked)
"""What can be asked for of a kind of record, besides undo and redo."""


class Stale(CannotDecide):
    """Another window has decided about the same parts since; `lines` are its decisions."""

    def __init__(self, lines: Sequence[Line]) -> None:
        who = ", ".join(dict.fromkeys(line.by for line in lines))
        super().__init__(f"this was decided in another window meanwhile (by {who}); look at it and decide again")
        self.lines = tuple(lines)


class Sealed(CannotDecide):
    """The record was sealed while it was open here: nothing can be decided about it any more."""


@dataclass(frozen=True)
class Kept(Generic[KindOfLine]):
    """The line that was written, and those that other windows wrote since this one last looked."""

    line: KindOfLine
    others: tuple[KindOfLine, ...]


class Deciding(ABC, Generic[KindOfLine, Wanted]):
    """A record that is being decided about, and its journal. Every decision is on disk before `decide` returns.

    Raises BrokenRecord for files that do not fit, BadInput for what cannot be read or written.
    """

    made_by = "made"
    """How the record comes to be, for whoever must be told that this was done again."""

    def __init__(self, path: Path, kind: type[KindOfLine], now: Callable[[], str] | None = None) -> None:
        self.path = path
        self._now = now or stamp
        self._seen_file = written_as(path)
        self._journal = Journal(journal_beside(path), kind)
        self._draft_sha256 = ""

    @property
    def lines(self) -> tuple[KindOfLine, ...]:
        """The journal as far as this desk has read it."""
        return tuple(self._journal.lines)

    @property
    def set_aside(self) -> Path | None:
        """Where the torn end of the journal was put, if there was one."""
        return self._journal.set_aside

    def look(self) -> None:
        """Take in what other programs have decided about the same record."""
        with self._journal.locked():
            self._take_in()

    def decide(self, wanted: Wanted | ask.Undo | ask.Redo, by: str, seen: int) -> Kept[KindOfLine]:
        """Keep one decision. `seen` is the number of the last journal line that the person has seen.

        Raises Stale where another window has meanwhile decided about the same thing, and CannotDecide where the
        record does not allow it; nothing is written then.
        """
        with self._journal.locked():
            self._take_in()
            self._check_file()
            others = self._journal.lines[seen:]
            hand = Hand(by=by, at=self._now(), number=max(len(self._journal.lines), 1) + 1)
            changes, takes_back = self._changes(wanted, hand, others)
            if not self._journal.lines:
                self._journal.begin(hand.at, by, self._draft_sha256)
            line = self._journal.append(hand.at, by, self._called(wanted), changes, takes_back)
            self._fold()
        return Kept(line, tuple(others))

    def put_down(self) -> None:
        """Write the record with all decisions into its file; the journal stays what it rests on.

        A record that was sealed meanwhile holds them, and stays as it is.
        """
        with self._journal.locked():
            self._take_in()
            try:
                self._check_file()
            except Sealed:
                return
            self._write()
            self._seen_file = written_as(self.path)

    def _changes(
        self, wanted: Wanted | ask.Undo | ask.Redo, hand: Hand, others: Sequence[KindOfLine]
    ) -> tuple[tuple[Altered, ...], int | None]:
        if isinstance(wanted, ask.Undo | ask.Redo):
            if others:
                raise Stale(others)
            line = (to_undo if isinstance(wanted, ask.Undo) else to_redo)(self._journal.lines)
            return reverse(line.changes), line.number
        names = self._names(wanted)
        clashing = [line for line in others if names & self._touched(line)]
        if clashing:
            raise Stale(clashing)
        return self._decided(wanted, hand), None

    def _take_in(self) -> None:
        if self._journal.refresh():
            self._fold()

    def _check_file(self) -> None:
        """Whether the file is still that of this review. Raises Sealed or BrokenRecord where it is not."""
        on_file = written_as(self.path)
        if on_file in (self._seen_file, None):
            return
        if self._draft_on_file() != self._draft_sha256:
            raise BrokenRecord(f"{self.path}: was {self.made_by} anew meanwhile; close this review and open it again")
        self._seen_file = on_file

    def _called(self, wanted: Wanted | ask.Undo | ask.Redo) -> str:
        """How the journal calls it."""
        return wanted.action

    @abstractmethod
    def _decided(self, wanted: Wanted, hand: Hand) -> tuple[Altered, ...]:
        """What a request changes. Raises CannotDecide where the record does not allow it."""

    @abstractmethod
    def _names(self, wanted: Wanted) -> set[Name]:
        """What a request is about."""

    @abstractmethod
    def _touched(self, line: KindOfLine) -> set[Name]:
        """What a line of the journal is about, as `_names` names it."""

    @abstractmethod
    def _fold(self) -> None:
        """Lay the journal over the record anew."""

    @abstractmethod
    def _draft_on_file(self) -> str:
        """The hash of the draft that the file on disk holds now. Raises Sealed for one that is sealed."""

    @abstractmethod
    def _write(self) -> None:
        """Write the record as it stands into its file."""
