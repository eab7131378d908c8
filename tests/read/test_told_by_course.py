"""Trials told by what happens, things put right on the spot, and what is there or short by number: in many words."""

from __future__ import annotations

import pytest

from narrate2report.records.findings import Entry
from tests.read.told import Narrator


def _told(entries: tuple[Entry, ...]) -> set[tuple[str, str]]:
    """Component with outcome of each check, and with condition of each condition that is there."""
    return {
        (one.component, one.outcome or one.condition or "")
        for one in entries
        if one.kind == "check" or (one.kind == "condition" and one.assertion == "present")
    }


@pytest.mark.parametrize(
    ("room", "said", "component", "outcome"),
    [
        ("bathroom", "I flush it, refills, stops.", "toilet", "works"),
        ("bathroom", "Toilet, I pull the handle, swirls away and quits filling.", "toilet", "works"),
        ("bathroom", "Flush... goes down strong, fills back up, stops.", "toilet", "works"),
        ("kitchen", "Dishwasher, ran it two minutes: fills, sprays, drains.", "dishwasher", "works"),
        ("laundry", "Washer filled, turned, spun out.", "washer", "works"),
        ("kitchen", "Hot at the tap after a few seconds.", "faucet", "works"),
        ("bathroom", "Hot comes through in a second.", "faucet", "works"),
        ("bathroom", "I filled the basin and it was gone in ten seconds.", "sink", "works"),
        ("bathroom", "Exhaust fan, tissue sticks to it.", "exhaust_fan", "works"),
        ("bathroom", "Exhaust fan, tissue just falls off.", "exhaust_fan", "fails"),
        ("hallway", "I bump the thermostat, furnace kicks on a minute later.", "thermostat", "works"),
        ("hallway", "I bump the thermostat, furnace kicks on a minute later.", "furnace", "works"),
        ("hallway", "Smoke detector, held the button, not so much as a peep.", "smoke_alarm", "fails"),
        ("kitchen", "Burners: front left catches, back left just ticks.", "burner", "fails"),
        ("entry", "The bolt shoots all the way home.", "lock", "works"),
        ("kitchen", "Ice maker's acting up.", "ice_maker", "fails"),
    ],
)
def test_a_trial_is_told_by_what_happens(room: str, said: str, component: str, outcome: str, entries: Narrator) -> None:
    told = entries(said, room=room)
    assert (component, outcome) in _told(told.entries), told.told()


@pytest.mark.parametrize(
    ("room", "said"),
    [
        ("bathroom", "If you flush it and it refills and never stops, call me."),
        ("bathroom", "Toilet, it keeps filling and never stops."),
        ("kitchen", "Please let the dishwasher fill and drain before you open it."),
        ("bathroom", "The toilet. / Not running on at night?"),
        ("hallway", "You set the thermostat to seventy when you leave."),
        ("kitchen", "Next door the dishwasher filled and drained on the floor."),
        ("bathroom", "Hot water comes through the city main from the plant in a couple of years, they say."),
    ],
)
def test_what_happens_elsewhere_or_should_is_no_trial_passed(room: str, said: str, entries: Narrator) -> None:
    told = entries(*said.split(" / "), room=room)
    assert not [one for one in told.entries if one.outcome == "works"], told.told()


def test_what_is_gone_quickly_is_not_missing(entries: Narrator) -> None:
    told = entries("The tub fills quick and it's gone in under a minute.", room="bathroom")
    assert not [one for one in told.entries if one.condition == "missing"], told.told()


@pytest.mark.parametrize(
    ("room", "said", "component", "flaw"),
    [
        ("entry", "Knob's loose. / I'm tightening it now. There.", "door_knob", "loose"),
        ("bathroom", "Towel bar's hanging by one screw, let me put that back... done, won't budge now.",
         "towel_bar", "loose"),
        ("bathroom", "Seat's loose. / Give me a second, nipping up the bolts. That's got it.", "toilet_seat", "loose"),
        ("bedroom", "Screen's loose in the frame. / I pushed it back in and it's holding.", "window_screen", "loose"),
        ("living room", "The cover plate's hanging off. / I screwed it back on.", "cover_plate", "loose"),
        ("bathroom", "The strainer's sitting crooked, let me straighten that. Better.", "sink_strainer", "misaligned"),
    ],
)  # fmt: skip
def test_what_is_put_right_on_the_spot_is_both_flaw_and_repair(
    room: str, said: str, component: str, flaw: str, entries: Narrator
) -> None:
    told = entries(*said.split(" / "), room=room)
    assert {(component, flaw), (component, "repaired")} <= _told(told.entries), told.told()
    assert (component, "sticking") not in _told(told.entries)


