"""How an entry reads to a person."""

from __future__ import annotations

from typing import Any

import pytest

from narrate2report.records.findings import Heard
from narrate2report.records.weighing import Weight
from narrate2report.wording import misheard, moment, plain, room_name, said, unit_name
from tests.publish.walk import entry, evidence

WORDED: list[tuple[dict[str, Any], str]] = [
    ({}, "chip"),
    ({"condition": "nail_hole", "quantity": 2, "pre_existing": True}, "nail hole ×2, there before"),
    ({"condition": "rust", "assertion": "absent", "where": "around the drain"}, "no rust, around the drain"),
    ({"condition": "leak", "assertion": "possible", "severity": "slight"}, "leak, not certain, slight"),
    ({"size": {"text": "a quarter inch", "value": 0.25, "unit": "in"}}, "chip, a quarter inch"),
    (
        {"size": {"text": "half an inch", "value": 0.5, "unit": "in"}, "where": "in front about half an inch"},
        "chip, in front about half an inch",
    ),
    ({"condition": "burn", "where": "on the countertop"}, "burn"),
    ({"condition": "burn", "where": "on the countertop by the sink"}, "burn, on the countertop by the sink"),
    ({"kind": "check", "outcome": "works"}, "works"),
    ({"kind": "check", "outcome": "fails", "quantity": 2}, "does not work ×2"),
    ({"kind": "check", "outcome": "not_tested"}, "not tested"),
    ({"kind": "handover", "quantity": 2, "direction": "given"}, "2 given to the resident"),
    ({"kind": "handover", "direction": "returned"}, "returned by the resident"),
    (
        {"kind": "follow_up", "action": "touch_up", "party": "manager"},
        "to do: touch up (by the manager)",
    ),
    ({"kind": "follow_up", "action": "repair"}, "to do: repair"),
    ({"kind": "description", "attribute": {"name": "material", "value": "oak"}}, "material: oak"),
    (
        {"kind": "advice", "evidence": (evidence(1, "Wipe it dry."),)},
        "advice: “Wipe it dry.”",
    ),
]


@pytest.mark.parametrize(("fields", "words"), WORDED, ids=[words for _, words in WORDED])
def test_an_entry_reads_as_a_person_would_say_it(fields: dict[str, Any], words: str) -> None:
    assert said(entry(**fields)) == words


@pytest.mark.parametrize(
    ("room", "name"),
    [
        ("kitchen", "Kitchen"),
        ("living_room", "Living room"),
        ("bedroom.2", "Bedroom 2"),
        ("bathroom.hall", "Hall bathroom"),
        ("bedroom.primary", "Primary bedroom"),
    ],
)
def test_a_room_is_named_as_it_is_spoken(room: str, name: str) -> None:
    assert room_name(room) == name


def test_initials_stay_initials() -> None:
    assert plain("co_alarm") == "CO alarm"
    assert plain("gfci_outlet") == "GFCI outlet"
    assert plain("window_sill") == "window sill"


def test_the_clip_is_named_only_where_there_are_several() -> None:
    assert moment("a.mp4", 75.3, recordings=1) == "1:15"
    assert moment("a.mp4", 75.3, recordings=2) == "a.mp4 1:15"


@pytest.mark.parametrize(
    ("unit", "name"),
    [("2b", "unit 2B"), ("1204c", "unit 1204C"), ("Flat 3", "Flat 3"), ("Garden house", "Garden house")],
)
def test_a_bare_number_is_called_a_unit(unit: str, name: str) -> None:
    assert unit_name(unit) == name


@pytest.mark.parametrize(
    ("told", "worded"),
    [
        ({}, "“cock” read as “caulk” (a reason)"),
        (
            {"sound": Weight(plain=-1.5, context=0.25)},
            "“cock” read as “caulk” (a reason; by its sound -1.5, +0.2 among words of the trade)",
        ),
        (
            {"sound": Weight(plain=-9), "asked": True},
            "“cock”, left as heard: was “caulk” said? (a reason; by its sound -9.0)",
        ),
    ],
)
def test_a_misheard_word_is_told_with_both_words_and_what_their_sound_gave(told: dict[str, Any], worded: str) -> None:
    assert misheard(Heard(heard="cock", read="caulk", why="a reason", sureness=0.5, **told)) == worded
