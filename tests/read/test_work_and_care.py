"""Work that is to be done and care that is asked of the resident, told in many ways; and what only sounds like them."""

from __future__ import annotations

import pytest

from tests.read.told import Narrator


def _told(entries: Narrator, room: str, lines: tuple[str, ...], kind: str) -> list[tuple[str, str | None]]:
    return [(one.component, one.action) for one in entries(*lines, room=room).entries if one.kind == kind]


@pytest.mark.parametrize(
    ("room", "lines", "component", "actions"),
    [
        ("bathroom", ("The faucet is leaking.", "That gets done today."), "faucet", "repair"),
        ("bathroom", ("The caulk is cracked.", "This wants raking out and redoing."), "caulk", "repair"),
        ("kitchen", ("The faucet is dripping.", "I'll get the plumber to do it Monday."), "faucet", "repair"),
        ("kitchen", ("The faucet is dripping.", "Somebody has to fix that."), "faucet", "repair"),
        ("kitchen", ("The faucet is loose.", "I'm going to snug that up myself."), "faucet", "secure"),
        ("bedroom", ("The carpet is torn.", "Our flooring man comes Thursday."), "carpet", "repair"),
        ("bedroom", ("The carpet is stained.", "I'll send the cleaner back tomorrow."), "carpet", "clean"),
        ("bedroom", ("The blinds are broken.", "I've already ordered a new one."), "blinds", "replace"),
        ("bedroom", ("The blinds are broken.", "Maintenance can change it."), "blinds", "replace"),
        ("bathroom", ("The ceiling has a water stain.", "I'd get somebody to look at that."), "ceiling", "inspect"),
        ("kitchen", ("The faucet is dripping.", "I'm ringing that through to the plumber."), "faucet", "repair"),
        ("kitchen", ("The faucet is dripping.", "I'll get Sam to look at that Monday."), "faucet", "inspect"),
        ("kitchen", ("The faucet is dripping.", "So that will be a plumber."), "faucet", "repair"),
        ("kitchen", ("The faucet is dripping.", "On Monday comes the plumber."), "faucet", "repair"),
        ("kitchen", ("The faucet is dripping.", "The plumber has been told already."), "faucet", "repair"),
        ("kitchen", ("The faucet is dripping.", "I'll ring the plumber about that one."), "faucet", "repair"),
        ("laundry room", ("The trap is full.", "I'll get the appliance man out for the dryer."), "dryer", "repair"),
        ("hallway", ("The outlet is cracked.", "I've got those, I'll snap one on today."), "outlet", "replace"),
        ("kitchen", ("The drawer is broken.", "I will put a new set in tomorrow."), "drawer", "replace"),
        ("bathroom", ("The towel bar is loose.", "I'll put a bigger anchor in that."), "towel_bar", "repair"),
        ("hallway", ("The lock is broken.", "I buy a new one."), "lock", "replace"),
        ("bathroom", ("The toilet seat is cracked.", "So a new seat on there today."), "toilet_seat", "replace"),
        ("bedroom", ("The window is stuck.", "I need to get that freed."), "window", "repair"),
        ("bedroom", ("The blinds are broken.", "I'll drop one by this afternoon."), "blinds", "supply"),
        ("living room", ("The fireplace is fine.", "It needs a sweep."), "fireplace", "clean"),
        ("hallway", ("The lock is sticking.", "I'll have Sam oil that lock."), "lock", "treat"),
        ("bedroom", ("The wall is scuffed.", "It's on the painter's list."), "wall", "repair"),
        ("bathroom", ("The mirror is cracked.", "That'll get swapped out."), "mirror", "replace"),
        ("entry", ("The lock is broken.", "I will get it fitted Sunday."), "lock", "repair"),
        ("yard", ("The fence is leaning.", "Owner's getting quotes."), "fence", "inspect"),
        ("basement", ("The wall is damp.", "I'll check it again in a month."), "wall", "inspect"),
        ("bathroom", ("The mirror is cracked.", "We're swapping that out Monday."), "mirror", "replace"),
        ("bedroom", ("The carpet is worn.", "The new carpet goes in next month."), "carpet", "replace"),
        ("bathroom", ("The tub is chipped.", "The refinisher comes on the ninth."), "bathtub", "repair"),
        ("bedroom", ("The wall has nail holes.", "They told me they'd fill them."), "wall", "repair"),
        ("kitchen", ("The refrigerator is noisy.", "I'll call that in this afternoon."), "refrigerator", "repair"),
        ("bathroom", ("The toilet rocks.", "Going to need a plumber for that."), "toilet", "repair"),
        ("hallway", ("The smoke alarm chirps.", "I owe you a battery."), "smoke_alarm", "supply"),
        ("hallway", ("The smoke alarm chirps, it needs a nine volt.",), "smoke_alarm", "supply"),
        ("hallway", ("The smoke alarm is dead.", "I'll run and get a battery."), "smoke_alarm", "replace"),
        ("bedroom", ("The light is burned out.", "I'll run to the store for a bulb."), "light_fixture", "replace"),
        ("bedroom", ("The carpet is stained.", "New carpet."), "carpet", "replace"),
        ("bedroom", ("The carpet's torn.", "All of that comes up, new carpet goes down."), "carpet", "replace"),
        ("bedroom", ("Six nail holes.", "Spackle those."), "wall", "repair"),
        ("bathroom", ("The toilet's loose.", "I'll snug those bolts before I leave."), "toilet", "secure"),
        ("entry", ("They lost a key.", "That's a rekey."), "lock", "replace"),
        ("garage", ("They left tires.", "The hauler's taking those Thursday."), "room_general", "clean"),
        ("bedroom", ("The wall has a hole.", "The door stop is missing.", "Patch and paint."), "wall", "repair"),
        ("kitchen", ("The drain is clogged.", "The faucet is loose.", "Snake it."), "drain", "repair"),
        ("bathroom", ("The caulk is cracked.", "The mirror is cracked.", "I'll recaulk Monday."), "caulk", "repair"),
    ],
)  # fmt: skip
def test_work_in_other_words_is_a_follow_up(
    entries: Narrator, room: str, lines: tuple[str, ...], component: str, actions: str
) -> None:
    assert (component, actions) in _told(entries, room, lines, "follow_up")


