"""Decide without end and print each line once it is kept: `python -m ... FILE PIECE`, killed from outside.

FILE is the findings file of the walk that was made by hand, or the comparison that was.

With a PIECE above 0, what is written to the journal goes to disk in pieces of so many bytes with a pause between
them, so that a kill finds lines half written.
"""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Iterator
from contextlib import suppress
from itertools import cycle
from pathlib import Path
from typing import IO, Any

from narrate2report.errors import CannotDecide
from narrate2report.records.journal import Line
from narrate2report.records.journal_file import line_sha256
from narrate2report.review import judging_requests as judging
from narrate2report.review import requests as ask
from narrate2report.review.desk import Desk
from narrate2report.review.judging_desk import JudgingDesk

PAUSE_S = 0.0002
_open = Path.open


class Dripping:
    """A file that is written to slowly."""

    def __init__(self, file: IO[bytes], piece: int) -> None:
        self._file, self._piece = file, piece

    def __enter__(self) -> Dripping:
        return self

    def __exit__(self, *_: object) -> None:
        self._file.close()

    def write(self, content: bytes) -> None:
        for at in range(0, len(content), self._piece):
            os.write(self._file.fileno(), content[at : at + self._piece])
            time.sleep(PAUSE_S)

    def flush(self) -> None:
        self._file.flush()

    def fileno(self) -> int:
        return self._file.fileno()


def main(findings: Path, piece: int) -> None:
    def dripping(path: Path, mode: str = "r", *more: Any, **others: Any) -> Any:
        file = _open(path, mode, *more, **others)
        return Dripping(file, piece) if mode == "ab" and piece else file

    setattr(Path, "open", dripping)  # noqa: B010 - in this process only
    keep = judge(findings) if findings.name == "changes.json" else review(findings)
    _tell("ready")
    sys.stdin.readline()
    for line in keep:
        _tell(f"{line.number} {line_sha256(line)}")


def review(findings: Path) -> Iterator[Line]:
    """The lines of decisions about a walk."""
    desk = Desk(findings)
    both = ("e1", "e2")
    every: tuple[ask.Request, ...] = (
        ask.Accept(entries=both),
        ask.Reopen(entries=both),
        ask.Split(entry="e3"),
        ask.Undo(),
    )
    for wanted in cycle(every):
        with suppress(CannotDecide):  # killed between two of them, or another program was faster
            yield desk.decide(wanted, "Ida Pell", len(desk.lines)).line


def judge(comparison: Path) -> Iterator[Line]:
    """The lines of decisions about a comparison."""
    desk = JudgingDesk(comparison)
    both = ("c1", "c5")
    every: tuple[judging.Request, ...] = (
        judging.Judge(changes=both, verdict="ordinary_wear"),
        judging.Split(change="c3", after=("a2",)),
        ask.Undo(),
        judging.Pair(change="c7", side="after", entry="a4", outcome="worse"),
        ask.Undo(),
        judging.Reopen(changes=both),
    )
    for wanted in cycle(every):
        with suppress(CannotDecide):
            yield desk.decide(wanted, "Ida Pell", len(desk.lines)).line


def _tell(line: str) -> None:
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]))
