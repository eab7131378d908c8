"""The tables in which lie what was learned or counted: two names and a whole number in each row."""

from __future__ import annotations

import csv
from collections import defaultdict
from collections.abc import Mapping
from pathlib import Path

Table = Mapping[str, Mapping[str, int]]
"""By the first name and the second, the number."""


def read_table(path: Path) -> Table:
    """The rows of a table, below a row with the names of its columns."""
    table: dict[str, dict[str, int]] = defaultdict(dict)
    with path.open(encoding="utf-8", newline="") as file:
        rows = csv.reader(file)
        next(rows)
        for first, second, number in rows:
            table[first][second] = int(number)
    return table
