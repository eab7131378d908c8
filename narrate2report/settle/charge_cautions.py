"""What to mind about one charge: evidence that is missing, flaws there in part before, work that can hurt someone."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from narrate2report.records.unit import Remedy, Thing
from narrate2report.settle.flaws import Flaw

_ALARMS = frozenset({"smoke_alarm", "co_alarm", "fire_extinguisher"})
_GAS = frozenset({"range", "oven", "cooktop", "furnace", "water_heater", "fireplace"})
_DISTURBED = frozenset({"floor", "tile", "ceiling", "wall"})


def charge_cautions(remedy: Remedy, thing: Thing, flaws: Sequence[Flaw]) -> tuple[str, ...]:
    """One sentence each, none where there is nothing to mind."""
    return (*_of_evidence(remedy, flaws), *_of_safety(remedy, thing, flaws))


def _of_evidence(remedy: Remedy, flaws: Sequence[Flaw]) -> Iterator[str]:
    if remedy.receipt is None:
        yield "No invoice, receipt or estimate is named for this cost; many places want one with the statement."
    if remedy.basis == "estimate":
        yield "An estimate is not yet a cost: send the invoice when it comes, and give back what was too much."
    if any(flaw.change.outcome == "worse" for flaw in flaws) and remedy.portion_percent is None:
        yield "Part of this flaw was there at move-in; the cost as given must be for what was added since, no more."
    if not all(flaw.change.confirmed for flaw in flaws):
        yield "No person has confirmed yet that the two records speak of the same flaw."


def _of_safety(remedy: Remedy, thing: Thing, flaws: Sequence[Flaw]) -> Iterator[str]:
    kinds = {kind for flaw in flaws for kind in flaw.kinds}
    if kinds & {"mold", "damp", "water_damage"}:
        yield (
            "Mold and damp have causes that a resident may not answer for; have the cause found, by a licensed "
            "contractor where local rules want one, before it is charged."
        )
    if thing.component in _ALARMS:
        yield "An alarm that does not work is replaced at once, whoever pays for it; local codes come first."
    if thing.component in _GAS and remedy.work in {"repair", "replace"}:
        yield "Work on gas and mains is for licensed trades, by local codes."
    if remedy.work in {"repaint", "touch_up"} or (remedy.work == "replace" and thing.component in _DISTURBED):
        yield (
            "In an older home, paint may hold lead and floors or ceilings asbestos: before they are disturbed, "
            "local rules on testing and certified work apply."
        )
