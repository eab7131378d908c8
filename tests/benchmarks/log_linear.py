"""Log-linear models of signs with a Gaussian prior on the weights (Chen and Rosenfeld 1999), fitted by L-BFGS (Liu and
Nocedal 1989): whether something is so, and which of several options is right."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Protocol

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import minimize
from scipy.sparse import csr_matrix

Sign = str

Signs = Collection[Sign] | Mapping[Sign, float]
"""What is observed: signs that are there, each 1, or each with a number."""

Weights = dict[Sign, float]

Numbers = NDArray[np.float64]

STEPS = 400
"""After how many steps the fitting ends at the latest."""


class Choice(Protocol):
    """One of several that may be right: its signs, and whether it is."""

    @property
    def signs(self) -> Signs: ...

    @property
    def right(self) -> bool: ...


@dataclass(frozen=True)
class Option:
    """A choice with a name."""

    name: str
    signs: Signs
    right: bool


def whether(
    rows: Sequence[Signs], so: Sequence[bool], *, least: int, variance: float, counts: Sequence[float] | None = None
) -> Weights:
    """Weights of a logistic regression; a sign that is 1 in every row is held back by nothing.

    Signs in fewer than `least` rows are left out. `counts` says how much each row counts: 1 where it is not given.
    """
    column = _columns(rows, least)
    signs, true = _matrix(rows, column), np.array(so, dtype=float)
    much = np.ones(len(rows)) if counts is None else np.array(counts, dtype=float)
    always = np.asarray((signs == 1).sum(axis=0)).ravel() == len(rows)
    held = np.where(always, 0.0, 1 / variance)

    def cost(weights: Numbers) -> tuple[float, Numbers]:
        scores = signs @ weights
        loss = float((much * (np.logaddexp(0.0, scores) - true * scores)).sum())
        slope = signs.T @ (much * (1 / (1 + np.exp(-scores)) - true)) + held * weights
        return loss + 0.5 * float((held * weights**2).sum()), slope

    return _least(cost, column)


def which(cases: Sequence[Sequence[Choice]], *, least: int, variance: float) -> Weights:
    """Weights of a conditional logit, under which the right choices of each case are likeliest.

    Cases in which none or all are right teach nothing; signs of fewer than `least` choices are left out.
    """
    cases = [case for case in cases if len({one.right for one in case}) > 1]
    choices = [one for case in cases for one in case]
    rows = [one.signs for one in choices]
    column = _columns(rows, least)
    signs = _matrix(rows, column)
    right = np.array([one.right for one in choices])
    sizes = [len(case) for case in cases]
    starts = np.cumsum([0, *sizes[:-1]])
    group = np.repeat(np.arange(len(cases)), sizes)

    def chances(scores: Numbers) -> tuple[Numbers, Numbers]:
        top = np.maximum.reduceat(scores, starts)
        grown = np.exp(scores - top[group])
        total = np.add.reduceat(grown, starts)
        return top + np.log(total), grown / total[group]

    def cost(weights: Numbers) -> tuple[float, Numbers]:
        scores = signs @ weights
        everything, of_all = chances(scores)
        wanted, of_right = chances(np.where(right, scores, -1e9))
        loss = float((everything - wanted).sum()) + 0.5 * float((weights**2).sum()) / variance
        return loss, signs.T @ (of_all - of_right) + weights / variance

    return _least(cost, column)


def _columns(rows: Sequence[Signs], least: int) -> Mapping[Sign, int]:
    """The signs that are in at least so many rows, each with its column."""
    seen = Counter(sign for row in rows for sign in set(row))
    return {sign: at for at, sign in enumerate(sorted(sign for sign, times in seen.items() if times >= least))}


def _matrix(rows: Sequence[Signs], column: Mapping[Sign, int]) -> csr_matrix:
    values: list[float] = []
    places: list[int] = []
    ends = [0]
    for row in rows:
        known = sorted(sign for sign in set(row) if sign in column)
        places += [column[sign] for sign in known]
        values += [row[sign] for sign in known] if isinstance(row, Mapping) else [1.0] * len(known)
        ends.append(len(places))
    return csr_matrix((values, places, ends), shape=(len(rows), len(column)))


def _least(cost: Any, column: Mapping[Sign, int]) -> Weights:
    found = minimize(cost, np.zeros(len(column)), jac=True, method="L-BFGS-B", options={"maxiter": STEPS}).x
    return dict(zip(column, map(float, found), strict=True))
