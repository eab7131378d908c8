"""Which drafts are doubted: those whose wording is that of talk, not of something that is so.

A rule knows one way of saying something; whether what it drafts is credible shows in the whole sentence. Each draft
is weighed by its signs (`signs`), and where they speak against it, it is not entered. The weights are those of a
logistic regression with a Gaussian prior (Chen and Rosenfeld 1999), learned by tests/benchmarks/learn_doubts.py from
narrations that were marked by hand; they stand in doubts.csv, in hundredths, more than 0 for doubt.
"""

from __future__ import annotations

import csv
from collections import defaultdict
from collections.abc import Mapping, Sequence
from functools import cached_property
from pathlib import Path
from typing import Final

from narrate2report.read.credible.signs import Observed, Sign
from narrate2report.read.drafts.draft import Draft
from narrate2report.read.meant.scene import Scene

WEIGHTS = Path(__file__).with_name("doubts.csv")

ALWAYS = "always"
"""The sign that every draft has."""

SORTS: Final = {"condition": "seen", "check": "seen", "advice": "advice", "follow_up": "follow_up"}
"""Which kinds of drafts are weighed, and which are learned together."""

Weights = Mapping[str, Mapping[Sign, int]]
"""By the sort of draft, what each sign adds to its doubt, in hundredths."""

TELLING = ("w ", "b ")
"""How the signs begin that are words of the sentence."""

TOLD = 3
"""How many words a reason names."""


class Doubts:
    """Weighs drafts; the weights are read when the first is asked for."""

    def __init__(self, weights: Weights | None = None) -> None:
        self._given = weights

    @cached_property
    def _weights(self) -> Weights:
        return read_weights(WEIGHTS) if self._given is None else self._given

    def sift(self, scene: Scene, drafts: Sequence[Draft]) -> tuple[list[Draft], tuple[str, ...]]:
        """The drafts that are credible, and in words why the others are not."""
        if not drafts:
            return [], ()  # as of most talk
        observed = Observed(scene, drafts)
        kept, reasons = [], []
        for draft in drafts:
            told = self._against(draft, observed)
            if told is None:
                kept.append(draft)
            else:
                reasons.append(f"{draft.component.replace('_', ' ')}: worded as talk{told}")
        return kept, tuple(reasons)

    def _against(self, draft: Draft, observed: Observed) -> str | None:
        """The words that speak loudest against a draft that is not credible."""
        weights = self._weights.get(SORTS.get(draft.kind, ""))
        if not weights:
            return None
        found = {sign: weights.get(sign, 0) for sign in (ALWAYS, *observed.signs(draft))}
        if sum(found.values()) <= 0:
            return None
        loudest = sorted((sign for sign in found if found[sign] > 0), key=lambda sign: -found[sign])
        words = [word for sign in loudest if (word := _word(sign)) is not None][:TOLD]
        return f" ({', '.join(repr(word) for word in words)})" if words else ""


def _word(sign: Sign) -> str | None:
    """The words of the sentence that a sign stands for; None for one of its grammar."""
    if not sign.startswith(TELLING) or "<" in sign or ">" in sign:
        return None
    return sign.split(" ", 1)[1]


def read_weights(path: Path) -> Weights:
    """The weights in a table of signs."""
    weights: dict[str, dict[Sign, int]] = defaultdict(dict)
    with path.open(encoding="utf-8", newline="") as table:
        for row in csv.DictReader(table):
            weights[row["sort"]][row["sign"]] = int(row["doubt"])
    return weights
