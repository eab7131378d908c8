"""Earlier flaws to later ones, one to one, so that the sum of likeness is the largest there can be.

Only flaws that may be one at all are set beside each other, and each block of those is assigned by itself
(Crouse 2016, as scipy.optimize.linear_sum_assignment): a whole house takes a fraction of a second.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from scipy.optimize import linear_sum_assignment

from narrate2report.compare.alike import Likeness, likeness
from narrate2report.compare.flaws import Flaw
from narrate2report.compare.scope import GENERAL, Scope
from narrate2report.records.expected import WHOLE_UNIT

Edges = dict[tuple[int, int], Likeness]


@dataclass(frozen=True)
class Pair:
    """An earlier flaw and a later one that are taken to be the same."""

    before: Flaw
    after: Flaw
    likeness: Likeness


def candidates(before: Sequence[Flaw], after: Sequence[Flaw], scope: Scope) -> Edges:
    """Every two flaws that may be one, by their places in the two sequences."""
    earlier: dict[str, list[int]] = defaultdict(list)
    for index, flaw in enumerate(before):
        for key in scope.keys_before(flaw.entry):
            earlier[key].append(index)
    whole = earlier.get(WHOLE_UNIT, [])
    edges: Edges = {}
    for at, flaw in enumerate(after):
        near = {index for key in scope.keys_after(flaw.entry) for index in earlier.get(key, ())}
        of_all = flaw.entry.room == WHOLE_UNIT and flaw.entry.component != GENERAL
        near.update(range(len(before)) if of_all else whole)
        for index in sorted(near):
            room = scope.grade(before[index].entry, flaw.entry)
            found = likeness(before[index], flaw, room, scope.terms)
            if found is not None:
                edges[index, at] = found
    return edges


def best_pairs(before: Sequence[Flaw], after: Sequence[Flaw], edges: Edges) -> tuple[Pair, ...]:
    """The assignment with the largest sum of likeness; what is left over on either side is in no pair."""
    pairs = []
    for rows, columns in _blocks(edges):
        # Nobody is forced: what cannot be one is worth nothing, and is left out of what comes back.
        worth = np.zeros((len(rows), len(columns)))
        for at_row, row in enumerate(rows):
            for at_column, column in enumerate(columns):
                if (row, column) in edges:
                    worth[at_row, at_column] = edges[row, column].grade
        for at_row, at_column in zip(*linear_sum_assignment(worth, maximize=True), strict=True):
            edge = (rows[at_row], columns[at_column])
            if edge in edges:
                pairs.append(Pair(before[edge[0]], after[edge[1]], edges[edge]))
    return tuple(sorted(pairs, key=lambda pair: pair.before.number))


def _blocks(edges: Edges) -> Iterator[tuple[list[int], list[int]]]:
    """The rows and columns that hang together by edges, in their order."""
    of_row: dict[int, list[int]] = defaultdict(list)
    of_column: dict[int, list[int]] = defaultdict(list)
    for row, column in edges:
        of_row[row].append(column)
        of_column[column].append(row)
    seen: set[int] = set()
    for start in of_row:
        if start in seen:
            continue
        rows, columns, todo = {start}, set(), [start]
        while todo:
            for column in of_row[todo.pop()]:
                if column not in columns:
                    columns.add(column)
                    new = [row for row in of_column[column] if row not in rows]
                    rows.update(new)
                    todo += new
        seen |= rows
        yield sorted(rows), sorted(columns)
