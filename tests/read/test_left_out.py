"""What is told of another of several by words that leave out what was just said, and of one or none of them."""

from __future__ import annotations

import pytest

from tests.read.told import Narrator

CONTRARY = [
    ("bathroom", ("The hot tap drips.", "The cold doesn't."), ("faucet", "leak", "absent")),
    ("kitchen", ("The left drawer sticks.", "None of the others do."), ("drawer", "sticking", "absent")),
    ("bedroom", ("That door squeaks.", "This one doesn't."), ("door", "noise", "absent")),
    ("kitchen", ("The top shelf is cracked.", "The others aren't."), ("shelf", "crack", "absent")),
    ("bathroom", ("The left towel bar isn't straight.", "The right one is."), ("towel_bar", "misaligned", "absent")),
    ("bathroom", ("The left towel bar is straight.", "The right one isn't."), ("towel_bar", "misaligned", "present")),
    ("bedroom", ("Closet door's on its track, the other one's not.",), ("closet_door", "misaligned", "present")),
    ("kitchen", ("The wall is scuffed.", "The ceiling isn't."), ("ceiling", "scuff", "absent")),
    ("bedroom", ("The left blind is bent.", "The one by the bed isn't."), ("blinds", "bent", "absent")),
]


@pytest.mark.parametrize(("room", "lines", "expected"), CONTRARY)
def test_the_other_one_does_not(
    room: str, lines: tuple[str, ...], expected: tuple[str, str, str], entries: Narrator
) -> None:
    told = entries(*lines, room=room)
    assert expected in told.conditions(), told.told()


@pytest.mark.parametrize(
    ("room", "lines", "component"),
    [
        ("bedroom", ("The left blind goes up.", "The other doesn't."), "blinds"),
        ("bedroom", ("One window locks.", "One doesn't."), "window_lock"),
        ("kitchen", ("The left burner lights, the right one won't.",), "burner"),
        ("bedroom", ("The left closet door slides.", "Its partner doesn't."), "closet_door"),
        ("living room", ("The first outlet has power, the second hasn't.",), "outlet"),
        ("living room", ("The first lamp came on.", "The other one didn't."), "light_fixture"),
        ("hallway", ("The first smoke alarm beeps.", "Okay.", "The other one doesn't."), "smoke_alarm"),
    ],
)
def test_one_works_and_the_other_does_not(room: str, lines: tuple[str, ...], component: str, entries: Narrator) -> None:
    told = entries(*lines, room=room)
    checks = {(one.component, one.outcome) for one in told.entries if one.kind == "check"}
    assert checks == {(component, "works"), (component, "fails")}, told.told()


@pytest.mark.parametrize(
    ("room", "lines", "expected"),
    [
        ("living room", ("The left window is cracked.", "The right is too."), ("window", "crack", "present")),
        ("kitchen", ("One drawer is loose.", "So is the one below it."), ("drawer", "loose", "present")),
        (
            "living room",
            ("Window screens.", "Torn on the left.", "Same on the right."),
            ("window_screen", "tear", "present"),
        ),
        ("bathroom", ("The left rail is bent.", "Likewise on the other side."), ("towel_bar", "bent", "present")),
    ],
)  # fmt: skip
def test_the_same_of_another(
    room: str, lines: tuple[str, ...], expected: tuple[str, str, str], entries: Narrator
) -> None:
    told = entries(*lines, room=room)
    said = [one for one in told.entries if (one.component, one.condition, one.assertion) == expected]
    assert len(said) == 2, told.told()
    assert said[1].where is not None, told.told()


@pytest.mark.parametrize(
    ("lines", "room", "component", "condition"),
    [
        (("Into the living room.", "The blinds are bent.", "Same in the bedroom."), "bedroom", "blinds", "bent"),
        (("Bedroom one.", "The carpet is stained.", "Bedroom two.", "Same again."), "bedroom.2", "carpet", "stain"),
        (
            ("Into the hallway.", "Scuffs on the baseboard.", "Bedroom.", "Same thing in here."),
            "bedroom",
            "baseboard",
            "scuff",
        ),
    ],
)  # fmt: skip
def test_the_same_in_another_room(
    lines: tuple[str, ...], room: str, component: str, condition: str, entries: Narrator
) -> None:
    told = entries(*lines)
    assert (room, component, condition) in {(one.room, one.component, one.condition) for one in told.entries}


