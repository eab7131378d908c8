"""Damage and soil told by what lies there, how high, behind what, by what one has to do; and talk that tells of none.

Each rule stands beside what looks like it and is something else.
"""

from __future__ import annotations

import pytest

from tests.read.told import Narrator

TOLD = [
    # a substance and where it lies
    ("bedroom", "Makeup on the carpet by the window.", ("carpet", "stain")),
    ("bedroom", "Ink all over the carpet under the desk.", ("carpet", "stain")),
    ("dining room", "There's porridge all down the wall.", ("wall", "dirty")),
    ("bathroom", "Toothpaste all over the mirror.", ("mirror", "dirty")),
    ("kitchen", "There's coffee down the cabinet door.", ("cabinet", "stain")),
    # a height, and what stands along a wall
    ("hallway", "There's a dirty tide line at shoulder height.", ("wall", "stain")),
    ("bedroom", "One deep gouge behind the headboard.", ("wall", "gouge")),
    # a subject that is no component, on one that is
    ("entry", "The brass plate on the bottom of the door is all tarnished.", ("door", "discoloration")),
    # how a flaw came where it is
    ("entry", "A run of gloss has dried on the door frame.", ("door_frame", "paint_drip")),
    # what one has to do
    ("hallway", "The drawer has swollen and you have to lift it to shut it.", ("drawer", "sticking")),
    # what will come of it
    ("hallway", "The carpet has come up, someone will catch a toe.", ("carpet", "trip_hazard")),
    # by whom
    ("living room", "Whoever took the shelf down left four holes in the wall.", ("wall", "hole")),
    # known of wallpaper, said of anything
    ("dining room", "The dado rail has come away.", ("trim", "loose")),
    ("living room", "There's fog between the two panes.", ("window", "failed_sealant")),
    ("living room", "The carpet's pulled away down this side.", ("carpet", "loose")),
    ("bedroom", "The ceiling is speckled black over the window.", ("ceiling", "mold")),
]


@pytest.mark.parametrize(("room", "said", "flaw"), TOLD, ids=[said for _, said, _ in TOLD])
def test_it_is_told(room: str, said: str, flaw: tuple[str, str], entries: Narrator) -> None:
    told = entries(said, room=room).entries
    assert flaw in {(one.component, one.condition) for one in told if one.assertion == "present"}


NOT_TOLD = [
    # a substance that is wiped, belongs there, is forbidden or is denied
    ("bedroom", "I wiped the jam off the counter.", {"residue", "dirty", "stain"}),
    ("bathroom", "The soap in the dish is new.", {"residue", "dirty", "stain"}),
    ("living room", "The paint on the wall is new.", {"stain", "dirty", "paint_drip"}),
    ("living room", "No coffee on the carpet, please.", {"stain", "dirty"}),
    # how bad, and not dirt or praise
    ("entry", "There's a nasty scrape on the door.", {"dirty"}),
    ("bedroom", "One good gouge in the door.", {"good"}),
    # what such a thing does not suffer
    ("kitchen", "This quartz won't stain.", {"stain"}),
    # what only looked like one
    ("bathroom", "On the ceiling it looks like mould but it wipes straight off.", {"mold"}),
    # others' words, wishes, sayings, and homes
    ("entry", "The previous agent noted a dent in the door.", {"dent"}),
    ("living room", "I'd sooner see an honest scratch than a bad repair.", {"scratch", "patched"}),
    ("living room", "My old boss used to say, a dirty hall is a dirty house.", {"dirty"}),
    ("living room", "I've known a tenant sand out a burn like that.", {"burn"}),
]


@pytest.mark.parametrize(("room", "said", "flaws"), NOT_TOLD, ids=[said for _, said, _ in NOT_TOLD])
def test_it_is_not_told(room: str, said: str, flaws: set[str], entries: Narrator) -> None:
    told = entries(said, room=room).entries
    assert not flaws & {one.condition for one in told if one.kind == "condition" and one.assertion == "present"}


@pytest.mark.parametrize(
    "said",
    [
        "The door has swollen and you have to lift it to shut it.",
        "The peephole's cloudy, you can't make out a face.",
        "The door drags, you can't shut it.",
    ],
)
def test_what_one_has_to_do_is_no_advice(said: str, entries: Narrator) -> None:
    assert not [one for one in entries(said, room="entry").entries if one.kind == "advice"]


@pytest.mark.parametrize("said", ["You can't hang anything on this door.", "You have to wipe the door down weekly."])
def test_what_one_must_not_do_still_is(said: str, entries: Narrator) -> None:
    assert [one for one in entries(said, room="entry").entries if one.kind == "advice"]


def test_who_will_catch_a_toe_does_no_work(entries: Narrator) -> None:
    told = entries("The carpet has come up, someone will catch a toe.", room="hallway").entries
    assert not [one for one in told if one.kind == "follow_up"]
    again = entries("The carpet has come up, someone will tack it down.", room="hallway").entries
    assert [one for one in again if one.kind == "follow_up"]


