"""What was said is measured against a plan: its rooms and components take the place of the usual ones."""

from __future__ import annotations

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from narrate2report.read.coverage import cover
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.records.expected import Expected
from narrate2report.records.findings import Coverage, Entry
from tests.publish.walk import entry

PLAN = Expected({"kitchen": ("countertop", "oven"), "bathroom": ("tile",), "balcony": ("railing", "deck")})


def told(rows: tuple[Coverage, ...]) -> dict[str, str]:
    return {f"{row.room}/{row.component}": row.status for row in rows}


def test_the_plan_takes_the_place_of_what_is_usual_and_a_room_never_walked_counts(vocabulary: Vocabulary) -> None:
    entries = [entry(), entry(component="oven", kind="check", outcome="works")]
    assert told(cover(entries, ["kitchen", "bathroom"], vocabulary, PLAN)) == {
        "kitchen/countertop": "noted",
        "kitchen/oven": "described_sound",
        "bathroom/tile": "not_noted",
        "balcony/railing": "not_noted",
        "balcony/deck": "not_noted",
    }


def test_a_room_that_the_plan_does_not_have_is_measured_by_what_is_usual(vocabulary: Vocabulary) -> None:
    rows = cover([], ["bedroom.2"], vocabulary, PLAN)
    walked = [row.component for row in rows if row.room == "bedroom.2"]
    assert walked == list(vocabulary.rooms["bedroom"].expects)


def test_the_one_bathroom_of_the_plan_is_met_under_its_spoken_name(vocabulary: Vocabulary) -> None:
    seen = entry(room="bathroom.hall", component="tile", condition="crack")
    rows = told(cover([seen], ["bathroom.hall"], vocabulary, PLAN))
    assert rows["bathroom.hall/tile"] == "noted"
    assert "bathroom/tile" not in rows


def test_what_was_said_of_a_planned_room_from_outside_was_said_of_it(vocabulary: Vocabulary) -> None:
    seen = entry(room="bathroom.hall", component="tile", condition="crack")
    assert told(cover([seen], ["kitchen"], vocabulary, PLAN))["bathroom.hall/tile"] == "noted"


def test_what_is_expected_of_the_unit_may_be_said_in_any_room(vocabulary: Vocabulary) -> None:
    plan = Expected({"whole_unit": ("smoke_alarm", "co_alarm", "key")})
    entries: list[Entry] = [
        entry(room="hallway", component="smoke_alarm", kind="check", outcome="works"),
        entry(room="kitchen", component="key", kind="handover", direction="given", quantity=2),
    ]
    rows = [row for row in cover(entries, ["hallway"], vocabulary, plan) if row.room == "whole_unit"]
    assert [row.status for row in rows] == ["described_sound", "not_noted", "noted"]


ANY = st.builds(
    lambda room, component, outcome: entry(room=room, component=component, kind="check", outcome=outcome),
    st.sampled_from(["kitchen", "bathroom.hall", "balcony"]),
    st.sampled_from(["countertop", "oven", "tile", "railing"]),
    st.sampled_from(["works", "fails", "not_tested"]),
)


@given(st.lists(ANY), st.lists(st.sampled_from(["kitchen", "bathroom.hall", "balcony", "bedroom"])))
def test_each_planned_part_stands_once_and_is_never_good_unsaid(
    vocabulary: Vocabulary, entries: list[Any], walked: list[str]
) -> None:
    rows = cover(entries, walked, vocabulary, PLAN)
    names = [(row.room, row.component) for row in rows]
    assert len(names) == len(set(names))
    for room, components in PLAN.rooms.items():
        seen = dict.fromkeys([*walked, *(one.room for one in entries)])
        met = [one for one in seen if PLAN.meant_by(one) == room] or [room]
        assert {(one, component) for one in met for component in components} <= set(names)
    said = {(one.room, one.component) for one in entries}
    assert all((row.status == "not_noted") == ((row.room, row.component) not in said) for row in rows)
