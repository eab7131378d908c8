"""What was said of the components one would expect in each room walked: silence is never good news."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from narrate2report.read.vocabulary import Vocabulary
from narrate2report.records.findings import Coverage, CoverageStatus, Entry

SPEAKS = frozenset({"condition", "check", "description"})


def cover(entries: Sequence[Entry], rooms: Iterable[str], vocabulary: Vocabulary) -> tuple[Coverage, ...]:
    """One line for each expected component of each room walked, in walk order."""
    sound: dict[tuple[str, str], bool] = {}
    for entry in entries:
        if entry.kind in SPEAKS:
            of = entry.room, entry.component
            sound[of] = sound.get(of, True) and _is_sound(entry, vocabulary)
    return tuple(
        Coverage(room=room, component=component, status=_status(sound.get((room, component))))
        for room in dict.fromkeys(rooms)
        for component in dict.fromkeys(vocabulary.rooms[room.split(".")[0]].expects)
    )


def _status(sound: bool | None) -> CoverageStatus:
    if sound is None:
        return "not_noted"
    return "described_sound" if sound else "noted"


def _is_sound(entry: Entry, vocabulary: Vocabulary) -> bool:
    if entry.kind == "check":
        return entry.outcome == "works"
    if entry.condition is None:
        return False
    return vocabulary.is_sound(entry.condition) or entry.assertion == "absent"
