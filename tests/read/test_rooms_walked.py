"""Which room a walk is in: entered in unusual words, told by its use, implied, or only spoken of."""

from __future__ import annotations

from pathlib import Path
from typing import Final

import pytest

from tests.read.told import Narrator, transcript_of


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
        ("So we're starting at the front door, just inside, in the entrance.", "entry"),
        ("Bride coming through to the living room, mind the box.", "living_room"),
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
        "Noise coming through to the bedroom.",
        "Garret Dunn here, signing off.",
        "Water coming through to the bedroom.",
        "Light coming through to the hall.",
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


LINES: Final = Path(__file__).parent / "data" / "rooms_walked.tsv"
"""Start room, what is said (its last sentence tells a flaw), and the room of that flaw: by a hand that had not seen the
rules; before rooms were told by who goes where, 317 of these 440 were read right."""

READ_RIGHT: Final = 0.9


def test_the_room_of_a_flaw_is_the_one_that_the_speaker_is_in(entries: Narrator) -> None:
    wrong, asked = [], 0
    for line in LINES.read_text(encoding="utf-8").splitlines():
        start, said, wanted = line.split("\t")
        read = entries.read(transcript_of([said]), room=start)
        told = [one for one in read.entries if one.kind == "condition"]
        room = told[-1].room if told else "nothing told"
        names = wanted.split("|")
        right = room in names or room.split(".")[0] in names or room in {name.split(".")[0] for name in names}
        asked += 1
        if not right:
            wrong.append(f"{start}: {said} -> {room}, not {wanted}")
    assert asked >= 440
    assert len(wrong) <= (1 - READ_RIGHT) * asked, "\n".join(wrong)


ROOMS: Final = {
    "kitchen": "kitchen", "living room": "living_room", "dining room": "dining_room", "bathroom": "bathroom",
    "main bedroom": "bedroom", "second bedroom": "bedroom", "utility room": "utility", "study": "office",
    "garage": "garage", "balcony": "balcony", "basement": "basement", "reception room": "living_room",
    "ensuite": "bathroom",
}  # fmt: skip

ENTERED: Final = (
    "Shall we go through to the {r}?",
    "Want to head into the {r}?",
    "Shall we do the {r}?",
    "Shall we move on to the {r}?",
    "Let's have a look at the {r}.",
    "Let me show you the {r}.",
    "Come on through to the {r}.",
    "That's the hall done, {r} next.",
    "Right, that's that, so the {r}.",
    "If you follow me into the {r}.",
    "We'll take the {r} next.",
    "Can we go into the {r} now?",
    "And then we come to the {r}.",
    "This here is the {r}.",
    "And this would be the {r}.",
    "Just popping into the {r}.",
    "So I'm standing in the {r} now.",
    "Now I'm in the {r}.",
    "Walking into the {r}, first thing you see is the light.",
    "In the {r} now, okay.",
    "Okay so {r}.",
    "Next up we've got the {r}.",
    "Moving along, {r}.",
    "Ready for the {r}?",
    "On to the {r} then.",
    "Heading through here to the {r}.",
    "So this is your {r}.",
    "Here's the {r}.",
    "Let's start with the {r}.",
    "Back in the {r}.",
    "And finally the {r}.",
    "I'm going to do the {r} now.",
    "Let's get the {r} out of the way.",
    "Over to the {r}.",
    "Through here's the {r}.",
)

NOT_ENTERED: Final = (
    "There's a mark by the door to the {r}.",
    "You can see the {r} from here.",
    "It's the same paint as the {r}.",
    "The leak came from the {r} upstairs.",
    "I left my bag in the {r}.",
    "We'll do the {r} later.",
    "The switch for the {r} is out here.",
    "There's some wear over by the {r}.",
    "Got a few scuffs over towards the {r}.",
    "Found a crack along the {r} wall.",
    "The tenants used it as a {r}.",
    "Key for the {r} is on the hook.",
    "The door to the {r} sticks.",
    "I've got a couple of marks out by the {r}.",
    "There's a draught from the {r}.",
    "He stores bikes in the {r}.",
)


@pytest.mark.parametrize("form", ENTERED)
def test_a_way_to_come_into_a_room_leads_into_any(entries: Narrator, form: str) -> None:
    for said, room in ROOMS.items():
        walked = [one.room.split(".")[0] for one in entries(form.format(r=said), room="hallway").findings.rooms]
        assert room in walked, (form, said, walked)


@pytest.mark.parametrize("form", NOT_ENTERED)
def test_a_way_to_speak_of_a_room_leads_into_none(entries: Narrator, form: str) -> None:
    for said, room in ROOMS.items():
        walked = [one.room.split(".")[0] for one in entries(form.format(r=said), room="hallway").findings.rooms]
        assert room not in walked, (form, said, walked)


@pytest.mark.parametrize(
    ("said", "room"),
    [
        ("We'll take the bathroom next.", "bathroom"),
        ("Let's get the bathroom out of the way.", "bathroom"),
        ("Only the downstairs loo left.", "half_bath"),
        ("That's the hall done, bedroom now.", "bedroom"),
        ("Opening the door to the garage and going in.", "garage"),
        ("Popping my head in the loo.", "half_bath"),
        ("Gonna swing by the hall bath.", "bathroom.hall"),
        ("Turning left here puts me in the bathroom.", "bathroom"),
        ("Now I'm standing in what they call the guest bedroom.", "bedroom.guest"),
        ("The bathroom is on your left, and here we are.", "bathroom"),
        ("Back in the primary.", "bedroom.primary"),
        ("And then off that there's a little den.", "office"),
    ],
)
def test_who_speaks_goes_there_whatever_the_verb(entries: Narrator, said: str, room: str) -> None:
    assert _room(entries, "kitchen", said) == room