@pytest.mark.parametrize(
    ("room", "lines"),
    [
        ("bathroom", ("The toilet is clean.", "I'm gonna flush it.")),
        ("kitchen", ("The oven is clean.", "I had a man in to do it.")),
        ("kitchen", ("The dishwasher is leaking.", "Later I send you the video.")),
        ("kitchen", ("The dishwasher is loose.", "Water's coming out the bottom of it.")),
        ("bedroom", ("There are scuffs on the wall, vacuum cleaner probably.",)),
        ("bathroom", ("The fan is loud.", "The plumber says it's fine.")),
        ("kitchen", ("The faucet is dripping.", "The cooktop's clean, I'll give them that.")),
        ("kitchen", ("The faucet is dripping.", "The oven's had a good clean.")),
        ("garage", ("The door is dented.", "They left tires and paint cans.")),
        ("kitchen", ("The faucet is dripping.", "It's not on the list of rooms.")),
        ("bedroom", ("The blinds are bent.", "They were supposed to send a new set but never did.")),
        ("kitchen", ("The outlet is loose.", "I'll put that in the report.")),
        ("kitchen", ("The sink is loose.", "I'll run the water and check under here.")),
        ("yard", ("The lawn is green.", "Somebody from our crew mows it every Friday.")),
        ("living room", ("The floor is scratched.", "Mop it damp, never soaking.")),
        ("kitchen", ("The faucet is dripping.", "That's like half our work orders.")),
        ("kitchen", ("The outlet is dead.", "I'll put a tester in.")),
        ("kitchen", ("The outlet is dead.", "I'll put a note in the file.")),
        ("laundry room", ("The washer is leaking.", "I'm not putting a wash on.")),
        ("hallway", ("The smoke alarm is dead.", "The new battery is in now.")),
        ("bathroom", ("The caulk is cracked.", "I'll send you the deposit back.")),
        ("entry", ("The frame is split.", "We rebuilt it then.")),
    ],
)
def test_trials_talk_and_past_work_are_no_follow_ups(entries: Narrator, room: str, lines: tuple[str, ...]) -> None:
    assert _told(entries, room, lines, "follow_up") == []


