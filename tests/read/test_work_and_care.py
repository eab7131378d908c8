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
        ("basement", ("It's musty, always is in October.",)),
    ],
)
def test_what_is_said_on_the_walk_is_no_advice(entries: Narrator, room: str, lines: tuple[str, ...]) -> None:
    assert _told(entries, room, lines, "advice") == []
