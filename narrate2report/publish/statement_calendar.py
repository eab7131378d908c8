"""The days by which a settlement wants something done, for a calendar: those to keep, and the last by the words."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from datetime import UTC, datetime, time

from narrate2report.publish.calendar import DueDay, calendar_of
from narrate2report.publish.standing import Heading
from narrate2report.records.duties import applying
from narrate2report.records.settlement import DueDate, Settlement
from narrate2report.wording import told_day, unit_name


def statement_calendar(settlement: Settlement) -> bytes:
    """The whole iCalendar file, without duties that do not apply.

    The same settlement gives the same bytes; a day that moves keeps its UID.
    """
    unit = unit_name(settlement.unit.unit)
    names = (settlement.unit.unit, *(one.file for one in (settlement.comparison.before, settlement.comparison.after)))
    heading = Heading(
        about=f"Deposit settlement, {unit}",
        unit=unit,
        standing="draft" if settlement.provisional else "reviewed",
        seal=None,
        made_at=datetime.combine(settlement.today, time(), UTC),
        identity=hashlib.sha256("\n".join(names).encode()).hexdigest(),
    )
    return calendar_of(heading, days=[day for due in applying(settlement) for day in _days(due, unit, settlement)])


def _days(due: DueDate, unit: str, settlement: Settlement) -> Iterator[DueDay]:
    """Nothing where the date is missing: no day is invented."""
    if due.day is None:
        return
    keep, what = due.plan_by or due.day, due.told[:1].lower() + due.told[1:]
    told = "\n".join([*due.working, *settlement.cautions[:1]])
    yield DueDay(f"{due.id}/keep", keep, f"{unit}: by this day, {what}", told)
    if keep != due.day:
        summary = f"{unit}: last day by the table's words (keep {told_day(keep)}): {what}"
        yield DueDay(f"{due.id}/by-words", due.day, summary, told)
