"""A prompt card as values: what is walked, room by room, what of it is tried, looked at again and handed over.

Rooms and components stand by their ids; how they are worded is left to whoever shows the card.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

WalkKind = Literal["move_in", "move_out", "periodic"]

Trial = Literal["try", "look", ""]
"""Operated by whoever walks; only looked at, since operating it is for others; or nothing to operate."""

AgainSort = Literal["flaw", "untested", "work"]
"""What the last walk left: something wrong, something not tried, or work that was to be done."""


@dataclass(frozen=True)
class Again:
    """One thing of the last walk to be looked at again.

    `says` is what the record says of it, `moment` when (`2:14`); `room` is set where the last walk knew the room by
    another id than the card does.
    """

    id: str
    sort: AgainSort
    says: str
    moment: str
    room: str | None = None


@dataclass(frozen=True)
class CardPart:
    """A component to speak of. `called` is what the unit file calls it: `laminate top`."""

    component: str
    trial: Trial = ""
    called: str | None = None
    again: tuple[Again, ...] = ()


@dataclass(frozen=True)
class CardRoom:
    """A room to walk into, its components in order."""

    room: str
    parts: tuple[CardPart, ...]


@dataclass(frozen=True)
class Handed:
    """A thing that changes hands; `count` and `moment` as the last walk had them, where it did."""

    component: str
    count: int | None = None
    moment: str | None = None


@dataclass(frozen=True)
class LastWalk:
    """The walk that the card looks back to. `day` as in the record, `reviewed` once every entry was decided."""

    kind: WalkKind | None
    day: str | None
    reviewed: bool


@dataclass(frozen=True)
class Card:
    """Everything that a card shows of one walk of one unit; `clashes` say that the last walk was of another one."""

    unit: str
    kind: WalkKind
    rooms: tuple[CardRoom, ...]
    address: str | None = None
    residents: tuple[str, ...] = ()
    handed: tuple[Handed, ...] = ()
    last: LastWalk | None = None
    rooms_are_planned: bool = True
    clashes: tuple[str, ...] = ()

    @property
    def again(self) -> tuple[Again, ...]:
        """Everything to be looked at again, in the order of the card."""
        return tuple(one for room in self.rooms for part in room.parts for one in part.again)
