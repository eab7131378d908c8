"""What was said of the components one would expect in each room walked: silence is never good news."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from narrate2report.read.vocabulary import Vocabulary
from narrate2report.records.findings import Coverage, Entry

SPEAKS = frozenset({"condition", "check", "description"})


def cover(entries: Sequence[Entry], rooms: Iterable[str], vocabulary: Vocabulary) -> tuple[Coverage, ...]:
    """One line for each expected component of each room walked, in walk order."""
    lines = []
    for room in dict.fromkeys(rooms):
        for component in dict.fromkeys(vocabulary.rooms[room.split(".")[0]].expects):
            said = [
                entry
                for entry in entries
                if entry.room == room and entry.component == component and entry.kind in SPEAKS
            ]
            sound = [entry for entry in said if _is_sound(entry, vocabulary)]
            status = "not_noted" if not said else "described_sound" if len(sound) == len(said) else "noted"
            lines.append(Coverage.model_validate({"room": room, "component": component, "status": status}))
    return tuple(lines)


def _is_sound(entry: Entry, vocabulary: Vocabulary) -> bool:
    if entry.kind == "check":
        return entry.outcome == "works"
    if entry.condition is None:
        return False
    return vocabulary.is_sound(entry.condition) or entry.assertion == "absent"