def test_outside_a_room_is_not_in_it(entries: Narrator) -> None:
    told = entries("Hallway.", "The ceiling paint is peeling outside the bathroom.", "There's a chip in the door.")
    assert {one.room for one in told.entries} == {"hallway"}
    moved = entries("Hallway.", "The paint is peeling. Into the bathroom.", "There's a chip in the tub.")
    assert [one.room for one in moved.entries if one.component == "bathtub"] == ["bathroom"]


def test_the_gate_after_the_deck_is_in_the_garden(entries: Narrator) -> None:
    told = entries("Back garden.", "The deck is rotten.", "The gate is broken.")
    assert [one.room for one in told.entries if one.component == "gate"] == ["yard"]


def test_a_height_of_a_door_in_focus_is_the_doors(entries: Narrator) -> None:
    told = entries("Front door opens.", "There's a little ding about chest high.", room="entry").said_from(2)
    assert [(one.component, one.condition) for one in told] == [("door", "dent")]


def test_a_force_is_no_faucet(entries: Narrator) -> None:
    told = entries("The door sticks, you have to force it.", room="entry").entries
    assert {one.component for one in told} == {"door"}


MORE_TOLD = [
    ("living room", "The grout's gone a bit orange.", ("grout", "discoloration")),
    ("living room", "The ceiling has gone a funny colour.", ("ceiling", "discoloration")),
    ("living room", "Some rings on the coffee table.", ("furniture", "stain")),
    ("bathroom", "The towel bar's been yanked off the wall.", ("towel_bar", "loose")),
    ("kitchen", "The shelf is held together with duct tape.", ("shelf", "patched")),
    ("hallway", "The alarm is past its ten years.", ("smoke_alarm", "expired")),
    ("bedroom", "There's a crack in the outside wall.", ("wall", "crack")),
    ("living room", "Someone has put a dent in the wall.", ("wall", "dent")),
    ("living room", "The last tenants put a hole in this wall.", ("wall", "hole")),
    ("bathroom", "The door is missing its handle.", ("door_knob", "missing")),
    ("garage", "There are four tires and some old cans left in here.", ("room_general", "debris")),
    ("garage", "There's a pile of old magazines in the corner.", ("room_general", "debris")),
    ("living room", "There's a shoe rack they didn't take.", ("room_general", "debris")),
    ("bathroom", "The medicine cabinet is full of their old prescriptions.", ("medicine_cabinet", "debris")),
    # how it lets go, drips, hangs, stands in the way
    ("bathroom", "Silicone down the hinge side is perishing.", ("caulk", "failed_sealant")),
    ("bathroom", "The shower head keeps dribbling after I shut it off.", ("shower_head", "leak")),
    ("kitchen", "The door of this cabinet is hanging off one screw.", ("cabinet", "loose")),
    ("kitchen", "The drawer front is coming away from the carcass.", ("drawer", "loose")),
    ("closet", "Boxes are stacked right up against the sprinkler head.", ("sprinkler_head", "blocked")),
    ("bathroom", "And yep, black spotting on the ceiling right above the shower.", ("ceiling", "mold")),
    ("patio", "The decking's gone splintery.", ("deck", "broken")),
    # and how well it has lasted
    ("kitchen", "The countertops are quartz, and they still look wonderful.", ("countertop", "good")),
    ("bathroom", "But they did redo the caulk all the way around.", ("caulk", "repaired")),
    ("bathroom", "The tiles are complete, none is loose.", ("tile", "good")),
    ("kitchen", "The splashback came up beautifully after a scrub.", ("backsplash", "clean")),
    ("living room", "I'm worried about that crack in the ceiling.", ("ceiling", "crack")),
    ("garage", "They've stacked boxes hard up against the hot water unit.", ("water_heater", "blocked")),
    ("utility", "Boxes are piled up in front of the furnace.", ("furnace", "blocked")),
    ("kitchen", "A knife cut, and this one goes all the way through the worktop.", ("countertop", "hole")),
    ("hallway", "You can see where the skirting has been chewed by the dog.", ("baseboard", "pet_damage")),
    ("kitchen", "The oven is filthy and the racks are just as bad.", ("oven_rack", "dirty")),
    ("hallway", "The handle's gone and put a hole in the plasterboard.", ("wall", "hole")),
    ("bedroom", "The plug by the bed doesn't have the cover.", ("cover_plate", "missing")),
    ("kitchen", "I have never seen such a dirty oven in my life.", ("oven", "dirty")),
]


@pytest.mark.parametrize(("room", "said", "wanted"), MORE_TOLD)
def test_damage_in_more_everyday_words(entries: Narrator, room: str, said: str, wanted: tuple[str, str]) -> None:
    told = entries(said, room=room)
    assert (*wanted, "present") in told.conditions(), told.told()


