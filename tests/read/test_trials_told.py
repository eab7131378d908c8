"""Trials as people tell them: in pieces, over two sentences, of several of a kind, and those that were left alone."""

from __future__ import annotations

import pytest

from tests.read.told import Narrator
from tests.read.wanted import Want, check, condition, difference

WORKS, FAILS, LEFT = "works", "fails", "not_tested"


def _holds(room: str, lines: str | tuple[str, ...], wanted: list[tuple[str, str]], entries: Narrator) -> None:
    told = entries(*((lines,) if isinstance(lines, str) else lines), room=room)
    checks = tuple(one for one in told.entries if one.kind == "check")
    wants: list[Want] = [check(component, outcome) for component, outcome in wanted]
    wrong = difference(checks, wants)
    assert not wrong, f"{wrong}\n{told.told()}"


@pytest.mark.parametrize(
    ("room", "lines", "wanted"),
    [
        ("bedroom", "Detector, button, beep.", [("smoke_alarm", WORKS)]),
        ("hallway", "Smoke detector, I hold the button... it screams. Good.", [("smoke_alarm", WORKS)]),
        ("hallway", ("Next the smoke alarm.", "Pressing it now... there it goes."), [("smoke_alarm", WORKS)]),
        ("hallway", ("Smoke alarm, pressing the test button.", "Nothing at all."), [("smoke_alarm", FAILS)]),
        ("hallway", "CO alarm in the corner, I press it, it's loud.", [("co_alarm", WORKS)]),
        ("living room", "The alarm, let me fetch the broom handle... and there she goes.", [("smoke_alarm", WORKS)]),
        ("entry", "Doorbell, I press... nothing.", [("doorbell", FAILS)]),
        ("bathroom", "Exhaust fan, flip the switch... nothing.", [("exhaust_fan", FAILS)]),
        ("kitchen", ("Now the disposal.", "I flip the switch, it runs."), [("garbage_disposal", WORKS)]),
        ("kitchen", ("The disposal.", "I hit the button and take the wrench... okay, it runs now."),
         [("garbage_disposal", WORKS)]),
        ("bathroom", "Heater, if I can reach the cord... there, it's working.", [("heater", WORKS)]),
    ],
)  # fmt: skip
def test_a_trial_told_in_pieces_has_one_result(
    room: str, lines: str | tuple[str, ...], wanted: list[tuple[str, str]], entries: Narrator
) -> None:
    _holds(room, lines, wanted, entries)


@pytest.mark.parametrize(
    ("lines", "wanted"),
    [
        (("Smoke alarm, pressing it... nothing.", "Pressing it again... no, nothing."), [("smoke_alarm", FAILS)]),
        (("Smoke alarm, pressing it... nothing.", "Once again... there it goes."), [("smoke_alarm", WORKS)]),
        (("Smoke alarm, pressing it... nothing.", "Let me try a new battery. There, beeping."),
         [("smoke_alarm", FAILS), ("smoke_alarm", WORKS)]),
        (("Smoke alarm, pressing it... yep.", "Works."), [("smoke_alarm", WORKS)]),
        (("Left outlet fails.", "Right outlet fails."),
         [("outlet", FAILS), ("outlet", FAILS)]),
    ],
)  # fmt: skip
def test_a_second_go_stands_for_the_first_unless_something_was_mended(
    lines: tuple[str, ...], wanted: list[tuple[str, str]], entries: Narrator
) -> None:
    _holds("bedroom", lines, wanted, entries)


