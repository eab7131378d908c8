"""What is sound, there, tried and fine, in the words of many: and the same words where it is not."""

from __future__ import annotations

import pytest

from tests.read.told import Narrator


def _checks(entries: Narrator, room: str, *lines: str) -> set[tuple[str, str]]:
    return {(one.component, one.outcome or "") for one in entries(*lines, room=room).entries if one.kind == "check"}


WORKS = [
    # what opens and shuts
    ("kitchen", "Cabinets all open and close.", "cabinet"),
    ("kitchen", "All the cupboard doors swing freely.", "cabinet"),
    ("kitchen", "The drawers slide in and out nicely.", "drawer"),
    ("kitchen", "Drawers all pull out fine.", "drawer"),
    ("kitchen", "Drawers glide.", "drawer"),
    ("bedroom", "The closet doors roll easily.", "closet_door"),
    ("bedroom", "The closet doors ride smoothly.", "closet_door"),
    ("bedroom", "The curtains do pull.", "curtain"),
    ("bedroom", "The curtains run across fine.", "curtain"),
    ("bedroom", "The blinds raise and lower without a hitch.", "blinds"),
    ("entry", "It's a heavy door and it closes on its own.", "door"),
    ("bathroom", "The shower door glides shut.", "shower_door"),
    ("garage", "The garage door goes up and comes down.", "garage_door"),
    # water
    ("bathroom", "Shower runs hot, drains fine.", "drain"),
    ("kitchen", "The sink is clean, it drains like a champ.", "sink"),
    ("kitchen", "Water's hot, water's cold.", "faucet"),
    ("kitchen", "I've got hot, I've got cold.", "faucet"),
    ("kitchen", "Hot water in about ten seconds.", "faucet"),
    ("bathroom", "The hot tap is hot and the cold tap is cold.", "faucet"),
    ("bathroom", "The WC discharges well.", "toilet"),
    # what comes of it
    ("hallway", "The smoke alarm chirped when I pressed it.", "smoke_alarm"),
    ("hallway", "CO detector beeps when tested.", "co_alarm"),
    ("hallway", "Smoke alarm, pressing it, and that's plenty loud.", "smoke_alarm"),
    ("hallway", "Smoke alarm, I push it, and boy is it loud.", "smoke_alarm"),
    ("hallway", "I bump the thermostat up, and there goes the furnace.", "furnace"),
    ("hallway", "I bump the thermostat up, and there goes the furnace.", "thermostat"),
    ("bedroom", "Heat comes out of both vents.", "vent"),
    ("bedroom", "There's cool air blowing out of the register.", "vent"),
    ("entry", "The buzzer lets you in.", "intercom"),
    ("bedroom", "Outlets, every one came back good.", "outlet"),
    ("bedroom", "The outlets all give power.", "outlet"),
    # so does that
    ("kitchen", "Fridge is cold and so is the freezer.", "freezer"),
    ("kitchen", "All four burners came on, and so did the oven.", "oven"),
    ("kitchen", "The disposal runs, the dishwasher too.", "dishwasher"),
    # beside a sink, cold is still what a freezer is
    ("kitchen", "Under the sink it's dry, fridge cold, freezer cold.", "freezer"),
    # after all
    ("bathroom", "The fan isn't coming on, oh wait, there it is.", "exhaust_fan"),
    ("kitchen", "The oven I turned on before you got here and it's hot.", "oven"),
]


@pytest.mark.parametrize(("room", "line", "component"), WORKS)
def test_what_was_tried_works(entries: Narrator, room: str, line: str, component: str) -> None:
    checks = _checks(entries, room, line)
    assert (component, "works") in checks or (component == "exhaust_fan" and ("ceiling_fan", "works") in checks), checks
    assert not any(outcome == "fails" for _, outcome in checks), checks


