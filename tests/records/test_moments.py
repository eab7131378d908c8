"""Times as files carry them, as players show them, and as links open them."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrate2report.records.moments import clock, fragment, rounded
from tests.records.media_fragments import temporal

VECTORS = json.loads((Path(__file__).parent / "vectors" / "media_fragments.json").read_text(encoding="utf-8"))
hundredths = st.integers(0, 4_000_000)
file_names = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="/\0"), min_size=1)


@pytest.mark.parametrize("case", VECTORS["cases"], ids=lambda case: case["id"])
def test_the_reader_of_fragments_used_here_is_the_one_of_the_standard(case: dict[str, Any]) -> None:
    assert temporal(case["fragment"]) == ((case["start"], case["end"]) if case["valid"] else None)


@given(file_names, hundredths, hundredths)
def test_every_link_plays_its_stretch_of_its_file(name: str, start: int, length: int) -> None:
    from_s, to_s = start / 100, (start + length + 1) / 100
    path, _, part = fragment(name, from_s, to_s).partition("#")
    assert unquote(path) == name
    assert temporal(part) == (from_s, to_s)


def test_a_link_reads_as_the_contract_shows_it() -> None:
    assert fragment("clip.mp4", 12.2, 18.14) == "clip.mp4#t=12.20,18.14"
    assert fragment("flat 2B #1.mp4", 0, 1) == "flat%202B%20%231.mp4#t=0.00,1.00"


@pytest.mark.parametrize(
    ("seconds", "shown"),
    [(0, "0:00"), (9.99, "0:09"), (75.3, "1:15"), (599.999, "9:59"), (3600, "1:00:00"), (3675, "1:01:15")],
)
def test_a_moment_is_shown_as_a_player_shows_it(seconds: float, shown: str) -> None:
    assert clock(seconds) == shown


@given(hundredths)
def test_a_time_of_a_file_survives_its_rounding(hundredth: int) -> None:
    assert rounded(hundredth / 100) == hundredth / 100


def test_there_is_no_negative_zero() -> None:
    assert str(rounded(-0.0)) == "0.0"
    assert str(rounded(0.004)) == "0.0"