@pytest.mark.parametrize(
    ("room", "lines", "component"),
    [
        ("kitchen", ("The counter is quartz.", "Use a trivet, don't put a hot pan straight on it."), "countertop"),
        ("hallway", ("The smoke alarm works.", "Test that once a month, please."), "smoke_alarm"),
        ("kitchen", ("The sink drains fine.", "No grease down there, I mean it."), "sink"),
        ("living room", ("The ceiling has a crack.", "If it gets wider, give me a ring."), "ceiling"),
        ("bedroom", ("The outlet is loose.", "Leave that one switched off."), "outlet"),
        ("laundry room", ("The washer is leaking.", "You don't use it until I say so."), "washer"),
        ("yard", ("The lawn is patchy.", "You folks mow your side."), "lawn"),
        ("kitchen", ("The counter is oak.", "The counter does want oiling every few months."), "countertop"),
        ("hallway", ("The smoke alarm works.", "Press it once a month."), "smoke_alarm"),
        ("hallway", ("The smoke alarm works.", "Do that yourself once a month."), "smoke_alarm"),
        ("bathroom", ("The fan works.", "Run it when you shower."), "exhaust_fan"),
        ("bathroom", ("The grout is clean.", "Spray it every week."), "grout"),
        ("kitchen", ("The dryer is fine.", "Empty the lint every single load."), "lint_trap"),
        ("bedroom", ("The radiator is fine.", "You don't touch the valve."), "radiator"),
        ("bedroom", ("The radiator is fine.", "So do bleed it, please."), "radiator"),
        ("kitchen", ("The floor is marble.", "So no lemon on it, no vinegar."), "floor"),
        ("kitchen", ("The counter is granite.", "Stay away from vinegar on it."), "countertop"),
        ("bathroom", ("The tub is acrylic.", "Soft sponge only, no powder."), "bathtub"),
        ("kitchen", ("The counter is oak.", "No cutting directly on it."), "countertop"),
        ("kitchen", ("The counter is oak.", "It likes oil, twice a year."), "countertop"),
        ("kitchen", ("The microwave works.", "Nothing metal in there."), "microwave"),
        ("living room", ("The hardwood is new.", "Felt pads under everything, please."), "floor"),
        ("yard", ("The hose bib works.", "Disconnect the hose before it freezes."), "hose_bib"),
        ("kitchen", ("The disposal works, and please, no bones and no rice.",), "garbage_disposal"),
        ("bedroom", ("The ceiling is plaster.", "I wouldn't put a hook in that ceiling."), "ceiling"),
        ("hallway", ("The filter's new, and from now on that's yours to change.",), "air_filter"),
        ("bathroom", ("The drain is slow.", "Get yourself a hair catcher."), "drain"),
        ("living room", ("The coffee table is oak.", "So please, always with a coaster."), "furniture"),
    ],
)
def test_care_is_advice_of_what_it_is_about(
    entries: Narrator, room: str, lines: tuple[str, ...], component: str
) -> None:
    assert _told(entries, room, lines, "advice") == [(component, None)]


@pytest.mark.parametrize(
    ("room", "lines"),
    [
        ("kitchen", ("The counter is scratched.", "Don't worry about it.")),
        ("kitchen", ("The counter is scratched.", "Don't quote me on that.")),
        ("kitchen", ("The microwave is gone, so don't look for it.",)),
        ("bathroom", ("The fan is loud, now hit the switch.",)),
        ("bathroom", ("I put the fan in and it's never come back.",)),
        ("kitchen", ("Let me hit the reset and use the wrench.",)),
        ("bathroom", ("The pipe was loose.", "Tightened it, wiped it.")),
        ("kitchen", ("The counter is scratched, because somebody didn't put the board down.",)),
        ("living room", ("The carpet is clean.", "The lease has no pets on it.")),
        ("kitchen", ("The counter is oak.", "No peeling on it.")),
        ("kitchen", ("The oven works.", "Use the timer if you like.")),
        ("living room", ("The carpet is clean.", "I'd keep it, but I'm not allowed.")),
        ("living room", ("The wall is fine.", "You told me you'd keep it on a stand.")),
        ("entry", ("The lock is scratched.", "That was here way before you, so don't you worry.")),
        ("entry", ("The door is dented.", "If you have a doubt you stop me.")),
        ("entry", ("The door is dented.", "Alright, step on in, isn't it bright.")),
        ("kitchen", ("The burner has a scratch, about like a hair, you have to squint.",)),
        ("kitchen", ("The tile is loose, I wouldn't swear to it.",)),
        ("closet", ("The closet door sticks.", "I'll have Sam plane that or lube it.")),
        ("bedroom", ("The wall is fine.", "Anything you want to say yourself, Sam?")),
        ("bedroom", ("The wall is fine.", "Room two, that's yours, Sam.")),
        ("basement", ("It's musty, always is in October.",)),
    ],
)
def test_what_is_said_on_the_walk_is_no_advice(entries: Narrator, room: str, lines: tuple[str, ...]) -> None:
    assert _told(entries, room, lines, "advice") == []


