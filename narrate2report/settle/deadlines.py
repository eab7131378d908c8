"""By when the deposit is to be returned and itemised: from a jurisdiction's clocks and the unit file's dates.

The day of the event is not counted. Where the words of the table leave room (several events of which one is not known,
a last day at a weekend, a doubtful figure), the earlier day is told as the one to keep. Nothing is invented: a
jurisdiction without a figure gets its days from the person at the keyboard, and they are marked as given.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from narrate2report.records.law import Clock, Duty, LawRow, Leg
from narrate2report.records.settlement import DueDate
from narrate2report.records.unit import Dates
from narrate2report.settle.business_days import add_business_days, on_or_before
from narrate2report.settle.last_days import no_later_than_possession
from narrate2report.settle.spans import add_months
from narrate2report.wording import told_day

LABELS: Mapping[str, str] = {
    "return": "Return what is left of the deposit",
    "itemise": "Send the itemised statement",
    "given": "Return what is left of the deposit and send the itemised statement",
}
EVENTS: Mapping[str, str] = {
    "lease_start": "start of the lease",
    "lease_end": "end of the lease",
    "possession_returned": "return of possession",
    "vacated": "moving out",
    "forwarding_address_received": "receipt of the forwarding address",
    "demand_received": "receipt of the resident's demand",
    "amount_agreed": "agreement on the amount",
    "new_tenancy_start": "start of the next tenancy",
    "amount_determined": "the day on which the amount was determined",
}
"""What the dates of the unit file are called."""

NO_WEEKEND_RULE = "the table does not say what then follows, so the last business day before it is the safe one"
_UNITS = {"calendar": "calendar days", "business": "business days", "month": "month"}


@dataclass(frozen=True)
class GivenDays:
    """Days that the person at the keyboard gives, and the day they count from."""

    count: int
    start: date


@dataclass(frozen=True)
class _Counted:
    leg: Leg
    start: date
    day: date
    stands_for: str


def due_dates(
    law: LawRow | None, clocks: Sequence[Clock], given: GivenDays | None, dates: Dates, today: date
) -> tuple[DueDate, ...]:
    """Every day by which something must be done, the given days first. Pure: today is what it is said to be."""
    found = [_given(given, law, today)] if given else []
    if law is None:
        return tuple(found)
    own = [clock for clock in clocks if clock.code == law.code]
    for clock in own:
        for duty in clock.duties:
            alike = sum(duty in other.duties for other in own)
            number = 1 + sum(duty in other.duties for other in own[: own.index(clock)])
            name = duty if alike == 1 else f"{duty}-{number}"
            found.append(_due(name, duty, clock, law, dates, today))
    return tuple(found)


def known_dates(dates: Dates) -> Iterator[tuple[str, str, date]]:
    """Name, wording and day of every date that is known."""
    for name, label in EVENTS.items():
        day: date | None = getattr(dates, name)
        if day is not None:
            yield name, label, day


def _given(given: GivenDays, law: LawRow | None, today: date) -> DueDate:
    day = given.start + timedelta(days=given.count)
    code = law.code if law else None
    plan = on_or_before(day, code)
    working = [
        f"{given.count} calendar days after {told_day(given.start)}, both as given at the keyboard: {told_day(day)}."
    ]
    if plan != day:
        working.append(f"{told_day(day)} is no business day; {told_day(plan)} is safe.")
    return DueDate(
        id="given",
        duty="given",
        label=LABELS["given"],
        day=day,
        days_left=(day - today).days,
        plan_by=plan,
        plan_days_left=(plan - today).days,
        given=True,
        working=tuple(working),
    )


def _due(name: str, duty: Duty, clock: Clock, law: LawRow, dates: Dates, today: date) -> DueDate:
    counted, decisive = _decisive(clock, dates)
    missing = [leg.event for leg in clock.legs if leg.event not in {one.leg.event for one in counted}]
    plan = _plan(decisive, law) if decisive else None
    _, sooner = _decisive(clock, no_later_than_possession(dates))
    early = _plan(sooner, law) if sooner else None
    working = [*_working(clock, counted, decisive, law)]
    if plan and sooner and early and early < plan:
        working.append(_from_possession(sooner, early))
        plan = early
    elif plan and decisive:
        working += _why_earlier(decisive, plan, law)
    return DueDate(
        id=name,
        duty=duty,
        label=LABELS[duty],
        day=decisive.day if decisive else None,
        days_left=(decisive.day - today).days if decisive else None,
        plan_by=plan,
        plan_days_left=(plan - today).days if plan else None,
        applies=clock.applies,
        holds_if=clock.holds_if,
        working=tuple(working),
        asks=_asks(missing, clock, decisive is None),
    )


def _decisive(clock: Clock, dates: Dates) -> tuple[list[_Counted], _Counted | None]:
    """Every leg of which the day is known, and the one that counts."""
    counted = [one for leg in clock.legs if (one := _counted(leg, dates, clock.code))]
    pick = max if clock.whichever == "latest" else min
    return counted, pick(counted, key=lambda one: one.day, default=None)


def _from_possession(sooner: _Counted, early: date) -> str:
    """Why the day to keep is earlier where something is said to have ended after possession was returned."""
    safe = "" if early == sooner.day else f"; the safe day is {told_day(early)}"
    return (
        "A day after the return of possession is given for the end of the lease or for moving out. Counted from the "
        f"return of possession, the last day is {told_day(sooner.day)}{safe}: keep it. Whoever missed it would have to "
        "show that the tenancy ended only later."
    )


def _counted(leg: Leg, dates: Dates, code: str) -> _Counted | None:
    start: date | None = getattr(dates, leg.event)
    stands_for = ""
    if start is None and leg.event == "vacated" and dates.possession_returned is not None:
        start, stands_for = (
            dates.possession_returned,
            "; moving out is not given, so the return of possession stands for it",
        )
    if start is None:
        return None
    if leg.unit == "business":
        day = add_business_days(start, leg.count, code)
    elif leg.unit == "month":
        day = add_months(start, leg.count)
    else:
        day = start + timedelta(days=leg.count)
    return _Counted(leg, start, day, stands_for)


def _plan(decisive: _Counted, law: LawRow) -> date:
    """The safe day: the table's cautious figure where it is shorter, and never a day that is none of business."""
    plan = decisive.day
    if law.safe_deadline_days is not None:
        plan = min(plan, decisive.start + timedelta(days=law.safe_deadline_days))
    return on_or_before(plan, law.code)


