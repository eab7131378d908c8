"""A transcript as captions: WebVTT (W3C, section 4) and SubRip, one cue for each stretch.

Read back by `draft`, they give the entries that the transcript gives. What was doubted is left out: a comment could
hold it in WebVTT, but there are readers that take a comment for the end of the caption before it.
"""

from __future__ import annotations

import html
import math
import textwrap
from collections.abc import Iterator, Sequence
from dataclasses import replace

from narrate2report.records.plain import one_line
from narrate2report.records.timed_text import TimedText, until_next
from narrate2report.records.transcript import Stretch

LINE = 42
"""Characters in a line: what players show without breaking it again."""

SHORTEST_S = 0.01
"""A cue must end after it begins, a chapter too."""


def webvtt(stretches: Sequence[Stretch]) -> str:
    """The captions of one recording in WebVTT."""
    blocks = ["WEBVTT"]
    for stretch in _believed(stretches):
        times = f"{webvtt_time(stretch.start)} --> {webvtt_time(_end(stretch))}"
        blocks.append("\n".join([times, *_lines(html.escape(stretch.text, quote=False))]))
    return "\n\n".join(blocks) + "\n"


def subrip(stretches: Sequence[Stretch]) -> str:
    """The captions of one recording in SubRip."""
    blocks = []
    for number, stretch in enumerate(_believed(stretches), start=1):
        times = f"{_subrip_time(stretch.start)} --> {_subrip_time(_end(stretch))}"
        blocks.append("\n".join([str(number), times, *_lines(_plain(stretch.text))]))
    return "\n\n".join(blocks) + "\n"


def shown_in_turn(stretches: Sequence[Stretch]) -> tuple[TimedText, ...]:
    """The captions of one recording for a track that shows one at a time: each ends when the next begins."""
    shown: dict[float, TimedText] = {}
    for stretch in sorted(_believed(stretches), key=lambda one: one.start):
        before = shown.get(stretch.start)
        lines = _lines(one_line(stretch.text))
        words = "\n".join([before.text, *lines] if before else lines)
        shown[stretch.start] = TimedText(stretch.start, max(_end(stretch), before.end_s if before else 0.0), words)
    turns = until_next(list(shown), math.inf)
    ended = [replace(shown[start], end_s=min(shown[start].end_s, begins)) for start, begins in turns]
    return tuple(one for one in ended if one.text)


def _believed(stretches: Sequence[Stretch]) -> Iterator[Stretch]:
    return (stretch for stretch in stretches if stretch.doubt is None)


def _lines(words: str) -> list[str]:
    return textwrap.wrap(words, LINE, break_long_words=False, break_on_hyphens=False)


def _plain(words: str) -> str:
    """Words without the arrow that marks a line of times."""
    return words.replace("-->", "->")


def _end(stretch: Stretch) -> float:
    return max(stretch.end, stretch.start + SHORTEST_S)


def webvtt_time(seconds: float) -> str:
    """`75.3` as `00:01:15.300`."""
    return _time(seconds, ".")


def _subrip_time(seconds: float) -> str:
    return _time(seconds, ",")


def _time(seconds: float, point: str) -> str:
    """`3723.5` as `01:02:03.500`."""
    whole, thousandths = divmod(round(seconds * 1000), 1000)
    return f"{whole // 3600:02d}:{whole // 60 % 60:02d}:{whole % 60:02d}{point}{thousandths:03d}"
