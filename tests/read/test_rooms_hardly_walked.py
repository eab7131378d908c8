"""A word that leads into a room in which nothing of what follows is found was misheard, or named in passing."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrate2report.read.lexis.tables import read_table
from narrate2report.read.telling import HARDLY_WALKED
from narrate2report.read.walk.belonging import COUNTS, Belonging
from tests.read.told import Narrator

BURNS = (
    "Walls, four nail holes.",
    "Carpet, so freezer your burns by the slider, and a big red stain.",
    "Vertical blinds, two slats missing.",
    "Ceiling's good, and the fireplace draws.",
)
"""`freezer your burns`, heard of "three cigarette burns": a freezer is in the kitchen."""

LOCKS = (
    "The front door is solid.",
    "Top loft turns, bottom loft turns.",
    "Spyhole's clear, the bell rings, and the door stop is tight.",
    "The threshold has some light scratches, and the intercom works.",
)
"""`loft`, heard of "lock": a loft is the attic."""


@pytest.mark.parametrize(("room", "lines"), [("living_room", BURNS), ("entry", LOCKS)])
def test_a_misheard_word_takes_nobody_to_another_room(entries: Narrator, room: str, lines: tuple[str, ...]) -> None:
    told = entries(*lines, room=room.replace("_", " "))
    assert {entry.room for entry in told.entries} == {room}
    assert [visit.room for visit in told.findings.rooms] == [room]


def test_what_was_not_taken_for_a_walk_is_told_with_the_entry(entries: Narrator) -> None:
    burn = next(entry for entry in entries(*BURNS, room="living room").entries if entry.condition == "burn")
    assert HARDLY_WALKED in burn.because


@pytest.mark.parametrize(
    ("start", "lines", "room"),
    [
        (
            "hallway",
            ("The carpet is worn.", "Fridge is cold.", "The oven heats.", "The counter has a chip."),
            "kitchen",
        ),
        ("living room", ("The blinds are dusty.", "Toilet flushes.", "The tub is chipped."), "bathroom"),
        ("living room", ("Kitchen.", "The blinds are dusty.", "The carpet is torn."), "kitchen"),
        (
            "kitchen",
            ("Now the garage.", "The door goes up.", "Back to the fridge.", "One shelf is cracked."),
            "kitchen",
        ),
    ],
)
def test_a_room_that_is_walked_stays_walked(entries: Narrator, start: str, lines: tuple[str, ...], room: str) -> None:
    assert entries(*lines, room=start).sentences[-1].room == room


KNOWN = read_table(COUNTS)
ROOMS = st.sampled_from([*sorted(KNOWN), "closet", "observatory"])
THINGS = st.lists(st.sampled_from([*sorted({one for told in KNOWN.values() for one in told}), "telescope"]), max_size=8)


@given(THINGS, ROOMS, ROOMS)
def test_what_speaks_for_one_room_speaks_as_much_against_the_other(things: list[str], one: str, other: str) -> None:
    belonging = Belonging()
    assert belonging.speaks_for(things, one, other) == pytest.approx(-belonging.speaks_for(things, other, one))
    assert belonging.speaks_for(things, one, one) == 0


def test_a_room_of_ones_own_is_never_spoken_against() -> None:
    assert Belonging().speaks_for(["sink", "toilet", "oven"], "observatory", "kitchen") == 0
