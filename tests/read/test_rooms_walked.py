"""Which room a walk is in: entered in unusual words, told by its use, implied, or only spoken of."""

from __future__ import annotations

import pytest

from tests.read.told import Narrator


def _room(entries: Narrator, start: str, said: str) -> str:
    """The room after a line that was said in `start`."""
    return entries(said, room=start).sentences[-1].room


TOLD_BY_USE = [
    ("bedroom", "Through here is where you'd eat.", "dining_room"),
    ("entry", "And this is where the cooking happens.", "kitchen"),
    ("living room", "Down the step to where they cook.", "kitchen"),
    ("hallway", "Next along's where they bathe.", "bathroom"),
    ("hallway", "Then the place where you wash yourself.", "bathroom"),
    ("kitchen", "Out here is where you do your washing.", "laundry"),
    ("kitchen", "Now the room where you take your meals.", "dining_room"),
    ("dining room", "Behind this arch, here I cook since twenty years.", "kitchen"),
    ("hallway", "Here the children sleep.", "bedroom.kids"),
    ("hallway", "Into the room they sleep in.", "bedroom"),
    ("hallway", "This is where I work from home, the desk stays.", "office"),
    ("living room", "Where we eat, the ceiling has a crack.", "dining_room"),
    ("hallway", "And over here is where the washing machine lives.", "laundry"),
    ("hallway", "And at the end of the corridor you have where to wash.", "bathroom"),
]


@pytest.mark.parametrize(("start", "said", "room"), TOLD_BY_USE)
def test_a_room_is_told_by_what_people_do_there(entries: Narrator, start: str, said: str, room: str) -> None:
    assert _room(entries, start, said) == room


@pytest.mark.parametrize(
    ("start", "said"),
    [
        ("living room", "There is a stain where they ate."),
        ("living room", "The crack runs to where they eat."),
        ("living room", "There's a burn next to where you cook."),
        ("living room", "This is where the sofa stood."),
        ("living room", "This is where the leak came through last winter."),
        ("bathroom", "This is where you turn the water off."),
        ("living room", "They cook a lot, you can smell it."),
        ("living room", "You sleep well here, it's quiet."),
        ("kitchen", "If you cook with the lid off, wipe the wall."),
        ("living room", "They used to cook in here before we built the kitchen."),
        ("kitchen", "Don't sleep with the heater on."),
        ("living room", "Do you eat in here?"),
        ("hallway", "This is where you wash the dog."),
    ],
)
def test_what_people_do_leads_nowhere_by_itself(entries: Narrator, start: str, said: str) -> None:
    assert _room(entries, start, said).replace("_", " ") == start


@pytest.mark.parametrize(
    ("said", "room"),
    [
        ("Across the way's her room, tidy as a pin.", "bedroom"),
        ("The one on the left is my daughter's.", "bedroom"),
        ("First door on the left is for your child, the blue one.", "bedroom.kids"),
        ("On to the flatmate's room.", "bedroom"),
        ("In the other one, where the parents sleep, the wardrobe is old.", "bedroom.primary"),
    ],
)
def test_a_room_is_told_by_whose_it_is(entries: Narrator, said: str, room: str) -> None:
    assert _room(entries, "hallway", said) == room


@pytest.mark.parametrize(
    ("said", "room"),
    [
        ("In front of you is the salon.", "living_room"),
        ("On your right hand you've the dining room.", "dining_room"),
        ("To your left the bathroom.", "bathroom"),
        ("At the back of the house is the living room.", "living_room"),
        ("Next door is the bathroom.", "bathroom"),
        ("Here on this side is the little toilet for guests, without shower.", "half_bath"),
        ("Which brings me to bedroom three.", "bedroom.3"),
        ("Moving along, we reach the bathroom.", "bathroom"),
        ("Retracing my steps to the hall.", "hallway"),
        ("That's it for the kitchen, bathroom next.", "bathroom"),
        ("I skipped the study, let me go back.", "office"),
        ("Now we go to the top.", "stairs"),
        ("Nipping upstairs.", "stairs"),
        ("Room number two, the small one.", "bedroom.2"),
        ("The room with all the surfboards is the brother's, so call it bed two.", "bedroom.2"),
        ("Righto, out under the pergola.", "patio"),
    ],
)
def test_ways_that_lead_to_a_room(entries: Narrator, said: str, room: str) -> None:
    assert _room(entries, "kitchen", said) == room


@pytest.mark.parametrize(
    "said",
    [
        "The bathroom above leaked through here once.",
        "The bathroom is upstairs, we come to it.",
        "The tub is upstairs, we come to it.",
        "The tub upstairs leaked through here.",
        "The toilet was replaced upstairs.",
        "The neighbor's bath is behind this wall.",
        "Behind this wall is the bathroom.",
        "The bedroom is bigger than this.",
        "I've already done the hall.",
        "We'll do the garage last.",
        "We'll get to the bathroom.",
        "Spare bulbs are in the hall closet.",
        "There's wear on the way to the bathroom.",
        "The same oak as in the dining room goes also here.",
        "Unlike the bathroom, this floor is level.",
        "The water main is in the basement.",
        "You can see the garden from here.",
        "It's the same paint as the hallway.",
        "We redid the bathroom last year.",
    ],
)
def test_a_room_that_is_only_told_of_is_not_walked_into(entries: Narrator, said: str) -> None:
    assert _room(entries, "kitchen", said) == "kitchen"


@pytest.mark.parametrize(
    ("said", "component", "rooms"),
    [
        ("The downpipe's come loose at the corner.", "gutter", {"exterior"}),
        ("The side gate's sagging.", "gate", {"yard"}),
        ("The gutters are clogged.", "gutter", {"exterior"}),
        ("The fence has a broken board.", "fence", {"yard"}),
    ],
)
def test_what_stands_outside_is_outside(entries: Narrator, said: str, component: str, rooms: set[str]) -> None:
    told = entries(said, room="laundry")
    assert {entry.room for entry in told.entries if entry.component == component} == rooms, told.told()


def test_what_a_room_is_without_is_not_missing_from_it(entries: Narrator) -> None:
    told = entries("Here on this side is the little toilet for guests, without shower.", room="hallway")
    assert not told.entries, told.told()
    told = entries("The basin is fine but there's no tap.", room="bathroom")
    assert ("faucet", "missing", "present") in told.conditions(), told.told()