@pytest.mark.parametrize(
    ("room", "lines"),
    [
        ("entry", "Let me see, the doorbell's missing, yes."),
        ("entry", ("Doorbell, pressing it.", "No marks on the walls here.")),
        ("kitchen", ("Let me slide the drip tray out.", "Okay, living room.")),
        ("living room", "Let me see if I can snap the thermostat cover back... no, the tab's broken."),
        ("bedroom", "He leaves the window open all day."),
        ("bedroom", "Somebody painted the window shut."),
        ("bedroom", "The window is open right now."),
        ("bathroom", "Use the fan and open the window."),
        ("kitchen", "That's the works, thanks everybody."),
        ("yard", ("The outside tap is by the door.", "Turning this off now.")),
        ("living room", "My van's AC is dead."),
        ("bathroom", "The sink drains, but slowly."),
        ("bathroom", "The tub drains a little slow."),
        ("bathroom", "The toilet is refilling constantly."),
        ("living room", "They tested the alarms last year."),
        ("living room", "Please don't light the fireplace."),
        ("living room", "The radiator is too hot to touch."),
    ],
)
def test_what_looks_like_a_result_and_is_none(room: str, lines: str | tuple[str, ...], entries: Narrator) -> None:
    _holds(room, lines, [], entries)


@pytest.mark.parametrize(
    ("room", "said", "wanted"),
    [
        ("bedroom", "Window opens, closes, locks.", [("window", WORKS), ("window_lock", WORKS)]),
        ("bedroom", "Both windows open, both lock.", [("window", WORKS), ("window_lock", WORKS)]),
        ("entry", "The door shuts and locks.", [("door", WORKS), ("lock", WORKS)]),
        ("yard", "Gate latches.", [("gate", WORKS)]),
        ("entry", "Lock works, knob's loose.", [("lock", WORKS)]),
        ("kitchen", "Fridge is on, freezer's on.", [("refrigerator", WORKS), ("freezer", WORKS)]),
        ("living room", "The ceiling fan runs on all three speeds.", [("ceiling_fan", WORKS)]),
        ("kitchen", "The cover is on.", []),
        ("living room", "The fan works, the light does not.", [("ceiling_fan", WORKS), ("light_fixture", FAILS)]),
        ("bathroom", "The fan spins but it isn't pulling.", []),
    ],
)
def test_what_a_thing_does_is_a_check_of_its_own(
    room: str, said: str, wanted: list[tuple[str, str]], entries: Narrator
) -> None:
    _holds(room, said, wanted, entries)


@pytest.mark.parametrize(
    ("said", "wanted"),
    [
        ("Four burners, this one good, this one good, and the small one is not coming on.",
         [("burner", WORKS), ("burner", FAILS)]),
        ("Burners, let me get them going... one, two, three... and the front left, nothing.",
         [("burner", WORKS), ("burner", FAILS)]),
        ("The hob has four rings, I tried all of them.", [("burner|cooktop", WORKS)]),
        ("Let me count the burners... one, two, three, four.", []),
        ("I tested the burners just now and one of them fails.", [("burner", FAILS)]),
    ],
)  # fmt: skip
def test_several_of_a_kind_are_told_off_one_by_one(said: str, wanted: list[tuple[str, str]], entries: Narrator) -> None:
    _holds("kitchen", said, wanted, entries)


@pytest.mark.parametrize(
    ("room", "said", "wanted"),
    [
        ("kitchen", "Tap on, hot's hot, cold's cold.", [("faucet", WORKS)]),
        ("kitchen", "Hot and cold both run.", [("faucet", WORKS)]),
        ("bathroom", "The shower was hot within a few seconds.", [("shower|faucet", WORKS)]),
        ("utility room", "The boiler's pressure is right where it should be.", [("furnace|water_heater", WORKS)]),
        ("kitchen", "The handle gets hot quickly, careful.", []),
        ("kitchen", "No hot water here.", []),
        ("kitchen", "If the hot water comes and goes, call me.", []),
    ],
)
def test_water_that_was_let_run(room: str, said: str, wanted: list[tuple[str, str]], entries: Narrator) -> None:
    _holds(room, said, wanted, entries)


