"""What the vocabulary says that a plan needs, and which components are only looked at."""

from __future__ import annotations

from dataclasses import dataclass

from narrate2report.records.card import Trial
from narrate2report.records.expected import Rooms

ALARMS = ("smoke_alarm", "co_alarm")
"""Asked for on every walk, whether the plan names them or not."""

LOOK_ONLY = frozenset(
    {
        "anti_tip_bracket", "breaker_panel", "condensate_drain", "dryer_vent", "emergency_exit", "fire_extinguisher",
        "fireplace", "furnace", "grab_bar", "gutter", "pipe", "railing", "roof", "shutoff_valve", "sprinkler_head",
        "vent", "water_heater", "window_guard",
    }
)  # fmt: skip
"""Operating, opening or leaning on these is for others: gas, mains, water under pressure, heights, things that people
hold on to. The report's cautions say why."""


@dataclass(frozen=True)
class Known:
    """`usual`: what is commonly found in each kind of room. `tried`: components that show whether they work.

    `handed`: what changes hands, in the order of the vocabulary.
    """

    usual: Rooms
    tried: frozenset[str]
    handed: tuple[str, ...]

    def trial(self, component: str) -> Trial:
        """What is done about a component beyond speaking of it."""
        if component in LOOK_ONLY:
            return "look"
        return "try" if component in self.tried else ""
