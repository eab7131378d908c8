"""What one remedy of one thing comes to: its cost in full, the share that is charged, and the way there in words."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction

from narrate2report.errors import CannotSettle
from narrate2report.records.life import Step
from narrate2report.records.money import rounded, told
from narrate2report.records.settlement import Cost, LifeUsed, Proration
from narrate2report.records.unit import Remedy, Thing
from narrate2report.settle.shares import NOT_PRORATED, PRORATED, step_of_stay, straight_line
from narrate2report.settle.spans import begun_months, told_months, told_share, whole_months
from narrate2report.settle.useful_life import Lives, life_of
from narrate2report.wording import capital, told_day

BASIS = {"invoice": "by invoice", "estimate": "by estimate", "own_labour": "for materials"}
STEPS_RULE = "Repainting is charged by length of stay, in the steps of a published schedule."


@dataclass(frozen=True)
class Terms:
    """What every price is worked out with. `returned` is the day to which ages and the stay are counted."""

    currency: str
    lease_start: date
    returned: date | None
    lives: Lives
    steps: Sequence[Step]


@dataclass(frozen=True)
class Priced:
    """A remedy with what it comes to."""

    remedy: Remedy
    cost: Cost
    proration: Proration
    amount: Decimal
    working: tuple[str, ...]


def price(thing: Thing, remedy: Remedy, terms: Terms) -> Priced:
    """Work out one remedy. Raises CannotSettle, naming the thing, where its age or its useful life is not known."""
    cost = cost_of(remedy, terms.currency)
    proration, way = _proration(thing, remedy, terms)
    exact = Fraction(cost.total) * Fraction(proration.share)
    portion = remedy.portion_percent
    if portion is not None:
        exact *= Fraction(portion) / 100
    amount = rounded(exact, terms.currency)
    working = (*_cost_told(remedy, cost, terms.currency), *way, *_product(remedy, cost, proration, amount, terms))
    return Priced(remedy, cost, proration, amount, working)


def cost_of(remedy: Remedy, currency: str) -> Cost:
    """The cost in full. Own labour is rounded to the cent by itself, since it stands on the statement as a sum."""
    amount = rounded(remedy.amount or Decimal(0), currency)
    labour = rounded((remedy.hours or Decimal(0)) * (remedy.rate or Decimal(0)), currency)
    return Cost(
        basis=remedy.basis,
        amount=amount,
        receipt=remedy.receipt,
        hours=remedy.hours,
        rate=remedy.rate,
        labour=labour,
        total=amount + labour,
    )


def _proration(thing: Thing, remedy: Remedy, terms: Terms) -> tuple[Proration, tuple[str, ...]]:
    if remedy.work not in PRORATED:
        rule = NOT_PRORATED[remedy.work]
        return Proration(method="not_prorated", rule=rule, share="1"), (rule,)
    if not remedy.prorate:
        rule = f"Not prorated, since {remedy.why}"
        return Proration(method="not_prorated", rule=rule, share="1"), (_sentence(rule),)
    if thing.share_by == "stay" and remedy.work == "repaint":
        return _by_stay(thing, terms)
    return _by_age(thing, remedy, terms)


def _by_stay(thing: Thing, terms: Terms) -> tuple[Proration, tuple[str, ...]]:
    if terms.returned is None:
        raise CannotSettle(f"{thing.name}: the length of stay is not known; write possession_returned under dates")
    step, on_border = step_of_stay(terms.lease_start, terms.returned, terms.steps)
    months = whole_months(terms.lease_start, terms.returned)
    span = f"from {step.since} to under {step.below} months" if step.below else f"from {step.since} months on"
    stay = f"{told_day(terms.lease_start)} to {told_day(terms.returned)}"
    way = [
        f"The stay, {stay}, was {told_months(months)} in whole months.",
        f"{STEPS_RULE} {capital(span)}, {told_share(step.share)} of it is the resident's ({step.source}).",
    ]
    if on_border:
        way.append(f"The schedule leaves exactly {step.since} months open; the step with the lower share is taken.")
    share = told_share(step.share)
    return Proration(method="step_schedule", rule=STEPS_RULE, share=share, stay_months=months), tuple(way)


def _by_age(thing: Thing, remedy: Remedy, terms: Terms) -> tuple[Proration, tuple[str, ...]]:
    life = life_of(thing, remedy.work, terms.lives)
    months, counted = _age(thing, terms)
    share = straight_line(months, life.years)
    span = Fraction(life.years) * 12
    left = (
        f"Left of its life: {_number(span - months)} of {_number(span)} months, {told_share(share)} of the cost."
        if share
        else f"Its useful life of {_number(span)} months is over: nothing of the cost is left to charge."
    )
    rule = PRORATED[remedy.work]
    proration = Proration(
        method="straight_line",
        rule=rule,
        share=told_share(share),
        age_months=_decimal(months),
        age_basis=thing.age_basis,
        life=life,
    )
    return proration, (rule, counted, _life_told(life), left)


def _age(thing: Thing, terms: Terms) -> tuple[Fraction, str]:
    basis = f" ({thing.age_basis})" if thing.age_basis else " (no receipt or record of its age is named)"
    if thing.age_years is not None:
        exact = Fraction(thing.age_years) * 12
        months = Fraction(math.ceil(exact))
        given = "as given" if months == exact else f"{_number(Fraction(thing.age_years))} years as given"
        begun = "" if months == exact else "; a month that has begun counts in full"
        return months, f"Age when possession was returned: {told_months(months)}, {given}{basis}{begun}."
    if thing.installed is None:
        raise CannotSettle(f"{thing.name}: its age is not known; write installed or age_years, with age_basis")
    if terms.returned is None:
        raise CannotSettle(
            f"{thing.name}: the day to count its age to is missing; write possession_returned under dates"
        )
    months = Fraction(begun_months(thing.installed, terms.returned))
    span = f"{told_day(thing.installed)} to {told_day(terms.returned)}"
    return months, f"Age: {told_months(months)}, {span}{basis}; a month that has begun counts in full."


def _life_told(life: LifeUsed) -> str:
    source = life.source or "NO SOURCE WAS GIVEN FOR IT"
    mark = f"; {life.mark.upper()}" if life.mark and life.source else ""
    return f"Useful life: {_number(Fraction(life.years))} years ({life.name}; {source}{mark})."


def _cost_told(remedy: Remedy, cost: Cost, currency: str) -> Iterator[str]:
    parts = []
    if cost.amount or not cost.labour:
        parts.append(f"{told(cost.amount, currency)} {BASIS[cost.basis]}")
    if cost.hours is not None and cost.rate is not None:
        hours = _number(Fraction(cost.hours))
        worked = f"{hours} hour{'s' * (hours != '1')} of own labour"
        parts.append(f"{worked} at {told(cost.rate, currency)} = {told(cost.labour, currency)}")
    total = f", together {told(cost.total, currency)}" if len(parts) > 1 else ""
    receipt = f" ({cost.receipt})" if cost.receipt else ""
    yield f"{_sentence(remedy.what).rstrip('.')}: {' and '.join(parts)}{total}{receipt}."


def _product(remedy: Remedy, cost: Cost, proration: Proration, amount: Decimal, terms: Terms) -> Iterator[str]:
    factors = [told(cost.total, terms.currency)]
    if proration.method != "not_prorated":
        factors.append(proration.share)
    if remedy.portion_percent is not None:
        percent = _number(Fraction(remedy.portion_percent))
        yield f"Of this, {percent} % is the resident's, since {remedy.portion_why}."
        factors.append(f"{percent} %")
    product = " × ".join(factors)
    yield f"{product} = {told(amount, terms.currency)}." if len(factors) > 1 else f"Charged in full: {product}."


def _sentence(text: str) -> str:
    text = text.strip()
    return f"{capital(text)}{'' if text.endswith(('.', '!', '?')) else '.'}"


def _number(number: Fraction) -> str:
    return str(number.numerator) if number.denominator == 1 else f"{float(number):.6g}"


def _decimal(months: Fraction) -> Decimal:
    return Decimal(months.numerator) / Decimal(months.denominator)
