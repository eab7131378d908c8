"""Tables of learned weights: by the question that is asked, what each sign adds to the answer, in hundredths."""

from __future__ import annotations

import csv
from collections import defaultdict
from collections.abc import Iterable, Mapping
from pathlib import Path

from narrate2report.read.credible.signs import Sign

ALWAYS = "always"
"""The sign that everything has."""

Weights = Mapping[str, Mapping[Sign, int]]
"""By question, what each sign adds, in hundredths of a logit."""

TELLING = ("w ", "b ")
"""How the signs begin that are words of the sentence."""

TOLD = 3
"""How many words a reason names."""


def read_weights(path: Path) -> Weights:
    """The weights in a table with the columns question, sign, weight."""
    weights: dict[str, dict[Sign, int]] = defaultdict(dict)
    with path.open(encoding="utf-8", newline="") as table:
        for row in csv.DictReader(table):
            weights[row["question"]][row["sign"]] = int(row["weight"])
    return weights


def loudest(signs: Iterable[Sign], weights: Mapping[Sign, int]) -> str:
    """The words of the sentence that add most, in brackets; empty where no word adds anything."""
    adding = sorted((sign for sign in set(signs) if weights.get(sign, 0) > 0), key=lambda sign: (-weights[sign], sign))
    words = [word for sign in adding if (word := _word(sign)) is not None][:TOLD]
    return f" ({', '.join(repr(word) for word in words)})" if words else ""


def _word(sign: Sign) -> str | None:
    """The words of the sentence that a sign stands for; None for one of its grammar."""
    if not sign.startswith(TELLING) or "<" in sign or ">" in sign:
        return None
    return sign.split(" ", 1)[1]
