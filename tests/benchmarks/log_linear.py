"""Log-linear models of signs with a Gaussian prior on the weights (Chen and Rosenfeld 1999), fitted by L-BFGS (Liu and
Nocedal 1989): whether something is so, and which of several options is right."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain

import numpy as np
from scipy.optimize import minimize
from scipy.sparse import csr_matrix

Sign = str


@dataclass(frozen=True)
class Option:
    """One of several that may be right: its signs, and whether it is."""

    name: str
    signs: Sequence[Sign]
    right: bool


def seen_often(rows: Iterable[Sequence[Sign]], least: int) -> dict[Sign, int]:
    """The signs that are in at least so many rows, each with its column."""
    seen = Counter(sign for row in rows for sign in set(row))
    return {sign: at for at, sign in enumerate(sorted(sign for sign, times in seen.items() if times >= least))}


def whether(
    rows: Sequence[Sequence[Sign]],
    so: Sequence[bool],
    *,
    least: int,
    variance: float,
    counts: Sequence[float] | None = None,
) -> Mapping[Sign, float]:
    """Weights of a logistic regression; a sign that every row has is held back by nothing.

    `counts` says how much each row counts: 1 where it is not given.
    """
    column = seen_often(rows, least)
    signs, true = _matrix(rows, column), np.array(so, dtype=float)
    much = np.ones(len(rows)) if counts is None else np.array(counts, dtype=float)
    always = np.array([_is_in_all(sign, rows, signs, at) for sign, at in column.items()])
    free = np.where(always, 0.0, 1 / variance)

    def cost(weights: np.ndarray) -> tuple[float, np.ndarray]:
        scores = signs @ weights
        loss = float((much * (np.logaddexp(0.0, scores) - true * scores)).sum())
        slope = signs.T @ (much * (1 / (1 + np.exp(-scores)) - true)) + free * weights
        return loss + 0.5 * float((free * weights**2).sum()), slope

    return _least(cost, column)


def which(cases: Sequence[Sequence[Option]], *, least: int, variance: float) -> Mapping[Sign, float]:
    """Weights under which the right options of each case are likeliest; cases without a right one teach nothing."""
    cases = [case for case in cases if any(one.right for one in case) and not all(one.right for one in case)]
    rows = [one.signs for case in cases for one in case]
    column = seen_often(rows, least)
    signs = _matrix(rows, column)
    right = np.array([one.right for case in cases for one in case])
    sizes = [len(case) for case in cases]
    starts = np.concatenate([[0], np.cumsum(sizes)[:-1]]).astype(int)
    group = np.repeat(np.arange(len(cases)), sizes)

    def chances(scores: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        top = np.maximum.reduceat(scores, starts)
        grown = np.exp(scores - top[group])
        total = np.add.reduceat(grown, starts)
        return top + np.log(total), grown / total[group]

    def cost(weights: np.ndarray) -> tuple[float, np.ndarray]:
        scores = signs @ weights
        everything, of_all = chances(scores)
        wanted, of_right = chances(np.where(right, scores, -1e9))
        loss = float((everything - wanted).sum()) + 0.5 * float((weights**2).sum()) / variance
        return loss, signs.T @ (of_all - of_right) + weights / variance

    return _least(cost, column)


def _is_in_all(sign: Sign, rows: Sequence[Sequence[Sign]], signs: csr_matrix, at: int) -> bool:
    return bool(signs[:, at].sum() == len(rows)) and sign in rows[0]


def _matrix(rows: Sequence[Sequence[Sign]], column: Mapping[Sign, int]) -> csr_matrix:
    places = [sorted({column[sign] for sign in row if sign in column}) for row in rows]
    ends = np.cumsum([0, *map(len, places)])
    inside = np.fromiter(chain.from_iterable(places), dtype=int, count=int(ends[-1]))
    return csr_matrix((np.ones(len(inside)), inside, ends), shape=(len(rows), len(column)))


def _least(cost: object, column: Mapping[Sign, int]) -> Mapping[Sign, float]:
    found = minimize(cost, np.zeros(len(column)), jac=True, method="L-BFGS-B", options={"maxiter": 300})
    return dict(zip(column, map(float, found.x), strict=True))
