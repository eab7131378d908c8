"""A jurisdiction's row of the table of deposit law (`references/deposit-law.csv`), every column kept, and its clocks.

Facts with the day they were read, never advice: whoever acts on one checks the current statute.
"""

from __future__ import annotations

from typing import Final, Literal

from pydantic import Field

from narrate2report.records.base import Value

CHECK_THE_STATUTE: Final = (
    "This is not legal advice. Deposit law differs from place to place and changes: check the current statute, "
    "and local rules, before you act."
)


class LawRow(Value):
    """What the table says of one jurisdiction, in its own columns; empty where it says nothing.

    `safe_deadline_days` is a cautious planning figure, not law.
    """

    code: str
    jurisdiction: str
    statute: str
    days_return: int | None
    days_itemised_notice: int | None
    day_unit: str
    days_max_extended: str
    clock_start: str
    needs_forwarding_address: str
    movein_checklist: str
    movein_checklist_note: str
    tenant_objection_days: str
    objection_note: str
    photo_requirement: str
    cost_evidence_requirement: str
    interest: str
    interest_note: str
    safe_deadline_days: int | None
    special_rules: str
    facts_as_of: str
    source: str
    verification: str
    confidence: str
    doubtful_cells: str


Duty = Literal["return", "itemise"]
"""What the days are counted for."""

Condition = Literal["nothing_claimed", "something_claimed", "no_damage"]
"""What a settlement itself can tell of a case: whether anything is taken from the deposit, or anything for damage."""


class Leg(Value):
    """Days counted from an event, which is a name of the unit file's `dates`."""

    event: str
    count: int = Field(gt=0)
    unit: Literal["calendar", "business", "month"]


class Clock(Value):
    """What starts the days of a duty: one event, or the latest or the earliest of several."""

    code: str
    duties: tuple[Duty, ...]
    applies: str | None = Field(description="in which case, if not always")
    holds_if: Condition | None = Field(description="of that case, what a settlement must be like for it to hold")
    whichever: Literal["latest", "earliest"]
    legs: tuple[Leg, ...] = Field(min_length=1)
