"""What a settlement file holds: the deposit, every charge with its working, what is not charged and why, the balance,
and the days by which the law wants it done. All money is in `currency`, written as text with its decimal places.

A reader needs nothing but this file and the two records that `comparison` names: entry ids are theirs.
"""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Annotated, Final, Literal

from pydantic import Field

from narrate2report.records.base import Value
from narrate2report.records.comparison import Became, Compared, Judgement
from narrate2report.records.law import Condition, LawRow
from narrate2report.records.money import Money
from narrate2report.records.unit import Basis, Work

SETTLEMENT_SCHEMA: Final = "narrate2report/settlement/1"

Share = Annotated[str, Field(pattern=r"^\d+(/\d+)?$")]
"""An exact share between 0 and 1, as `0`, `1` or `2/5`."""

Party = Literal["resident", "owner"]


class SettledUnit(Value):
    """Which unit, and who, as the unit file has it."""

    unit: str
    address: str | None = None
    owner: str | None = None
    manager: str | None = None
    residents: tuple[str, ...] = ()
    forwarding_address: str | None = None


class SettledComparison(Value):
    """The comparison that was settled: its file, and the two records, whose files lie beside it."""

    file: str
    before: Compared
    after: Compared


class Dated(Value):
    """A day that the unit file gives: `possession_returned`, `possession and keys returned`."""

    name: str
    label: str
    day: date


class Interest(Value):
    """Interest on the deposit that is due to the resident."""

    amount: Money
    basis: str
    working: tuple[str, ...]


class Cost(Value):
    """What putting it right costs in full, before any share. `total` is `amount` and `labour` together."""

    basis: Basis
    amount: Money = Field(
        description="invoice or estimate; with hours, the materials; 0 where there is own labour alone"
    )
    receipt: str | None = None
    hours: Decimal | None = None
    rate: Money | None = None
    labour: Money = Field(description="hours at the rate; 0 without")
    total: Money


class LifeUsed(Value):
    """The useful life that a share was worked out with, and where it comes from."""

    years: Decimal
    name: str = Field(description="as the table has it: `carpet`")
    source: str | None = Field(description="null where none was given: marked in the line")
    mark: str | None = Field(description="what must be said of it: `no source`, `from memory, unverified`; else null")
    whose: Literal["unit_file", "own_table", "built_in_table"]
    others: tuple[str, ...] = Field(default=(), description="what other sources say, in words")


class Proration(Value):
    """Which share of the cost is still the resident's, and how that was worked out."""

    method: Literal["straight_line", "step_schedule", "not_prorated"]
    rule: str = Field(description="why it is prorated so, or not, in words")
    share: Share
    age_months: Decimal | None = None
    age_basis: str | None = None
    life: LifeUsed | None = None
    stay_months: int | None = Field(default=None, description="whole months of the stay, for a step schedule")


class Alternative(Value):
    """Another way to put it right that was not charged, and why."""

    work: Work
    what: str
    cost: Money
    would_be: Money | None = Field(description="null where its share cannot be worked out")
    why_not: str


class Charge(Value):
    """One line of the settlement: one remedy for one or more changes of one component."""

    id: str
    room: str
    component: str
    called: str | None = None
    changes: tuple[str, ...] = Field(min_length=1, description="ids of the comparison's changes")
    outcomes: tuple[Became, ...] = Field(description="what became of each of them, in the same order")
    before: tuple[str, ...] = Field(description="ids of entries of the earlier record")
    after: tuple[str, ...] = Field(description="ids of entries of the later record")
    says: str = Field(description="the flaws in words: `Bedroom, carpet: stain, about a foot across`")
    judgements: tuple[Judgement, ...] = Field(description="of each change, in the same order")
    work: Work
    what: str
    cost: Cost
    proration: Proration
    portion_percent: Decimal | None = Field(
        default=None, description="the part that is the resident's, given by a person"
    )
    portion_why: str | None = None
    amount: Money = Field(description="the charge")
    working: tuple[str, ...] = Field(min_length=1, description="the whole way to the amount, a sentence each")
    alternatives: tuple[Alternative, ...] = ()
    cautions: tuple[str, ...] = ()


class OtherSum(Value):
    """Rent, fees or credits as given by a person."""

    what: str
    amount: Money
    owed_by: Party
    basis: str


class NotCharged(Value):
    """A change that makes no charge, and why."""

    change: str
    outcome: Became
    before: tuple[str, ...]
    after: tuple[str, ...]
    says: str
    why: str
    judgement: Judgement | None = None


class Balance(Value):
    """The sum of all lines. `held + interest + credits - charges - owed` is what is left."""

    held: Money
    interest: Money
    credits: Money = Field(description="what the owner owes beside")
    charges: Money
    owed: Money = Field(description="what the resident owes beside the charges")
    to: Literal["resident", "owner", "nobody"]
    amount: Money = Field(description="what is paid to `to`")
    above_deposit: Money = Field(description="by how much charges and sums exceed what is held for them; 0 if not")
    told: str


class DueDate(Value):
    """A day by which something must be done; for the calendar too. Where a date is missing, `asks` says which."""

    id: str = Field(description="stable: `return`, `itemise`, ...")
    duty: Literal["return", "itemise", "given"]
    label: str = Field(description="what must be done: `Return what is left of the deposit`")
    day: date | None = Field(description="the last day by the words of the law as the table has them")
    days_left: int | None = Field(description="from `today`; negative when it has passed")
    plan_by: date | None = Field(
        description="the day to keep: the safe one, earlier where there is doubt; else the same"
    )
    plan_days_left: int | None
    applies: str | None = Field(default=None, description="in which case, if not always: `nothing is deducted`")
    holds_if: Condition | None = Field(
        default=None,
        description="of that case, what the settlement must be like for it to hold; null if it cannot tell",
    )
    given: bool = Field(default=False, description="the days were given by a person, not by a statute")
    working: tuple[str, ...] = Field(description="how it was counted, a sentence each")
    asks: str | None = Field(default=None, description="which date is missing")

    @property
    def told(self) -> str:
        """`Return what is left of the deposit (where nothing is deducted)`: what must be done, and in which case."""
        return f"{self.label} (where {self.applies})" if self.applies else self.label


class Settlement(Value):
    """The whole settlement of a deposit."""

    schema_: Literal["narrate2report/settlement/1"] = Field(default=SETTLEMENT_SCHEMA, alias="schema")
    provisional: bool = Field(description="true while anything is open: not to be sent as final")
    provisional_because: tuple[str, ...] = ()
    unit: SettledUnit
    comparison: SettledComparison
    currency: str
    rounding: str = Field(description="the one rule of rounding, in words")
    today: date = Field(description="the day from which days left are counted")
    dates: tuple[Dated, ...]
    interest: Interest | None = None
    charges: tuple[Charge, ...]
    sums: tuple[OtherSum, ...] = ()
    without_baseline: tuple[NotCharged, ...] = Field(
        default=(), description="flaws that the earlier record says nothing of: not chargeable on this evidence alone"
    )
    open: tuple[NotCharged, ...] = Field(default=(), description="changes that no person has judged yet")
    not_charged: tuple[NotCharged, ...] = Field(default=(), description="all others that make no charge")
    balance: Balance
    law: LawRow | None = Field(default=None, description="the row of the table of deposit law, all columns kept")
    due: tuple[DueDate, ...]
    cautions: tuple[str, ...] = Field(min_length=1, description="to be shown wherever the settlement is")
