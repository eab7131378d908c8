"""Plain statements in words of other regions and trades, and lines of the same words that tell nothing."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from narrate2report.records.findings import Entry
from tests.read.told import Narrator

LINES: list[Any] = yaml.safe_load((Path(__file__).parent / "data" / "worded_otherwise.yaml").read_text("utf-8"))


def _told(entry: Entry) -> str:
    denied = "not " if entry.assertion == "absent" else ""
    return f"{entry.component}: {denied}{entry.condition or entry.outcome}"


@pytest.mark.parametrize(("room", "line", "wanted"), LINES, ids=[line for _, line, _ in LINES])
def test_a_line_tells_this_and_nothing_else(room: str, line: str, wanted: list[str], entries: Narrator) -> None:
    told = entries(line, room=room).entries
    assert sorted(_told(one) for one in told if one.kind in {"condition", "check"}) == sorted(wanted)


def test_what_a_thing_gets_is_work_to_be_done(entries: Narrator) -> None:
    wanted = {
        "So that alarm gets a fresh battery today.": ("smoke_alarm", "replace"),
        "That wall gets a coat of paint.": ("wall", "touch_up"),
    }
    for line, work in wanted.items():
        told = entries(line, room="hallway").entries
        assert work in [(one.component, one.action) for one in told if one.kind == "follow_up"], line
    assert [one for one in entries("The kitchen gets a lot of light.").entries if one.kind == "follow_up"] == []


def test_an_order_is_about_what_its_object_points_to_and_not_where_that_hangs(entries: Narrator) -> None:
    told = entries("The thermostat works.", "Please don't take it off the wall.", room="hallway").entries
    assert [one.component for one in told if one.kind == "advice"] == ["thermostat"]
