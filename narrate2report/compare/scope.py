"""Which flaws and statements of one record concern the same spot as those of the other: rooms, and what is beyond them.

Mostly that is the same room. What belongs to the outside may be told under any part of it, what a home has once
under whichever room it stands near, what is handed over under none, and what is said of a component of the whole
unit holds for every room.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from narrate2report.compare.terms import Terms
from narrate2report.records.expected import WHOLE_UNIT
from narrate2report.records.findings import Entry

BEYOND_ROOM = 0.9
"""How far a flaw of the outside, or of what a home has once, is the same in a room of another name, of 1."""
OF_THE_WHOLE = 0.85
GENERAL = "room_general"


@dataclass(frozen=True)
class Scope:
    """The rooms of both records brought together."""

    rooms: Mapping[str, str]
    """What the later record calls each room of the earlier one, where both walked it."""
    terms: Terms
    once: frozenset[str] = field(default=frozenset())
    """Components that a home has once, and that each record names in one room."""

    @classmethod
    def of(cls, rooms: Mapping[str, str], before: Iterable[Entry], after: Iterable[Entry], terms: Terms) -> Scope:
        """The scope of two records whose rooms are matched."""
        several = _in_several_rooms(before) | _in_several_rooms(after)
        return cls({**rooms, WHOLE_UNIT: WHOLE_UNIT}, terms, frozenset(terms.likeness.components.once) - several)

    def grade(self, before: Entry, after: Entry) -> float:
        """How far two entries are about the same room, of 1; 0 where they are about two."""
        if self.is_one_room(before.room, after.room):
            return 1.0
        if self._is_beyond_rooms(before) and self._is_beyond_rooms(after) and self._same_beyond(before, after):
            return BEYOND_ROOM
        if WHOLE_UNIT in (before.room, after.room) and GENERAL not in (before.component, after.component):
            return OF_THE_WHOLE
        return 0.0

    def is_one_room(self, before: str, after: str) -> bool:
        """Whether a room of the earlier record is this room of the later one."""
        return self.rooms.get(before) == after

    def keys_before(self, entry: Entry) -> tuple[str, ...]:
        """Under which keys an entry of the earlier record is looked up."""
        return self._keys(entry, self.rooms.get(entry.room, f"only before: {entry.room}"))

    def keys_after(self, entry: Entry) -> tuple[str, ...]:
        """Under which keys an entry of the later record is looked up; a shared key means that both may be one."""
        return self._keys(entry, entry.room)

    def _keys(self, entry: Entry, room: str) -> tuple[str, ...]:
        return (room, "beyond rooms") if self._is_beyond_rooms(entry) else (room,)

    def _is_beyond_rooms(self, entry: Entry) -> bool:
        group = self.terms.group_of(entry.component)
        outside = group == "outside" and entry.room.partition(".")[0] in self.terms.likeness.rooms.outside
        return outside or group == "handed_over" or entry.component in self.once

    def _same_beyond(self, before: Entry, after: Entry) -> bool:
        return self.terms.group_of(before.component) == self.terms.group_of(after.component)


def _in_several_rooms(entries: Iterable[Entry]) -> set[str]:
    rooms: dict[str, set[str]] = defaultdict(set)
    for entry in entries:
        rooms[entry.component].add(entry.room)
    return {component for component, named in rooms.items() if len(named) > 1}
