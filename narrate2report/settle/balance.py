"""The sum of all lines: what is held for the resident, what is taken from it, and who is paid the rest."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from narrate2report.errors import CannotSettle
from narrate2report.records.money import LARGEST, rounded, told
from narrate2report.records.settlement import Balance, Charge, Interest, OtherSum
from narrate2report.records.unit import DepositTerms


def balance_of(
    deposit: DepositTerms, interest: Interest | None, charges: Iterable[Charge], sums: Iterable[OtherSum], currency: str
) -> Balance:
    """Every line added up, without any rounding: each is in whole cents already.

    Raises CannotSettle where a sum is larger than any that can be meant.
    """
    nothing = rounded(Decimal(0), currency)
    others = tuple(sums)
    held = rounded(deposit.held, currency)
    earned = interest.amount if interest else nothing
    credits_ = sum((one.amount for one in others if one.owed_by == "owner"), nothing)
    owed = sum((one.amount for one in others if one.owed_by == "resident"), nothing)
    charged = sum((one.amount for one in charges), nothing)
    left = held + earned + credits_ - charged - owed
    if max(credits_, charged, owed, abs(left)) > LARGEST:
        raise CannotSettle(
            f"charges and sums come to more than {told(LARGEST, currency)}, which is too large to be meant"
        )
    above = max(nothing, -left)
    return Balance(
        held=held,
        interest=earned,
        credits=credits_,
        charges=charged,
        owed=owed,
        to="resident" if left > 0 else "owner" if left < 0 else "nobody",
        amount=abs(left),
        above_deposit=above,
        told=_told(left, above, currency),
    )


def _told(left: Decimal, above: Decimal, currency: str) -> str:
    if left > 0:
        return f"{told(left, currency)} goes back to the resident."
    if left == 0:
        return "Nothing is left of the deposit, and nothing is owed beyond it."
    return (
        f"CHARGES AND SUMS EXCEED WHAT IS HELD BY {told(above, currency)}. This part is not taken from the deposit; "
        "whether and how it can be claimed from the resident is for local law."
    )