@pytest.mark.parametrize(
    ("room", "line", "component"),
    [
        ("kitchen", "Cabinets don't open and close right.", "cabinet"),
        ("kitchen", "The drawer does not slide.", "drawer"),
        ("hallway", "The smoke alarm did not chirp when I pressed it.", "smoke_alarm"),
        ("bedroom", "No heat comes out of the vent.", "vent"),
        ("bedroom", "They open but they don't latch, those doors.", "door"),
        ("kitchen", "Kickboard is loose. Ran a rinse cycle.", "cabinet"),
        ("kitchen", "Please open and close the drawers gently.", "drawer"),
        ("kitchen", "If the cabinets open and close by themselves, call me.", "cabinet"),
        ("bedroom", "The window's painted shut and won't budge.", "window"),
    ],
)
def test_what_did_not_or_was_not_tried_is_not_said_to_work(
    entries: Narrator, room: str, line: str, component: str
) -> None:
    assert (component, "works") not in _checks(entries, room, line)


@pytest.mark.parametrize(
    ("room", "line", "parts"),
    [
        ("bedroom", "Closet's got the shelf and the rod.", {"shelf", "closet_rod"}),
        ("entry", "There's a coat closet right here, it has a shelf and a rod.", {"shelf", "closet_rod"}),
        ("kitchen", "Oven has both racks.", {"oven_rack"}),
        ("kitchen", "Fridge has three shelves.", {"refrigerator_shelf"}),
        ("kitchen", "The microwave has its plate.", {"microwave_plate"}),
        ("kitchen", "The sink's got a strainer.", {"sink_strainer"}),
        ("bathroom", "The tub has a stopper.", {"drain_stopper"}),
        ("bedroom", "Each window has a screen.", {"window_screen"}),
        ("entry", "The door has a peephole.", {"peephole"}),
        ("bathroom", "Vanity has two drawers.", {"drawer"}),
        ("kitchen", "The oven has one rack missing.", set[str]()),
        ("kitchen", "The fridge has a cracked shelf.", set[str]()),
        ("bedroom", "The window has no screen.", set[str]()),
        ("bedroom", "The window has to get a new screen.", set[str]()),
        ("bedroom", "The closet should have a shelf and a rod.", set[str]()),
        ("kitchen", "If the oven has both racks, leave them in.", set[str]()),
    ],
)
def test_what_a_thing_has_is_there(entries: Narrator, room: str, line: str, parts: set[str]) -> None:
    told = entries(line, room=room)
    assert {one.component for one in told.entries if one.condition == "present"} == parts, told.told()


@pytest.mark.parametrize(
    ("line", "painted"),
    [
        ("Walls and trim got painted Tuesday.", {"wall", "trim"}),
        ("We had all the walls painted in here two weeks ago.", {"wall"}),
        ("The walls got painted in May, all four of them.", {"wall"}),
        ("I painted the ceiling myself last weekend.", {"ceiling"}),
        ("now living room the walls got painted in march all of them", {"wall"}),
        ("We repainted the cabinets this spring.", {"cabinet"}),
        ("I had the radiator painted.", {"radiator"}),
        ("They painted this wall purple.", set[str]()),
        ("That window's painted shut.", set[str]()),
        ("The walls haven't been painted since the last people.", set[str]()),
        ("It's a steel door, painted charcoal.", set[str]()),
        ("The door is painted timber.", set[str]()),
        ("The door needs painting.", set[str]()),
        ("The walls were painted fifteen years ago.", set[str]()),
    ],
)
def test_what_was_painted_is_freshly_painted(entries: Narrator, line: str, painted: set[str]) -> None:
    told = entries(line, room="living room")
    assert {one.component for one in told.entries if one.condition == "freshly_painted"} == painted, told.told()


@pytest.mark.parametrize(
    ("line", "component", "condition"),
    [
        ("The walls are clean and so is the ceiling.", "ceiling", "clean"),
        ("Counters are spotless, and so are the cabinets.", "cabinet", "clean"),
        ("Both closet doors are on the track.", "closet_door", "good"),
    ],
)
def test_praise_is_carried_over(entries: Narrator, line: str, component: str, condition: str) -> None:
    told = entries(line, room="kitchen")
    assert (component, condition, "present") in told.conditions(), told.told()
