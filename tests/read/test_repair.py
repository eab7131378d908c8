"""Words of the trade that were misheard are read as they were meant, and ordinary English is left alone."""

from __future__ import annotations

import pytest

from tests.read.told import Narrator
from tests.read.walks import Spoken, Walk

MISHEARD: list[tuple[str, str, str, str]] = [
    # room, as transcribed, component, condition
    ("bathroom", "The cork around the tub is cracked.", "caulk", "crack|failed_sealant"),
    ("bathroom", "The coking behind the sink is cracked.", "caulk", "crack|failed_sealant"),
    ("bathroom", "The grouch in the shower tile is stained.", "grout", "stain"),
    ("bathroom", "There's mill dew on the ceiling.", "ceiling", "mold"),
    ("bathroom", "There's a ship in the tub.", "bathtub", "chip"),
    ("bathroom", "The fawcett drips.", "faucet", "leak"),
    ("bathroom", "The tile around the tub has sope scum on it.", "tile", "soap_scum"),
    ("bathroom", "The towel bark is loose.", "towel_bar", "loose"),
    ("bathroom", "The tower bar is missing.", "towel_bar", "missing"),
    ("bathroom", "The toilet seed is cracked.", "toilet_seat", "crack"),
    ("bathroom", "The shower rot is bent.", "shower_rod", "bent"),
    ("bathroom", "The exhaust van is dirty.", "exhaust_fan", "dirty"),
    ("bathroom", "There's lime scale on the shower had.", "shower_head", "mineral_deposit"),
    ("bathroom", "The medicine cabin it is rusty.", "medicine_cabinet", "rust"),
    ("bathroom", "The toilet is lose.", "toilet", "loose"),
    ("kitchen", "The drip pants are burnt.", "drip_pan", "burn"),
    ("kitchen", "The range hoot is greasy.", "range_hood", "grease"),
    ("kitchen", "The crisp or drawer is cracked.", "crisper_drawer", "crack"),
    ("kitchen", "The fridge gas kit is torn.", "door_gasket", "tear"),
    ("kitchen", "The back splash is cracked.", "backsplash", "crack"),
    ("kitchen", "The cabin at door is loose.", "cabinet", "loose"),
    ("kitchen", "There are dense and scratches on the fridge.", "refrigerator", "dent"),
    ("kitchen", "The oven wrack is rusty.", "oven_rack", "rust"),
    ("kitchen", "The dish washer is dented.", "dishwasher", "dent"),
    ("kitchen", "The counter top is chipped.", "countertop", "chip"),
    ("kitchen", "There's a leek under the sink.", "sink|pipe", "leak"),
    ("bedroom", "The base bored is scuffed.", "baseboard", "scuff"),
    ("bedroom", "The bass boards are dusty.", "baseboard", "dust"),
    ("bedroom", "There are nil holes in the wall.", "wall", "nail_hole"),
    ("bedroom", "There are scoffs on the wall.", "wall", "scuff"),
    ("bedroom", "The door jam is cracked.", "door_frame", "crack"),
    ("bedroom", "The door nob is loose.", "door_knob", "loose"),
    ("bedroom", "The window seal is dusty.", "window_sill", "dust"),
    ("bedroom", "The window scream is torn.", "window_screen", "tear"),
    ("bedroom", "There are cop webs on the ceiling.", "ceiling", "cobweb"),
    ("bedroom", "The closet door is off of its tracked.", "closet_door", "misaligned"),
    ("hallway", "The thresh hold is loose.", "threshold", "loose"),
    ("entry", "The gatefob is missing.", "fob", "missing"),
    ("kitchen", "Both drippans are rusty.", "drip_pan", "rust"),
    ("hallway", "The smoke along is missing.", "smoke_alarm", "missing"),
    ("hallway", "The pain is pealing on the wall.", "wall|paint", "peeling"),
    ("entry", "The whether strip is torn.", "weatherstrip", "tear"),
    ("entry", "The dead bold is sticking.", "lock", "sticking"),
    ("living room", "The carpet is afraid at the seam.", "carpet", "fray"),
    ("living room", "There's a gorge in the floor.", "floor", "gouge"),
    ("laundry room", "The lent trap is full of dust.", "lint_trap", "dust|dirty|debris|clog"),
]


@pytest.fixture(scope="module")
def misheard(entries: Narrator) -> Walk[str]:
    return Walk(entries, {said: Spoken(room, said) for room, said, _, _ in MISHEARD})


