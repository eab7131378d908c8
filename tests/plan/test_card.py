"""What a card holds: every expected part once, every old flaw at its place, alarms always, nothing operated that is
for others."""

from __future__ import annotations

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from narrate2report.plan.card import COMMON_ROOMS, Wish, make_card
from narrate2report.plan.known import LOOK_ONLY
from narrate2report.records.card import Card
from narrate2report.records.findings import Entry, RoomVisit
from narrate2report.shipped import shipped
from tests.plan.units import KNOWN, unit
from tests.publish.walk import entry, evidence, findings

ROOMS = {"kitchen": ("countertop", "oven"), "bathroom": ("tile",)}


def card(*old: Entry, rooms: Any = ROOMS, kind: Any = "move_out", **more: Any) -> Card:
    parts = {"walkthrough": {"kind": [{"value": "move_in", "source": "given"}]}}
    last = findings(*old, **(parts | more))
    return make_card(Wish(unit(rooms), kind, last), KNOWN)


def places(made: Card) -> dict[str, list[str]]:
    return {room.room: [part.component for part in room.parts] for room in made.rooms}


def again(made: Card) -> dict[str, list[tuple[str, str, str]]]:
    return {
        f"{room.room}/{part.component}": [(one.sort, one.says, one.moment) for one in part.again]
        for room in made.rooms
        for part in room.parts
        if part.again
    }


def test_a_plan_is_walked_in_its_order_with_the_alarms_at_the_end() -> None:
    made = make_card(Wish(unit(ROOMS), "move_in"), KNOWN)
    assert places(made) == {
        "kitchen": ["countertop", "oven"],
        "bathroom": ["tile"],
        "whole_unit": ["smoke_alarm", "co_alarm"],
    }
    assert made.rooms_are_planned
    assert made.residents == ("Lena Marbeck",)


def test_an_alarm_that_the_plan_names_is_asked_for_once() -> None:
    made = make_card(Wish(unit({"entry": ("smoke_alarm", "co_alarm")}), "move_in"), KNOWN)
    assert places(made) == {"entry": ["smoke_alarm", "co_alarm"]}


def test_every_old_flaw_is_looked_at_again_at_its_place() -> None:
    made = card(
        entry(id="a", where="on the left", evidence=(evidence(134),)),
        entry(id="b", room="bathroom.hall", component="toilet", kind="check", outcome="not_tested"),
        entry(id="c", component="oven", kind="follow_up", action="clean", party="manager"),
        entry(id="d", room="balcony", component="railing", condition="loose"),
    )
    assert again(made) == {
        "kitchen/countertop": [("flaw", "chip, on the left", "2:14")],
        "kitchen/oven": [("work", "clean (by the manager)", "1:15")],
        "bathroom/toilet": [("untested", "not tested", "1:15")],
        "balcony/railing": [("flaw", "loose", "1:15")],
    }
    (toilet,) = [one for one in made.again if one.id == "b"]
    assert toilet.room == "bathroom.hall", "the last walk knew the bathroom by another name"


def test_what_was_fine_denied_or_left_out_is_not_looked_at_again() -> None:
    made = card(
        entry(id="a", condition="good"),
        entry(id="b", assertion="absent"),
        entry(id="c", state="dropped"),
        entry(id="d", component="oven", kind="check", outcome="works"),
        entry(id="e", component="oven", kind="advice"),
    )
    assert made.again == ()


def test_what_was_given_is_what_comes_back() -> None:
    keys = entry(id="k", component="key", kind="handover", direction="given", quantity=2)
    fob = entry(id="f", component="fob", kind="handover", direction="given", state="dropped")
    assert [(one.component, one.count, one.moment) for one in card(keys, fob).handed] == [("key", 2, "1:15")]
    assert [one.component for one in card(keys, kind="move_in").handed] == ["key", "fob"]
    assert card(keys, kind="periodic").handed == ()


