"""What a unit file holds: the unit, its people, dates and deposit, and how old its components are and what they cost.

It is written by hand or by `narrate2report unit new`, as YAML, and read with the line of every mistake.
"""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal
from typing import Annotated, Final, Literal

from pydantic import AfterValidator, BeforeValidator, Field

from narrate2report.records.base import Value
from narrate2report.records.money import Money

UNIT_SCHEMA: Final = "narrate2report/unit/1"

Work = Literal["replace", "repaint", "repair", "clean", "touch_up", "secure", "treat", "supply"]
"""What is done about a flaw. Only `replace` and `repaint` give the owner something newer, and are prorated."""

Basis = Literal["invoice", "estimate", "own_labour"]
"""Where a cost comes from. Own labour is hours at a rate."""

ShareBy = Literal["age", "stay"]
"""What is prorated by: the age of the thing on a straight line, or a published schedule of steps by length of stay."""


_DAY = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)


def _something(text: str) -> str:
    if not text.strip():
        raise ValueError("is empty; write it or leave the line out")
    return text.strip()


Text = Annotated[str, AfterValidator(_something)]


def _iso_day(told: object) -> object:
    """Left to itself, the reader of values would take `86400` for the second day of 1970."""
    if isinstance(told, str) and not _DAY.fullmatch(told):
        raise ValueError(f"{told!r} is no day; write it as 2026-05-07")
    return told


YEARS = range(1900, 2201)
"""No day of a tenancy or of what stands in a home lies outside of these; a slip of the keyboard does."""


def within_reach(day: date) -> date:
    """The day itself. Raises ValueError for one from which no days can be meant to be counted."""
    if day.year not in YEARS:
        raise ValueError(f"{day} lies outside the years {YEARS[0]} to {YEARS[-1]}")
    return day


Day = Annotated[date, BeforeValidator(_iso_day), AfterValidator(within_reach)]
"""A day, written as in ISO 8601."""


class People(Value):
    """Who has to do with the unit."""

    owner: Text | None = None
    manager: Text | None = None
    residents: tuple[Text, ...] = ()


class Dates(Value):
    """The days on which a clock of the law may start, as far as they are known (ISO 8601)."""

    lease_start: Day = Field(description="the first day of the stay, before any renewal")
    lease_end: Day | None = Field(default=None, description="the day on which the lease, or the tenancy, ended")
    possession_returned: Day | None = Field(default=None, description="keys and possession given back")
    vacated: Day | None = Field(default=None, description="moved out, where that was another day")
    forwarding_address_received: Day | None = None
    demand_received: Day | None = Field(default=None, description="the resident asked for the deposit in writing")
    amount_agreed: Day | None = Field(default=None, description="both sides agreed on the amount")
    new_tenancy_start: Day | None = None
    amount_determined: Day | None = Field(default=None, description="the damage was added up")


class InterestTerms(Value):
    """Interest on the deposit: an amount worked out elsewhere, or a simple yearly rate on a sum from day to day."""

    amount: Money | None = None
    rate_percent: Decimal | None = Field(default=None, ge=0, le=100)
    principal: Money | None = Field(
        default=None, description="the sum that bears interest; the whole deposit if not given"
    )
    since: Day | None = None
    until: Day | None = None
    basis: Text = Field(description="why it is due, and where the rate comes from")


class DepositTerms(Value):
    """The deposit held."""

    held: Money
    received: Day | None = None
    interest: InterestTerms | None = None


class Sum(Value):
    """Rent, fees or credits beside the condition of the unit, that the person who writes them down answers for."""

    what: Text
    amount: Money
    owed_by: Literal["resident", "owner"] = "resident"
    basis: Text = Field(description="why it is lawful and how it was worked out")


class Remedy(Value):
    """One way to put a flaw right, and what it costs. Several of one component are alternatives to each other."""

    work: Work
    what: Text
    amount: Money | None = Field(default=None, description="invoice or estimate; with hours, the materials")
    basis: Basis
    receipt: Text | None = Field(default=None, description="number or file of the invoice, receipt or estimate")
    hours: Decimal | None = Field(default=None, gt=0, le=10000)
    rate: Money | None = Field(default=None, description="per hour of own labour")
    flaws: tuple[Text, ...] = Field(
        default=(), description="conditions or ids of changes it is for; empty: all of them"
    )
    suffices: bool = Field(default=True, description="false where it was judged not to be enough")
    why: Text | None = Field(default=None, description="why it does not suffice, or is not prorated")
    prorate: bool = Field(default=True, description="false for what does not wear, with the reason in `why`")
    portion_percent: Decimal | None = Field(default=None, gt=0, le=100, description="only this part is the resident's")
    portion_why: Text | None = None


class Thing(Value):
    """A component of the unit: how old it is, how long such a thing lasts, what putting it right costs."""

    room: Text
    component: Text
    called: Text | None = Field(default=None, description="`laminate top, grey`")
    installed: Day | None = None
    age_years: Decimal | None = Field(default=None, ge=0, le=200, description="on the day possession was returned")
    age_basis: Text | None = Field(default=None, description="the receipt or record that shows its age")
    useful_life_years: Decimal | None = Field(default=None, gt=0, le=200)
    life_source: Text | None = None
    life_as: Text | None = Field(default=None, description="a component group of the table of useful lives")
    share_by: ShareBy = "age"
    remedies: tuple[Remedy, ...] = ()

    @property
    def name(self) -> str:
        """`kitchen countertop`: what it is called where something is wrong with it."""
        return f"{self.room} {self.component}"


class Unit(Value):
    """The whole unit file."""

    unit: Text
    address: Text | None = None
    forwarding_address: Text | None = None
    currency: Annotated[str, Field(pattern=r"^[A-Z]{3}$")] = Field(description="ISO 4217")
    jurisdiction: Text | None = Field(default=None, description="a code of the table of deposit law, such as US-OH")
    people: People
    dates: Dates
    deposit: DepositTerms
    sums: tuple[Sum, ...] = ()
    components: tuple[Thing, ...] = ()
    rooms: dict[str, tuple[str, ...]] = Field(
        default={}, description="expected rooms with the components expected there"
    )
