"""Where the walk is and what is in focus: rooms entered, and which component a word means there."""

from __future__ import annotations

from dataclasses import dataclass, field

LEFT_UNSAID = frozenset(
    {"bedroom", "hallway", "living_room", "dining_room", "entry", "kitchen", "bathroom", "whole_unit", ""}
)
"""Rooms from which people walk into the next without a word."""

OUT_OF_DOORS = frozenset({"exterior", "yard", "patio", "porch", "balcony", "parking", "garage", "storage", "attic"})
"""Where a roof, a fence or a gate may well be part of what is walked."""

STOOD_ON = frozenset({"balcony", "patio", "porch"})
"""What one is on, and not in: `the decking on the balcony`."""


def kind_of(room: str | None) -> str:
    """The kind of a room, without its number or name; empty for none."""
    return (room or "").split(".")[0]


@dataclass
class Place:
    """The room walked at the moment and the components lately spoken of, newest last."""

    room: str | None = None
    visits: list[tuple[str, int]] = field(default_factory=list)
    lately: list[tuple[str, int]] = field(default_factory=list)
    came_from: str | None = None
    """The room that a closet is in, while the closet is walked."""
    closing: bool = False
    """Whether the walk is near its end."""
    subject: str | None = None
    """The component that `it`, `this` and a bare remark mean."""
    told_of: tuple[str, str, int] | None = None
    """A component that is told of from another room, that room, and the sentence that said so."""

    @property
    def base(self) -> str:
        """The kind of the current room, without its number or name."""
        return kind_of(self.room)

    def enter(self, room: str, number: int) -> None:
        """Walk into a room: what was in focus stays behind."""
        if room != self.room:
            self.came_from = self.room if kind_of(room) == "closet" else None
            self.room = room
            self.lately.clear()
            self.subject = None
            self.told_of = None
            self.visits.append((room, number))

    def speak_of(self, component: str, number: int) -> None:
        """Note that a component was spoken of in sentence `number`."""
        others = [(one, when) for one, when in self.lately if one != component]
        self.lately = [*others[-8:], (component, number)]
