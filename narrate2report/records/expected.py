"""The rooms that a walk is expected to go through, each with the components expected there.

They come from a unit file; where it names a room and no component, the usual ones of the vocabulary are meant.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from narrate2report.records.unit import Unit

WHOLE_UNIT = "whole_unit"
"""The room of what is expected or said of the unit as a whole: it is walked nowhere, and spoken of anywhere."""

Rooms = Mapping[str, tuple[str, ...]]
"""Components by room, in the order in which they are walked."""


@dataclass(frozen=True)
class Expected:
    """The rooms of a plan. Without any, nothing was planned."""

    rooms: Rooms = field(default_factory=dict)

    def meant_by(self, walked: str) -> str | None:
        """The planned room that somebody is in who says `walked`, or None.

        One bathroom in the plan is meant by `bathroom.hall` too, and the only `bedroom.primary` by a bare `bedroom`;
        among several of a kind nothing is guessed.
        """
        if walked in self.rooms:
            return walked
        base, _, suffix = walked.partition(".")
        if suffix:
            return base if base in self.rooms else None
        alike = [room for room in self.rooms if room.partition(".")[0] == base]
        return alike[0] if len(alike) == 1 else None

    def never_walked(self, walked: Iterable[str]) -> tuple[str, ...]:
        """The planned rooms that nobody went into, in the order of the plan."""
        met = {self.meant_by(room) for room in walked}
        return tuple(room for room in self.rooms if room not in met and room != WHOLE_UNIT)


def expected_of(unit: Unit, usual: Rooms) -> Expected:
    """What a unit file expects; `usual` holds what is commonly found in each kind of room."""
    return Expected({room: named or usual_in(room, usual) for room, named in unit.rooms.items()})


def usual_in(room: str, usual: Rooms) -> tuple[str, ...]:
    """What is commonly found in a room such as `bedroom.2`."""
    return usual.get(room.partition(".")[0], ())
