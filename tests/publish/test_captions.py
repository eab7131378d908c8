"""Captions hold the words and times of the transcript, for this program's own readers and for another library's."""

from __future__ import annotations

import html
from pathlib import Path

import pysubs2
import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrate2report.intake.cues import Cue
from narrate2report.intake.subrip import parse_subrip
from narrate2report.intake.webvtt import parse_webvtt
from narrate2report.publish.captions import LINE, subrip, webvtt
from narrate2report.records.transcript import Stretch

WORDS = st.lists(
    st.text(st.characters(categories=("L", "N", "P"), include_characters="&<>'-"), min_size=1, max_size=12),
    min_size=1,
    max_size=30,
).map(" ".join)


@st.composite
def stretches(draw: st.DrawFn) -> list[Stretch]:
    made, now = [], 0.0
    for _ in range(draw(st.integers(1, 6))):
        start = round(now + draw(st.floats(0, 4000)), 2)
        now = round(start + draw(st.floats(0, 30)), 2)
        made.append(Stretch(recording="walk.mp4", start=start, end=now, text=draw(WORDS)))
    return made


def same(cue: Cue, stretch: Stretch) -> bool:
    assert cue.end is not None
    return abs(cue.start - stretch.start) < 0.0011 and abs(cue.end - max(stretch.end, stretch.start + 0.01)) < 0.0011


@given(stretches())
def test_webvtt_is_read_back_as_it_was(made: list[Stretch]) -> None:
    cues = parse_webvtt(webvtt(made).split("\n"))
    assert [" ".join(cue.text.split()) for cue in cues] == [stretch.text for stretch in made]
    assert all(map(same, cues, made))


@given(stretches())
def test_subrip_is_read_back_as_it_was_but_for_marks_that_it_cannot_hold(made: list[Stretch]) -> None:
    made = [stretch for stretch in made if not set(stretch.text) & set("<>{}\\")]
    cues = parse_subrip(subrip(made).split("\n"))
    assert [" ".join(cue.text.split()) for cue in cues] == [stretch.text for stretch in made]
    assert all(map(same, cues, made))


TALK = [
    Stretch(recording="walk.mp4", start=1.5, end=4.25, text="We are in the kitchen, by the sink & the range."),
    Stretch(recording="walk.mp4", start=5.0, end=5.0, text="Clean."),
    Stretch(recording="walk.mp4", start=9.0, end=10.0, text="Thanks for watching!", doubt="a stock phrase"),
    Stretch(recording="walk.mp4", start=3723.5, end=3725.0, text="The <small> window's latch --> loose."),
]


@pytest.mark.parametrize(("write", "form"), [(webvtt, "vtt"), (subrip, "srt")])
def test_another_library_reads_the_same_words_at_the_same_times(write: object, form: str, tmp_path: Path) -> None:
    assert callable(write)
    (tmp_path / f"walk.{form}").write_text(write(TALK), encoding="utf-8")
    read = pysubs2.load(str(tmp_path / f"walk.{form}"), encoding="utf-8", format_=form)
    believed = [stretch for stretch in TALK if stretch.doubt is None]
    assert [(event.start, event.end) for event in read] == [(1500, 4250), (5000, 5010), (3_723_500, 3_725_000)]
    # The library leaves the character references of WebVTT as they are.
    plain = [" ".join(html.unescape(event.plaintext).split()) for event in read]
    assert plain[:2] == [stretch.text for stretch in believed][:2]
    assert "latch" in plain[2]


def test_what_was_doubted_is_no_caption() -> None:
    for text in (webvtt(TALK), subrip(TALK)):
        assert "watching" not in text
        assert "Clean." in text


def test_lines_are_no_longer_than_a_player_shows() -> None:
    long = Stretch(recording="a", start=0, end=20, text="the window over the sink opens and closes " * 8)
    lines = subrip([long]).splitlines()
    assert len(lines) > 8
    assert max(map(len, lines)) <= LINE