@pytest.mark.parametrize(
    ("said", "component", "condition"), [row[1:] for row in MISHEARD], ids=[said for _, said, _, _ in MISHEARD]
)
def test_a_misheard_word_is_read_as_it_was_meant(
    said: str, component: str, condition: str, misheard: Walk[str]
) -> None:
    given = misheard.given(said)
    found = [one for one in given if one.component in component.split("|") and one.condition in condition.split("|")]
    assert found, [(one.component, one.condition) for one in given]
    assert {entry.assertion for entry in found} == {"present"}
    assert all(piece.quote == said for entry in found for piece in entry.evidence)


TWO_SPELLINGS = frozenset({"back splash", "counter top", "dish washer"})
"""Heard rightly and only written in another way: read all the same, with or without a repair."""


GARBLED = [said for _, said, _, _ in MISHEARD if not any(words in said for words in TWO_SPELLINGS)]


@pytest.mark.parametrize("said", GARBLED)
def test_a_repair_shows_what_was_heard(said: str, misheard: Walk[str]) -> None:
    repairs = [repair for entry in misheard.given(said) for repair in entry.heard]
    assert repairs
    for repair in repairs:
        assert repair.heard in said
        assert repair.heard.lower() != repair.read.lower()


TRADE = """\
The countertop is clean, and there are no chips in it.
The range hood is greasy and the nail holes by the window are small.
The smoke alarm is mounted on the ceiling, and the light fixture is dusty.
Somebody left a cork in the drawer and a towel on the tile.
The clock above the tub is cracked.
There's a group of tiles that are stained, and one is loose.
A chair scraped the wall, and the wall is scuffed.
The vent in the wall is dusty, and the one in the floor is bent.
The seal on the window is torn.
There's steam from the shower, and the ceiling is stained.
The tap in the bathroom leaks.
The basket in the dishwasher is broken.
The blinds are dusty and the slats are bent.
The fridge is loud, and the door of the fridge is dented.
The hinge is rusty, the door is hinged on the left.
People scuffed the door, and the lock is stiff.
There's a dent in the door and a scratch on the frame.
I tried the door and it worked, and the deadbolt is fine.
We had the best tiles put down, and they're spotless.
The lead paint notice is on the wall, and the paint is peeling.
There's a brick wall, and one brick is cracked.
A leaf blew in on the floor, the floor is dirty.
The route from the shower to the tile edge is wet.
There's a scarf left on the floor.
I need to re-caulk the tub, the caulk is cracked.
The shelf still has dust on it.
There's a lead pipe under the sink, no rust.
There's a coke stain around the sink.
There's a coffee stain in the tub.
We'll talk about the tub in a minute, it's chipped.
It's a cheap laminate, and the edge of the counter is chipped.
The den is a good size, and the carpet is clean.
The vent is dusty, it's about the size of a shoe box.
The sheet vinyl by the toilet is loose.
The final thing is the floor, and it's scratched.
The mode switch on the fan is loose.
The pan left a burn on the counter.
The rest of the carpet is stained.
""".splitlines()

PLAIN = """\
The people upstairs dance to the clock radio until it gets dense with smoke.
I was afraid the whole group would stay, so we took another route home.
She wore a scarf and gloves because the tent was cold in March.
He plays the bass, and his sister is in a rock band with a tall singer.
They granted us a final visit before the courts closed for the day.
We ran out of coke and coffee, so there was only lemonade and chalk.
My uncle keeps a cock and two hens behind the shed, and he sells corks.
The league table is out, and the leaders are pulling away again.
There was a crust of bread, some mint and a roast on the stove.
A van came round with leeks and soup, and a man called Jim sold us tiers of cake.
The marches last spring were peaceful, and the growth was good.
I lose my place in the book when the ships go by.
Nobody knows which rusk the baby likes, and the growl of the dog is no help.
A vine grew on the gauge, and a flint was found in the gorge.
He was born in a small town and worked as a tailor on the root of the hill.
The drought is over, and the brook runs over the ground again.
Hold the balance, breathe, and let the feeling pass.
We took the cab in the rain and paid for it with dance lessons.
The creak in that old song is only the fiddle.
It was a cheap flight, and the crew were kind to all of us.
""".splitlines()


@pytest.fixture(scope="module")
def heard_rightly(entries: Narrator) -> Walk[str]:
    return Walk(entries, {line: Spoken("bathroom", line) for line in TRADE})


@pytest.mark.parametrize("line", TRADE)
def test_what_was_heard_rightly_is_not_repaired(line: str, heard_rightly: Walk[str]) -> None:
    repairs = [(repair.heard, repair.read) for entry in heard_rightly.given(line) for repair in entry.heard]
    assert repairs == []


def test_a_page_of_ordinary_english_is_left_alone(entries: Narrator) -> None:
    told = entries(*PLAIN, room="living room")
    repairs = [(repair.heard, repair.read) for entry in told.entries for repair in entry.heard]
    assert repairs == [], told.told()


