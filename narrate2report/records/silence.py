"""What a walk should have spoken of and did not, where that weighs most: alarms, and rooms that nobody went into."""

from __future__ import annotations

from collections.abc import Iterable

from narrate2report.records.expected import WHOLE_UNIT
from narrate2report.records.findings import Coverage, Entry, Findings

ALARMS = ("smoke_alarm", "co_alarm")
"""Looked for in every dwelling: where a record is silent about them, that is told before all else."""
TELLS = frozenset({"condition", "check", "description"})
"""Advice about a device, or work to be done on it, tells nothing of how it is."""


def silent_alarms(findings: Findings) -> dict[str, tuple[str, ...]]:
    """Each alarm that nobody spoke of, with the rooms where it was expected; none where it was expected nowhere."""
    kept = [entry for entry in findings.entries if entry.stands]
    found = {alarm: rooms_silent_about(alarm, kept, findings.coverage) for alarm in ALARMS}
    return {alarm: rooms for alarm, rooms in found.items() if rooms is not None}


def rooms_silent_about(device: str, entries: Iterable[Entry], coverage: Iterable[Coverage]) -> tuple[str, ...] | None:
    """The rooms in which a device was expected and nobody said how it is; None where that calls for no word.

    Without any room, one that is expected in every dwelling was not spoken of anywhere.
    """
    spoken = {entry.room for entry in entries if entry.component == device and entry.kind in TELLS}
    rooms = tuple(
        row.room for row in coverage if (row.component, row.status) == (device, "not_noted") and row.room not in spoken
    )
    return rooms if rooms or (device in ALARMS and not spoken) else None


def rooms_never_walked(findings: Findings) -> tuple[str, ...]:
    """The rooms that a plan expected, that nobody went into and of which nothing was said, in the plan's order."""
    spoken = {entry.room for entry in findings.entries if entry.stands}
    walked = spoken | {visit.room for visit in findings.rooms} | {WHOLE_UNIT}
    return tuple(dict.fromkeys(row.room for row in findings.coverage if row.room not in walked))
