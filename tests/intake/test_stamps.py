"""Times as transcripts write them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrate2report.intake.stamps import note_seconds, subrip_seconds, webvtt_seconds

VECTORS = json.loads((Path(__file__).parent / "vectors" / "webvtt_timestamps.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("case", VECTORS["cases"], ids=lambda case: repr(case["text"]))
def test_webvtt_times_as_the_standard_reads_them(case: dict[str, object]) -> None:
    expected = case["parser_ms"]
    seconds = webvtt_seconds(str(case["text"]))
    assert (None if seconds is None else round(seconds * 1000)) == expected


@given(st.integers(0, 99 * 3600_000))
def test_a_webvtt_time_survives_writing_and_reading(milliseconds: int) -> None:
    whole, rest = divmod(milliseconds, 1000)
    text = f"{whole // 3600:02d}:{whole // 60 % 60:02d}:{whole % 60:02d}.{rest:03d}"
    assert webvtt_seconds(text) == pytest.approx(milliseconds / 1000)
    assert subrip_seconds(text.replace(".", ",")) == pytest.approx(milliseconds / 1000)


@pytest.mark.parametrize(
    ("text", "seconds"),
    [
        ("0:00", 0),
        ("0:12", 12),
        ("75:10", 4510),
        ("1:02:03", 3723),
        ("0:07.25", 7.25),
        ("1:00:00.5", 3600.5),
        ("01:05", 65),
        ("0:60", None),
        ("1:60:00", None),
        ("1:5", None),
        ("12", None),
        ("1:2:3:04", None),
        ("\u0661:12", None),
    ],
)
def test_times_in_brackets(text: str, seconds: float | None) -> None:
    assert note_seconds(text) == seconds


@pytest.mark.parametrize(
    ("text", "seconds"),
    [
        ("00:00:12,500", 12.5),
        ("0:00:12.5", 12.5),
        ("00:12,5", 12.5),
        ("00:00:60,000", None),
        ("12,5", None),
        ("", None),
    ],
)
def test_subrip_times(text: str, seconds: float | None) -> None:
    assert subrip_seconds(text) == seconds
