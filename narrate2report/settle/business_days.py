"""Which days count as business days: Monday to Friday without the legal holidays of a state or country.

The holidays come from the general library `holidays`; courts and offices may keep others.
"""

from __future__ import annotations

from collections.abc import Set
from datetime import date, timedelta
from functools import cache

import holidays

_DAY = timedelta(days=1)
SATURDAY = 5


def is_business_day(day: date, jurisdiction: str | None) -> bool:
    """Whether a day is neither at a weekend nor a legal holiday; with no jurisdiction, only weekends are known."""
    return day.weekday() < SATURDAY and day not in _holidays(jurisdiction, day.year)


def add_business_days(day: date, count: int, jurisdiction: str) -> date:
    """The last of so many business days after a day, which itself does not count."""
    while count:
        day += _DAY
        count -= is_business_day(day, jurisdiction)
    return day


def on_or_before(day: date, jurisdiction: str | None) -> date:
    """The day itself, or the last business day before it."""
    while not is_business_day(day, jurisdiction):
        day -= _DAY
    return day


@cache
def _holidays(jurisdiction: str | None, year: int) -> Set[date]:
    if jurisdiction is None:
        return frozenset()
    country, _, subdivision = jurisdiction.partition("-")
    return frozenset(holidays.country_holidays(country, subdiv=subdivision or None, years=year))
