"""The days on which a tenancy ended, held against each other, the two walks and today: what does not fit is told."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from narrate2report.errors import CannotSettle
from narrate2report.records.comparison import Comparison
from narrate2report.records.unit import Dates
from narrate2report.wording import told_day

FAR_APART = 60
"""Days between the end of a tenancy and its move-out record from which one of the two is likely mistyped."""

SOME_DAYS = 14
"""Days between the start of a lease and its move-in record up to which one stands for the other."""

NAMES = {
    "possession_returned": "possession was returned",
    "vacated": "the resident moved out",
    "lease_end": "the lease ended",
}
"""The days to which ages may be counted, the one that goes first in front, and how they are told."""


def check_walked_before(dates: Dates, comparison: Comparison) -> None:
    """Raise CannotSettle where a unit was given back before the move-in record was made."""
    walked = walk_day(comparison.before.date)
    for name in ("possession_returned", "vacated"):
        day: date | None = getattr(dates, name)
        if day and walked and day < walked:
            raise CannotSettle(
                f"{name} {day} lies before the move-in record, which is of {walked}; one of the two days is wrong"
            )


def walk_day(told: str | None) -> date | None:
    """A whole day; a walk of which only month and day were spoken has none."""
    try:
        return date.fromisoformat(told or "")
    except ValueError:
        return None


def day_cautions(dates: Dates, comparison: Comparison) -> Iterator[str]:
    """One sentence for each day that does not fit another; and to which day ages count if possession is not known."""
    returned = dates.possession_returned
    if returned and dates.lease_end and dates.lease_end > returned:
        yield (
            f"THE LEASE ENDS ON {told_day(dates.lease_end).upper()}, AFTER POSSESSION WAS RETURNED ON "
            f"{told_day(returned).upper()}: did the tenancy end only then? Keep the days that count from the "
            "return of possession; if the tenancy ended sooner, write that day as lease_end."
        )
    if returned and dates.vacated and dates.vacated > returned:
        yield (
            f"MOVING OUT ({told_day(dates.vacated)}) LIES AFTER THE RETURN OF POSSESSION ({told_day(returned)}): keep "
            "the days that count from the earlier one, and correct the one that is wrong."
        )
    if (first := walk_day(comparison.before.date)) and abs((first - dates.lease_start).days) > SOME_DAYS:
        yield _begun_apart(first, dates.lease_start)
    if apart := _apart(dates, comparison):
        name, day, walked = apart
        after = " What happened between the two may not be the resident's." if walked > day else ""
        both = f"{told_day(day)} and {told_day(walked)}"
        yield f"{name.upper()} AND THE MOVE-OUT RECORD ARE OF DIFFERENT DAYS: {both}.{after}"
    if returned is None:
        yield _counted_to(dates)


def days_open(dates: Dates, comparison: Comparison, today: date) -> Iterator[str]:
    """Why these days alone make a settlement provisional."""
    for name, told in NAMES.items():
        day: date | None = getattr(dates, name)
        if name != "lease_end" and day and day > today:
            yield (
                f"{name} {day} lies after {today}, the day of this settlement: before {told}, nothing can be settled "
                "for good."
            )
    if apart := _apart(dates, comparison):
        name, day, walked = apart
        if abs((walked - day).days) > FAR_APART:
            yield (
                f"{name} {day} and the move-out record, which is of {walked}, lie {abs((walked - day).days)} days "
                "apart: one of the two days is likely wrong."
            )


def no_later_than_possession(dates: Dates) -> Dates:
    """The days to keep: what is said to have ended after possession was returned ended with it."""
    returned = dates.possession_returned
    if returned is None:
        return dates
    later = {name: getattr(dates, name) for name in ("lease_end", "vacated")}
    return dates.model_copy(update={name: returned for name, day in later.items() if day and day > returned})


def _begun_apart(walked: date, start: date) -> str:
    """What a move-in record cannot show that was made long before the lease began, or after."""
    told = f"THE MOVE-IN RECORD AND THE START OF THE LEASE LIE {abs((walked - start).days)} DAYS APART"
    both = f"({told_day(walked)} and {told_day(start)})"
    if walked < start:
        return f"{told} {both}: what came in between is not the resident's, and this record does not show it."
    return (
        f"{told} {both}: it does not show how the unit was when the lease began; what it names may be the resident's."
    )


def _apart(dates: Dates, comparison: Comparison) -> tuple[str, date, date] | None:
    """The day of the unit file and that of the move-out record, where they differ."""
    name = "possession_returned" if dates.possession_returned else "vacated"
    day = dates.possession_returned or dates.vacated
    walked = walk_day(comparison.after.date)
    return (name, day, walked) if day and walked and day != walked else None


def _counted_to(dates: Dates) -> str:
    for name, told in NAMES.items():
        day: date | None = getattr(dates, name)
        if day:
            return (
                f"THE DAY ON WHICH POSSESSION WAS RETURNED IS NOT GIVEN: ages and the stay were counted to "
                f"{told_day(day)}, when {told}. Write possession_returned under dates."
            )
    return "THE DAY ON WHICH POSSESSION WAS RETURNED IS NOT GIVEN: write possession_returned under dates."
