"""The course of a walk is the one that fits all that is told on it: words that lead nowhere, and rooms slipped into."""

from __future__ import annotations

from itertools import product
from math import exp, inf, log1p

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrate2report.read.lexis.tables import read_table
from narrate2report.read.walk.belonging import COUNTS, Belonging
from narrate2report.read.walk.course import AGAIN, TRUST, Courses, Step
from narrate2report.read.walk.leads import BY_RULE, Lead
from tests.read.told import Narrator

BURNS = (
    "Walls, four nail holes.",
    "Carpet, so freezer your burns by the slider, and a big red stain.",
    "Vertical blinds, two slats missing.",
    "Ceiling's good, and the fireplace draws.",
)
"""`freezer your burns`, heard of "three cigarette burns": a freezer is in the kitchen."""

LOCKS = (
    "The front door is solid.",
    "Top loft turns, bottom loft turns.",
    "Spyhole's clear, the bell rings, and the door stop is tight.",
    "The threshold has some light scratches, and the intercom works.",
)
"""`loft`, heard of "lock": a loft is the attic."""


@pytest.mark.parametrize(("room", "lines"), [("living_room", BURNS), ("entry", LOCKS)])
def test_a_misheard_word_takes_nobody_to_another_room(entries: Narrator, room: str, lines: tuple[str, ...]) -> None:
    told = entries(*lines, room=room.replace("_", " "))
    assert {entry.room for entry in told.entries} == {room}
    assert [visit.room for visit in told.findings.rooms] == [room]


def test_what_was_not_taken_for_a_walk_is_told_with_the_entry(entries: Narrator) -> None:
    burn = next(entry for entry in entries(*BURNS, room="living room").entries if entry.condition == "burn")
    assert any(reason.startswith("led into no other room") for reason in burn.because)


SLIPPED_INTO = (
    "Then the bathroom, well, what can I say, the window has a crack.",
    "The toilet rocks.",
    "Grout's gone black round the tub.",
    "Vanity drawer sticks.",
)
"""No rule sees a walk in the first of them; what is told after it is found in a bathroom."""


def test_a_room_that_fits_what_is_told_next_was_walked_into(entries: Narrator) -> None:
    told = entries("The carpet is stained.", *SLIPPED_INTO, room="bedroom")
    assert [visit.room for visit in told.findings.rooms] == ["bedroom", "bathroom"]


def test_the_same_room_named_where_what_follows_is_not_found_there_is_not(entries: Narrator) -> None:
    told = entries(
        SLIPPED_INTO[0], "The carpet is stained.", "The closet door sticks.", "Blinds are new.", room="bedroom"
    )
    assert [visit.room for visit in told.findings.rooms] == ["bedroom"]


@pytest.mark.parametrize(
    ("start", "lines", "room"),
    [
        (
            "hallway",
            ("The carpet is worn.", "Fridge is cold.", "The oven heats.", "The counter has a chip."),
            "kitchen",
        ),
        ("living room", ("The blinds are dusty.", "Toilet flushes.", "The tub is chipped."), "bathroom"),
        ("living room", ("Kitchen.", "The blinds are dusty.", "The carpet is torn."), "kitchen"),
        (
            "kitchen",
            ("Now the garage.", "The door goes up.", "Back to the fridge.", "One shelf is cracked."),
            "kitchen",
        ),
    ],
)
def test_a_room_that_is_walked_stays_walked(entries: Narrator, start: str, lines: tuple[str, ...], room: str) -> None:
    assert entries(*lines, room=start).sentences[-1].room == room


KNOWN = read_table(COUNTS)
ROOMS = st.sampled_from([*sorted(KNOWN), "closet", "observatory"])
THINGS = st.lists(st.sampled_from([*sorted({one for told in KNOWN.values() for one in told}), "telescope"]), max_size=8)


@given(THINGS, ROOMS)
def test_of_all_rooms_together_the_things_told_say_nothing(things: list[str], room: str) -> None:
    known = {room: KNOWN[room]} if room in KNOWN else {"kitchen": KNOWN["kitchen"]}
    belonging = Belonging(known)
    assert sum(belonging.tells_for(thing, next(iter(known))) for thing in things) == pytest.approx(0)


def test_nothing_speaks_for_a_room_of_ones_own_or_against_it() -> None:
    assert Belonging().tells_for("sink", "observatory") == 0


LEADS = st.builds(
    lambda room, ruled: Lead(room, frozenset({BY_RULE} if ruled else {"the rules stay"})),
    st.sampled_from(["kitchen", "bathroom", "bedroom.1", "bedroom.2"]),
    st.booleans(),
)
STEPS = st.lists(
    st.builds(
        Step,
        st.lists(LEADS, max_size=2, unique_by=lambda lead: lead.room).map(tuple),
        st.lists(st.sampled_from(["oven", "toilet", "bed", "wall"]), max_size=3, unique=True).map(tuple),
    ),
    max_size=6,
)


@given(STEPS, st.sampled_from([None, "kitchen"]))
def test_no_other_course_is_likelier(steps: list[Step], start: str | None) -> None:
    """Against all courses one by one, each weighed as Courses says it weighs."""
    courses = Courses({"entered": {BY_RULE: 150, "the rules stay": -120}})
    ways = courses.likeliest(steps, start)
    taken = [ways[number].room if number in ways else None for number in range(len(steps))]
    every = product(*[[None, *(lead.room for lead in step.leads)] for step in steps])
    likeliest = max(_likelihood(list(course), steps, start) for course in every)
    assert _likelihood(taken, steps, start) == pytest.approx(likeliest)


def _likelihood(course: list[str | None], steps: list[Step], start: str | None) -> float:
    """The log-likelihood of entering these rooms; minus infinity where a course contradicts what is certain."""
    room, total, belonging = start, 0.0, Belonging()
    for number, (entered, step) in enumerate(zip(course, steps, strict=True)):
        kind = (room or "").split(".")[0]
        for lead in step.leads:
            if lead.kind != kind:
                odds = 1.5 if lead.by_rule else -1.2
                total -= log1p(exp(-odds)) if lead.room == entered else 0.0
                total -= log1p(exp(odds)) if entered is None or entered.split(".")[0] == kind else 0.0
        same = [lead for lead in step.leads if lead.by_rule and lead.kind == kind]
        if entered is not None and entered.split(".")[0] == kind and entered not in {lead.room for lead in same}:
            return -inf
        if entered is None and same:
            return -inf
        room = entered or room
        lately = {thing for one in steps[max(0, number - AGAIN) : number] for thing in one.things}
        if not step.leads or any(lead.by_rule for lead in step.leads):
            there = (room or "").split(".")[0]
            total += TRUST * sum(belonging.tells_for(thing, there) for thing in step.things if thing not in lately)
    return total