@pytest.mark.parametrize(
    ("room", "said", "wanted"),
    [
        ("kitchen", "Microwave, I'm gonna skip it.", [("microwave", LEFT)]),
        ("kitchen", "The dishwasher, we're not running it tonight.", [("dishwasher", LEFT)]),
        ("kitchen", "The dishwasher is not running.", [("dishwasher", FAILS)]),
        ("living room", "Gas fire not lit, no authority to.", [("fireplace", LEFT)]),
        ("living room", "Outlets, faceplates all sound, not tested.", [("outlet", LEFT)]),
    ],
)
def test_what_was_left_alone(room: str, said: str, wanted: list[tuple[str, str]], entries: Narrator) -> None:
    _holds(room, said, wanted, entries)


@pytest.mark.parametrize(
    ("room", "lines", "wanted"),
    [
        ("kitchen", "All the burners light except the back left.", [("burner", WORKS), ("burner", FAILS)]),
        ("bedroom", "The outlets all work except the one behind the bed.", [("outlet", WORKS), ("outlet", FAILS)]),
        ("bedroom", "The outlets all work except the one behind the bed, that I didn't try.",
         [("outlet", WORKS), ("outlet", LEFT)]),
        ("kitchen", "Everything works except for the disposal.", [("garbage_disposal", FAILS)]),
        ("bathroom", "Heat lamps, four, three of them going.", [("heater", WORKS), ("heater", FAILS)]),
        ("bedroom", "All the windows open, but one sticks.", [("window", WORKS)]),
        ("kitchen", ("Stove, the front left's dead.", "Others come on."), [("burner", FAILS), ("burner", WORKS)]),
        ("bedroom", "The two side windows open, and the rest work.", [("window", WORKS)]),
        ("bedroom", "Outlets all working except this one behind the door, that one's dead.",
         [("outlet", WORKS), ("outlet", FAILS)]),
    ],
)  # fmt: skip
def test_the_one_of_several_that_did_otherwise(
    room: str, lines: str | tuple[str, ...], wanted: list[tuple[str, str]], entries: Narrator
) -> None:
    _holds(room, lines, wanted, entries)


@pytest.mark.parametrize(
    ("room", "lines"),
    [
        ("kitchen", "Cupboards, I'm opening everything, empty, empty, empty."),
        ("living room", ("The fireplace.", "Kindly light nothing in it.")),
        ("bathroom", "You've got the window, so open it when you shower."),
        ("kitchen", "The owner is sending a plumber to open that valve and see that it runs."),
        ("kitchen", "The oven door drops open by itself."),
        ("kitchen", "The range has some light scratching."),
        ("bathroom", "Roll-in shower, tile's fine."),
        ("bathroom", ("The fan is noisy.", "It needs a motor, and that goes on the list.")),
        ("bathroom", ("The toilet seat is tight.", "Doesn't run.")),
        ("laundry", "The vent hose is bent, so let me straighten that out... okay, better."),
        ("bedroom", ("The ceiling has a stain.", "I press on it, and it's soft.", "Okay.")),
        ("bedroom", "I'm looking, I've got my light on it... no."),
        ("bedroom", "The door has a hole, and I can't tell if it was a boot."),
        ("attic", "The light fixture is up there. I didn't go in."),
    ],
)
def test_what_only_sounds_like_a_trial(room: str, lines: str | tuple[str, ...], entries: Narrator) -> None:
    _holds(room, lines, [], entries)


