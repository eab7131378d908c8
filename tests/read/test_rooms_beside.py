"""Rooms that are named or left only to say where something is, and the way in after what is outside."""

from __future__ import annotations

import pytest

from tests.read.told import Narrator


def _rooms(entries: Narrator, *said: str, room: str) -> list[str]:
    return [one.room for one in entries(*said, room=room).said_from(1) if one.kind == "condition"]


@pytest.mark.parametrize(
    ("walked", "said", "room"),
    [
        ("living room", ("One bulb is out, nearest the balcony.", "The walls are scuffed."), "living_room"),
        ("entry", ("Both sides of the door. Inside, good. Outside, good.", "The wall is scuffed."), "entry"),
        ("bedroom two", ("Fourth bedroom, back of the house.", "The carpet is stained."), "bedroom.4"),
        ("yard", ("The grass is dead.", "Front door, scratched along the bottom.", "The wall is scuffed."), "entry"),
    ],
)
def test_the_walk_is_where_it_was_said_to_be(walked: str, said: tuple[str, ...], room: str, entries: Narrator) -> None:
    assert _rooms(entries, *said, room=walked)[-1] == room


def test_outside_by_itself_still_goes_there(entries: Narrator) -> None:
    assert _rooms(entries, "Outside.", "The fence is broken.", room="kitchen") == ["exterior"]


def test_the_front_door_seen_from_outside_at_the_end_is_no_new_way_in(entries: Narrator) -> None:
    lines = ("The wall is scuffed.", "Now the yard.", "Front door, the paint is peeling.", "The fence is broken.")
    assert _rooms(entries, *lines, room="kitchen")[-1] == "yard"


@pytest.mark.parametrize(
    ("said", "component"),
    [
        ("The vinyl is worn through at the foot of the stairs.", "floor"),
        ("The wallpaper is peeling at the bottom of the stairs.", "wallpaper"),
        ("The light at the head of the stairs is out.", "light_fixture"),
        ("There's a scuff on the wall at the top of the stairs.", "wall"),
        ("The laminate is lifting by the stairs.", "floor"),
        ("At the foot of the stairs the lino is worn through.", "floor"),
        ("At the foot of the stairs, the vinyl is worn through.", "floor"),
    ],
)
def test_stairs_that_only_tell_where_a_thing_is_are_not_walked(said: str, component: str, entries: Narrator) -> None:
    told = [one for one in entries(said, "The skirting is scuffed.", room="hall").entries if one.kind == "condition"]
    assert [(one.room, one.component) for one in told] == [("hallway", component), ("hallway", "baseboard")]


@pytest.mark.parametrize(
    "said",
    [
        "The third step of the stairs is loose.",
        "The tread at the top of the stairs is loose.",
        "The stairs are creaky.",
        "Going up the stairs now.",
        "Bottom of the stairs.",
    ],
)
def test_stairs_that_are_told_of_themselves_are_walked(said: str, entries: Narrator) -> None:
    assert set(_rooms(entries, said, "The skirting is scuffed.", room="hall")) == {"stairs"}


def test_the_post_at_the_foot_of_the_stairs_is_one_flaw(entries: Narrator) -> None:
    told = entries("The newel post at the foot of the stairs is loose.", room="hall")
    assert told.conditions() == {("railing", "loose", "present")}