def test_two_orders_of_two_things_are_two_pieces_of_advice(entries: Narrator) -> None:
    lines = ("Empty the lint trap every load, and wipe the washer dry.",)
    assert [one for one, _ in _told(entries, "laundry room", lines, "advice")] == ["lint_trap", "washer"]


@pytest.mark.parametrize(
    ("room", "line", "component"),
    [
        ("living room", "Keep furniture off that heater.", "heater"),
        ("living room", "Don't park a sofa in front of the vent.", "vent"),
        ("laundry room", "Please keep boxes away from the water heater.", "water_heater"),
        ("hallway", "Never stack anything against the breaker panel.", "breaker_panel"),
    ],
)
def test_what_something_is_to_be_kept_from_is_what_the_care_is_for(
    entries: Narrator, room: str, line: str, component: str
) -> None:
    assert [name for name, _ in _told(entries, room, (line,), "advice")] == [component]


@pytest.mark.parametrize("lines", [("The carpet is new.",), ("Living room.", "New carpet."), ("New carpet in here.",)])
def test_a_new_thing_where_nothing_was_wrong_is_no_work(entries: Narrator, lines: tuple[str, ...]) -> None:
    told = entries(*lines, room="living room")
    assert ("carpet", "new", "present") in told.conditions(), told.told()
    assert not [one for one in told.entries if one.kind == "follow_up"], told.told()


@pytest.mark.parametrize(
    ("room", "lines", "component"),
    [
        ("kitchen", ("The worktop is solid oak.", "It wants oiling about twice a year."), "countertop"),
        ("kitchen", ("If the disposal jams, there's a reset button on the bottom.",), "garbage_disposal"),
        ("kitchen", ("Ideally you'd descale the faucet every few months.",), "faucet"),
        ("bathroom", ("After a shower leave the window open a crack or you'll get mould.",), "window"),
        ("bathroom", ("If it ever floods, the stopcock is under here, turn it clockwise.",), "shutoff_valve"),
        ("bedroom", ("Could I ask you to keep the bed a few inches off the wall?",), "furniture"),
        ("bedroom", ("Windows should be locked whenever you go out.",), "window"),
        ("bedroom", ("The blinds are delicate so pull the cord gently.",), "blinds"),
        ("bedroom", ("No candles in the bedrooms.",), "room_general"),
        ("bedroom", ("Nobody should be sitting on that window sill.",), "window_sill"),
        ("bathroom", ("It would help if you kept the door open after bathing.",), "door"),
        ("yard", ("In winter shut the outside tap off from the basement.",), "hose_bib"),
        ("living room", ("Tenants change the batteries in the smoke detectors, we don't.",), "smoke_alarm"),
        ("living room", ("The fireplace is decorative, so no fires please.",), "fireplace"),
        ("living room", ("Please don't use those hooks, they chew up the weatherstrip.",), "weatherstrip"),
        ("kitchen", ("The hood filters go in the dishwasher every couple of months.",), "hood_filter"),
        ("hallway", ("Breaker box is here, if anything trips just push it back on.",), "breaker_panel"),
        ("garage", ("The garage door has a sensor, keep the bins away from it.",), "garage_door"),
        ("laundry", ("Here's the washer.", "Leave the door open after every wash."), "washer"),
        ("entry", ("One fob for the bike store, and do tell us at once if you lose it.",), "fob"),
        ("bedroom", ("Servicing of the AC is in your scope, once in six months.",), "air_conditioner"),
        ("bedroom", ("Bulbs are the tenant's responsibility.",), "light_bulb"),
        ("laundry", ("The lint trap needs you to empty it every load.",), "lint_trap"),
        ("living room", ("The sofa stays off this wall please.",), "wall"),
        ("balcony", ("We don't permit drying clothes on the railing.",), "railing"),
        ("laundry", ("The lint trap gets emptied after each load, please.",), "lint_trap"),
        ("bedroom", ("In the winter do open the windows for ten minutes each morning.",), "window"),
        ("kitchen", ("The hood filter is to be cleaned by the tenant every two months.",), "hood_filter"),
        ("bathroom", ("Tenant's meant to wash the fan cover, every three months.",), "exhaust_fan"),
        ("yard", ("You mow, you shovel, and the owner takes care of the gutters.",), "lawn"),
        ("yard", ("The tenant has to water the lawn in summer.",), "lawn"),
        ("entry", ("You'll want a mat down on this tile in winter.",), "tile"),
        ("living room", ("You don't want to be dragging furniture across this floor.",), "floor"),
        ("kitchen", ("Suppose you get any smell of gas, close this valve and call the number.",), "shutoff_valve"),
        ("kitchen", ("Run that hood when you fry, and pop the filter in the dishwasher every month.",), "range_hood"),
        ("kitchen", ("Grease doesn't go down this drain.",), "drain"),
        ("garage", ("If the door won't lift, pull this red cord.",), "garage_door"),
        ("bathroom", ("It's your job to keep that drain clear of hair.",), "drain"),
    ],
)  # fmt: skip
def test_care_is_heard_however_it_is_asked(
    entries: Narrator, room: str, lines: tuple[str, ...], component: str
) -> None:
    told = entries(*lines, room=room).entries
    assert [one.component for one in told if one.kind == "advice"] == [component]
    assert not [one for one in told if one.kind == "condition"]


