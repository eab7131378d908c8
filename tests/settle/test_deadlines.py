"""By when: the clocks of every jurisdiction against its own row, odd clocks by hand, and nothing invented."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrate2report.records.law import Clock, LawRow
from narrate2report.records.references import clocks, law_rows
from narrate2report.records.settlement import DueDate
from narrate2report.records.unit import Dates
from narrate2report.settle.business_days import add_business_days, is_business_day, on_or_before
from narrate2report.settle.deadlines import EVENTS, GivenDays, due_dates

TODAY = date(2026, 5, 12)
START = date(2025, 3, 6)
BY_EXCEPTION = {
    ("US-AK", "return"): {14, 30},
    ("US-KS", "itemise"): {14, 30},
    ("US-LA", "return"): {1},
    ("US-LA", "itemise"): {1},
    ("US-ME", "return"): {30, 21},
    ("US-ME", "itemise"): {30, 21},
    ("US-MT", "return"): {10, 30},
    ("US-WY", "return"): {30, 60},
    ("US-WY", "itemise"): {30, 60},
    ("US-CT", "return"): {21, 15},
    ("US-CT", "itemise"): {21, 15},
    ("US-WV", "return"): {60, 45},
    ("US-WV", "itemise"): {60, 45},
}
"""Figures that stand in the words of a row (`clock_start`, `special_rules`) rather than in its day columns."""


def due(code: str, today: date = TODAY, **days: Any) -> dict[str, DueDate]:
    dates = Dates.model_validate({"lease_start": START, **days})
    return {one.id: one for one in due_dates(law_rows()[code], clocks(), None, dates, today)}


@pytest.mark.parametrize("row", law_rows().values(), ids=lambda row: row.code)
def test_the_clocks_of_a_jurisdiction_are_those_of_its_row(row: LawRow) -> None:
    own = [clock for clock in clocks() if clock.code == row.code]
    for duty, wanted in (("return", row.days_return), ("itemise", row.days_itemised_notice)):
        found = {leg.count for clock in own if duty in clock.duties for leg in clock.legs}
        if wanted is None:
            assert not found
            continue
        allowed = {wanted, *BY_EXCEPTION.get((row.code, duty), set())}
        assert wanted in found or (row.code, duty) in BY_EXCEPTION
        assert found - allowed <= ({15} if row.code == "US-WY" else set())
    business = {leg.unit == "business" for clock in own for leg in clock.legs}
    assert business <= {row.day_unit.startswith("business")}


@pytest.mark.parametrize("clock", clocks(), ids=lambda clock: clock.code)
def test_a_clock_starts_from_dates_of_the_unit_file(clock: Clock) -> None:
    assert clock.code in law_rows()
    assert {leg.event for leg in clock.legs} <= set(EVENTS) <= set(Dates.model_fields)


def test_only_two_jurisdictions_have_no_number_and_they_get_no_day() -> None:
    assert set(law_rows()) - {clock.code for clock in clocks()} == {"US-KY", "US-TN"}
    assert due("US-KY", possession_returned=date(2026, 5, 7)) == {}


def test_business_days_of_arizona_leave_out_weekends_and_holidays() -> None:
    """14 business days after Thursday 7 May 2026: the 25th is Memorial Day, so the 28th and not the 27th."""
    one = due(
        "US-AZ", lease_end=date(2026, 4, 30), possession_returned=date(2026, 5, 7), demand_received=date(2026, 5, 7)
    )
    assert one["return"].day == date(2026, 5, 28)
    assert one["return"].plan_by == date(2026, 5, 21)


def test_florida_has_two_times_by_whether_something_is_claimed() -> None:
    told = due("US-FL", vacated=date(2026, 5, 6))
    assert (told["return"].day, told["itemise"].day) == (date(2026, 5, 21), date(2026, 6, 5))
    assert told["return"].applies == "nothing is claimed from the deposit"


def test_connecticut_counts_from_the_later_of_the_end_and_the_address() -> None:
    early = due("US-CT", lease_end=date(2026, 4, 30), forwarding_address_received=date(2026, 5, 1))
    late = due("US-CT", lease_end=date(2026, 4, 30), forwarding_address_received=date(2026, 5, 20))
    assert early["return"].day == date(2026, 5, 21)
    assert late["return"].day == date(2026, 6, 4)


def test_west_virginia_takes_the_shorter_and_asks_for_what_could_shorten_it() -> None:
    alone = due("US-WV", lease_end=date(2026, 4, 30))["return"]
    again = due("US-WV", lease_end=date(2026, 4, 30), new_tenancy_start=date(2026, 5, 10))["return"]
    assert alone.day == date(2026, 6, 29)
    assert "new_tenancy_start" in (alone.asks or "")
    assert (again.day, again.asks) == (date(2026, 6, 24), None)


def test_pennsylvania_takes_the_earliest_and_rhode_island_the_latest() -> None:
    days = {"lease_end": date(2026, 4, 30), "possession_returned": date(2026, 5, 7)}
    assert due("US-PA", **days)["return"].day == date(2026, 5, 30)
    assert due("US-RI", **days, forwarding_address_received=date(2026, 5, 9))["return"].day == date(2026, 5, 29)


def test_kansas_has_a_last_day_in_any_case_and_an_earlier_one_once_the_amount_is_determined() -> None:
    days = {
        "lease_end": date(2026, 4, 30),
        "possession_returned": date(2026, 5, 7),
        "demand_received": date(2026, 5, 8),
    }
    told = due("US-KS", **days, amount_determined=date(2026, 5, 11))
    assert (told["itemise-1"].day, told["itemise-2"].day) == (date(2026, 6, 7), date(2026, 5, 25))
    assert told["return"].applies is None


def test_louisiana_has_a_month_and_not_thirty_days() -> None:
    told = due("US-LA", lease_end=date(2026, 1, 31))["return"]
    assert told.day == date(2026, 2, 28)
    assert "1 month after 31 January 2026" in told.working[1]


def test_a_doubtful_figure_has_a_safe_day_to_plan_with() -> None:
    told = due("US-AL", lease_end=date(2026, 4, 30), possession_returned=date(2026, 4, 30))["return"]
    assert (told.day, told.plan_by) == (date(2026, 6, 29), date(2026, 6, 4))
    assert "The table's cautious figure is 35 days, the safe one in doubt: 4 June 2026." in told.working
    assert not any("weekend" in line for line in told.working)


def test_a_last_day_at_a_weekend_shows_the_earlier_safe_day() -> None:
    told = due("US-OH", lease_end=date(2026, 4, 30), possession_returned=date(2026, 5, 7))["return"]
    assert (told.day, told.plan_by) == (date(2026, 6, 6), date(2026, 6, 5))
    assert (told.days_left, told.plan_days_left) == (25, 24)
    assert any("weekend or holiday" in line for line in told.working)


def test_a_day_that_has_passed_is_counted_below_nothing() -> None:
    told = due("US-NY", date(2026, 6, 1), vacated=date(2026, 5, 7))["return"]
    assert told.days_left == -11


def test_a_missing_event_is_asked_for_and_no_day_is_invented() -> None:
    told = due("US-ND")["return"]
    assert (told.day, told.days_left, told.plan_by) == (None, None, None)
    assert "lease_end" in (told.asks or "")
    assert "no day is counted without it" in (told.asks or "")
    england = due("GB-ENG", possession_returned=date(2026, 5, 7))["return"]
    assert england.day is None
    assert "amount_agreed" in (england.asks or "")


def test_where_an_event_of_the_latest_is_missing_the_safe_side_is_counted() -> None:
    told = due("US-MS", lease_end=date(2026, 4, 30), possession_returned=date(2026, 5, 7))["return"]
    assert told.day == date(2026, 6, 21)
    assert "demand_received" in (told.asks or "")


def test_moving_out_is_the_return_of_possession_where_it_is_not_given() -> None:
    told = due("US-CA", possession_returned=date(2026, 5, 7))["return"]
    assert told.day == date(2026, 5, 28)
    assert any("the return of possession stands for it" in line for line in told.working)


def test_days_that_a_person_gives_are_counted_and_marked_as_given() -> None:
    dates = Dates(lease_start=START)
    (told,) = due_dates(law_rows()["US-KY"], clocks(), GivenDays(30, date(2026, 5, 7)), dates, TODAY)
    assert told.given
    assert (told.duty, told.day, told.plan_by) == ("given", date(2026, 6, 6), date(2026, 6, 5))
    assert "given at the keyboard" in told.working[0]
    (alone,) = due_dates(None, clocks(), GivenDays(30, date(2026, 5, 7)), dates, TODAY)
    assert alone.day == told.day


DAYS = st.dates(date(2024, 1, 1), date(2030, 12, 31))


@given(st.sampled_from(sorted({clock.code for clock in clocks()})), DAYS, DAYS, DAYS)
def test_the_day_to_plan_with_is_a_business_day_and_never_after_the_last_day(
    code: str, ended: date, returned: date, address: date
) -> None:
    told = due(code, lease_end=ended, possession_returned=returned, forwarding_address_received=address)
    for one in told.values():
        if one.day is not None and one.plan_by is not None:
            assert one.plan_by <= one.day
            assert is_business_day(one.plan_by, code)
            assert one.days_left == (one.day - TODAY).days


@given(DAYS, st.integers(1, 60))
def test_business_days_are_counted_one_by_one(day: date, count: int) -> None:
    last = add_business_days(day, count, "US-AZ")
    between = [day + timedelta(days=number) for number in range(1, (last - day).days + 1)]
    assert sum(is_business_day(one, "US-AZ") for one in between) == count
    assert on_or_before(last, "US-AZ") == last


@pytest.mark.parametrize("code", sorted(law_rows()))
def test_the_holidays_of_every_jurisdiction_are_known(code: str) -> None:
    assert not is_business_day(date(2026, 12, 25), code)
    assert is_business_day(date(2026, 12, 25), None)


def test_in_wisconsin_who_left_early_is_counted_to_the_end_of_the_lease_or_to_the_next_tenancy_if_that_is_earlier() -> (
    None
):
    days = {"lease_end": date(2026, 6, 30), "possession_returned": date(2026, 6, 30)}
    told = due("US-WI", **days)
    assert told["return-1"].applies == (
        "the resident left on the end date or later, or early and nobody else moved in before it"
    )
    assert told["return-2"].day == date(2026, 7, 21)
    assert "new_tenancy_start" in (told["return-2"].asks or "")
    assert due("US-WI", **days, new_tenancy_start=date(2026, 6, 15))["return-2"].day == date(2026, 7, 6)
    assert due("US-WI", **days, new_tenancy_start=date(2026, 8, 1))["return-2"].day == date(2026, 7, 21)
