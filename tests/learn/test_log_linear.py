"""The fitted models against what can be worked out by hand."""

from __future__ import annotations

from math import log

import pytest

from tests.benchmarks.log_linear import Option, whether, which

LOOSE = 1e9
"""A prior so wide that it holds nothing back."""


def test_without_signs_the_weight_is_the_logarithm_of_the_odds() -> None:
    weights = whether([["always"]] * 8, [True] * 6 + [False] * 2, least=1, variance=LOOSE)
    assert weights["always"] == pytest.approx(log(3), abs=1e-4)


def test_a_sign_weighs_the_ratio_of_the_odds_with_and_without_it() -> None:
    rows = [["always", "sign"]] * 5 + [["always"]] * 5
    weights = whether(rows, [True] * 4 + [False] + [True] + [False] * 4, least=1, variance=LOOSE)
    assert weights["sign"] == pytest.approx(log(4) + log(4), abs=1e-3)


def test_a_row_that_counts_three_times_is_three_rows() -> None:
    rows, so = [["always", "a"], ["always", "b"], ["always"]], [True, False, True]
    counted = whether(rows, so, least=1, variance=0.5, counts=[3, 1, 2])
    repeated = whether(
        [rows[0]] * 3 + [rows[1]] + [rows[2]] * 2, [True] * 3 + [False] + [True] * 2, least=1, variance=0.5
    )
    assert counted == pytest.approx(repeated, abs=1e-4)


def test_of_two_options_the_weight_is_the_logarithm_of_how_often_each_is_right() -> None:
    def case(right: str) -> list[Option]:
        return [Option(name, [name], name == right) for name in ("one", "other")]

    weights = which([case("one")] * 6 + [case("other")] * 2, least=1, variance=LOOSE)
    assert weights["one"] - weights["other"] == pytest.approx(log(3), abs=1e-4)


def test_a_narrow_prior_holds_the_weights_near_nothing() -> None:
    weights = whether([["always", "sign"], ["always"]] * 10, [True, False] * 10, least=1, variance=0.01)
    assert 0 < weights["sign"] < 0.2
