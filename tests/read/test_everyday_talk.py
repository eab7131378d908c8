"""Where a thing is told to be, what is no more or yet to come, and trials, work and rules in everyday words."""

from __future__ import annotations

import pytest

from tests.read.told import Narrator


@pytest.mark.parametrize(
    ("lines", "room"),
    [
        (("Smoke alarms, two in the hall, one chirping as we speak.",), "hallway"),
        (("The smoke alarm in the bedroom is chirping.",), "bedroom"),
        (("Smoke alarm in the hallway, pressing it now.", "Sorry, that's loud."), "hallway"),
        (("The smoke alarm is chirping, I can hear it in the hall.",), "laundry"),
    ],
)
def test_a_thing_is_entered_in_the_room_it_is_said_to_be_in(
    lines: tuple[str, ...], room: str, entries: Narrator
) -> None:
    told = [one for one in entries(*lines, room="laundry").entries if one.component == "smoke_alarm"]
    assert [one.room for one in told] == [room] * len(told) != []


@pytest.mark.parametrize(
    ("heading", "room"),
    [
        ("Bedroom A.", "bedroom.a"),
        ("Bedroom B now.", "bedroom.b"),
        ("Room C.", "bedroom.c"),
        ("Let's do the second bedroom.", "bedroom.2"),
        ("Moving on to the office.", "office"),
        ("Now the store room.", "storage"),
        ("Loft.", "attic"),
        ("Okay, the double bedroom.", "bedroom"),
        ("WC.", "half_bath"),
        ("I'm keeping the spare key in the office.", "kitchen"),
    ],
)
def test_a_room_is_walked_into_by_its_name(heading: str, room: str, entries: Narrator) -> None:
    told = entries(heading, "The ceiling is stained.", room="kitchen").entries
    assert [one.room for one in told if one.component == "ceiling"] == [room]


@pytest.mark.parametrize(
    "said",
    [
        "A dog could chew that cabinet to pieces in one weekend.",
        "A wobbly tap, a dead bulb, a missing shelf, those are the things people forget to tell me.",
        "Cracked tiles I'd write down, chipped tiles I'd write down.",
        "Four burn marks and you're buying a new counter.",
        "The woman in fourteen had mice.",
        "The ceiling in 4B is stained, that's for another report.",
        "The dog two doors down has wrecked their lawn.",
        "I had a crack in my own hall tile for six years.",
        "The tile had a hole, but the lads filled it.",
        "That stain on the counter is gone now.",
        "The crack on the worktop has been repaired.",
        "They got rid of the stain on the counter.",
        "She was worried she had left a stain on the counter, and she hadn't.",
        "A worktop can be stained and still be within fair wear.",
        "One crack in the sink and that's your bond gone.",
        "We budget for a stained carpet every couple of years.",
        "I burned my toast today.",
    ],
)
def test_what_is_no_flaw_of_this_place_now(said: str, entries: Narrator) -> None:
    told = entries(said, room="kitchen").conditions()
    assert {condition for _, condition, assertion in told if assertion != "absent"} <= {"repaired", "patched"}


@pytest.mark.parametrize(
    ("said", "wanted"),
    [
        ("Two holes in the wall and I'd want those filled.", ("wall", "hole", "present")),
        ("Scratches on the worktop, chips on the sink, that's what I'd expect.", ("sink", "chip", "present")),
        ("You can see where a hole has been filled and painted.", ("wall", "patched", "present")),
        ("The dent on the fridge wasn't there last time.", ("refrigerator", "dent", "present")),
        ("The last tenant scratched the window.", ("window", "scratch", "present")),
        ("I'm taking a photo of the crack on the tile.", ("tile", "crack", "present")),
        ("Under the sink there's a bit of swelling in the base.", ("cabinet", "warp", "present")),
        ("There's a little grease inside the oven, on the back wall.", ("oven", "grease", "present")),
        ("I'll fill those nail holes before you move in.", ("wall", "nail_hole", "present")),
        ("Very tidy, that window.", ("window", "clean", "present")),
        ("I'm happy with the sink.", ("sink", "good", "present")),
        ("The window looks scratched to me.", ("window", "scratch", "present")),
    ],
)
def test_a_finding_in_everyday_words(said: str, wanted: tuple[str, str, str], entries: Narrator) -> None:
    assert wanted in entries(said, room="kitchen").conditions()


@pytest.mark.parametrize(
    "said", ["You can see where a hole's been filled.", "Three nail holes have been filled.", "The holes are filled."]
)
def test_a_filled_hole_is_a_patch_and_no_hole(said: str, entries: Narrator) -> None:
    assert entries(said, room="hallway").conditions() == {("wall", "patched", "present")}