def test_nothing_is_found_broken_in_a_page_of_ordinary_english(entries: Narrator) -> None:
    told = entries(*PLAIN, room="living room")
    assert [entry.evidence[0].quote for entry in told.entries if entry.kind in {"condition", "check"}] == [], (
        told.told()
    )


SMALL_WORDS = [
    # room, as transcribed, what one entry tells
    ("bedroom", "Outlets, I plugged my lamp in everyone, they all work.", "outlet works"),
    ("bedroom", "To of the slats are bent.", "blinds bent 2"),
    ("bedroom", "There are to holes in the wall.", "wall hole 2"),
    ("kitchen", "Hold out your hand to apartment keys, one mailbox key.", "key 2"),
    ("kitchen", "One of the shelves and the fridge has got a crack.", "refrigerator_shelf crack"),
    ("kitchen", "The cabinets are oak, the door's all close.", "cabinet works"),
    ("bedroom", "There's a hole. I'll patch that in touch up the paint.", "paint touch_up"),
    ("kitchen", "All bath. The tub is cracked.", "bathroom.hall bathtub crack"),
]


@pytest.mark.parametrize(("room", "heard", "meant"), SMALL_WORDS)
def test_a_small_word_is_another_of_its_sound(room: str, heard: str, meant: str, entries: Narrator) -> None:
    told = entries(heard, room=room)
    read = [
        {one.room, one.component, one.condition or one.outcome or one.action} | {f"{one.quantity}"}
        for one in told.entries
    ]
    assert any(set(meant.split()) <= {str(value) for value in one} for one in read), read


@pytest.mark.parametrize(
    ("room", "line"),
    [
        ("kitchen", "Moving on to house keys."),
        ("kitchen", "Okay everyone, this is the kitchen."),
        ("kitchen", "We get in touch the day before."),
        ("hallway", "The closet and the bath are all closed up."),
        ("kitchen", "The shelves and the fridge are clean."),
        ("kitchen", "All closet doors slide."),
    ],
)
def test_small_words_that_make_sense_stand(room: str, line: str, entries: Narrator) -> None:
    assert not any(one.heard for one in entries(line, room=room).entries)
    assert entries(line, room=room).sentences[-1].spoken.heard == ()


@pytest.mark.parametrize(
    ("lines", "meant"),
    [
        (("Upspairs, the handrail is loose.",), "stairs railing loose"),
        (("Gerage, the floor is cracked.",), "garage floor crack"),
        (("Laundryroom, the washer is dented.",), "laundry washer dent"),
        (("2nd bedroom, the carpet is torn.",), "bedroom.2 carpet tear"),
        (("Bedroom #2. The carpet is torn.",), "bedroom.2 carpet tear"),
        (("The small one, bedroom 2, the carpet is torn.",), "bedroom.2 carpet tear"),
        (("Patio's slider.", "The handle is loose."), "kitchen door_knob loose"),
        (("Doorbell, nothing, press it again, nothing.",), "doorbell fails"),
        (("Light.", "Nothing."), "light_fixture fails"),
        (("Disposal nothing, not even a hum.",), "garbage_disposal fails"),
        (("The smoke alarm chirped, so boom, swapped, and test there we go.",), "smoke_alarm works"),
        (("Doorbellyep. I can hear it.",), "doorbell works"),
        (("Porch light, flick, no, dead bulb.",), "light_fixture burned_out present"),
        (("The dishwasher, don't ask, it drains.",), "dishwasher works"),
        (("The oven, grease an inch thick.",), "oven grease present"),
        (("Anti-tip bracket, looked for it, missing.",), "anti_tip_bracket missing"),
        (("Two house keys.", "That's right, one garage opener, and the shed key."), "garage_remote 1"),
        (("Floor sheet vinyl, it's clean.",), "floor description"),
        (("The carpet has some where on the edge.",), "carpet worn"),
    ],
)
def test_stops_and_commas_changed_places(lines: tuple[str, ...], meant: str, entries: Narrator) -> None:
    told = entries(*lines, room="kitchen").entries
    read = [
        {one.room, one.component, one.kind, one.condition, one.outcome, one.assertion, f"{one.quantity}"}
        for one in told
    ]
    assert any(set(meant.split()) <= one for one in read), read


def test_praise_repeated_word_for_word_is_one_entry(entries: Narrator) -> None:
    told = entries("Outlets, I got my tester.", "That one's good.", "That one's good.", room="bedroom")
    assert [len(one.evidence) for one in told.entries if one.condition == "good"] == [2]


@pytest.mark.parametrize("line", ["Light. Fine.", "Carol, the tub is dry.", "The panel? Let me look."])
def test_what_is_only_named_has_not_failed(line: str, entries: Narrator) -> None:
    assert not [one for one in entries(line, room="kitchen").entries if one.outcome == "fails"]
