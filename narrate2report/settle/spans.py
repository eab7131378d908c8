"""Spans between days in whole months and years, and how spans and a share are told."""

from __future__ import annotations

import calendar
from datetime import date
from fractions import Fraction

from narrate2report.wording import counted


def add_months(day: date, months: int) -> date:
    """The same day so many months later, or the last of that month where it has no such day."""
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))


def whole_months(since: date, until: date) -> int:
    """Months that have passed in full; `until` must not lie before `since`."""
    months = (until.year - since.year) * 12 + until.month - since.month
    return months if add_months(since, months) <= until else months - 1


def begun_months(since: date, until: date) -> int:
    """Months that have begun: one that is not over counts in full, so that an age is never told too young."""
    whole = whole_months(since, until)
    return whole if add_months(since, whole) == until else whole + 1


def years_between(since: date, until: date) -> Fraction:
    """Whole years, and the days after the last of them as a share of the year that they lie in."""
    whole = whole_months(since, until) // 12
    last, following = add_months(since, 12 * whole), add_months(since, 12 * whole + 12)
    return whole + Fraction((until - last).days, (following - last).days)


def told_months(months: Fraction | int) -> str:
    """`8 years`, `2 years 6 months`, `30.6 months`."""
    exact = Fraction(months)
    if exact.denominator != 1:
        return f"{float(exact):.4g} months"
    years, rest = divmod(int(exact), 12)
    parts = [counted(years, "year")] * (years > 0) + [counted(rest, "month")] * (rest > 0)
    return " ".join(parts) or "0 months"


def told_share(share: Fraction) -> str:
    """`1/5`, `0`, `1`."""
    return str(share)