@pytest.mark.parametrize(
    ("said", "component", "outcome"),
    [
        ("Pushed the button on the microwave and nothing happens at all.", "microwave", "fails"),
        ("I tested the fridge, that's fine.", "refrigerator", "works"),
        ("The fridge should be working but it isn't.", "refrigerator", "fails"),
        ("The tenant said the fridge works, but it didn't for me.", "refrigerator", "fails"),
        ("Works like a charm, this extractor fan.", "range_hood", "works"),
        ("You can hardly see through it, the peephole.", "peephole", "fails"),
        ("Oven, I set it for three-fifty and it's up to temperature now.", "oven", "works"),
        ("Never plugged anything into these sockets, so put them as untested.", "outlet", "not_tested"),
        ("Not tested, the water heater, the cover's locked.", "water_heater", "not_tested"),
        ("I'd have tried the dishwasher but it isn't connected.", "dishwasher", "not_tested"),
        ("I can't say whether the dishwasher works, I didn't try it.", "dishwasher", "not_tested"),
        ("We won't be testing the oven.", "oven", "not_tested"),
    ],
)
def test_a_trial_in_everyday_words(said: str, component: str, outcome: str, entries: Narrator) -> None:
    assert entries(said, room="kitchen").checks() == [(component, outcome)]


def test_there_is_work_is_no_trial(entries: Narrator) -> None:
    assert not entries("There's work to be done on the oven.", room="kitchen").checks()


@pytest.mark.parametrize(
    ("said", "component"),
    [
        ("I'll see whether our seamstress can fix the curtain.", "curtain"),
        ("There's a painter booked for the whole of this long wall.", "wall"),
        ("Carpet cleaners are in Friday at nine.", "carpet"),
        ("The cleaner has to do the oven again.", "oven"),
        ("I'm getting a guy in to repair the fridge.", "refrigerator"),
        ("Someone has to come out and look at the oven.", "oven"),
        ("The fridge is awaiting repair.", "refrigerator"),
        ("Can maintenance please look at the oven?", "oven"),
        ("Make sure the window gets fixed.", "window"),
        ("I'm flagging the fence for repair.", "fence"),
        ("The decorator's going to touch up round the door frame.", "door_frame"),
    ],
)
def test_work_in_everyday_words(said: str, component: str, entries: Narrator) -> None:
    assert component in {one for one, _ in entries(said, room="kitchen").follow_ups()}


@pytest.mark.parametrize(
    "said",
    [
        "The fridge was repaired, the repair to the fridge is finished.",
        "The cleaners have done the fridge.",
        "Carpet's professionally cleaned, on Friday.",
        "Not one thing to order in here.",
        "I was going to order some lunch.",
        "Somebody in flat nine needs a new front door.",
        "My wife wants that exact colour for our bedroom.",
        "The coat hooks are all there.",
    ],
)
def test_what_is_no_work_to_come(said: str, entries: Narrator) -> None:
    assert not entries("The window is stuck.", said, room="kitchen").follow_ups()


@pytest.mark.parametrize(
    ("said", "component"),
    [
        ("You look after the smoke alarm battery, we look after the alarm itself.", "smoke_alarm"),
        ("You drop a bottle in that sink and crack it, you're paying for the sink.", "sink"),
        ("If the fridge stops, you ring us.", "refrigerator"),
        ("Do me a favour, tell me if the tap ever drips.", "faucet"),
        ("No barbecues out here.", "room_general"),
        ("Please don't store petrol or paint in here.", "room_general"),
        ("No smoking in the bedroom or anywhere else.", "room_general"),
        ("Take your shoes off when it's raining.", "floor"),
        ("Guests shouldn't be fiddling with the oven.", "oven"),
        ("We ask everybody to keep liquids away from the window.", "window"),
    ],
)
def test_a_rule_in_everyday_words(said: str, component: str, entries: Narrator) -> None:
    told = entries("The sink is fine.", said, room="kitchen").entries
    assert [one.component for one in told if one.kind == "advice"] == [component]


@pytest.mark.parametrize(
    "said",
    [
        "The window sticks, you have to give it a bump with your hand.",
        "The smoke alarm beeps when you press it.",
        "Who books a bath delivery for a Sunday, I ask you.",
        "Nobody has turned on the tap since winter, so leave that as unknown.",
    ],
)
def test_how_a_thing_goes_is_no_rule(said: str, entries: Narrator) -> None:
    assert not [one for one in entries(said, room="kitchen").entries if one.kind == "advice"]


def test_work_told_twice_is_one(entries: Narrator) -> None:
    told = entries("The towel rail has to be fixed back, I'll have maintenance do it.", room="bathroom").entries
    assert len([one for one in told if one.kind == "follow_up"]) == 1
