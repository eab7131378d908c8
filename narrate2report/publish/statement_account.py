"""The account of a settlement: every sum with its sign, which together are the balance to the cent."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from narrate2report.errors import BadInput
from narrate2report.publish.statement_values import Line
from narrate2report.publish.statement_words import figure
from narrate2report.records.money import told
from narrate2report.records.settlement import Settlement
from narrate2report.wording import plain, room_name


@dataclass(frozen=True)
class Sum:
    """One sum of the account: what is the resident's is positive, what is taken from that negative."""

    number: str
    told: str
    basis: str
    amount: Decimal


def sums_of(settlement: Settlement) -> Iterator[Sum]:
    """The deposit, what is added to it, the charges by their numbers, and what else is taken from it."""
    yield Sum("", "Deposit held", "", settlement.balance.held)
    if settlement.interest:
        yield Sum("", "Interest on the deposit", settlement.interest.basis, settlement.interest.amount)
    yield from (Sum("", one.what, one.basis, one.amount) for one in settlement.sums if one.owed_by == "owner")
    for number, charge in enumerate(settlement.charges, start=1):
        place = f"{room_name(charge.room)}, {plain(charge.component)}"
        yield Sum(str(number), place, charge.what, -charge.amount)
    yield from (Sum("", one.what, one.basis, -one.amount) for one in settlement.sums if one.owed_by == "resident")


def left_of(settlement: Settlement) -> Decimal:
    """What the balance says: positive where the resident is paid, negative where charges exceed what is held."""
    return settlement.balance.amount if settlement.balance.to == "resident" else -settlement.balance.amount


def check_account(settlement: Settlement) -> None:
    """Raise BadInput where the lines do not come to the balance: the file was changed by hand, or is broken."""
    total = sum((one.amount for one in sums_of(settlement)), Decimal(0))
    if total != left_of(settlement):
        currency = settlement.currency
        raise BadInput(
            f"the settlement does not add up: its lines come to {figure(total, currency)}, its balance says "
            f"{figure(left_of(settlement), currency)} {currency}; settle again"
        )


def account_of(settlement: Settlement) -> tuple[Line, ...]:
    """The lines as they are printed."""
    currency = settlement.currency
    return tuple(Line(one.number, one.told, one.basis, figure(one.amount, currency)) for one in sums_of(settlement))


def total_of(settlement: Settlement) -> Line:
    """The last line: to whom the rest goes."""
    to = {
        "resident": "To be returned to the resident",
        "owner": "Above the deposit; not taken from it",
        "nobody": "Nothing is left, nothing is owed",
    }[settlement.balance.to]
    return Line("", to, "", figure(left_of(settlement), settlement.currency))


def balance_told(settlement: Settlement) -> str:
    """The balance in a sentence."""
    balance, currency = settlement.balance, settlement.currency
    if balance.to == "resident":
        return f"{told(balance.amount, currency)} goes back to the resident."
    if balance.to == "owner":
        return (
            f"Charges and sums exceed what is held by {told(balance.amount, currency)}. Nothing goes back to the "
            "resident. What is above the deposit is not taken from it; whether and how it can be claimed is for local "
            "law."
        )
    return "Nothing of the deposit is left, and nothing is owed beyond it."
