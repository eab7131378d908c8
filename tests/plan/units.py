"""Unit files in memory, for the tests of what is planned."""

from __future__ import annotations

from typing import Any

from narrate2report.plan.known import Known
from narrate2report.records.unit import Unit

KNOWN = Known(
    usual={
        "kitchen": ("countertop", "sink", "oven"),
        "bedroom": ("wall", "window", "smoke_alarm"),
        "bathroom": ("toilet", "tile"),
        "entry": ("door", "lock"),
        "living_room": ("wall", "outlet"),
        "utility": ("water_heater", "furnace"),
        "whole_unit": ("smoke_alarm", "co_alarm", "key"),
    },
    tried=frozenset({"sink", "oven", "window", "toilet", "door", "lock", "outlet", "smoke_alarm", "furnace"}),
    handed=("key", "fob"),
)


def unit(rooms: dict[str, tuple[str, ...]] | None = None, **parts: Any) -> Unit:
    told = {
        "unit": "2B",
        "currency": "USD",
        "people": {"residents": ["Lena Marbeck"]},
        "dates": {"lease_start": "2025-03-06"},
        "deposit": {"held": "1500.00"},
        "rooms": rooms or {},
    }
    return Unit.model_validate(told | parts)