@pytest.mark.parametrize(
    "said",
    [
        "Towel bar's loose. / I'll tighten it tomorrow.",
        "Towel bar's loose. / Somebody needs to tighten it and put a new screw in.",
        "Towel bar's loose. / I would have tightened it but I haven't got a wrench.",
        "Towel bar's loose. / The mirror's fine, I cleaned it and changed the bulb.",
    ],
)
def test_work_to_come_or_of_another_day_repairs_nothing_here(said: str, entries: Narrator) -> None:
    told = entries(*said.split(" / "), room="bathroom")
    assert ("towel_bar", "repaired") not in _told(told.entries), told.told()


@pytest.mark.parametrize(
    ("room", "said", "component", "condition"),
    [
        ("kitchen", "Fridge is one shelf short.", "refrigerator_shelf", "missing"),
        ("kitchen", "Fridge is short a shelf.", "refrigerator_shelf", "missing"),
        ("kitchen", "Oven. / There should be two racks, I count one.", "oven_rack", "missing"),
        ("bathroom", "Towel bar's there, t p holder is not.", "paper_holder", "missing"),
        ("bathroom", "Towel bar is up, the paper holder isn't.", "towel_bar", "present"),
        ("bedroom", "The curtain rod's up but the blinds aren't.", "blinds", "missing"),
        ("kitchen", "The plate's still in the microwave.", "microwave_plate", "present"),
        ("kitchen", "Anti-tip's on there.", "anti_tip_bracket", "present"),
        ("kitchen", "Fridge, all its shelves, both drawers.", "crisper_drawer", "present"),
        ("kitchen", "fridge is cold it's got all its shelves and both crispers", "refrigerator_shelf", "present"),
        ("garage", "There's supposed to be a remote as well and I can't find one.", "garage_remote", "missing"),
        ("kitchen", "There should've been a drip pan under this burner and there isn't.", "drip_pan", "missing"),
        ("bedroom", "There used to be a screen in that window and now there's none.", "window_screen", "missing"),
    ],
)
def test_what_is_there_or_short_by_number(
    room: str, said: str, component: str, condition: str, entries: Narrator
) -> None:
    told = entries(*said.split(" / "), room=room)
    assert (component, condition) in _told(told.entries), told.told()


@pytest.mark.parametrize(
    "said",
    [
        "We're a little short on time, so the fridge next.",
        "The closet door is short of the carpet.",
        "Is the towel bar up?",
        "If the racks are in the oven, take them out before you turn it on.",
        "You should have two keys, and I've got one of them here for you.",
        "There should be a remote in the drawer, and there is.",
        "There's supposed to be a smell from a new oven, and I can't smell it.",
        "There should have been a notice on the fridge, and I didn't get one.",
    ],
)
def test_nothing_is_short_where_only_the_words_are(said: str, entries: Narrator) -> None:
    told = entries(said, room="kitchen")
    assert not [one for one in told.entries if one.condition in {"missing", "present"}], told.told()


@pytest.mark.parametrize(
    ("room", "said", "component", "condition"),
    [
        ("bedroom", "This window drops as soon as you let go.", "window", "not_working"),
        ("living room", "The switch plate spins round.", "cover_plate", "loose"),
        ("living room", "Carpet's rough.", "carpet", "worn"),
        ("kitchen", "Dishwasher's a goner.", "dishwasher", "not_working"),
        ("kitchen", "The counter edge is letting go.", "countertop", "peeling"),
        ("kitchen", "Something died in this fridge.", "refrigerator", "odor"),
        ("laundry", "The washer walks across the floor.", "washer", "noise"),
        ("kitchen", "Cabinets, no drama.", "cabinet", "good"),
    ],
)
def test_verdicts_in_plain_words(room: str, said: str, component: str, condition: str, entries: Narrator) -> None:
    told = entries(said, room=room)
    assert (component, condition) in _told(told.entries), told.told()