@pytest.mark.parametrize(
    ("room", "lines", "wanted"),
    [
        ("hallway", "Smoke alarm, I'll use the broom handle... yes, that's woken the whole street.",
         [("smoke_alarm", WORKS)]),
        ("hallway", ("Smoke alarm, pressing it.", "That'd wake the dead."), [("smoke_alarm", WORKS)]),
        ("hallway", "The smoke alarm, I push it, nothing. I push more long... there, now it sounds.",
         [("smoke_alarm", WORKS)]),
        ("hallway", "The CO alarm's in the corner, and pressing that... also good.", [("co_alarm", WORKS)]),
        ("bedroom", "Closet doors, mirrored, run well.", [("closet_door", WORKS)]),
        ("bedroom", "Window in here, cranks fine.", [("window", WORKS)]),
        ("bathroom", "The light switch works. One bulb's dead.", [("switch", WORKS)]),
        ("living room", "Outlets, five double, cover plates all sound, not tested.", [("outlet", LEFT)]),
        ("kitchen", "The dishwasher I don't make it start today.", [("dishwasher", LEFT)]),
        ("bedroom", "The skylight opens with a pole, and I'm not opening it today.", [("window", LEFT)]),
        ("kitchen", "Ice maker, I can't call that tested.", [("ice_maker", LEFT)]),
        ("bathroom", "Exhaust fan comes on, it's loud.", [("exhaust_fan", WORKS)]),
        ("bedroom", "The radiator's hot at the top and at the bottom.", [("radiator", WORKS)]),
        ("bedroom", "The radiator's hot at the bottom and cold at the top.", []),
        ("kitchen", "I ran the dishwasher, and it stopped halfway with an error.", [("dishwasher", FAILS)]),
    ],
)  # fmt: skip
def test_a_trial_told_in_other_words(
    room: str, lines: str | tuple[str, ...], wanted: list[tuple[str, str]], entries: Narrator
) -> None:
    _holds(room, lines, wanted, entries)


@pytest.mark.parametrize(
    ("room", "lines", "wanted"),
    [
        ("kitchen", "All the burners come on orange.", [("burner", WORKS)]),
        ("kitchen", ("The stove.", "Back left doesn't light, the other three fire right up."), [("burner", WORKS)]),
        ("bathroom", "The fan works on high, but it does nothing on low.",
         [("exhaust_fan", WORKS), ("exhaust_fan", FAILS)]),
        ("kitchen", "The oven light comes on and it's heating.", [("light_bulb", WORKS), ("oven", WORKS)]),
        ("kitchen", ("The sink.", "Hot's hot, and it goes down fast."), [("faucet", WORKS), ("sink", WORKS)]),
        ("bathroom", "I gave the toilet a flush, no bother at all.", [("toilet", WORKS)]),
        ("bathroom", "Hot water needed a minute, but it gets nice and hot.", [("faucet", WORKS)]),
        ("bedroom", "The heater vent, I can feel the warm air.", [("vent", WORKS)]),
        ("hallway", ("The smoke alarm works.", "The carbon monoxide one, same again."),
         [("smoke_alarm", WORKS), ("co_alarm", WORKS)]),
        ("kitchen", "Fridge temperature, four degrees. Freezer, minus twenty.",
         [("refrigerator", WORKS), ("freezer", WORKS)]),
        ("entry", "Pressed the doorbell and couldn't hear a thing.", [("doorbell", FAILS)]),
        ("kitchen", "The dishwasher is full of plates, so I left it alone.", [("dishwasher", LEFT)]),
        ("kitchen", "The ice maker was switched off, so I can't tell you.", [("ice_maker", LEFT)]),
        ("kitchen", "The disposal hums but won't turn.", []),
        ("kitchen", "The gas hob ticks but nothing lights.", [("cooktop", FAILS)]),
        ("kitchen", "The gas hob sparks but nothing catches.", [("cooktop", FAILS)]),
        ("laundry", "I switched the dryer on but it cut out again.", [("dryer", FAILS)]),
        ("bedroom", "The blind goes down but it won't go up.", [("blinds", WORKS)]),
        ("hallway", "I nudge the thermostat and the furnace kicks on down below.",
         [("furnace", WORKS), ("thermostat", WORKS)]),
        ("kitchen", "Everything works, the oven, the microwave, the hood.",
         [("oven", WORKS), ("microwave", WORKS), ("range_hood", WORKS)]),
        ("laundry", "Ran the washing machine last night, no leaks.", [("washer", WORKS)]),
        ("kitchen", ("The tap is new.", "Hot, cold, both good."), [("faucet", WORKS)]),
        ("kitchen", ("The microwave.", "After two minutes the cup is steaming."), [("microwave", WORKS)]),
        ("bedroom", "The window itself locks fine.", [("window_lock", WORKS)]),
        ("living room", "Plugged my lamp in and it comes on.", [("outlet", WORKS)]),
        ("kitchen", ("The oven.", "The rack is clean.", "I didn't switch it on."), [("oven", LEFT)]),
        ("kitchen", "The fridge is cold, but there's no water to the ice maker, so I didn't try that.",
         [("refrigerator", WORKS), ("ice_maker", LEFT)]),
        ("kitchen", ("The washing machine.", "Two bulbs out of six are not lighting."), [("light_bulb", FAILS)]),
    ],
)  # fmt: skip
def test_a_trial_told_in_everyday_words(
    room: str, lines: str | tuple[str, ...], wanted: list[tuple[str, str]], entries: Narrator
) -> None:
    _holds(room, lines, wanted, entries)


