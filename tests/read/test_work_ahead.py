"""Work that no word of work tells: by a list, by what is on its way, by its time, by what will become of the flaw."""

from __future__ import annotations

import pytest

from tests.read.told import Narrator


@pytest.mark.parametrize(
    ("room", "said", "component", "action"),
    [
        ("entry", "The hinge is loose, so that goes on the joiner's sheet.", "hinge", "secure"),
        ("kitchen", "The tap is dripping, I've logged a job for it.", "faucet", "repair"),
        ("bathroom", "The towel rail is cracked, I'll be asking the owner for a new one.", "towel_bar", "replace"),
        ("bedroom", "The blind is broken, there's a new one coming in the mail.", "blinds", "replace"),
        ("kitchen", "The fridge gasket is torn, the part should be here in three days.", "door_gasket", "repair"),
        ("hallway", "The wall is scuffed, and the decorator's got it down for Wednesday.", "wall", "repair"),
        ("kitchen", "The drawer is loose, Duncan's coming by with longer screws.", "drawer", "secure"),
        (
            "kitchen",
            "The counter has a burn, and I'm requesting a quote to have it resurfaced.",
            "countertop",
            "inspect",
        ),
        ("balcony", "The drain is clogged, it'll be blown out.", "drain", "repair"),
        ("bedroom", "The carpet has a stain, the steam people will attack it with vinegar.", "carpet", "clean"),
        ("bedroom", "There are two nail holes in the wall, to be filled and painted.", "wall", "repair"),
        ("bathroom", "New seat required.", "toilet_seat", "replace"),
    ],
)
def test_what_will_be_done_is_work(room: str, said: str, component: str, action: str, entries: Narrator) -> None:
    lines = ("The seat is cracked.", said) if said.startswith("New seat") else (said,)
    assert entries(*lines, room=room).follow_ups() == [(component, action)]


@pytest.mark.parametrize(
    ("said", "component"),
    [
        ("Would somebody please get this lock re-keyed before Friday?", "lock"),
        ("Can you guys bring a new screen for this window, the screen is ripped.", "window_screen"),
        ("Are you able to get that light switch swapped while you're up here?", "switch"),
        ("Could we get the faucet replaced please?", "faucet"),
    ],
)
def test_a_request_is_work_though_it_is_a_question(said: str, component: str, entries: Narrator) -> None:
    assert component in [one for one, _ in entries(said, room="bedroom").follow_ups()]


@pytest.mark.parametrize(
    "said",
    [
        "The wall has a hole, I'll take a picture of it.",
        "The carpet has a stain, I'll show you on the video.",
        "The counter is chipped, we'll call that wear.",
        "The seat is loose, it'll last another year.",
        "The blind is broken, they'll be charged for it.",
        "The blind is broken, I'm having a coffee after this.",
        "The wall is scuffed, I'm asking eighty for it.",
        "The tap drips, and you move in Friday.",
        "The lock sticks, so it'll hold till Monday.",
        "The faucet is dripping, I'll check on the way out.",
        "The wall is scuffed, that's not on my list.",
        "Can you see the stain on the carpet?",
        "The oven is dirty, I'm not turning that on tonight.",
        "The sweep comes every October.",
    ],
)
def test_what_mends_nothing_is_no_work(said: str, entries: Narrator) -> None:
    assert entries(said, room="kitchen").follow_ups() == []


@pytest.mark.parametrize(
    ("room", "said", "component"),
    [
        ("bedroom", "The radiator I'm not going to test today, the boiler is off for service.", "radiator"),
        ("bedroom", "I won't be testing the radiator, the boiler is off for service.", "radiator"),
        ("bathroom", "The shower I won't test today, the water is off for repairs.", "shower"),
        ("bathroom", "I'm not going to run the taps, the water is off for repairs today.", "faucet"),
        ("bathroom", "I'm not going to try the fan, the electrics are off for the repair.", "exhaust_fan"),
    ],
)
def test_what_is_not_going_to_be_tried_is_not_tested_and_no_work(
    room: str, said: str, component: str, entries: Narrator
) -> None:
    told = entries(said, room=room)
    assert told.checks() == [(component, "not_tested")]
    assert told.follow_ups() == []


@pytest.mark.parametrize(
    "said",
    [
        "The tap is dripping, I'm not going to fix that today.",
        "The tap is dripping, we won't be replacing the washer.",
        "The tap is dripping, I won't be mending that and painting over it.",
    ],
)
def test_what_will_not_be_done_is_no_work(said: str, entries: Narrator) -> None:
    assert entries(said, room="kitchen").follow_ups() == []