@pytest.mark.parametrize(
    ("said", "flaw"),
    [
        ("The scrape went right through the paint.", "hole"),
        ("The handle is loose in its hole.", "hole"),
        ("The smoke detector's gone, just the bracket hanging there.", "loose"),
        ("There's a box of spare tiles in the closet.", "debris"),
        ("There's only the balcony left.", "debris"),
        ("There are two rooms left in here.", "debris"),
        ("How good's that view, honestly.", "good"),
        ("There was a leak under here and the plumber dealt with it.", "leak"),
        ("The couple couldn't get out of the lease.", "blocked"),
        ("There's a spot on the carpet they couldn't get out.", "blocked"),
        ("The sofa is pushed up against the wall.", "blocked"),
        ("Pressing the alarm. Sorry, it does go right through one.", "hole"),
        ("Mould's what the owner is worried about.", "mold"),
        ("What I'm looking for in here is damp.", "damp"),
        ("They're worried about leaks, so I'm having a good look.", "leak"),
        ("The handle's gone and put a hole in the plasterboard.", "missing"),
        ("We did have mice over winter.", "pest"),
        ("The skirting is swollen from the damp.", "damp"),
        ("The bottom of the cabinet is swollen due to a leak.", "leak"),
        ("Some pencil marks on the wall, although it was painted over.", "paint_drip"),
    ],
)
def test_what_only_looks_like_it(entries: Narrator, said: str, flaw: str) -> None:
    told = entries(said, room="hallway")
    assert flaw not in {one.condition for one in told.entries}, told.told()


@pytest.mark.parametrize(
    ("room", "said", "wanted"),
    [
        ("kitchen", "Oven heats. One rack only, there should be two. So one's missing.", ("oven_rack", 1)),
        ("kitchen", "One oven shelf where there should be two.", ("oven_rack", 1)),
        ("living room", "Two blades off the verticals, they're sitting there on the sill.", ("blinds", 2)),
        ("kitchen", "Two knobs off the stove, I don't know where they've gone.", ("range_knob", 2)),
        ("kitchen", "There's three shelves in the fridge where you'd expect four.", ("refrigerator_shelf", 1)),
    ],
)
def test_what_is_fewer_or_off_its_whole_is_missing_once(
    entries: Narrator, room: str, said: str, wanted: tuple[str, int]
) -> None:
    told = entries(said, room=room)
    assert [(one.component, one.quantity) for one in told.entries if one.condition == "missing"] == [wanted]


@pytest.mark.parametrize(
    "said", ["One door off the hall.", "Two racks, and there should be two.", "A foot off the floor."]
)
def test_what_only_counts_misses_nothing(entries: Narrator, said: str) -> None:
    assert not {one.condition for one in entries(said, room="kitchen").entries} & {"missing"}


@pytest.mark.parametrize(
    "said",
    ["And there's another one by the door.", "Also here is one bigger.", "Here's a second one."],
)
def test_another_one_is_told_once_more(entries: Narrator, said: str) -> None:
    told = entries("There's a dent in the wall.", said, room="living room")
    assert [(one.component, one.condition) for one in told.entries] == [("wall", "dent")] * 2, told.told()


@pytest.mark.parametrize(
    "said", ["I'll bring another one.", "There's one more window in the corner.", "I had a bigger one."]
)
def test_another_thing_is_no_second_flaw(entries: Narrator, said: str) -> None:
    told = entries("There's a dent in the wall.", said, room="living room")
    assert len([one for one in told.entries if one.condition == "dent"]) == 1, told.told()


def test_what_a_flaw_is_said_to_be_is_where_it_is(entries: Narrator) -> None:
    told = entries("Basin is clean.", "These white patches on the tiles are salt deposits.", room="bathroom")
    assert ("tile", "mineral_deposit", "present") in told.conditions(), told.told()


def test_soil_behind_a_machine_is_not_of_what_was_in_focus(entries: Narrator) -> None:
    told = entries("Trough's okay.", "There's lint all down behind the dryer.", room="laundry")
    assert ("dryer", "dust", "present") in told.conditions(), told.told()


def test_who_tore_it_is_no_second_flaw(entries: Narrator) -> None:
    told = entries("The screen's got a rip down low where a cat went to town on it.", room="porch")
    assert {one.condition for one in told.entries} == {"tear"}, told.told()


@pytest.mark.parametrize(
    "said", ["There's mould on the grout, and none on the tiles.", "There's mould on the grout. None on the tiles."]
)
def test_none_takes_up_what_was_told_of_another_thing(entries: Narrator, said: str) -> None:
    told = entries(said, room="bathroom")
    assert told.conditions() == {("grout", "mold", "present"), ("tile", "mold", "absent")}, told.told()
