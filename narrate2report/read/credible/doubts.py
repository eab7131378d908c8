"""Which drafts are doubted: those whose wording is that of talk, not of something that is so.

A rule knows one way of saying something; whether what it drafts is credible shows in the whole sentence. Each draft
of something seen or tried is weighed by its signs (`signs`), and where they speak against it, it is not entered. The
weights are those of a logistic regression with a Gaussian prior (Chen and Rosenfeld 1999), learned by
tests/benchmarks/learn_doubts.py from narrations that were marked by hand; they stand in doubts.csv, more than 0 for
doubt.
"""

from __future__ import annotations

from functools import cached_property
from pathlib import Path
from typing import Final

from narrate2report.read.credible.signs import TASKS, Observed
from narrate2report.read.credible.weights import ALWAYS, Weights, loudest, read_weights
from narrate2report.read.drafts.draft import Draft

WEIGHTS: Final = Path(__file__).with_name("doubts.csv")

DOUBTED: Final = frozenset({"condition", "check"})
"""The kinds of drafts that are weighed."""


class Doubts:
    """Weighs drafts; the weights are read when the first is asked for."""

    def __init__(self, weights: Weights | None = None) -> None:
        self._given = weights

    @cached_property
    def _weights(self) -> Weights:
        return read_weights(WEIGHTS) if self._given is None else self._given

    def sift(self, observed: Observed) -> tuple[list[Draft], tuple[str, ...]]:
        """The drafts of all but tasks that are credible, and in words why the others are not."""
        kept, reasons = [], []
        for draft in (one for one in observed.drafts if one.kind not in TASKS):
            told = self._against(draft, observed)
            if told is None:
                kept.append(draft)
            else:
                reasons.append(f"{draft.component.replace('_', ' ')}: worded as talk{told}")
        return kept, tuple(reasons)

    def _against(self, draft: Draft, observed: Observed) -> str | None:
        """The words that speak loudest against a draft that is not credible."""
        weights = self._weights.get("talk", {})
        if draft.kind not in DOUBTED or not weights:
            return None
        signs = observed.signs(draft)
        doubt = weights.get(ALWAYS, 0) + sum(weights.get(sign, 0) for sign in set(signs))
        return loudest(signs, weights) if doubt > 0 else None
