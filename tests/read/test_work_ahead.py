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


def test_what_is_spoken_of_in_the_same_sentence_is_worked_on_and_not_an_older_flaw(entries: Narrator) -> None:
    lines = ("The baseboard is cracked.", "The smoke alarm is old, it's being swapped out.")
    told = entries(*lines, room="living room").follow_ups()
    assert [component for component, _ in told] == ["smoke_alarm"]


def test_work_is_done_on_the_screen_and_not_on_the_window_it_is_on(entries: Narrator) -> None:
    told = entries("The screen needs re-fixing on that far window.", room="bedroom").follow_ups()
    assert told == [("window_screen", "secure")]
