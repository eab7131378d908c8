"""Which duties of a settlement apply as it stands, asked wherever days are told: what is claimed and left decides.

A case that the settlement does not settle (whether notice was proper, whether something that is open will be charged)
stays as it is: both rows are told. No day is invented for a duty whose only row does not apply; it is asked for.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from narrate2report.records.settlement import DueDate, Settlement

NOTHING_LEFT: Final = "Nothing is left to return, so this does not apply."
ASKED: Final = (
    "The table of law names no last day for this where {case}. Look the last day up in the statute; none is counted."
)
_SEND: Final = "Send the itemised statement"


@dataclass(frozen=True)
class Duty:
    """A day by which something must be done; `why_not` says why it does not apply, and is empty where it does."""

    due: DueDate
    why_not: str = ""


def duties_of(settlement: Settlement) -> tuple[Duty, ...]:
    """Every day of the settlement, and without a day each duty that applies but for which no row does."""
    told = tuple(Duty(_worded(one, settlement), _why_not(one, settlement)) for one in settlement.due)
    return (*told, *_without_a_row(told, settlement))


def applying(settlement: Settlement) -> tuple[DueDate, ...]:
    """The days that apply, or may."""
    return tuple(duty.due for duty in duties_of(settlement) if not duty.why_not)


def _worded(due: DueDate, settlement: Settlement) -> DueDate:
    """Days that a person gave stand for both duties; of these only one is there where nothing is left."""
    if due.duty == "given" and settlement.balance.to != "resident":
        return due.model_copy(update={"label": _SEND})
    return due


def _why_not(due: DueDate, settlement: Settlement) -> str:
    if due.duty == "return" and settlement.balance.to != "resident":
        return NOTHING_LEFT
    match due.holds_if:
        case "no_damage" if settlement.balance.charges:
            return "Damage is charged, so this does not apply."
        case "nothing_claimed" if _claimed(settlement):
            return "Something is claimed from the deposit, so this does not apply."
        case "something_claimed" if not _claimed(settlement) and not settlement.provisional:
            return "Nothing is claimed from the deposit, so this does not apply."
    return ""


def _claimed(settlement: Settlement) -> bool:
    """Rent and fees are a claim too, though no damage."""
    return bool(settlement.balance.charges or settlement.balance.owed)


def _without_a_row(told: tuple[Duty, ...], settlement: Settlement) -> Iterator[Duty]:
    claimed = _claimed(settlement)
    for name in ("return", "itemise"):
        rows = [duty for duty in told if duty.due.duty == name]
        wanted = settlement.balance.to == "resident" if name == "return" else claimed
        if not rows or not wanted or not all(duty.why_not for duty in rows):
            continue
        case = "something is claimed" if claimed else "nothing is claimed"
        asked: dict[str, object] = {
            "day": None,
            "days_left": None,
            "plan_by": None,
            "plan_days_left": None,
            "applies": None,
            "holds_if": None,
        }
        asked |= {"id": f"{name}-unknown", "working": (), "asks": ASKED.format(case=case)}
        yield Duty(rows[0].due.model_copy(update=asked))
