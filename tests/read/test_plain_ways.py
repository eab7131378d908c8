"""The many plain ways in which people say one thing, each with several components and flaws."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from narrate2report.records.findings import Entry
from tests.read.told import Narrator

WAYS: dict[str, list[Any]] = yaml.safe_load(
    (Path(__file__).parent / "data" / "plain_ways.yaml").read_text(encoding="utf-8")
)

FLAWS = (("counter", "countertop", "scratch"), ("wall", "wall", "hole"), ("sink", "sink", "chip"))
STATES = (("handle", "loose", "loose"), ("faucet", "leaking", "leak"), ("drawer", "broken", "broken"))
DEVICES = (("dishwasher", "dishwasher"), ("microwave", "microwave"), ("disposal", "garbage_disposal"))
ROOMS = ("kitchen", "bedroom", "garage")


def _said(way: str, x: str, y: str = "") -> str:
    return way.format(x=x, y=y, X=x.capitalize(), Y=y.capitalize())


def _flaws(entries: list[Entry], condition: str) -> list[tuple[str, str | None]]:
    """Where a flaw is said to be, or perhaps to be."""
    return [
        (one.component, one.assertion)
        for one in entries
        if one.kind == "condition" and one.condition == condition and one.assertion != "absent"
    ]


@pytest.mark.parametrize("way", WAYS["a_flaw_is_there"])
def test_a_flaw_that_is_there(way: str, entries: Narrator) -> None:
    for x, component, flaw in FLAWS:
        told = entries(_said(way, x, flaw), room="kitchen").entries
        assert (component, "present") in _flaws(list(told), flaw), _said(way, x, flaw)


@pytest.mark.parametrize("way", WAYS["a_flaw_is_only_talked_of"])
def test_a_flaw_that_is_only_talked_of(way: str, entries: Narrator) -> None:
    for x, _, flaw in FLAWS:
        told = entries(_said(way, x, flaw), room="kitchen").entries
        assert _flaws(list(told), flaw) == [], _said(way, x, flaw)


@pytest.mark.parametrize("way", WAYS["it_is_so"])
def test_a_state_that_is_so(way: str, entries: Narrator) -> None:
    for x, word, condition in STATES:
        told = _flaws(list(entries(_said(way, x, word), room="kitchen").entries), condition)
        assert any(component != "room_general" and sure == "present" for component, sure in told), _said(way, x, word)


@pytest.mark.parametrize("way", WAYS["it_is_not_so"])
def test_a_state_that_is_not_so(way: str, entries: Narrator) -> None:
    for x, word, condition in STATES:
        told = entries(_said(way, x, word), room="kitchen").entries
        assert _flaws(list(told), condition) == [], _said(way, x, word)


@pytest.mark.parametrize(
    ("way", "outcome"),
    [
        *((way, "works") for way in WAYS["it_works"]),
        *((way, "fails") for way in WAYS["it_fails"]),
        *((way, "not_tested") for way in WAYS["it_was_not_tried"]),
    ],
)
def test_what_was_tried_and_how_it_did(way: str, outcome: str, entries: Narrator) -> None:
    for x, component in DEVICES:
        told = entries(_said(way, x), room="kitchen").entries
        checks = {(one.component, one.outcome) for one in told if one.kind == "check"}
        broken = outcome == "fails" and (component, "present") in _flaws(list(told), "not_working")
        assert broken or (component, outcome) in checks, _said(way, x)
        assert {result for _, result in checks} <= {outcome}, _said(way, x)


@pytest.mark.parametrize("way", WAYS["a_room_is_entered"])
def test_a_room_is_entered(way: str, entries: Narrator) -> None:
    for room in ROOMS:
        said = way.format(room=room, Room=room.capitalize(), ROOM=room.upper())
        rooms = [visit.room for visit in entries(said, room="hallway").findings.rooms]
        assert rooms == ["hallway", room], said


@pytest.mark.parametrize("way", WAYS["a_room_is_only_named"])
def test_a_room_is_only_named(way: str, entries: Narrator) -> None:
    for room in ROOMS:
        said = way.format(room=room, Room=room.capitalize(), ROOM=room.upper())
        rooms = [visit.room for visit in entries(said, room="living room").findings.rooms]
        assert rooms == ["living_room"], said


@pytest.mark.parametrize("way", WAYS["work_is_planned"])
def test_work_that_is_planned(way: str, entries: Narrator) -> None:
    for x, component in DEVICES:
        told = entries(_said(way, x), room="kitchen").entries
        assert [one.component for one in told if one.kind == "follow_up"] == [component], _said(way, x)


@pytest.mark.parametrize("way", WAYS["no_work_is_planned"])
def test_work_that_nobody_plans(way: str, entries: Narrator) -> None:
    for x, _ in DEVICES:
        told = entries(_said(way, x), room="kitchen").entries
        assert not [one for one in told if one.kind == "follow_up"], _said(way, x)


@pytest.mark.parametrize("way", WAYS["care_is_asked"])
def test_care_that_is_asked(way: str, entries: Narrator) -> None:
    for x, component in DEVICES:
        told = entries(_said(way, x), room="kitchen").entries
        assert component in [one.component for one in told if one.kind == "advice"], _said(way, x)


@pytest.mark.parametrize("way", WAYS["a_longer_flaw_is_denied"])
def test_a_denial_reaches_the_whole_flaw(way: str, entries: Narrator) -> None:
    for x, _, _ in FLAWS:
        told = entries(_said(way, x), room="kitchen").entries
        assertions = {one.assertion for one in told if one.kind == "condition"}
        assert assertions == {"absent"}, _said(way, x)


@pytest.mark.parametrize("case", WAYS["of_what_was_spoken_of"], ids=lambda case: str(case["said"]))
def test_a_flaw_goes_to_what_it_fits(case: dict[str, Any], entries: Narrator) -> None:
    told = entries(case["before"], case["said"], room="living room").said_from(2)
    flaws = [one for one in told if one.kind == "condition" and one.assertion == "present"]
    assert flaws
    assert {one.component for one in flaws} <= set(case["may_be"])
    assert all(one.because for one in flaws)
