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
