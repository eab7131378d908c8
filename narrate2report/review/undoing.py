"""Taking back without end: which line an undo or redo takes back, read from the journal alone."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

from narrate2report.errors import CannotDecide
from narrate2report.records.journal import Altered
from narrate2report.records.journal_file import KindOfLine

Part = TypeVar("Part", bound=Altered)


def standing(lines: Sequence[KindOfLine]) -> tuple[list[KindOfLine], list[KindOfLine]]:
    """The decisions that stand, oldest first, and the undo lines that can be taken back, oldest first."""
    done: list[KindOfLine] = []
    undone: list[KindOfLine] = []
    for line in lines:
        if line.action == "begin":
            continue
        if line.action == "undo":
            done.pop()
            undone.append(line)
        elif line.action == "redo":
            undone.pop()
            done.append(line)
        else:
            done.append(line)
            undone.clear()
    return done, undone


def to_undo(lines: Sequence[KindOfLine]) -> KindOfLine:
    """The newest decision that stands. Raises CannotDecide when there is none."""
    done, _ = standing(lines)
    if not done:
        raise CannotDecide("there is no decision to take back")
    return done[-1]


def to_redo(lines: Sequence[KindOfLine]) -> KindOfLine:
    """The newest undo that nothing was decided after. Raises CannotDecide when there is none."""
    _, undone = standing(lines)
    if not undone:
        raise CannotDecide("nothing was taken back that could stand again")
    return undone[-1]


def reverse(changes: Sequence[Part]) -> tuple[Part, ...]:
    """The changes that put everything back as it was before these."""
    swapped = (change.model_copy(update={"before": change.after, "after": change.before}) for change in changes)
    return tuple(reversed(list(swapped)))
