"""A settlement from everything that it rests on, put together in one place."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from narrate2report.errors import CannotSettle
from narrate2report.records.comparison import Comparison
from narrate2report.records.findings import Findings, Sourced
from narrate2report.records.header import clashes
from narrate2report.records.law import Clock, LawRow
from narrate2report.records.life import Step
from narrate2report.records.money import ROUNDING_TOLD, rounded
from narrate2report.records.settlement import (
    Dated,
    Interest,
    NotCharged,
    OtherSum,
    SettledComparison,
    SettledUnit,
    Settlement,
)
from narrate2report.records.unit import Unit
from narrate2report.records.unit_checks import last_day
from narrate2report.settle.balance import balance_of
from narrate2report.settle.cautions import Worked, cautions_of, provisional_because
from narrate2report.settle.charges import charges_of
from narrate2report.settle.deadlines import GivenDays, due_dates, known_dates
from narrate2report.settle.flaws import NO_BASELINE, OPEN, Flaw, flaws_of, sort_flaws
from narrate2report.settle.interest import interest_of
from narrate2report.settle.last_days import check_walked_before, walk_day
from narrate2report.settle.pricing import Terms
from narrate2report.settle.useful_life import Lives


@dataclass(frozen=True)
class Grounds:
    """What a settlement rests on: the comparison with both of its records, and the unit file."""

    comparison: Comparison
    comparison_file: str
    before: Findings
    after: Findings
    unit: Unit
    late: tuple[str, ...] = ()
    """What was added to a record since the comparison: nothing is final before that is read."""
    minds: tuple[str, ...] = ()
    """What could not be held against a seal."""


@dataclass(frozen=True)
class Tables:
    """Facts from outside: useful lives, the repaint steps, and what is known of the jurisdiction."""

    lives: Lives
    steps: Sequence[Step]
    law: LawRow | None
    clocks: Sequence[Clock]
    given_days: GivenDays | None


def settle(grounds: Grounds, tables: Tables, today: date) -> Settlement:
    """Work out the settlement. Raises CannotSettle, in one line, for what is missing or does not fit."""
    unit, comparison = grounds.unit, grounds.comparison
    check_belongs(unit, comparison)
    check_walked_before(unit.dates, comparison)
    returned = last_day(unit.dates)
    terms = Terms(unit.currency, unit.dates.lease_start, returned, tables.lives, tables.steps)
    by_kind = sort_flaws(flaws_of(comparison, grounds.before, grounds.after))
    charges = charges_of(by_kind.to_charge, unit, comparison, terms)
    interest = interest_of(unit.deposit, returned, unit.currency)
    balance = balance_of(unit.deposit, interest, charges, _sums(unit), unit.currency)
    due = due_dates(tables.law, tables.clocks, tables.given_days, unit.dates, today)
    worked = Worked(unit, comparison, by_kind, charges, balance, tables.law, due)
    return _settlement(grounds, worked, interest, today)


def _settlement(grounds: Grounds, worked: Worked, interest: Interest | None, today: date) -> Settlement:
    unit, comparison, by_kind = worked.unit, worked.comparison, worked.by_kind
    because = (*grounds.late, *provisional_because(worked, (grounds.before, grounds.after), today))
    return Settlement(
        provisional=bool(because),
        provisional_because=because,
        unit=_settled_unit(unit),
        comparison=SettledComparison(file=grounds.comparison_file, before=comparison.before, after=comparison.after),
        currency=unit.currency,
        rounding=ROUNDING_TOLD,
        today=today,
        dates=tuple(Dated(name=name, label=label, day=day) for name, label, day in known_dates(unit.dates)),
        interest=interest,
        charges=worked.charges,
        sums=_sums(unit),
        without_baseline=tuple(_not_charged(flaw, NO_BASELINE) for flaw in by_kind.without_baseline),
        open=tuple(_not_charged(flaw, OPEN) for flaw in by_kind.open),
        not_charged=tuple(_not_charged(flaw, why) for flaw, why in by_kind.free),
        balance=worked.balance,
        law=worked.law,
        due=worked.due,
        cautions=cautions_of(worked, grounds.minds),
    )


def check_belongs(unit: Unit, comparison: Comparison) -> None:
    """Raise CannotSettle for a comparison of another unit, or of walks that cannot be of this lease."""
    if comparison.before.file == comparison.after.file:
        raise CannotSettle(f"both records of the comparison are the same file, {comparison.before.file}")
    for record in (comparison.before, comparison.after):
        if record.unit is not None:
            both = (Sourced(value=unit.unit, source="the unit file"), Sourced(value=record.unit, source=record.file))
            if told := clashes({"unit": both}):
                raise CannotSettle(f"the comparison is of another unit: {told[0].removeprefix('unit: ')}")
    earlier, later = walk_day(comparison.before.date), walk_day(comparison.after.date)
    if earlier and later and later < earlier:
        raise CannotSettle(
            f"the comparison stands the wrong way round: its earlier record is of {earlier}, its later one of {later}"
        )
    if later and later < unit.dates.lease_start:
        raise CannotSettle(
            f"the move-out record is of {later}, before the lease of the unit file starts on {unit.dates.lease_start}"
        )


def _sums(unit: Unit) -> tuple[OtherSum, ...]:
    return tuple(
        OtherSum(what=one.what, amount=rounded(one.amount, unit.currency), owed_by=one.owed_by, basis=one.basis)
        for one in unit.sums
    )


def _settled_unit(unit: Unit) -> SettledUnit:
    people = unit.people
    return SettledUnit(
        unit=unit.unit,
        address=unit.address,
        owner=people.owner,
        manager=people.manager,
        residents=people.residents,
        forwarding_address=unit.forwarding_address,
    )


def _not_charged(flaw: Flaw, why: str) -> NotCharged:
    return NotCharged(
        change=flaw.change.id,
        outcome=flaw.change.outcome,
        before=flaw.change.before,
        after=flaw.change.after,
        says=flaw.says(),
        why=why,
        judgement=flaw.change.judgement,
    )