@pytest.mark.parametrize(
    ("said", "work"),
    [
        ("The bulb is out, I'm going to replace the bulb.", ("light_bulb", "replace")),
        ("The wall has a hole, I'm not going to patch that myself, maintenance will.", ("wall", "repair")),
        ("The wall is scuffed, I won't paint the whole wall, I'll touch it up.", ("wall", "touch_up")),
        ("The switch is broken, I put the switch down for replacement.", ("switch", "replace")),
    ],
)
def test_what_somebody_will_do_is_work_though_not_all_of_it(
    said: str, work: tuple[str, str], entries: Narrator
) -> None:
    assert entries(said, room="kitchen").follow_ups() == [work]


def test_what_is_spoken_of_in_the_same_sentence_is_worked_on_and_not_an_older_flaw(entries: Narrator) -> None:
    lines = ("The baseboard is cracked.", "The smoke alarm is old, it's being swapped out.")
    told = entries(*lines, room="living room").follow_ups()
    assert [component for component, _ in told] == ["smoke_alarm"]


def test_work_is_done_on_the_screen_and_not_on_the_window_it_is_on(entries: Narrator) -> None:
    told = entries("The screen needs re-fixing on that far window.", room="bedroom").follow_ups()
    assert told == [("window_screen", "secure")]


@pytest.mark.parametrize(
    ("room", "lines", "work"),
    [
        ("bedroom", ("The carpet is burnt.", "It won't come out, so we're replacing it."), ("carpet", "replace")),
        ("kitchen", ("The disposal just hums.", "I'll pull it and see what's stuck."), ("garbage_disposal", "inspect")),
        (
            "hallway",
            ("The smoke alarm is missing.", "I've got a spare in the truck, it's going up today."),
            ("smoke_alarm", "replace"),
        ),
        ("kitchen", ("The drip pans are rusted.", "Four new ones, they're cheap."), ("drip_pan", "replace")),
        ("bathroom", ("The toilet keeps running.", "New flapper for that one."), ("toilet", "replace")),
        ("bathroom", ("The mirror is cracked.", "We've a new one coming."), ("mirror", "replace")),
        ("bathroom", ("The faucet drips.", "Please fix it."), ("faucet", "repair")),
        ("bedroom", ("Two bulbs are out.", "Change all four, please."), ("light_bulb", "replace")),
        ("entry", ("Please put in a work order for a new weatherstrip.",), ("weatherstrip", "replace")),
        ("bathroom", ("The faucet drips.", "I've already reported it."), ("faucet", "repair")),
        ("bathroom", ("The faucet drips.", "Maintenance is aware and they'll be out tomorrow."), ("faucet", "repair")),
        ("living room", ("The ceiling has a crack.", "I would like the builder to see this."), ("ceiling", "inspect")),
        ("bedroom", ("The fan is noisy.", "I'll tell the electrician to see it."), ("ceiling_fan", "inspect")),
        ("hallway", ("The wall is scuffed.", "Painter's starting Monday."), ("wall", "repair")),
        ("yard", ("The fence is leaning.", "I'm getting a quote for that."), ("fence", "inspect")),
        ("bedroom", ("The door doesn't latch.", "It needs the hinge moving over."), ("hinge", "repair")),
        ("entry", ("The door is sticking.", "Building management have been emailed."), ("door", "repair")),
        ("bathroom", ("The mirror is cracked.", "The owner has approved a new one."), ("mirror", "replace")),
        ("bathroom", ("The mirror is cracked.", "I'm after a replacement."), ("mirror", "replace")),
        ("entry", ("The mailbox is jammed.", "Waiting to hear back from the locksmith."), ("mailbox", "repair")),
        ("kitchen", ("The grout is stained.", "We'll see if it comes up with bleach."), ("grout", "clean")),
        ("bathroom", ("The fan is noisy.", "We can get that looked at."), ("exhaust_fan", "inspect")),
        ("bedroom", ("The wall is scuffed.", "It'll get rubbed down with the rest."), ("wall", "repair")),
        ("kitchen", ("The dishwasher leaks.", "I've booked it in for the twelfth."), ("dishwasher", "repair")),
        ("porch", ("The step is loose.", "I've got a guy coming Saturday to look at that."), ("stair", "inspect")),
        ("kitchen", ("The sink is chipped.", "I'd want it looked at before I say who pays."), ("sink", "inspect")),
        ("bathroom", ("The seat's cracked, so that's a new one.",), ("toilet_seat", "replace")),
        ("kitchen", ("The drawer is loose.", "I'll get some wood glue in that."), ("drawer", "repair")),
        ("bathroom", ("The shower door is dirty.", "It needs a good going over."), ("shower_door", "clean")),
        ("bathroom", ("The caulk is black.", "Need to do again."), ("caulk", "repair")),
        ("bedroom", ("The slats are snapped.", "Easier to replace the whole blind."), ("blinds", "replace")),
        ("kitchen", ("The drawer is loose.", "A longer screw should fix it."), ("drawer", "repair")),
        ("kitchen", ("The faucet drips.", "All it needs is a new washer."), ("faucet", "replace")),
        ("kitchen", ("The cooktop is broken.", "Reported to the agent."), ("cooktop", "repair")),
        ("bathroom", ("The sink is cracked.", "See if we can source one."), ("sink", "supply")),
        ("bedroom", ("The ceiling is peeling.", "On the schedule for a repaint."), ("ceiling", "touch_up")),
        ("kitchen", ("The drawer is broken.", "I'll come back with tools."), ("drawer", "repair")),
        ("kitchen", ("The faucet drips.", "That's one for the list."), ("faucet", "repair")),
        (
            "living room",
            ("The carpet has a burn.", "The carpet man reckons he can patch it, he's coming Tuesday."),
            ("carpet", "repair"),
        ),
        (
            "living room",
            ("The radiator is cold.", "My colleague will pop round to bleed it once the boiler is on."),
            ("radiator", "repair"),
        ),
    ],
)
def test_work_is_told_by_what_is_on_its_way_or_under_way(
    room: str, lines: tuple[str, ...], work: tuple[str, str], entries: Narrator
) -> None:
    told = entries(*lines, room=room)
    assert told.follow_ups() == [work]
    assert not [one for one in told.entries if one.kind == "advice"]


