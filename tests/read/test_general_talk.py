"""What is told of the world at large, of other people's homes and of prices is no finding; praise of something else is
none of the component."""

from __future__ import annotations

import pytest

from tests.read.told import Narrator


@pytest.mark.parametrize(
    "said",
    [
        "You know what chips a sink is cast iron pans.",
        "I always say grease is what ruins a kitchen.",
        "A cracked step is how my father broke his hip.",
        "The guy downstairs has a stain on his ceiling and he blames everybody.",
        "My mother's place had a stain on the ceiling.",
        "What I'm after in here is burns, tears, anything in the carpet.",
        "That dent in the dishwasher got hammered out in spring.",
        "A guy quoted me nine hundred bucks for new windows on this side.",
        "I'm told the folks upstairs had a burst pipe at Christmas.",
        "A replacement carpet for a room like this, you're talking two grand.",
        "Trash is Thursdays.",
        "The last couple were lovely, they left me a fruitcake.",
        "My mother cleaned everything with vinegar.",
        "I had a couple upstairs put a hot pan down on one of these and it burned right through.",
        "We had a house once where every one of the alarms was dead.",
        "I've seen tenants crack the sink with a skillet.",
        "That's usually just the washer, the grit gets in there.",
        "Nine times out of ten that's limescale.",
        "What's wear and tear? Scuffs, faded paint, small nail holes, that's normal.",
        "Nobody's to chop on that counter.",
        "I had one over in number six where the shelf came down and cracked the tile.",
        "It's real wood, and it marks if you so much as breathe on it.",
        "So what's coming off is the burn, the wall holes and the oven.",
        "I'm fixing to do the walk on the last one.",
        "The oven came with the house and it's older than dirt.",
        "What you don't wanna see back here is rust on the valves, or a wet wall.",
        "I always say a chip is a chip, but a burn is your own doing.",
    ],
)
def test_talk_that_tells_of_no_flaw_here(said: str, entries: Narrator) -> None:
    assert entries(said, room="kitchen").conditions() == set()


@pytest.mark.parametrize(
    ("said", "wanted"),
    [
        ("The owner was worried about rust on this stove, I don't see any rust.", ("range", "rust", "absent")),
        ("I'm worried about the cabinet, it's swollen.", ("cabinet", "warp", "present")),
        ("Somebody hung a picture here and left four great holes in the wall.", ("wall", "hole", "present")),
        ("This is a gouge in the counter, a good six inches.", ("countertop", "gouge", "present")),
        (
            "There's grease on the hood, and that's what happens when nobody cleans.",
            ("range_hood", "grease", "present"),
        ),
        ("We had a family in here who were lovely, but the counter is chipped.", ("countertop", "chip", "present")),
        ("Couple of scuffs on the wall, that's normal wear.", ("wall", "scuff", "present")),
        ("It's usually stiff, this window.", ("window", "sticking", "present")),
        ("The wall is gone grubby all along here.", ("wall", "dirty", "present")),
        ("I dunno, the faucet musta leaked, the cabinet's swollen.", ("cabinet", "warp", "present")),
        ("Lemme see, there's a lotta dust on that sill.", ("window_sill", "dust", "present")),
        ("So the door is dented. So that's a new door.", ("door", "dent", "present")),
        ("There's a smell of smoke in here. Not bad, but it's there.", ("room_general", "odor", "present")),
        ("What I look for is leaks, and there's a little rust on the valve.", ("shutoff_valve", "rust", "present")),
        ("This window sticks if you open it fast.", ("window", "sticking", "present")),
        ("The fridge smells fresh.", ("refrigerator", "odor", "absent")),
        ("Not a one of the tiles is cracked.", ("tile", "crack", "absent")),
        ("The cabinet's a gray color, and the door of it is chipped.", ("cabinet", "chip", "present")),
        ("The counter has a burn. It got cleaned, and it didn't come out.", ("countertop", "burn", "present")),
    ],
)
def test_a_flaw_is_a_flaw_with_such_words_beside_it(said: str, wanted: tuple[str, str, str], entries: Narrator) -> None:
    told = entries(said, room="kitchen").conditions()
    assert wanted in told
    assert not {condition for _, condition, _ in told} & {"good", "new", "clean"}


def test_when_a_flaw_shows_is_no_advice(entries: Narrator) -> None:
    told = entries("The faucet's got a slow drip if you don't crank it.", room="kitchen").entries
    assert [one.kind for one in told] == ["condition"]


@pytest.mark.parametrize(
    ("said", "component", "count"),
    [
        ("Garage remotes, two of them, both with fresh batteries.", "garage_remote", 2),
        ("Here's the gate card, just the one.", "gate_card", 1),
        ("And gate cards for each of you, so that's three cards.", "gate_card", 3),
    ],
)
def test_the_number_of_what_is_handed_over_may_come_after_it(
    said: str, component: str, count: int, entries: Narrator
) -> None:
    told = [one for one in entries("Here is what you get.", said, room="entry").entries if one.kind == "handover"]
    assert [(one.component, one.quantity) for one in told] == [(component, count)]


def test_a_clean_unit_is_the_whole_of_it_in_whatever_room_it_is_said(entries: Narrator) -> None:
    told = entries("So overall it's a nice clean unit.", room="storage").entries
    assert [(one.room, one.component, one.condition) for one in told] == [("whole_unit", "room_general", "clean")]
