"""What is moved both ways works: trials with no verb that tells of a result."""

from __future__ import annotations

import pytest

from tests.read.told import Narrator


@pytest.mark.parametrize(
    ("room", "said", "component"),
    [
        ("yard", "Outside tap, on, off, no drip.", "hose_bib"),
        ("garage", "Roller door, I'll hit the button... up she goes, and... down.", "garage_door"),
        ("bedroom", "Blinds, down they come... up.", "blinds"),
        ("bedroom", "Window, I open it, I close it.", "window"),
        ("entry", "Deadbolt over, deadbolt back.", "lock"),
        ("balcony", "Screen door, back, forth, back, forth.", "screen_door"),
    ],
)
def test_what_goes_both_ways_works(room: str, said: str, component: str, entries: Narrator) -> None:
    assert entries(said, room=room).checks() == [(component, "works")]


@pytest.mark.parametrize(
    ("room", "said"),
    [
        ("bedroom", "Blinds up but not down."),
        ("bedroom", "Blinds, up, down, and then they stick."),
        ("hallway", "Window, up, down?"),
        ("kitchen", "The burners, one, two, three, four."),
        ("hallway", "On the left the light, off we go."),
    ],
)
def test_what_goes_one_way_or_is_only_counted_passes_no_trial(room: str, said: str, entries: Narrator) -> None:
    assert ("blinds", "works") not in entries(said, room=room).checks()
    assert all(outcome != "works" for _, outcome in entries(said, room=room).checks())


def test_a_seal_on_a_door_is_no_trial_of_the_door(entries: Narrator) -> None:
    assert entries("Seal on the oven door is perished along the top.", room="kitchen").checks() == []
