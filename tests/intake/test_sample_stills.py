"""Stills of the sample films prove their time themselves: a clock is burnt into each picture."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from narrate2report.intake.frames import frame_at, neighbour, sharpest
from tests.clock import read_clock

SAMPLES = Path(__file__).parents[2] / "samples"
MOVE_IN = SAMPLES / "move-in.mp4"


@settings(max_examples=60)
@given(time_s=st.floats(0, 222))
def test_the_clock_of_a_still_shows_its_time(time_s: float) -> None:
    frame = frame_at(MOVE_IN, time_s)
    assert read_clock(frame.pixels) == pytest.approx(frame.time_s, abs=1e-6)
    assert -0.0011 <= time_s - frame.time_s < 0.1


@settings(max_examples=20)
@given(time_s=st.floats(0, 222), steps=st.integers(-25, 25))
def test_a_step_is_a_tenth_of_a_second(time_s: float, steps: int) -> None:
    begins = frame_at(MOVE_IN, time_s).time_s
    expected = min(max(begins + steps / 10, 0.0), 222.6)
    assert read_clock(neighbour(MOVE_IN, time_s, steps).pixels) == pytest.approx(expected, abs=0.01)


@pytest.mark.parametrize("walk", ["move-in", "move-out"])
def test_the_still_of_each_statement_lies_within_it(walk: str) -> None:
    """Where the camera rests, any moment will do; on its way to the next shot the picture is blended."""
    for start_s, end_s in json.loads((SAMPLES / f"{walk}.times.json").read_text(encoding="utf-8"))[::6]:
        frame = sharpest(SAMPLES / f"{walk}.mp4", start_s, end_s)
        shown = read_clock(frame.pixels)
        assert shown == pytest.approx(frame.time_s, abs=1e-6)
        assert start_s - 0.1 < shown <= end_s
