"""Coverage as it is printed: alarms that nobody spoke of before everything else, then rooms never walked."""

from __future__ import annotations

import io
from typing import Any

import pytest
from rich.console import Console

from narrate2report.publish.coverage_list import coverage_list, numbers
from narrate2report.publish.summary import summary
from narrate2report.records.findings import Acknowledged, Coverage, Findings, RoomVisit
from tests.publish.walk import entry, findings

AT = "2026-03-06T12:00:00Z"


def record(*rows: tuple[str, str, str], entries: Any = (), walked: Any = ("kitchen",)) -> Findings:
    return findings(
        *entries,
        coverage=[Coverage.model_validate({"room": r, "component": c, "status": s}) for r, c, s in rows],
        rooms=[RoomVisit(room=room, recording="walk.mp4", start=0, end=9) for room in walked],
    )


def printed(made: Findings, page: Any = coverage_list) -> list[str]:
    console = Console(width=100, file=io.StringIO())
    with console.capture() as captured:
        console.print(page(made))
    return [line.rstrip() for line in captured.get().splitlines()]


def test_alarms_come_first_then_rooms_never_walked() -> None:
    made = record(
        ("kitchen", "countertop", "noted"),
        ("kitchen", "oven", "described_sound"),
        ("bedroom", "smoke_alarm", "not_noted"),
        ("balcony", "railing", "not_noted"),
        walked=("kitchen", "bedroom"),
    )
    lines = printed(made)
    assert lines[:3] == [
        "Smoke alarm not spoken of in Bedroom.",
        "CO alarm not spoken of anywhere.",
        "Expected and never walked: Balcony.",
    ]
    assert "4 parts expected: 2 not spoken of, 1 noted, 1 described as sound. 2 gaps" in " ".join(lines)


def opening(made: Findings, page: Any) -> list[str]:
    """The lines that a list of coverage opens with, or that close a summary after the entries."""
    lines = printed(made, page)
    return lines if page is coverage_list else lines[lines.index("", lines.index("") + 1) + 1 :]


@pytest.mark.parametrize("page", [coverage_list, summary])
def test_silent_alarms_come_before_all_else_also_those_of_rooms_never_walked(page: Any) -> None:
    made = record(
        ("kitchen", "countertop", "noted"),
        ("hallway", "smoke_alarm", "described_sound"),
        ("bedroom", "smoke_alarm", "not_noted"),
        ("bedroom", "co_alarm", "not_noted"),
        entries=[entry(room="hallway", component="smoke_alarm", kind="check", outcome="works")],
        walked=("kitchen", "hallway"),
    )
    assert opening(made, page)[:3] == [
        "Smoke alarm not spoken of in Bedroom (never walked).",
        "CO alarm not spoken of in Bedroom (never walked).",
        "Expected and never walked: Bedroom.",
    ]


@pytest.mark.parametrize("page", [coverage_list, summary])
def test_advice_about_an_alarm_tells_nothing_of_how_it_is(page: Any) -> None:
    advised = entry(room="hallway", component="smoke_alarm", kind="advice")
    made = record(("hallway", "smoke_alarm", "not_noted"), entries=[advised], walked=("hallway",))
    assert opening(made, page)[0] == "Smoke alarm not spoken of in Hallway (only advice or work to be done)."


def test_an_alarm_looked_at_after_the_walk_was_not_spoken_of_and_the_line_says_so() -> None:
    said = Acknowledged(looked="looked_at_since", note="both work", by="Ida Pell", at=AT)
    made = record(entries=[entry(room="hallway", component="co_alarm", kind="check", outcome="works")])
    row = Coverage(room="bedroom", component="smoke_alarm", status="not_noted", acknowledged=said)
    assert printed(made.model_copy(update={"coverage": (row,)}))[0] == (
        "Smoke alarm not spoken of in Bedroom (looked at since)."
    )


def test_an_alarm_that_was_spoken_of_is_not_called_out() -> None:
    alarms = [
        entry(id=name, room="hallway", component=name, kind="check", outcome="works")
        for name in ("smoke_alarm", "co_alarm")
    ]
    made = record(("hallway", "smoke_alarm", "described_sound"), entries=alarms)
    assert numbers(made)["alarms_not_spoken_of"] == []
    assert "alarm not spoken of" not in "\n".join(printed(made))


def test_what_only_a_dropped_entry_spoke_of_was_not_spoken_of() -> None:
    dropped = entry(room="hallway", component="smoke_alarm", kind="check", outcome="works", state="dropped")
    told = numbers(record(entries=[dropped]))["alarms_not_spoken_of"]
    assert told == [{"component": "smoke_alarm", "rooms": []}, {"component": "co_alarm", "rooms": []}]


def test_a_gap_that_was_settled_says_so_and_is_not_open() -> None:
    said = Acknowledged(looked="looked_at_since", note="dry", by="Ida Pell", at=AT)
    row = Coverage(room="kitchen", component="sink", status="not_noted", acknowledged=said)
    made = findings(coverage=[row], rooms=[RoomVisit(room="kitchen", recording="walk.mp4", start=0, end=9)])
    assert numbers(made)["open"] == 0
    assert "looked at since: sink" in "\n".join(printed(made))


def test_a_record_in_which_nothing_was_expected_says_so() -> None:
    assert any("Nothing was expected" in line for line in printed(record(walked=())))


def test_the_summary_of_a_draft_names_rooms_never_walked() -> None:
    made = record(("kitchen", "sink", "not_noted"), ("balcony", "railing", "not_noted"))
    lines = printed(made, summary)
    assert "Expected and never walked: Balcony." in lines
    assert not any("Not spoken of in Balcony" in line for line in lines)