@pytest.mark.parametrize(
    ("room", "lines", "count"),
    [
        ("bedroom", ("The window's cracked.", "The other tenants do."), 1),
        ("bedroom", ("The radiator leaks.", "The last one did."), 1),
        ("living room", ("The carpet's stained.", "That one is on me."), 1),
        ("living room", ("The carpet's stained.", "I would ask the others, but my brother won't."), 1),
        ("living room", ("The carpet's stained.", "Would the other one?"), 1),
        ("living room", ("The carpet's stained.", "If the other one does, tell me."), 1),
        ("living room", ("The lamp's cracked.", "Same price in the other house."), 1),
        ("living room", ("The lamp's cracked.", "Same here."), 1),
    ],
)
def test_nothing_is_told_again(room: str, lines: tuple[str, ...], count: int, entries: Narrator) -> None:
    told = entries(*lines, room=room)
    assert len([one for one in told.entries if one.kind == "condition"]) == count, told.told()


@pytest.mark.parametrize(
    ("room", "lines", "expected"),
    [
        ("living room", ("None of the three windows has a screen.",), ("window_screen", "missing", "present")),
        ("living room", ("Neither lamp has a bulb.",), ("light_bulb", "missing", "present")),
        ("living room", ("Not one of the outlets has a cover.",), ("cover_plate", "missing", "present")),
        ("bathroom", ("Neither of the blinds is straight.",), ("blinds", "misaligned", "present")),
        ("bathroom", ("None of the towel bars is secure.",), ("towel_bar", "loose", "present")),
        ("living room", ("None of the windows has a crack.",), ("window", "crack", "absent")),
    ],
)
def test_none_of_them(room: str, lines: tuple[str, ...], expected: tuple[str, str, str], entries: Narrator) -> None:
    told = entries(*lines, room=room)
    assert told.conditions() == {expected}, told.told()


def test_nobody_has_one(entries: Narrator) -> None:
    told = entries("None of the tenants has a key.", "Neither of you has a mirror, so buy one.", room="living room")
    assert "missing" not in {one.condition for one in told.entries}, told.told()


@pytest.mark.parametrize(
    ("room", "lines", "component"),
    [
        ("bedroom", ("Two closet doors.", "Neither one closes."), "closet_door"),
        ("bathroom", ("The vanity has two doors and neither one latches.",), "vanity"),
        ("living room", ("Two windows.", "Neither one opens."), "window"),
    ],
)
def test_neither_one_does(room: str, lines: tuple[str, ...], component: str, entries: Narrator) -> None:
    told = entries(*lines, room=room)
    assert {(one.component, one.outcome) for one in told.entries if one.kind == "check"} == {(component, "fails")}


@pytest.mark.parametrize(
    ("room", "lines", "component"),
    [
        ("living room", ("Windows, two.", "Left: ok.", "Right: cracked."), "window"),
        ("kitchen", ("Oven racks.", "One bent.", "Other okay."), "oven_rack"),
        ("hallway", ("Doors.", "First one, fine.", "Second one, a hole in it."), "door"),
        ("living room", ("Chairs.", "This one okay, that one has a cracked leg."), "furniture"),
    ],
)
def test_one_is_fine(room: str, lines: tuple[str, ...], component: str, entries: Narrator) -> None:
    told = entries(*lines, room=room)
    assert (component, "good", "present") in told.conditions(), told.told()


def test_right_good_is_no_praise(entries: Narrator) -> None:
    told = entries("The carpet's stained.", "Right, good.", "I gave you the keys already right okay.", room="bedroom")
    assert "good" not in {one.condition for one in told.entries}, told.told()


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("There's spots of mold on the ceiling.", {("ceiling", "mold")}),
        ("Streaks of rust under the tap.", {("faucet", "rust")}),
        ("Patches of damp on the ceiling.", {("ceiling", "damp")}),
        ("There's a film of grease on the wall.", {("wall", "grease")}),
        ("Marks of rust on the tub.", {("bathtub", "rust")}),
        ("A stain of some kind on the floor.", {("floor", "stain")}),
        ("A stain and some mold on the ceiling.", {("ceiling", "stain"), ("ceiling", "mold")}),
    ],
)
def test_an_amount_is_no_flaw_of_its_own(line: str, expected: set[tuple[str, str]], entries: Narrator) -> None:
    told = entries(line, room="bathroom")
    assert {(one.component, one.condition) for one in told.entries} == expected, told.told()


@pytest.mark.parametrize("mild", ["Not bad.", "It's not too bad.", "Not that terrible."])
def test_a_flaw_played_down_is_not_praised(mild: str, entries: Narrator) -> None:
    told = entries("The drawer sticks.", mild, room="kitchen")
    assert told.conditions() == {("drawer", "sticking", "present")}, told.told()


def test_not_bad_of_what_has_no_flaw_is_praise(entries: Narrator) -> None:
    told = entries("The carpet.", "Not bad.", room="bedroom")
    assert told.conditions() == {("carpet", "good", "present")}, told.told()
