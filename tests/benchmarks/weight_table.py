"""Learned weights as the tables that narrate2report/read/credible reads: questions, signs, hundredths."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping
from pathlib import Path
from typing import Final

from narrate2report.records.files import write_whole

LEAST_WEIGHT: Final = 3
"""Hundredths: a sign that weighs less is left out of a table."""

Table = Mapping[str, Mapping[str, int]]
"""By question the weight of each sign, in hundredths."""


def hundredths(weights: Mapping[str, float]) -> dict[str, int]:
    """Weights as they stand in a table."""
    rounded = {sign: round(100 * weight) for sign, weight in weights.items()}
    return {sign: weight for sign, weight in rounded.items() if abs(weight) >= LEAST_WEIGHT}


def write_table(path: Path, table: Table) -> None:
    """Write a table whole, and tell how many signs it weighs."""
    text = io.StringIO()
    rows = csv.writer(text, lineterminator="\n")
    rows.writerow(["question", "sign", "weight"])
    rows.writerows([question, *row] for question, weights in table.items() for row in sorted(weights.items()))
    write_whole(path, text.getvalue().encode())
    print(f"  {sum(map(len, table.values()))} signs weighed: {path}")
