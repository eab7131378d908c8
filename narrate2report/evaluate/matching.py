"""Entries matched to marks, one to one and as many as can be: what was found, what was missed, what is not there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from scipy.optimize import linear_sum_assignment

from narrate2report.evaluate.marks import KEYS, Mark, key_fields, said_at
from narrate2report.records.findings import Entry


@dataclass(frozen=True)
class Matched:
    """A walk as read beside a walk as marked."""

    found: tuple[tuple[Mark, Entry], ...]
    """Marks with the entry that says the same; optional ones among them."""
    missed: tuple[Mark, ...]
    """Marks that were asked for and of which nothing was read, in this or other words."""
    extra: tuple[Entry, ...]
    """Entries that no mark asks for or excuses."""
    false_alarms: tuple[Entry, ...]
    """Those of the extra that tell of something wrong where no mark does."""


def match(marks: Sequence[Mark], entries: Sequence[Entry]) -> Matched:
    """The assignment that finds most of what was asked for, and then most of what was optional.

    It is an optimal one (Hungarian method, as scipy has it), so that a vague entry never takes the mark of a precise
    one.
    """
    kept = [entry for entry in entries if entry.kind in KEYS and entry.stands]
    owner = _assigned(marks, kept)
    excused = {twin for index in owner for twin in _twins(marks, index)}
    extra = tuple(entry for number, entry in enumerate(kept) if number not in set(owner.values()))
    alarming = [mark for mark in marks if mark.may_be_adverse]
    return Matched(
        found=tuple((marks[index], kept[number]) for index, number in sorted(owner.items())),
        missed=tuple(
            mark
            for index, mark in enumerate(marks)
            if not mark.optional and index not in owner and index not in excused
        ),
        extra=extra,
        false_alarms=tuple(
            entry
            for entry in extra
            if entry.kind == "condition" and entry.is_adverse and not any(_same_words(mark, entry) for mark in alarming)
        ),
    )


def _assigned(marks: Sequence[Mark], entries: Sequence[Entry]) -> Mapping[int, int]:
    """Index of a mark to the number of its entry."""
    if not marks or not entries:
        return {}
    asked = len(marks) + 1
    worth = np.zeros((len(marks), len(entries)))
    for index, mark in enumerate(marks):
        for number, entry in enumerate(entries):
            if _says(entry, mark):
                worth[index, number] = 1 if mark.optional else asked
    rows, columns = linear_sum_assignment(worth, maximize=True)
    return {int(row): int(column) for row, column in zip(rows, columns, strict=True) if worth[row, column]}


def _says(entry: Entry, mark: Mark) -> bool:
    if entry.kind != mark.kind or not _same_words(mark, entry):
        return False
    told = key_fields(entry)
    for name, right in mark.fields.items():
        if name == "room":
            fits = _bare(told["room"]) in set(map(_bare, right))
        else:
            # A quantity that may also be left open is no quarrel about a number.
            fits = told[name] in right or (name == "quantity" and None in right)
        if not fits:
            return False
    return True


def _bare(room: str) -> str:
    """A room without its number or name: `bedroom.2` is a bedroom."""
    return str(room).partition(".")[0]


def _same_words(mark: Mark, entry: Entry) -> bool:
    """Whether an entry was read from where a mark was said."""
    return any(said_at(piece).meets(where) for piece in entry.evidence for where in mark.where)


def _twins(marks: Sequence[Mark], index: int) -> set[int]:
    """Marks of the same fact as this one, whichever of them says so."""
    return set(marks[index].same_as) | {other for other, mark in enumerate(marks) if index in mark.same_as}