@pytest.mark.parametrize(
    ("room", "lines"),
    [
        ("living room", ("The blinds are dusty.", "I gave it a press and it beeped.")),
        ("balcony", ("The drain is clear.", "Not going down to the cellar today.")),
        ("bathroom", ("The tub.", "I'm filling it a couple of inches.")),
        ("laundry", ("The dryer.", "The spin cycle is a bit noisy.")),
        ("kitchen", ("The worktop.", "Is that a burn? Nah, it's the pattern.")),
        ("kitchen", "Check that the oven works before you move in."),
        ("bedroom", "You have to lift the window to get it shut."),
        ("kitchen", ("The oven.", "The previous tenant ran it every day, no complaints.")),
    ],
)
def test_what_is_only_begun_or_asked_of_others_has_no_result(
    room: str, lines: str | tuple[str, ...], entries: Narrator
) -> None:
    _holds(room, lines, [], entries)


@pytest.mark.parametrize(
    ("room", "lines", "wanted"),
    [
        ("porch", ("Let me ring the bell.", "You hear that?"), [("doorbell", WORKS)]),
        ("kitchen", ("Disposal's jammed.", "Hang on.", "There, that's how it's supposed to sound."),
         [("garbage_disposal", WORKS)]),
        ("kitchen", ("I try the fan.", "That's not how it should sound."), [("range_hood", FAILS)]),
        ("hallway", ("Pressing the smoke alarm.", "Righto, loud enough, and it's good until May."),
         [("smoke_alarm", WORKS)]),
        ("hallway", "Smoke alarm, okay, plenty loud.", [("smoke_alarm", WORKS)]),
        ("hallway", "The smoke alarm... there, that'll wake you.", [("smoke_alarm", WORKS)]),
        ("bedroom", ("Let me try the light.", "There, now we have light."), [("light_fixture", WORKS)]),
        ("bedroom", "Checked every socket and there's power in all of them.", [("outlet", WORKS)]),
        ("kitchen", "I turn the knob and the flame comes straight away.", [("burner", WORKS)]),
        ("bedroom", "I put my tester in both outlets and they're live.", [("outlet", WORKS)]),
        ("bathroom", "I ran the tub, it takes a minute, and now it's nice and hot.", [("faucet", WORKS)]),
        ("kitchen", "Dishwasher's halfway through a cycle.", [("dishwasher", WORKS)]),
        ("living room", "The tube light takes a while, but it comes.", [("light_fixture", WORKS)]),
        ("entry", "Front door self-closes.", [("door", WORKS)]),
        ("entry", "The front door pulls itself shut behind you.", [("door", WORKS)]),
        ("kitchen", ("Press and hold the disposal switch.", "That's a healthy growl."), [("garbage_disposal", WORKS)]),
        ("living room", "Gas fireplace, I flick the switch and there's your flame.", [("fireplace", WORKS)]),
    ],
)  # fmt: skip
def test_what_was_heard_seen_or_given_tells_that_it_works(
    room: str, lines: str | tuple[str, ...], wanted: list[tuple[str, str]], entries: Narrator
) -> None:
    _holds(room, lines, wanted, entries)


