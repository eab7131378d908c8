"""Which planned room somebody is in who names a room, and which planned rooms nobody went into."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrate2report.records.expected import WHOLE_UNIT, Expected, expected_of
from tests.plan.units import unit

ROOMS = st.sampled_from(["kitchen", "bedroom", "bedroom.2", "bedroom.primary", "bathroom.hall", WHOLE_UNIT])


def plan(*rooms: str) -> Expected:
    return Expected(dict.fromkeys(rooms, ()))


@pytest.mark.parametrize(
    ("planned", "walked", "meant"),
    [
        (["bathroom"], "bathroom", "bathroom"),
        (["bathroom"], "bathroom.hall", "bathroom"),
        (["bathroom.hall"], "bathroom", "bathroom.hall"),
        (["bathroom.hall"], "bathroom.primary", None),
        (["bedroom.1", "bedroom.2"], "bedroom", None),
        (["bedroom", "bedroom.2"], "bedroom.3", "bedroom"),
        (["bedroom", "bedroom.2"], "bedroom.2", "bedroom.2"),
        (["kitchen"], "bedroom", None),
        ([], "bedroom", None),
    ],
)
def test_the_planned_room_that_is_meant(planned: list[str], walked: str, meant: str | None) -> None:
    assert plan(*planned).meant_by(walked) == meant


def test_a_room_that_was_met_under_another_name_was_walked() -> None:
    assert plan("kitchen", "bathroom", "balcony").never_walked(["bathroom.hall", "kitchen"]) == ("balcony",)


@given(st.lists(ROOMS, unique=True), st.lists(ROOMS))
def test_every_planned_room_is_met_or_never_walked(planned: list[str], walked: list[str]) -> None:
    expected = plan(*planned)
    met = {expected.meant_by(room) for room in walked} - {None, WHOLE_UNIT}
    left = expected.never_walked(walked)
    assert met | set(left) == set(planned) - {WHOLE_UNIT}
    assert not met & set(left)


def test_a_room_without_components_expects_the_usual_ones() -> None:
    usual = {"bedroom": ("wall", "window")}
    rooms = expected_of(unit({"bedroom.2": (), "bedroom.1": ("carpet",)}), usual).rooms
    assert rooms == {"bedroom.2": ("wall", "window"), "bedroom.1": ("carpet",)}