@pytest.mark.parametrize("again", ["I'll do it before I leave.", "I'll get that done Monday."])
def test_work_told_once_more_is_one_entry_with_both_sentences(again: str, entries: Narrator) -> None:
    told = entries("The toilet is loose.", "The bolts need tightening.", again, room="bathroom")
    work = [one for one in told.entries if one.kind == "follow_up"]
    assert [(one.component, one.action) for one in work] == [("toilet", "secure")]
    assert len(work[0].evidence) == len(("The bolts need tightening.", again))


def test_both_are_ordered_of_two_things_told_as_broken(entries: Narrator) -> None:
    told = entries(
        "The seat is cracked and the towel bar is loose.", "I'll order both this afternoon.", room="bathroom"
    )
    assert told.follow_ups() == [("toilet_seat", "replace"), ("towel_bar", "replace")]


@pytest.mark.parametrize(
    "lines",
    [
        ("The wall has a scuff.", "That must have been the movers."),
        ("The wall has a ding.", "Sorry about that, that's the maintenance man."),
        ("The wall has a ding.", "Hang on, the maintenance man's on the phone."),
        ("The wall is scuffed.", "The curtains were laundered on Monday and they're hanging properly."),
        ("The cabinet is damp.", "Had a look myself and, yeah, there's a leak."),
        ("The cabinet is scratched.", "I'll put a pot on, there, it's heating."),
        ("The ceiling has a crack.", "If it gets worse we'll get the plumber back."),
        ("The wall is scuffed.", "It'll get scuffed again when they move in."),
        ("The wall is scuffed.", "I'll do those rooms next."),
        ("The floor is scratched.", "My dad and me did these floors in ninety-eight."),
        ("They spilt oil on the floor.", "Had to have it sanded."),
        ("They want a bath instead of the shower, the owner said no.",),
        ("I've ten minutes before the painters get here.",),
        ("The filter is dusty.", "Please replace it every month."),
        ("The bulb is out.", "Please replace your own bulbs."),
    ],
)
def test_who_somebody_is_and_what_was_done_is_no_work(lines: tuple[str, ...], entries: Narrator) -> None:
    assert entries(*lines, room="living room").follow_ups() == []


@pytest.mark.parametrize(
    ("said", "wanted"),
    [
        (("The carpet is shot.", "Tear it all out and put down vinyl plank."), ("carpet", "replace")),
        (
            ("The wall has nail holes all over.", "Patch all that and shoot it with a coat of the beige."),
            ("wall", "repair"),
        ),
        (("They left me an old sofa.", "Haul all that off."), ("furniture", "clean")),
    ],
)
def test_a_note_to_oneself_is_work(entries: Narrator, said: tuple[str, ...], wanted: tuple[str, str]) -> None:
    told = entries(*said, room="living room")
    assert wanted in told.follow_ups(), told.told()
    assert not [one for one in told.entries if one.kind == "advice"], told.told()


