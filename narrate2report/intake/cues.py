"""A cue: words under one time. All transcript formats come down to these, and one set of checks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from narrate2report.records.moments import clock
from narrate2report.records.transcript import Stretch

WORDS_PER_S = 2.5
"""A speaker's usual pace, for a line whose end nobody wrote down."""

SHORTEST_S = 0.5

LONGEST_SLACK = 4.0
"""A line without an end lasts to the next one, but at most this many times its length at the usual pace,
plus 5 s.
"""


@dataclass(frozen=True)
class Cue:
    """Words with the time at which they begin and, where it is written down, end (seconds); `line` is for
    messages.
    """

    line: int
    start: float
    end: float | None
    text: str


class CueFault(ValueError):
    """A line of a transcript that cannot be read: its number (from 1) and what is wrong with it."""

    def __init__(self, line: int, what: str) -> None:
        super().__init__(f"line {line}: {what}")
        self.line = line


def check_order(cues: Sequence[Cue]) -> None:
    """Raise CueFault at the first cue whose times run backwards, in itself or against the cue before it."""
    latest = 0.0
    for cue in cues:
        if cue.start < latest:
            raise CueFault(cue.line, f"starts at {clock(cue.start)}, before the line above it ({clock(latest)})")
        if cue.end is not None and cue.end < cue.start:
            raise CueFault(cue.line, f"ends at {clock(cue.end)}, before it starts ({clock(cue.start)})")
        latest = cue.start


def to_stretches(cues: Sequence[Cue], recording: str) -> tuple[Stretch, ...]:
    """Cues with words as stretches; a missing end is the next start, or estimated from the words."""
    stretches = []
    for index, cue in enumerate(cues):
        text = " ".join(cue.text.split())
        if text:
            end = cue.end if cue.end is not None and cue.end > cue.start else _likely_end(cues, index, text)
            stretches.append(Stretch(recording=recording, start=cue.start, end=end, text=text))
    return tuple(stretches)


def _likely_end(cues: Sequence[Cue], index: int, text: str) -> float:
    start = cues[index].start
    spoken = max(SHORTEST_S, len(text.split()) / WORDS_PER_S)
    following = next((later.start for later in cues[index + 1 :] if later.start > start), None)
    if following is None:
        return start + spoken
    return min(following, start + LONGEST_SLACK * spoken + 5.0)
