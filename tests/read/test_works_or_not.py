"""What works, what does not, what was left alone and what was looked for in vain, in the words of many speakers."""

from __future__ import annotations

import pytest

from tests.read.told import Narrator


@pytest.mark.parametrize(
    ("room", "said", "component"),
    [
        ("hallway", "The boiler kicked in straight away.", "furnace"),
        ("bedroom", "The radiator is nice and toasty.", "radiator"),
        ("hallway", "The smoke alarm yelped when I leaned on the button.", "smoke_alarm"),
        ("bathroom", "The extractor fan whirrs away happily.", "exhaust_fan"),
        ("bathroom", "The bolt slides home.", "lock"),
        ("bathroom", "The mirror light comes on with the cord.", "light_fixture"),
        ("bedroom", "The key turns in the window lock.", "window_lock"),
        ("kitchen", "The bulb inside the microwave's gone, but it heats a mug of water.", "microwave"),
    ],
)
def test_it_works(room: str, said: str, component: str, entries: Narrator) -> None:
    assert (component, "works") in entries(said, room=room).checks()


@pytest.mark.parametrize(
    ("room", "said", "component"),
    [
        ("bathroom", "The tap drips even when it's turned hard off.", "faucet"),
        ("garage", "The outside tap has been turned off for the winter.", "hose_bib"),
        ("bathroom", "The last tenant's cistern ran for a month.", "toilet_tank"),
        ("bedroom", "I ran my hand round the light.", "light_fixture"),
        ("kitchen", "Silicone by the window is black, and it's lifting.", "window"),
        ("kitchen", "The doors of the cabinets are soft close.", "cabinet"),
        ("bedroom", "The radiator is too hot to touch.", "radiator"),
    ],
)
def test_no_trial_passed(room: str, said: str, component: str, entries: Narrator) -> None:
    assert (component, "works") not in entries(said, room=room).checks()


@pytest.mark.parametrize(
    ("room", "said", "component", "condition"),
    [
        ("kitchen", "The igniter of the front burner ticks and never lights.", "burner", "not_working"),
        ("utility", "The boiler's showing a fault code.", "furnace", "not_working"),
        ("utility", "The dryer turns, but there's no heat in it.", "dryer", "not_working"),
        ("kitchen", "The freezer is icing up.", "freezer", "not_working"),
        ("bedroom", "The light switch needs a thump to work.", "switch", "sticking"),
        ("utility", "The water heater's relief valve is passing water.", "water_heater", "leak"),
        ("bathroom", "The fan carries on running long after the light's off.", "exhaust_fan", "running"),
    ],
)
def test_it_does_not(room: str, said: str, component: str, condition: str, entries: Narrator) -> None:
    assert (component, condition, "present") in entries(said, room=room).conditions()


@pytest.mark.parametrize(
    ("room", "said", "component"),
    [
        ("kitchen", "Only one of the rings heats.", "burner"),
        ("kitchen", "The hood works off the wall switch but not off its own button.", "range_hood"),
        ("bedroom", "The blind goes down but not up.", "blinds"),
        ("bedroom", "The ceiling fan spins one way only.", "ceiling_fan"),
        ("bedroom", "Only the top half of the radiator gets warm.", "radiator"),
        ("bedroom", "Nothing from the left-hand socket.", "outlet"),
        ("bathroom", "Nothing happens when I turn the hot tap.", "faucet"),
        ("hallway", "The smoke alarm works on its battery but not on the mains.", "smoke_alarm"),
    ],
)
def test_it_works_in_part_or_not_at_all(room: str, said: str, component: str, entries: Narrator) -> None:
    assert (component, "fails") in entries(said, room=room).checks()


@pytest.mark.parametrize(
    ("room", "said", "component"),
    [
        ("kitchen", "The oven came on, it only took a minute.", "oven"),
        ("kitchen", "The oven works but the light in it doesn't.", "oven"),
        ("kitchen", "The dishwasher runs, but not today, I promised.", "dishwasher"),
        ("kitchen", "The fridge runs and not a sound from it.", "refrigerator"),
        ("kitchen", "Nothing from the last tenant in the drawer.", "drawer"),
        ("bathroom", "The fan works, and not a bad one either.", "exhaust_fan"),
    ],
)
def test_it_does_not_fail(room: str, said: str, component: str, entries: Narrator) -> None:
    assert (component, "fails") not in entries(said, room=room).checks()


def test_a_thump_is_no_part_to_be_supplied(entries: Narrator) -> None:
    told = entries("The light switch needs a thump to work.", room="bedroom").entries
    assert not [one for one in told if one.kind == "follow_up"]
    told = entries("The smoke alarm needs a nine volt.", room="bedroom").entries
    assert [one.component for one in told if one.kind == "follow_up"] == ["smoke_alarm"]


def test_what_kicks_in_is_no_hole_and_what_was_kicked_in_is(entries: Narrator) -> None:
    assert not entries("The boiler kicked in right away.", room="hallway").conditions()
    kicked_in = entries("The bottom of the door is kicked in.", room="hallway").conditions()
    assert kicked_in & {("door", "hole", "present"), ("door", "broken", "present")}


@pytest.mark.parametrize(
    ("room", "said", "component"),
    [
        ("kitchen", "The ice maker isn't hooked up, so I can't say one way or the other.", "ice_maker"),
        ("living room", "I'm not touching the gas fire until the engineer's been.", "fireplace"),
        ("garage", "Outside tap's off for the winter, so no trial of that.", "hose_bib"),
        ("living room", "TV socket, I have no telly with me.", "cable_jack"),
        ("utility", "The water heater's off at the isolator.", "water_heater"),
    ],
)
def test_it_was_left_alone(room: str, said: str, component: str, entries: Narrator) -> None:
    assert set(entries(said, room=room).checks()) == {(component, "not_tested")}


@pytest.mark.parametrize(
    ("room", "said", "wanted"),
    [
        ("kitchen", "I hunted all round the window for any mould and came up empty.", ("window", "mold", "absent")),
        ("bedroom", "Had a good look for burns in the carpet and there wasn't a single one.",
         ("carpet", "burn", "absent")),
        ("bathroom", "Searched along the caulk for black spots, not a one.", ("caulk", "mold", "absent")),
        ("bedroom", "Ran my hand round the window hunting for draughts and felt none.", ("window", "draft", "absent")),
        ("kitchen", "Nothing whatever the matter with the worktop.", ("countertop", "good", "present")),
        ("kitchen", "No grumbles about the baseboard.", ("baseboard", "good", "present")),
    ],
)  # fmt: skip
def test_a_search_that_found_nothing_and_a_complaint_that_nobody_has(
    room: str, said: str, wanted: tuple[str, str, str], entries: Narrator
) -> None:
    assert entries(said, room=room).conditions() == {wanted}


@pytest.mark.parametrize(
    ("room", "said"),
    [
        ("kitchen", "Have a look for burns in the carpet."),
        ("bedroom", "No complaints from the neighbours about the carpet."),
        ("bathroom", "Had the tenant told me of the leak, I'd have fixed it."),
    ],
)
def test_nothing_was_found_out(room: str, said: str, entries: Narrator) -> None:
    assert not entries(said, room=room).conditions()
