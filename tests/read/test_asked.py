"""Questions that a speaker asks and answers: what is asked is no entry, what is answered is."""

from __future__ import annotations

import pytest

from tests.read.told import Narrator, Told

THERE = [
    ("bedroom", ("Is there a smell?", "A little."), "room_general", "odor"),
    ("bedroom", ("Is there a smell?", "Yeah, dog."), "room_general", "odor"),
    ("bedroom", ("Is the carpet stained?", "Oh yes."), "carpet", "stain"),
    ("bedroom", ("Is the carpet stained?", "It is."), "carpet", "stain"),
    ("living room", ("Is that a burn on the carpet?", "It is."), "carpet", "burn"),
    ("living room", ("Any scratches on the floor?", "A few."), "floor", "scratch"),
    ("kitchen", ("Stains on the counter?", "Two, by the stove."), "countertop", "stain"),
    ("kitchen", ("Cracks in the sink?", "Afraid so."), "sink", "crack"),
]

NOT_THERE = [
    ("bathroom", ("Any mold on the grout?", "None."), "grout", "mold"),
    ("bathroom", ("Any mold on the grout?", "Nope."), "grout", "mold"),
    ("bedroom", ("Is the carpet stained?", "Not that I can see."), "carpet", "stain"),
    ("bedroom", ("Is the carpet stained?", "It is not."), "carpet", "stain"),
    ("bedroom", ("Smell?", "None."), "room_general", "odor"),
    ("kitchen", ("Leaks under the sink?", "I don't see any."), "pipe", "leak"),
]


@pytest.mark.parametrize(("room", "lines", "component", "flaw"), THERE)
def test_a_yes_and_an_amount_say_that_it_is_there(
    room: str, lines: tuple[str, ...], component: str, flaw: str, entries: Narrator
) -> None:
    told = entries(*lines, room=room)
    assert (component, flaw, "present") in told.conditions(), told.told()
    found = next(one for one in told.entries if one.condition == flaw)
    assert len(found.evidence) == 2, "the question and its answer tell it together"


@pytest.mark.parametrize(("room", "lines", "component", "flaw"), NOT_THERE)
def test_a_no_says_that_it_is_not_there(
    room: str, lines: tuple[str, ...], component: str, flaw: str, entries: Narrator
) -> None:
    told = entries(*lines, room=room)
    assert (component, flaw, "absent") in told.conditions(), told.told()


def test_how_many_is_part_of_the_answer(entries: Narrator) -> None:
    told = entries("Stains on the counter?", "Two, by the stove.", room="kitchen")
    assert [one.quantity for one in told.entries if one.condition == "stain"] == [2], told.told()


@pytest.mark.parametrize(
    "lines",
    [
        ("Is that mold on the seal?", "Let me put my glasses on.", "No, it's jam."),
        ("Is that mold on the seal?", "No.", "That's just coffee."),
        ("Mold?", "No, chewing gum."),
    ],
)
def test_what_lies_there_in_its_place_is_told_of_what_was_asked(lines: tuple[str, ...], entries: Narrator) -> None:
    told = entries("The fridge is cold.", *lines, room="kitchen")
    assert "mold" not in _there(told), told.told()
    assert "residue" in _there(told) or "dirty" in _there(told), told.told()


@pytest.mark.parametrize(
    ("question", "answer", "outcome"),
    [
        ("Does the fan work?", "It doesn't.", "fails"),
        ("Does the fan work?", "It does.", "works"),
        ("Does the fan come on?", "It does not.", "fails"),
    ],
)
def test_a_trial_is_answered(question: str, answer: str, outcome: str, entries: Narrator) -> None:
    told = entries(question, answer, room="bathroom")
    assert [one.outcome for one in told.entries if one.kind == "check"] == [outcome], told.told()


@pytest.mark.parametrize(
    "lines",
    [
        ("Is that a crack?", "No, a hair."),
        ("Is that a stain up there?", "No idea."),
        ("Was there a leak in the ceiling?", "There was."),
        ("Do you have any leaks under your sink?", "Yes."),
        ("Any scratches?", "Now for the windows."),
        ("Is the carpet stained?", "Well, the walls are fine."),
        ("Any leaks?", "Yeah, I don't see any."),
    ],
)
def test_nothing_is_there_that_was_only_asked(lines: tuple[str, ...], entries: Narrator) -> None:
    told = entries(*lines, room="kitchen")
    assert not _there(told) - {"good"}, told.told()


def _there(told: Told) -> set[str]:
    return {one.condition or "" for one in told.entries if one.kind == "condition" and one.assertion != "absent"}