def test_things_that_change_hands_are_no_parts_of_a_room() -> None:
    assert places(card(rooms={"entry": ("door", "key")}))["entry"] == ["door"]


def test_where_no_rooms_are_planned_the_last_walk_says_them_then_the_components_then_habit() -> None:
    visits = [RoomVisit(room=room, recording="walk.mp4", start=0, end=9) for room in ("entry", "bedroom.2", "entry")]
    walked = make_card(Wish(unit(), "move_out", findings(rooms=visits)), KNOWN)
    assert list(places(walked)) == ["entry", "bedroom.2", "whole_unit"]
    assert not walked.rooms_are_planned
    things = unit(components=[{"room": "kitchen", "component": "oven"}, {"room": "whole_unit", "component": "fob"}])
    assert list(places(make_card(Wish(things, "move_in"), KNOWN))) == ["kitchen", "whole_unit"]
    habit = make_card(Wish(unit(), "move_in"), KNOWN)
    assert list(places(habit)) == [room for room in COMMON_ROOMS if room != "whole_unit"] + ["whole_unit"]


def test_gas_mains_and_water_under_pressure_are_only_looked_at() -> None:
    made = make_card(Wish(unit({"utility": ()}), "move_in"), KNOWN)
    trials = {part.component: part.trial for part in made.rooms[0].parts}
    assert trials == {"water_heater": "look", "furnace": "look"}


def test_what_is_only_looked_at_is_known_to_the_vocabulary() -> None:
    known = (shipped("vocab") / "components.yaml").read_text(encoding="utf-8")
    assert [name for name in sorted(LOOK_ONLY) if f"\n{name}:" not in known] == []


def test_a_last_walk_whose_sources_disagree_is_given_no_kind_and_no_day() -> None:
    clash = [{"value": "move_in", "source": "given"}, {"value": "move_out", "source": "spoken at 0:01"}]
    made = card(walkthrough={"kind": clash, "date": [{"value": "2025-03-06", "source": "given"}]})
    assert made.last is not None
    assert (made.last.kind, made.last.day, made.last.reviewed) == (None, "2025-03-06", False)


def test_a_last_walk_of_another_unit_is_told() -> None:
    assert card(entry()).clashes == ()
    other = card(entry(), walkthrough={"unit": [{"value": "7A", "source": "given"}]})
    assert other.clashes == ("unit: 2B (unit file), 7A (given)",)


FLAWS = st.builds(
    lambda room, component, state: (room, component, state),
    st.sampled_from(["kitchen", "bathroom", "bathroom.hall", "bedroom.2", "whole_unit", "porch"]),
    st.sampled_from(["countertop", "tile", "wall", "key", "smoke_alarm", "range_knob"]),
    st.sampled_from(["proposed", "accepted", "changed", "dropped"]),
)
PLANS = st.dictionaries(
    st.sampled_from(["kitchen", "bathroom", "bedroom", "bedroom.2", "whole_unit"]),
    st.lists(st.sampled_from(["countertop", "tile", "wall", "key"]), unique=True, max_size=3).map(tuple),
)


@given(st.lists(FLAWS, max_size=8), PLANS)
def test_no_flaw_and_no_expected_part_is_lost_or_stands_twice(flaws: Any, rooms: Any) -> None:
    old = [entry(id=f"e{n}", room=room, component=part, state=state) for n, (room, part, state) in enumerate(flaws)]
    made = make_card(Wish(unit(rooms), "move_out", findings(*old)), KNOWN)
    assert sorted(one.id for one in made.again) == sorted(one.id for one in old if one.state != "dropped")
    parts = [(room.room, part.component) for room in made.rooms for part in room.parts]
    assert len(parts) == len(set(parts))
    planned = {
        (room, part) for room, named in rooms.items() for part in named or KNOWN.usual.get(room.split(".")[0], ())
    }
    assert {(room, part) for room, part in planned if part not in KNOWN.handed} <= set(parts)
    assert {"smoke_alarm", "co_alarm"} <= {part for _, part in parts}
