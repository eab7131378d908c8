"""A settlement in the terminal: every line with its working, the balance, the days, what is open and what to mind."""

from __future__ import annotations

from collections.abc import Iterator

from rich.console import Console

from narrate2report.records.duties import applying
from narrate2report.records.money import told
from narrate2report.records.settlement import Charge, DueDate, NotCharged, Settlement
from narrate2report.wording import counted

PROVISIONAL = "PROVISIONAL: not to be sent as final."


def print_settlement(settlement: Settlement, console: Console) -> None:
    """Print all of it, in the order in which one reads it."""
    for line in _lines(settlement):
        console.print(line, soft_wrap=True)


def _lines(settlement: Settlement) -> Iterator[str]:
    unit = settlement.unit
    yield f"Settlement of the deposit: {', '.join(part for part in (unit.unit, unit.address) if part)}"
    if settlement.provisional:
        yield PROVISIONAL
        yield from (f"  {reason}" for reason in settlement.provisional_because)
    yield ""
    yield from sums(settlement)
    for charge in settlement.charges:
        yield ""
        yield from _charge(charge, settlement.currency)
    yield from _others("Not judged yet", settlement.open)
    yield from _others("NOT CHARGED: without a baseline", settlement.without_baseline)
    yield from _others("No charge", settlement.not_charged)
    yield ""
    yield from _due(settlement)
    yield ""
    yield "Mind:"
    yield from (f"  - {caution}" for caution in settlement.cautions)


def sums(settlement: Settlement) -> Iterator[str]:
    """What comes together to the balance, a line each, and to whom it goes."""
    balance, currency = settlement.balance, settlement.currency
    rows = [("Deposit held", told(balance.held, currency))]
    if settlement.interest:
        rows.append((f"Interest: {settlement.interest.basis}", f"+ {told(balance.interest, currency)}"))
    for one in settlement.sums:
        sign = "-" if one.owed_by == "resident" else "+"
        rows.append((f"{one.what}: {one.basis}", f"{sign} {told(one.amount, currency)}"))
    for charge in settlement.charges:
        rows.append((f"{charge.id}: {charge.what}", f"- {told(charge.amount, currency)}"))
    left = "Above the deposit" if balance.above_deposit else "Left"
    rows.append((left, told(balance.amount, currency)))
    wide = max(len(name) for name, _ in rows)
    high = max(len(amount) for _, amount in rows)
    yield from (f"{name:<{wide}}  {amount:>{high}}" for name, amount in rows)
    if settlement.interest:
        yield from (f"  {line}" for line in settlement.interest.working)
    yield balance.told
    yield settlement.rounding


def _charge(charge: Charge, currency: str) -> Iterator[str]:
    yield f"{charge.id}  {told(charge.amount, currency)}  {charge.says}"
    for judgement in dict.fromkeys(charge.judgements):
        why = f": {judgement.why}" if judgement.why else ""
        yield f"  judged beyond ordinary wear by {judgement.by}, {judgement.at}{why}"
    yield from (f"  {line}" for line in charge.working)
    if charge.proration.life:
        yield from (f"  other sources: {other}" for other in charge.proration.life.others)
    for other in charge.alternatives:
        would_be = f" would be {told(other.would_be, currency)}" if other.would_be is not None else ""
        yield f"  not taken: {other.what} ({told(other.cost, currency)}){would_be}. {other.why_not}"
    yield from (f"  mind: {caution}" for caution in charge.cautions)


def _others(title: str, changes: tuple[NotCharged, ...]) -> Iterator[str]:
    if changes:
        yield ""
        yield f"{title}:"
        yield from (f"  {one.change}  {one.says}. {one.why}" for one in changes)


def _due(settlement: Settlement) -> Iterator[str]:
    yield f"By when (counted on {settlement.today}; check the current statute):"
    for one in applying(settlement):
        case = f", where {one.applies}" if one.applies else ""
        yield f"  {one.label}{case}: {_days(one)}{' (days given by you)' if one.given else ''}"
        yield from (f"    {line}" for line in one.working)
        if one.asks:
            yield f"    {one.asks}"


def _days(due: DueDate) -> str:
    if due.day is None or due.days_left is None:
        return "no day can be told yet"
    last = f"{due.day}, {_left(due.days_left)}"
    if due.plan_by in (None, due.day) or due.plan_days_left is None:
        return f"keep {last}"
    return f"keep {due.plan_by}, {_left(due.plan_days_left)}; by the table's words the last day is {last}"


def _left(days: int) -> str:
    if days < 0:
        return f"PASSED {counted(-days, 'day')} ago"
    return "today" if days == 0 else f"{counted(days, 'day')} left"
