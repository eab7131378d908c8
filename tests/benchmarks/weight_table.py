"""What was learned or counted, as the tables that narrate2report/read/lexis/tables reads."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Final

from narrate2report.read.lexis.tables import Table
from narrate2report.records.files import write_whole

LEAST_WEIGHT: Final = 3
"""Hundredths: a sign that weighs less is left out of a table."""


def hundredths(weights: Mapping[str, float]) -> dict[str, int]:
    """Weights as they stand in a table."""
    rounded = {sign: round(100 * weight) for sign, weight in weights.items()}
    return {sign: weight for sign, weight in rounded.items() if abs(weight) >= LEAST_WEIGHT}


def write_table(path: Path, table: Table, columns: Sequence[str] = ("question", "sign", "weight")) -> None:
    """Write a table whole, and tell how many rows it has: of weights, by question and sign, in hundredths."""
    text = io.StringIO()
    rows = csv.writer(text, lineterminator="\n")
    rows.writerow(columns)
    rows.writerows([first, *row] for first, numbers in table.items() for row in sorted(numbers.items()))
    write_whole(path, text.getvalue().encode())
    print(f"  {sum(map(len, table.values()))} rows: {path}")