def _working(clock: Clock, counted: Sequence[_Counted], decisive: _Counted | None, law: LawRow) -> Iterator[str]:
    yield f"{law.statute} ({law.jurisdiction}), as the table has it: “{law.clock_start}”."
    for one in counted:
        yield (
            f"{one.leg.count} {_unit(one.leg)} after {told_day(one.start)} ({EVENTS[one.leg.event]}{one.stands_for}): "
            f"{told_day(one.day)}."
        )
    if decisive is not None and len(clock.legs) > 1:
        yield f"The {clock.whichever} of these counts: {told_day(decisive.day)}."


def _why_earlier(decisive: _Counted, plan: date, law: LawRow) -> Iterator[str]:
    """Why another day than the last one is told as the one to keep."""
    safe = law.safe_deadline_days
    cautious = decisive.day if safe is None else min(decisive.day, decisive.start + timedelta(days=safe))
    if cautious < decisive.day:
        yield f"The table's cautious figure is {safe} days, the safe one in doubt: {told_day(cautious)}."
    if plan < cautious:
        yield f"{told_day(cautious)} is a weekend or holiday; {NO_WEEKEND_RULE}: {told_day(plan)}."


def _unit(leg: Leg) -> str:
    return "month" if leg.unit == "month" and leg.count == 1 else _UNITS[leg.unit]


def _asks(missing: Sequence[str], clock: Clock, nothing_known: bool) -> str | None:
    if not missing:
        return None
    names = " and ".join(f"{name} ({EVENTS[name]})" for name in missing)
    if nothing_known:
        return f"Not known: {names}. Write it under dates in the unit file; no day is counted without it."
    if clock.whichever == "latest":
        return (
            f"Not known: {names}. The days may not have begun yet; counted from what is known, which is the safe side."
        )
    return f"Not known: {names}. If it is earlier, so is the last day; write it under dates in the unit file."