@pytest.mark.parametrize(
    "said",
    [
        "Before we go in the living room, look up.",
        "I'll come back to the porch once the rain stops.",
        "The bathroom we will see afterwards.",
        "The en suite I'll leave for the end.",
        "I can hear somebody walking in the living room upstairs.",
        "Just outside the laundry here.",
        "The kids' bedroom is the other side.",
        "The bathroom had tile.",
        "Bedroom two uses this one.",
    ],
)
def test_what_is_put_off_or_done_by_others_leads_nowhere(entries: Narrator, said: str) -> None:
    assert _room(entries, "kitchen", said) == "kitchen"


def test_the_next_number_is_the_next_room_of_its_kind(entries: Narrator) -> None:
    assert _room(entries, "bedroom two", "On to number three then.") == "bedroom.3"


@pytest.mark.parametrize(
    ("said", "room"),
    [
        ("First door on the left is the bathroom.", "bathroom"),
        ("Next up on my sheet is the living room.", "living_room"),
        ("I'll have a look in the laundry while I'm at it.", "laundry"),
        ("And around the corner to the dining room.", "dining_room"),
        ("I've come through to the bedroom.", "bedroom"),
        ("I'm gonna check the bath.", "bathroom"),
        ("Let me go upstairs.", "stairs"),
        ("The water heater's in the garage, so let's go out there.", "garage"),
    ],
)
def test_more_ways_to_go_there(entries: Narrator, said: str, room: str) -> None:
    assert _room(entries, "kitchen", said) == room


@pytest.mark.parametrize(
    "said",
    [
        "The bathroom's locked, so I can't get in there.",
        "The bedroom looks out over this too.",
        "The living room gets all the afternoon sun.",
        "The bedroom is noisy because of the fan in here.",
        "The toilet for guests is near the entrance.",
    ],
)
def test_what_is_said_of_another_room_is_said_from_here(entries: Narrator, said: str) -> None:
    assert _room(entries, "kitchen", said) == "kitchen"


@pytest.mark.parametrize(
    ("said", "room"),
    [
        ("Following the hallway down to the kitchen.", "kitchen"),
        ("Sneaking past the boiler into the laundry.", "laundry"),
        ("Rounding the corner into the dining room.", "dining_room"),
        ("Walked through to the laundry.", "laundry"),
        ("Then it's back to the living room.", "living_room"),
        ("Out to the garden we go.", "yard"),
        ("All good, down the stairs to the basement.", "basement"),
        ("Out the back slider, which glides beautifully, to the courtyard.", "patio"),
        ("Now you're in the dining room.", "dining_room"),
        ("Let's toddle into the kitchen.", "kitchen"),
        ("Goin' out the side door to the yard.", "yard"),
        ("Leaving the bathroom for the kitchen.", "kitchen"),
        ("Thermostat here in the hallway.", "hallway"),
        ("The swing's on this porch.", "porch"),
        ("Next to it, a small study.", "office"),
        ("Third door along on the left, bedroom C.", "bedroom.c"),
        ("That's everything, so the kitchen again.", "kitchen"),
        ("Finished, the bedroom comes now.", "bedroom"),
        ("Swinging left into the dining room.", "dining_room"),
        ("Shall we wander over to the garage?", "garage"),
        ("Can we see the bedroom?", "bedroom"),
        ("Do you want to go into the lounge?", "living_room"),
    ],
)
def test_the_way_itself_is_told_in_any_words(entries: Narrator, said: str, room: str) -> None:
    assert _room(entries, "bathroom", said) == room


@pytest.mark.parametrize(
    "said",
    [
        "I'll mop the stairs down to the hall.",
        "I'm standing at the door to the garage.",
        "This is the door to the bathroom.",
        "I'll move it to the garage.",
        "It's next to the bathroom.",
        "The pipe runs along here, through to the bathroom.",
        "Same tile, through to the bathroom.",
        "You go down to the basement and you turn it off there.",
        "You should step into the hall and call me.",
        "The dog got out and went into the bedroom.",
        "I went down to the basement last week.",
        "I'm looking out to the yard.",
        "Could you go to the bathroom?",
        "Shall I paint the bathroom?",
        "I had that once, in the back bedroom.",
        "The tiles match the ones in the bathroom, the hall, everywhere.",
    ],
)
def test_a_way_that_the_speaker_does_not_take_leads_nowhere(entries: Narrator, said: str) -> None:
    assert _room(entries, "kitchen", said) == "kitchen"


def test_what_is_told_of_the_balcony_is_told_there_and_out_here_is_there(entries: Narrator) -> None:
    told = entries("The decking on the balcony is slimy. The chairs out here are sound.", room="bedroom")
    assert [entry.room for entry in told.entries] == ["balcony", "balcony"], told.told()


@pytest.mark.parametrize(
    ("said", "rooms"),
    [
        ("The banister's solid. The light works.", ["stairs", "hallway"]),
        ("The carpet on the stairs is worn through. The walls are clean.", ["stairs", "hallway"]),
        ("The balcony railings are rusty.", ["balcony"]),
    ],
)
def test_what_is_of_the_stairs_is_told_there_from_the_hall(entries: Narrator, said: str, rooms: list[str]) -> None:
    told = entries(said, room="hallway")
    assert [entry.room for entry in told.entries] == rooms, told.told()
