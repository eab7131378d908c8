"""Which drafts are doubted: those whose wording is that of talk, not of something that is so.

A rule knows one way of saying something; whether what it drafts is credible shows in the whole sentence. Each draft
of something seen or tried is weighed by its signs (`signs`), and where they speak against it, it is not entered. The
weights are those of a logistic regression with a Gaussian prior (Chen and Rosenfeld 1999), learned by
tests/benchmarks/learn_doubts.py from narrations that were marked by hand; they stand in doubts.csv, more than 0 for
doubt.
"""

from __future__ import annotations

from pathlib import Path
from typing import Final

from narrate2report.read.credible.called_talk import called_talk
from narrate2report.read.credible.signs import TASKS, Observed
from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.learned import Learned, Weights

WEIGHTS: Final = Path(__file__).with_name("doubts.csv")

DOUBTED: Final = frozenset({"condition", "check"})
"""The kinds of drafts that are weighed."""

TALK: Final = "talk"
"""The question that doubts.csv answers."""


class Doubts:
    """Weighs drafts."""

    def __init__(self, weights: Weights | Path = WEIGHTS) -> None:
        self._learned = Learned(weights)

    def sift(self, observed: Observed) -> tuple[list[Draft], tuple[str, ...]]:
        """The drafts of all but tasks that are credible, and in words why the others are not."""
        kept, reasons = [], []
        for draft in (one for one in observed.drafts if one.kind not in TASKS):
            signs = observed.signs(draft) if draft.kind in DOUBTED else []
            if signs and self._learned.total(TALK, signs) > 0:
                reasons.append(called_talk(draft, self._learned.loudest(TALK, signs)))
            else:
                kept.append(draft)
        return kept, tuple(reasons)