@pytest.mark.parametrize(
    ("room", "lines"),
    [
        ("living room", ("You need to see this, the carpet has a burn.",)),
        ("hallway", ("Please put in a work order for that light fixture.",)),
        ("bathroom", ("Yes, take a photo of the mirror.",)),
        ("living room", ("A few nail holes in the wall.", "I don't charge for those, never have.")),
        ("bathroom", ("I wouldn't fancy two of us in here at the one time.",)),
        ("entry", ("The front door swells up in the summer, you've got to put your hip into it.",)),
        ("living room", ("The fireplace has to be swept every year, that's on the owner.",)),
        ("bedroom", ("The blind is broken.", "Leave it with me.")),
        ("entry", ("Deadbolt turns nice and easy with the key.",)),
        ("kitchen", ("Had anyone used a chopping board, I wouldn't be writing that.",)),
        ("hallway", ("Smoke detector's gone, just the bracket.", "That's a no-no.")),
        ("bathroom", ("If a kid ever floods a tub up here, it comes through the ceiling, ask me how I know.",)),
        ("kitchen", ("The disposal hums and don't turn.",)),
        ("bathroom", ("The handle's gone and put a hole in the wall.",)),
        ("bedroom", ("The mattress has a stain.", "Don't know what that is.")),
        ("bathroom", ("Let me tighten that lever so I don't forget.",)),
        ("living room", ("The floor was cleaned by the tenant.",)),
        ("living room", ("You sweep, I wait, we all get there.", "Damage is the tenant's business.")),
    ],
)
def test_what_is_said_to_others_is_no_advice(entries: Narrator, room: str, lines: tuple[str, ...]) -> None:
    assert _told(entries, room, lines, "advice") == []


@pytest.mark.parametrize(
    ("said", "kinds"),
    [
        ("Put your hand down here by the threshold.", []),
        ("Just stick your finger in that gap by the window.", []),
        ("Don't put your hand under that window, it drops.", ["advice"]),
        ("Doorbell. We'll do that on the way out.", []),
    ],
)
def test_what_is_felt_or_put_off_on_the_walk_asks_for_nothing(said: str, kinds: list[str], entries: Narrator) -> None:
    told = entries(said, room="entry").entries
    assert [one.kind for one in told if one.kind in {"advice", "follow_up"}] == kinds
