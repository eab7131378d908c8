"""Interest on the deposit: as given, or simple interest from day to day at a given yearly rate."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from fractions import Fraction

from narrate2report.errors import CannotSettle
from narrate2report.records.money import LARGEST, rounded, told
from narrate2report.records.settlement import Interest
from narrate2report.records.unit import DepositTerms
from narrate2report.settle.spans import years_between
from narrate2report.wording import counted, told_day


def interest_of(deposit: DepositTerms, until: date | None, currency: str) -> Interest | None:
    """What is due, with the way there; `until` is the last day where the terms name none.

    Raises CannotSettle where no last day is known, it lies before the first, or more comes out than can be meant.
    """
    terms = deposit.interest
    if terms is None:
        return None
    if terms.amount is not None:
        amount = rounded(terms.amount, currency)
        return Interest(amount=amount, basis=terms.basis, working=(f"{told(amount, currency)}, as given.",))
    end = terms.until or until
    if terms.rate_percent is None or terms.since is None:
        raise AssertionError("checked with the unit file")
    if end is None:
        raise CannotSettle("interest on the deposit: the last day is missing; write until, or possession_returned")
    if end < terms.since:
        raise CannotSettle(f"interest on the deposit: counts from {terms.since}, which is after {end}")
    principal = rounded(deposit.held if terms.principal is None else terms.principal, currency)
    years = years_between(terms.since, end)
    amount = rounded(Fraction(principal) * Fraction(terms.rate_percent) / 100 * years, currency)
    if amount > LARGEST:
        raise CannotSettle(
            f"interest on the deposit: comes to more than {told(LARGEST, currency)}, which is too large to be meant"
        )
    rate = f"{_percent(terms.rate_percent)} %"
    span = f"{told_day(terms.since)} to {told_day(end)}: {_years(years)}"
    terms_told = f"{told(principal, currency)} at {rate} a year, simple, {span}."
    product = f"{told(principal, currency)} × {rate} × {_years(years)} = {told(amount, currency)}."
    return Interest(amount=amount, basis=terms.basis, working=(terms_told, product))


def _percent(rate: Decimal) -> str:
    return f"{rate.normalize():f}"


def _years(years: Fraction) -> str:
    """`1 year`, `1 62/365 years`: whole years and the rest as days of a year."""
    whole, rest = divmod(years, 1)
    if not rest:
        return counted(whole, "year")
    return f"{whole} and {rest} years" if whole else f"{rest} of a year"
