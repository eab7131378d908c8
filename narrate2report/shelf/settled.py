"""What a settlement tells the shelf of the two walks that it is of."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from narrate2report.errors import NarrateError
from narrate2report.records.duties import applying
from narrate2report.records.files import read_record
from narrate2report.records.settlement import Settlement


@dataclass(frozen=True)
class SettledWalk:
    """A walk that a settlement is of."""

    path: str
    """Its findings file, below the shelf."""
    is_final: bool
    """False while the settlement is provisional."""
    due: str | None
    """The next day to keep, ISO 8601."""
    due_for: str | None


def settled_walks(file: Path, inside: str) -> tuple[SettledWalk, ...]:
    """The walks of the settlement `file`, which lies in the folder `inside` of the shelf; none of a broken one."""
    try:
        settlement = read_record(file, Settlement)
    except NarrateError:
        return ()
    days = [(day, one.label) for one in applying(settlement) if (day := one.plan_by or one.day) is not None]
    due, label = min(days) if days else (None, None)
    names = (*settlement.comparison.before.files, *settlement.comparison.after.files)
    return tuple(
        SettledWalk(inside + name, not settlement.provisional, due.isoformat() if due else None, label)
        for name in names
    )