@pytest.mark.parametrize(
    ("lines", "component"),
    [
        (
            ("The blind is broken.", "The hood is a museum piece.", "I'm going to fix it today."),
            "range_hood",
        ),
        (("The tap drips.", "The worktop is fine.", "I'll get that fixed."), "faucet"),
        (("The tap drips.", "They never lift the lid of the bin.", "I'll get that fixed."), "faucet"),
    ],
)
def test_work_is_for_what_was_spoken_of_since_the_last_flaw(
    lines: tuple[str, ...], component: str, entries: Narrator
) -> None:
    assert entries(*lines, room="kitchen").follow_ups() == [(component, "repair")]


@pytest.mark.parametrize(
    ("lines", "work"),
    [
        (("There are boxes stacked in front of the oven.", "Those have to be shifted."), []),
        (("The oven is thick with grease.", "That needs to come up before they go, it's on them."), ("oven", "clean")),
        (("The cover is missing from the outlet.", "That's got to be found."), ("cover_plate", "supply")),
        (("The hood is not working.", "Electrician is required for this one."), ("range_hood", "repair")),
        (("The pipe is dripping.", "Plumber needed for that."), ("pipe", "repair")),
        (("The tile is loose.", "That's common property, so the strata can get it fixed."), ("tile", "repair")),
        (("The wall is damp.", "The society promised to do the waterproofing."), ("wall", "treat")),
        (("The wall is full of scuffs.", "It has to go back to white."), ("wall", "touch_up")),
        (("The pipe is dripping.", "I come back later to see if it stopped."), ("pipe", "inspect")),
        (("The gasket is torn.", "We ordered a new one already."), ("door_gasket", "replace")),
        (("The carpet is coming away.", "A few tacks will hold it."), ("carpet", "repair")),
        (("The drawer is off the runner.", "I've got a chap for that."), ("drawer", "repair")),
        (("The gate is hanging off.", "The landlord says he will sort it next week."), ("gate", "repair")),
        (("The blind is missing.", "The owner is sending a new one."), ("blinds", "supply")),
        (("The wall has a dent.", "Filler and a lick of paint."), ("wall", "touch_up")),
        (("The tap is loose.", "Quick tighten on that."), ("faucet", "secure")),
        (("The rail is loose.", "I go to fix with bigger screws."), ("railing", "repair")),
        (("The filter is dirty.", "New filter, and somebody tighten that vent."), ("hood_filter", "replace")),
        (("The wall has a hole.", "Patch that, plus a new door stop."), ("door_stop", "replace")),
        (("They left food in the freezer.", "All that has to go."), ("freezer", "clean")),
        (("The doorstop is missing.", "I'll have one sent over."), ("door_stop", "supply")),
        (("Two tiles are cracked.", "Tiler to quote for the two of those."), ("tile", "inspect")),
        (("The caulk is full of mold.", "You have to take out all that and put new one."), ("caulk", "replace")),
    ],
)
def test_work_is_told_by_what_must_become_of_the_flaw(
    lines: tuple[str, ...], work: tuple[str, str], entries: Narrator
) -> None:
    told = entries(*lines, room="kitchen")
    assert work in told.follow_ups() if work else "advice" not in [one.kind for one in told.entries]
    assert "advice" not in [one.kind for one in told.entries]


@pytest.mark.parametrize(
    ("flaw", "said"),
    [
        ("The lock is stiff.", "Photos to follow, typing it up this afternoon."),
        ("The door is sticking.", "It has to be pushed hard."),
        ("The floor is soft.", "Hold on, that's my wife, she can wait."),
        ("The floor is soft.", "My wife keeps saying we should have tiles."),
        ("The floor is soft.", "They have to be told about it."),
        ("The floor is soft.", "They'd said they would fix it, and they did."),
        ("The smoke alarm is not working.", "That was a new one. New one in."),
        ("The floor is soft.", "I borrowed the spare key, that goes back tonight."),
        ("The disposal is jammed.", "A service call for a spoon in the disposal is on you."),
        ("The blind is stiff.", "Don't yank on that cord, just ease it down."),
        ("The filter is dirty.", "Tenant to wash those out every couple of months."),
    ],
)
def test_paper_talk_and_how_a_thing_goes_are_no_work(flaw: str, said: str, entries: Narrator) -> None:
    assert entries(flaw, said, room="kitchen").follow_ups() == []
