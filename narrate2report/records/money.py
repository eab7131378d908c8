"""Money: decimal sums with as many places as their currency has, and the one rule by which they are rounded."""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction
from typing import Annotated, Final

from babel.numbers import get_currency_precision, list_currencies
from pydantic import BeforeValidator, Field

ROUNDING_TOLD: Final = (
    "Each amount is rounded once, to the smallest unit of the currency (a cent, where it has two decimal places), "
    "half a unit upwards; sums are not rounded again."
)

LARGEST: Final = Decimal(10) ** 9
"""No deposit, cost or rent of a home is larger; a slip of the keyboard is."""


def _no_float(value: object) -> object:
    if isinstance(value, float):
        raise ValueError("money is written as text such as '480.00', never as a floating-point number")
    return value


Money = Annotated[Decimal, BeforeValidator(_no_float), Field(ge=0, le=LARGEST)]
"""A sum in the currency of the file, never negative: who owes it to whom is said beside it."""


def is_currency(code: str) -> bool:
    """Whether it is a code of ISO 4217 such as `USD`."""
    return code in list_currencies()


def places(currency: str) -> int:
    """How many decimal places sums of a currency have: 2 for `USD`, 0 for `JPY`."""
    return int(get_currency_precision(currency))


def rounded(amount: Decimal | Fraction, currency: str) -> Decimal:
    """An exact amount, not negative, in whole cents of its currency: the only rounding, half a cent upwards.

    It is the customary rounding of invoices (ROUND_HALF_UP), done on whole numbers and so without any loss before it.
    """
    scale = 10 ** places(currency)
    cents = math.floor(Fraction(amount) * scale + Fraction(1, 2))
    return Decimal(cents).scaleb(-places(currency))


def told(amount: Decimal, currency: str) -> str:
    """`1,480.00 USD`, in words for people; files carry the bare figure."""
    return f"{amount:,.{places(currency)}f} {currency}"
