"""Whether a settlement still says what settling writes: one changed by hand is not printed.

What can be worked out again from the file alone is worked out again. Dates, costs and what was judged have their
source elsewhere; whether these were altered cannot be seen here.
"""

from __future__ import annotations

from collections import Counter
from decimal import Decimal
from fractions import Fraction
from typing import Final

from narrate2report.errors import BadInput
from narrate2report.publish.statement_account import check_account
from narrate2report.records.comparison import Became
from narrate2report.records.money import rounded, told
from narrate2report.records.settlement import Charge, Proration, Settlement

_PROVEN: Final[frozenset[Became]] = frozenset({"new", "worse"})
"""Only these make a charge: both records show that they came with the tenancy."""
_NEAR: Final = Fraction(1, 10**9)
"""How far a share may be from the one that its age gives: ages are kept as decimals."""


def check_settlement(settlement: Settlement) -> None:
    """Raise BadInput, in one line, for what settling never writes: the file was changed by hand, or is broken."""
    if settlement.open and not settlement.provisional:
        raise _altered(f"it is said to be final, but change {settlement.open[0].change} is not judged")
    _check_changes(settlement)
    for charge in settlement.charges:
        _check_judged(charge)
        _check_amount(charge, settlement.currency)
    _check_balance(settlement)
    check_account(settlement)


def _check_changes(settlement: Settlement) -> None:
    named = Counter(change for charge in settlement.charges for change in charge.changes)
    named += Counter(one.change for one in (*settlement.without_baseline, *settlement.open, *settlement.not_charged))
    twice = [change for change, times in named.items() if times > 1]
    if twice:
        raise _altered(f"change {twice[0]} stands in it more than once")


def _check_judged(charge: Charge) -> None:
    if not len(charge.changes) == len(charge.outcomes) == len(charge.judgements):
        raise _altered(f"{charge.id} has not one outcome and one judgement for each change")
    for change, outcome, judgement in zip(charge.changes, charge.outcomes, charge.judgements, strict=True):
        if judgement.verdict != "beyond_ordinary_wear":
            raise _altered(f"{charge.id} charges change {change}, which is not judged beyond ordinary wear")
        if outcome not in _PROVEN:
            raise _altered(f"{charge.id} charges change {change}, of which the records are no proof ({outcome})")


def _check_amount(charge: Charge, currency: str) -> None:
    cost = charge.cost
    labour = rounded((cost.hours or Decimal(0)) * (cost.rate or Decimal(0)), currency)
    if labour != cost.labour or cost.total != cost.amount + cost.labour:
        raise _altered(f"the cost of {charge.id} does not add up")
    part = Fraction(1) if charge.portion_percent is None else Fraction(charge.portion_percent) / 100
    amount = rounded(Fraction(cost.total) * _share(charge) * part, currency)
    if amount != charge.amount or told(amount, currency) not in charge.working[-1]:
        come, says = told(amount, currency), told(charge.amount, currency)
        raise _altered(f"the working of {charge.id} does not give its amount: {come} as worked out again, {says} told")


def _share(charge: Charge) -> Fraction:
    proration = charge.proration
    try:
        share = Fraction(proration.share)
    except ZeroDivisionError:
        share = Fraction(2)
    if share > 1:
        raise _altered(f"the share of {charge.id}, {proration.share}, is none between 0 and 1")
    if abs(share - _expected(proration, share)) > _NEAR:
        raise _altered(f"the share of {charge.id}, {proration.share}, is not what its age and useful life give")
    return share


def _expected(proration: Proration, told_share: Fraction) -> Fraction:
    """The share by age on a straight line; what is not prorated is charged whole. Steps stand in no settlement."""
    if proration.method == "not_prorated":
        return Fraction(1)
    life, age = proration.life, proration.age_months
    if proration.method == "straight_line" and life and life.years and age is not None:
        return max(Fraction(0), 1 - Fraction(age) / (Fraction(life.years) * 12))
    return told_share


def _check_balance(settlement: Settlement) -> None:
    balance = settlement.balance
    owed = {
        party: sum((one.amount for one in settlement.sums if one.owed_by == party), Decimal(0))
        for party in ("owner", "resident")
    }
    for name, told_sum, lines in (
        ("charges", balance.charges, sum((one.amount for one in settlement.charges), Decimal(0))),
        ("interest", balance.interest, settlement.interest.amount if settlement.interest else Decimal(0)),
        ("credits", balance.credits, owed["owner"]),
        ("what the resident owes", balance.owed, owed["resident"]),
    ):
        if told_sum != lines:
            raise _altered(f"the lines of {name} do not come to the sum in its balance: it does not add up")


def _altered(what: str) -> BadInput:
    return BadInput(f"the settlement was changed by hand or is broken: {what}; settle again")
