"""Shares of a number: so many of so many work, all but one, the rest, none; each said in few words."""

from __future__ import annotations

import pytest

from tests.read.told import Narrator, Told

SOME_DO_AND_SOME_DO_NOT = [
    ("kitchen", ("The burners light.", "All but one."), "burner"),
    ("kitchen", ("The burners light.", "All except the back left."), "burner"),
    ("kitchen", ("Burners come on, all except the back left.",), "burner"),
    ("kitchen", ("Burners light though.", "All bar two of them."), "burner"),
    ("kitchen", ("Four burners, three of the four light.",), "burner"),
    ("kitchen", ("Three out of four burners work.",), "burner"),
    ("living room", ("Six outlets.", "All but two are live."), "outlet"),
    ("living room", ("Outlets, five of six have power.",), "outlet"),
    ("living room", ("Outlets: 4 of 5 work.",), "outlet"),
    ("bathroom", ("Two lights.", "One works, one doesn't."), "light_fixture"),
    ("bathroom", ("Two lights.", "The left works, the other doesn't."), "light_fixture"),
]


@pytest.mark.parametrize(("room", "lines", "component"), SOME_DO_AND_SOME_DO_NOT)
def test_some_do_and_some_do_not(room: str, lines: tuple[str, ...], component: str, entries: Narrator) -> None:
    told = entries(*lines, room=room)
    checks = {(one.component, one.outcome) for one in told.entries if one.kind == "check"}
    assert checks == {(component, "works"), (component, "fails")}, told.told()


@pytest.mark.parametrize(
    ("room", "lines"),
    [
        ("kitchen", ("Four burners, all four light.",)),
        ("kitchen", ("The burners light.", "All of them.")),
        ("kitchen", ("The burners light.", "All but forgotten, this stove, but fine.")),
        ("living room", ("Outlets: 5 of 5 work.",)),
        ("living room", ("The outlets work.", "One of them has a new cover.")),
        ("kitchen", ("The dishwasher works.", "All good except I'd wipe it.")),
    ],
)
def test_all_of_them_do(room: str, lines: tuple[str, ...], entries: Narrator) -> None:
    told = entries(*lines, room=room)
    assert {one.outcome for one in told.entries if one.kind == "check"} == {"works"}, told.told()


@pytest.mark.parametrize(
    ("room", "lines", "component", "flaw"),
    [
        ("living room", ("Three screens.", "None torn."), "window_screen", "tear"),
        ("kitchen", ("Backsplash is white tile, none cracked.",), "backsplash", "crack"),
        ("bathroom", ("Floor tile, six by six, none of them loose.",), "tile", "loose"),
        ("kitchen", ("Drawer fronts, none chipped.",), "drawer", "chip"),
    ],
)
def test_none_has_the_flaw(room: str, lines: tuple[str, ...], component: str, flaw: str, entries: Narrator) -> None:
    told = entries(*lines, room=room)
    assert flaw not in _there(told), told.told()
    assert (component, flaw, "absent") in told.conditions(), told.told()


@pytest.mark.parametrize(
    ("lines", "component"),
    [
        (("Screens, three.", "One has a hole, the rest are fine."), "window_screen"),
        (("Four tiles cracked.", "The rest are sound."), "tile"),
        (("The blinds are bent, two slats.", "The rest of them are fine."), "blinds"),
    ],
)
def test_the_rest_are_those_that_were_spoken_of(lines: tuple[str, ...], component: str, entries: Narrator) -> None:
    told = entries(*lines, room="living room")
    assert (component, "good", "present") in told.conditions(), told.told()


def test_the_rest_of_the_room_is_the_room(entries: Narrator) -> None:
    told = entries("Four tiles cracked.", "The rest of the room is fine.", room="bathroom")
    assert ("room_general", "good", "present") in told.conditions(), told.told()


@pytest.mark.parametrize(
    "lines",
    [
        ("The walls are scuffed.", "Ceiling, same."),
        ("The walls are scuffed.", "Ceiling, same thing."),
        ("The walls are scuffed.", "Ceiling as well."),
        ("The walls are scuffed.", "Ceiling: same story."),
    ],
)
def test_the_same_is_told_of_another_component(lines: tuple[str, ...], entries: Narrator) -> None:
    told = entries(*lines, room="bedroom")
    assert {("wall", "scuff", "present"), ("ceiling", "scuff", "present")} <= told.conditions(), told.told()


def test_whose_a_thing_is_echoes_nothing(entries: Narrator) -> None:
    told = entries("The wardrobe door is misaligned.", "The bed is ours as well.", room="bedroom")
    assert [one.component for one in told.entries if one.condition == "misaligned"] == ["closet_door"], told.told()


def _there(told: Told) -> set[str]:
    return {one.condition or "" for one in told.entries if one.kind == "condition" and one.assertion != "absent"}