@pytest.mark.parametrize(
    ("room", "lines", "wanted"),
    [
        ("kitchen", "Two of the burners light and the back two just tick.", [("burner", WORKS), ("burner", FAILS)]),
        ("kitchen", "First burner lights, second lights, the third never comes the flame.",
         [("burner", WORKS), ("burner", FAILS)]),
        ("kitchen", "That ring heats, the other two rings stay cold.", [("burner", WORKS), ("burner", FAILS)]),
        ("living room", "Four ceiling lights, only three are lighting.",
         [("light_fixture", WORKS), ("light_fixture", FAILS)]),
        ("garage", "The roller door goes up about halfway and stops.", [("garage_door", FAILS)]),
        ("kitchen", "All the burners came on bar one at the front.", [("burner", WORKS), ("burner", FAILS)]),
        ("entry", "The latch doesn't quite catch.", [("lock", FAILS)]),
        ("bedroom", "I couldn't get the window open at all.", [("window", FAILS)]),
        ("bathroom", "The hot tap runs cold even after five minutes.", []),
        ("living room", "The radiator gives no heat.", [("radiator", FAILS)]),
        ("living room", "AC is on and it's blowing, but the air's not cold.", []),
        ("bathroom", "The fan's running but a tissue won't stick to it.", [("exhaust_fan", FAILS)]),
        ("living room", "Of the six downlights only four come on.", [("light_fixture", FAILS)]),
        ("bedroom", "No light from the ceiling lamp.", [("light_fixture", FAILS)]),
    ],
)  # fmt: skip
def test_some_of_it_works_and_some_does_not(
    room: str, lines: str | tuple[str, ...], wanted: list[tuple[str, str]], entries: Narrator
) -> None:
    _holds(room, lines, wanted, entries)


@pytest.mark.parametrize(
    ("room", "lines"),
    [
        ("entry", ("The doorbell.", "There's one ding in the wall.")),
        ("kitchen", ("The stove, no.", "Look how it is, full of grease.")),
        ("kitchen", "The oven has carbon baked all over the floor of it."),
        ("bedroom", "They always forgot the window open."),
        ("hallway", "If the smoke alarm goes off, it'll wake the whole house."),
        ("kitchen", "Press this and the light comes on, that's how you start it."),
        ("kitchen", "We have lights under the cabinets."),
        ("kitchen", "The cooker has four flames."),
        ("living room", "The sliding door rolls heavy."),
        ("kitchen", "The counter stops halfway along the wall."),
        ("attic", ("The light.", "I've got my light on it.")),
    ],
)
def test_a_word_of_working_inside_another_saying_is_no_result(
    room: str, lines: str | tuple[str, ...], entries: Narrator
) -> None:
    _holds(room, lines, [], entries)


@pytest.mark.parametrize(
    ("room", "said", "wanted"),
    [
        ("bathroom", "When you open the tap, it leaks.", condition("faucet", "leak")),
        ("bathroom", "When you open the tap, the water comes very little.", condition("faucet", "low_pressure")),
        ("living room", "When you walk on it, the floor creaks.", condition("floor", "noise")),
        ("bathroom", "The sink, the water's just sitting there.", condition("sink", "slow_drain")),
        ("bathroom", "The sink empties, but it takes its time.", condition("sink", "slow_drain")),
        ("bathroom", "The tap has hardly any force.", condition("faucet", "low_pressure")),
        ("entry", "The lock is very hard, you have to pull the door to turn it.", condition("lock", "sticking")),
    ],
)
def test_what_a_thing_does_when_it_is_worked_is_told_of_now(
    room: str, said: str, wanted: Want, entries: Narrator
) -> None:
    told = entries(said, room=room)
    wrong = difference(tuple(one for one in told.entries if one.kind in {"check", "condition"}), [wanted])
    assert not wrong, f"{wrong}\n{told.told()}"


