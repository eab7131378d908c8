"""The days on which a tenancy ended, held against each other, the two walks and today."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from icalendar import Calendar

from narrate2report.errors import CannotSettle
from narrate2report.publish.statement_calendar import statement_calendar
from narrate2report.publish.statement_law import told_due
from narrate2report.publish.statement_letter import letter_of
from narrate2report.records.references import clocks, law_rows
from narrate2report.records.settlement import Settlement
from narrate2report.records.unit import Dates
from narrate2report.settle.deadlines import due_dates
from tests.settle.test_charges import flawed, repair, replace, settled, thing

START = date(2025, 3, 6)


def ended(move_out: str = "2026-05-07", **days: str) -> Settlement:
    pair = flawed()
    pair.parts["after"] = {"file": "out.findings.json", "unit": "2B", "kind": "move_out", "date": move_out}
    return settled(pair, thing(repair()), dates={"lease_start": "2025-03-06", **days})


def cautions(made: Settlement) -> str:
    return " ".join(made.cautions)


def test_a_tenant_who_left_early_moves_no_day_to_keep() -> None:
    made = ended(possession_returned="2026-05-07", lease_end="2027-04-30")
    assert {due.day for due in made.due} == {date(2027, 5, 30)}
    assert {due.plan_by for due in made.due} == {date(2026, 6, 5)}
    assert any("the last day is 6 June 2026" in line for due in made.due for line in due.working)
    assert "THE LEASE ENDS ON 30 APRIL 2027, AFTER POSSESSION WAS RETURNED ON 7 MAY 2026" in cautions(made)
    assert "did the tenancy end only then?" in cautions(made)
    assert "THE LEASE ENDS" not in cautions(ended(possession_returned="2026-05-07", lease_end="2026-05-07"))


def test_whoever_left_early_is_told_the_safe_day_everywhere_and_the_later_one_as_words_alone() -> None:
    made = ended(possession_returned="2026-05-07", lease_end="2027-04-30")
    letter = " ".join(letter_of(made, sealed=True).split())
    assert "the day that we keep is 5 June 2026" in letter
    assert "By the words of the table that we use, the last day is 30 May 2027." in letter
    events = {
        event.decoded("dtstart"): str(event["summary"])
        for event in Calendar.from_ical(statement_calendar(made)).walk("VEVENT")
    }
    assert events[date(2026, 6, 5)].startswith("unit 2B: by this day, ")
    assert events[date(2027, 5, 30)].startswith("unit 2B: last day by the table's words (keep 5 June 2026): ")
    due = [(one.keep, one.by_words) for one in told_due(made)]
    assert set(due) == {("5 June 2026", "30 May 2027 (383 days)")}
    assert "check the current statute" in letter


@given(
    st.sampled_from(sorted(law_rows())),
    st.sampled_from(["lease_end", "vacated"]),
    st.integers(1, 900),
    st.integers(0, 900),
)
def test_a_day_given_after_possession_never_puts_off_the_day_to_keep(
    code: str, name: str, stay: int, later: int
) -> None:
    returned = START + timedelta(days=stay)
    days = {"possession_returned": returned, "lease_end": returned, "vacated": returned}

    def plans(**more: Any) -> list[date | None]:
        dates = Dates.model_validate({"lease_start": START, **days, **more})
        return [due.plan_by for due in due_dates(law_rows()[code], clocks(), None, dates, returned)]

    for put_off, prompt in zip(plans(**{name: returned + timedelta(days=later)}), plans(), strict=True):
        assert put_off is None or prompt is None or put_off <= prompt


def test_a_day_to_keep_that_has_passed_is_said_though_the_last_day_has_not() -> None:
    made = ended(possession_returned="2026-03-07", lease_end="2027-04-30", move_out="2026-03-07")
    assert "THE DAY TO KEEP HAS PASSED" in cautions(made)
    assert "THE LAST DAY HAS PASSED" not in cautions(made)


@pytest.mark.parametrize("name", ["possession_returned", "vacated"])
def test_an_end_in_the_future_is_settled_provisionally(name: str) -> None:
    made = ended("2026-05-13", **{name: "2026-05-13"})
    (reason,) = made.provisional_because
    assert reason.startswith(f"{name} 2026-05-13 lies after 2026-05-12, the day of this settlement")
    assert not ended("2026-05-12", **{name: "2026-05-12"}).provisional


@pytest.mark.parametrize(("day", "provisional"), [("2026-05-08", False), ("2026-03-08", False), ("2026-03-07", True)])
def test_an_end_on_another_day_than_the_move_out_record_is_told_and_far_apart_provisional(
    day: str, provisional: bool
) -> None:
    made = ended(possession_returned=day)
    assert "POSSESSION_RETURNED AND THE MOVE-OUT RECORD ARE OF DIFFERENT DAYS" in cautions(made)
    assert "7 May 2026" in cautions(made)
    far = [reason for reason in made.provisional_because if "lie 61 days apart" in reason]
    assert bool(far) == provisional == made.provisional
    assert "DIFFERENT DAYS" not in cautions(ended(possession_returned="2026-05-07"))


@pytest.mark.parametrize("name", ["possession_returned", "vacated"])
def test_an_end_before_the_move_in_record_is_refused(name: str) -> None:
    pair = flawed()
    pair.parts["before"] = {"file": "in.findings.json", "date": "2025-03-08"}
    dates = {"lease_start": "2025-03-06", name: "2025-03-07"}
    with pytest.raises(CannotSettle, match=f"{name} 2025-03-07 lies before the move-in record, which is of 2025-03-08"):
        settled(pair, thing(repair()), dates=dates)


def test_moving_out_after_possession_is_told_and_planned_with_the_earlier() -> None:
    pair = flawed()
    dates = {"lease_start": "2025-03-06", "possession_returned": "2026-05-07", "vacated": "2026-07-07"}
    made = settled(pair, thing(repair()), dates=dates)
    assert "MOVING OUT (7 July 2026) LIES AFTER THE RETURN OF POSSESSION (7 May 2026)" in cautions(made)


@pytest.mark.parametrize("name", ["lease_end", "vacated"])
def test_where_possession_is_not_known_the_letter_thanks_for_nothing_and_the_day_of_ages_is_told(name: str) -> None:
    dates = {"lease_start": "2025-03-06", name: "2026-05-07"}
    made = settled(flawed(), thing(replace(), age_years="2", useful_life_years="15"), dates=dates)
    letter = " ".join(letter_of(made, sealed=True).split())
    assert "giving the unit back" not in letter
    assert "gave the unit back" not in letter
    assert "POSSESSION WAS RETURNED IS NOT GIVEN: ages and the stay were counted to 7 May 2026" in cautions(made)
    assert "IS NOT GIVEN" not in cautions(ended(possession_returned="2026-05-07"))


@pytest.mark.parametrize(
    ("walked", "told"),
    [
        ("2025-03-06", None),
        ("2025-03-20", None),
        (
            "2025-03-21",
            "15 DAYS APART (21 March 2025 and 6 March 2025): it does not show how the unit was",
        ),
        ("2024-12-31", "65 DAYS APART (31 December 2024 and 6 March 2025): what came in between is not the resident's"),
    ],
)
def test_a_move_in_record_from_another_time_than_the_start_of_the_lease_is_told(walked: str, told: str | None) -> None:
    pair = flawed()
    pair.parts["before"] = {"file": "in.findings.json", "unit": "2B", "kind": "move_in", "date": walked}
    made = settled(pair, thing(repair()), dates={"lease_start": "2025-03-06", "possession_returned": "2026-05-07"})
    assert ("THE MOVE-IN RECORD AND THE START OF THE LEASE LIE" in cautions(made)) is (told is not None)
    assert (told or "") in cautions(made)
