"""Money and time, for any figures: sums add up to the cent, shares stay in their bounds, ages never run short."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from narrate2report.records.money import ROUNDING_TOLD, places, rounded, told
from narrate2report.records.references import life_groups, life_rows, repaint_steps
from narrate2report.records.settlement import Interest, OtherSum
from narrate2report.records.unit import DepositTerms, Remedy, Thing
from narrate2report.settle.balance import balance_of
from narrate2report.settle.pricing import Terms, price
from narrate2report.settle.shares import straight_line
from narrate2report.settle.spans import add_months, begun_months, told_months, whole_months, years_between
from narrate2report.settle.useful_life import Lives

CENTS = st.integers(0, 50_000_00).map(lambda cents: Decimal(cents).scaleb(-2))
DAYS = st.dates(date(1990, 1, 1), date(2060, 12, 31))
WORKS = st.sampled_from(["replace", "repaint", "repair", "clean", "touch_up", "secure", "treat", "supply"])


@given(CENTS, st.integers(1, 997), st.integers(1, 997))
def test_rounding_is_that_of_decimals_half_up(amount: Decimal, up: int, down: int) -> None:
    exact = Fraction(amount) * up / down
    as_decimal = (Decimal(exact.numerator) / Decimal(exact.denominator)).quantize(Decimal("0.01"), ROUND_HALF_UP)
    assert rounded(exact, "USD") == as_decimal


@pytest.mark.parametrize(
    ("exact", "currency", "whole"),
    [("0.005", "USD", "0.01"), ("0.004999", "USD", "0.00"), ("2.5", "JPY", "3"), ("1.0005", "KWD", "1.001")],
)
def test_half_a_cent_goes_up_in_the_places_of_its_currency(exact: str, currency: str, whole: str) -> None:
    assert str(rounded(Decimal(exact), currency)) == whole


def test_the_rule_of_rounding_holds_in_every_currency() -> None:
    """Yen have no cents and dinars a thousand fils: what is said of rounding is true of them too."""
    assert "smallest unit of the currency" in ROUNDING_TOLD
    assert "nearest cent" not in ROUNDING_TOLD


def test_money_is_never_a_floating_point_number() -> None:
    with pytest.raises(ValidationError, match="floating-point"):
        DepositTerms.model_validate({"held": 0.1})


def test_sums_are_told_with_all_their_places() -> None:
    assert told(Decimal("1234567.5"), "USD") == "1,234,567.50 USD"
    assert places("JPY") == 0


@given(DAYS, st.integers(0, 600))
def test_months_that_were_added_have_passed(day: date, months: int) -> None:
    later = add_months(day, months)
    assert whole_months(day, later) >= months
    assert begun_months(day, later) >= months


@given(DAYS, st.integers(0, 20_000))
def test_a_month_that_has_begun_counts_and_an_age_is_never_too_young(day: date, days: int) -> None:
    until = day + timedelta(days=days)
    whole, begun = whole_months(day, until), begun_months(day, until)
    assert 0 <= begun - whole <= 1
    assert add_months(day, whole) <= until < add_months(day, whole + 1)
    assert add_months(day, begun) >= until
    assert whole // 12 <= years_between(day, until) < whole // 12 + 1


@pytest.mark.parametrize(
    ("months", "words"),
    [(0, "0 months"), (1, "1 month"), (12, "1 year"), (30, "2 years 6 months"), (Fraction("30.6"), "30.6 months")],
)
def test_months_are_told_as_people_say_them(months: Fraction | int, words: str) -> None:
    assert told_months(months) == words


@given(st.fractions(0, 5000), st.decimals("0.1", "100", places=2))
def test_a_share_lies_between_nothing_and_all_and_falls_with_age(months: Fraction, life: Decimal) -> None:
    share = straight_line(months, life)
    assert 0 <= share <= 1
    assert straight_line(months + 1, life) <= share
    assert straight_line(Fraction(0), life) == 1
    assert straight_line(Fraction(life) * 12, life) == 0


@given(
    work=WORKS,
    amount=CENTS,
    hours=st.none() | st.decimals("0.01", "100", places=2),
    rate=CENTS,
    age=st.decimals("0", "60", places=1),
    life=st.decimals("0.5", "60", places=1),
    portion=st.none() | st.decimals("0.01", "100", places=2),
)
def test_no_charge_exceeds_its_cost_and_its_working_ends_at_it(
    work: str,
    amount: Decimal,
    hours: Decimal | None,
    rate: Decimal,
    age: Decimal,
    life: Decimal,
    portion: Decimal | None,
) -> None:
    told_remedy = {"work": work, "what": "put it right", "amount": amount, "basis": "invoice"}
    labour = {"hours": hours, "rate": rate} if hours is not None else {}
    part = {"portion_percent": portion, "portion_why": "part of it was there"} if portion is not None else {}
    remedy = Remedy.model_validate(told_remedy | labour | part)
    thing = Thing(room="kitchen", component="countertop", age_years=age, useful_life_years=life)
    lives = Lives((), life_rows(), life_groups())
    priced = price(thing, remedy, Terms("USD", date(2020, 1, 1), date(2026, 1, 1), lives, repaint_steps()))
    assert priced.cost.total == priced.cost.amount + priced.cost.labour
    assert 0 <= priced.amount <= priced.cost.total
    assert told(priced.amount, "USD") in priced.working[-1]
    if work not in {"replace", "repaint"} and portion is None:
        assert priced.amount == priced.cost.total


OTHERS = st.lists(
    st.builds(
        OtherSum,
        what=st.just("rent"),
        amount=CENTS,
        owed_by=st.sampled_from(["resident", "owner"]),
        basis=st.just("lease"),
    ),
    max_size=6,
)


@given(held=CENTS, earned=st.none() | CENTS, others=OTHERS)
def test_the_balance_is_the_sum_of_its_lines_and_goes_to_whom_it_belongs(
    held: Decimal, earned: Decimal | None, others: list[OtherSum]
) -> None:
    interest = None if earned is None else Interest(amount=earned, basis="statute", working=("as given",))
    balance = balance_of(DepositTerms(held=held), interest, (), others, "USD")
    signed = (
        held
        + (earned or 0)
        + sum((one.amount if one.owed_by == "owner" else -one.amount for one in others), Decimal(0))
    )
    assert {"resident": balance.amount, "owner": -balance.amount, "nobody": Decimal(0)}[balance.to] == signed
    assert balance.above_deposit == max(Decimal(0), -signed)
    assert ("EXCEED" in balance.told) == (signed < 0)