@pytest.mark.parametrize(
    "said",
    [
        "When you open the drawer, it can fall out, so go gently.",
        "When you turn the hood on, clean the filter if it's greasy.",
        "When you open the window you have to close it or it leaks.",
    ],
)
def test_what_would_be_when_it_is_worked_is_no_flaw(said: str, entries: Narrator) -> None:
    told = entries(said, room="kitchen")
    assert not [one for one in told.entries if one.kind in {"check", "condition"}], told.told()


@pytest.mark.parametrize(
    ("room", "lines", "wanted"),
    [
        ("kitchen", ("The oven door is stiff.", "I won't be here long, I'm not going to heat the oven."),
         [("oven", LEFT)]),
        ("laundry", ("The door seal's clean.", "I'm not putting a cycle on, there's no time."), [("washer", LEFT)]),
        ("living room", "Gas fire, not touched, the fitter does that.", [("fireplace", LEFT)]),
        ("living room", "The fireplace is filthy, not touched in years.", []),
        ("kitchen", "Basin's stacked up and I'm not shifting all that to test the disposal.",
         [("garbage_disposal", LEFT)]),
        ("living room", ("The radiators.", "They're not on, so I can't show you."), [("radiator", LEFT)]),
        ("laundry", ("The washer and the dryer are stacked.", "I'm not going to run them."),
         [("washer", LEFT), ("dryer", LEFT)]),
        ("kitchen", "The dishwasher isn't plumbed in.", [("dishwasher", LEFT)]),
        ("laundry", "The dryer vent is not hooked up.", []),
    ],
)  # fmt: skip
def test_what_one_does_to_try_a_thing_tells_which_was_left_alone(
    room: str, lines: str | tuple[str, ...], wanted: list[tuple[str, str]], entries: Narrator
) -> None:
    _holds(room, lines, wanted, entries)


@pytest.mark.parametrize(
    ("room", "lines", "wanted"),
    [
        ("porch", ("Doorbell, hang on.", "There it goes, you hear it inside."), [("doorbell", WORKS)]),
        ("porch", ("The doorbell, one second.", "Nope, nothing."), [("doorbell", FAILS)]),
        ("kitchen", ("The cooker's gas.", "I'll light them.", "One, two, three, and four."), [("burner", WORKS)]),
        ("kitchen", ("The hob.", "They all light, except the small one, it clicks but it won't light."),
         [("burner", WORKS), ("burner", FAILS)]),
        ("laundry", "Washer and dryer, I ran them both this morning and they're fine.",
         [("washer", WORKS), ("dryer", WORKS)]),
        ("bathroom", "The fan's on the light switch, both of them work.", [("exhaust_fan", WORKS), ("switch", WORKS)]),
        ("bathroom", ("Toilet, I flush it and wait.", "Okay, it's stopped."), [("toilet", WORKS)]),
        ("bathroom", "Hot comes through, no drips.", [("faucet", WORKS)]),
        ("kitchen", "Hot water, give it half a minute, and there it is.", [("faucet", WORKS)]),
        ("living room", "Air at the vent is nice and cold.", [("vent", WORKS)]),
        ("bedroom", "The ceiling fan is noisy, but it'll run.", [("ceiling_fan", WORKS)]),
        ("bedroom", "Neither lamp works.", [("light_fixture", FAILS)]),
        ("bedroom", "I can't get this window up.", [("window", FAILS)]),
        ("bathroom", "I couldn't get the stain off the tub.", []),
        ("basement", "The fridge in here runs cold.", [("refrigerator", WORKS)]),
        ("bathroom", "The hot tap runs cold.", []),
        ("entry", "Keys for you, two for the door and one for the window locks.", []),
        ("bathroom", "That stain on the sink was there at the last check-out.", []),
    ],
)  # fmt: skip
def test_a_trial_is_answered_after_a_wait_by_counting_or_for_two_at_once(
    room: str, lines: str | tuple[str, ...], wanted: list[tuple[str, str]], entries: Narrator
) -> None:
    _holds(room, lines, wanted, entries)
