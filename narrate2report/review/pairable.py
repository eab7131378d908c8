"""What a change can be paired with otherwise, what stands nearest first; and the flaws that it is about."""

from __future__ import annotations

from narrate2report.records.compared import Records
from narrate2report.records.comparison import SIDES, FlawChange, Side
from narrate2report.records.findings import Entry
from narrate2report.review.judging import Standing, entries_of


def flaws_of(change: FlawChange, records: Records, here: Standing) -> list[Entry]:
    """The adverse entries of a change, those of the earlier record first; all of them, where none is adverse."""
    every = entries_of(change)
    flaws = [records[side].entries[name] for side in SIDES for name in here.flaws(every, side)]
    return flaws or [records[side].entries[name] for side in SIDES for name in every[side]]


def pairable(change: FlawChange, records: Records, here: Standing) -> list[tuple[Side, Entry]]:
    """The flaws that may stand in this change in place of its own of the same record.

    The same component in the same room comes first, then the component elsewhere, then the room.
    """
    every = entries_of(change)
    flaws = flaws_of(change, records, here)
    rooms, components = {entry.room for entry in flaws}, {entry.component for entry in flaws}
    found: list[tuple[Side, Entry]] = []
    for side, other in (SIDES, SIDES[::-1]):
        if here.flaws(every, other):
            entries = records[side].entries.items()
            found += [(side, one) for name, one in entries if name in here.adverse[side] and name not in every[side]]

    def far(candidate: tuple[Side, Entry]) -> int:
        return 2 * (candidate[1].component not in components) + (candidate[1].room not in rooms)

    return sorted(found, key=far)
