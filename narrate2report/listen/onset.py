"""Word times settled against the sound itself.

The model reads word times off its attention: starts come early by 65 to 250 ms as a rule, after a long
pause by up to a second, and now and then a word is given no length, or a whole pause. What a person follows
is a link to the first word after a pause, and there the sound tells: it was quiet, and then it was not.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from narrate2report.listen.levels import STEP_S, loudness, pauses, quiet_steps
from narrate2report.records.clip import RATE, Sound
from narrate2report.records.transcript import Word

PAUSE_STEPS = 12
"""Quiet shorter than 0.12 s is the closure of a stop (the silence in "a-pple"), not a pause."""
LEAD_S = 0.02
"""A word starts this much before its first loud step: opening sounds rise from nothing."""
LATE_S = 0.35
"""A start up to this far behind the end of a pause, with no other word between, belongs to that end."""
TAIL_S = 0.5
"""A last word lasts up to the pause, if that is no more than this away: ends come early too."""
FOOTHOLD_S = 0.12
"""Less sound than this before a pause is the tail of the word before, not a word of its own."""
SHARE_S = 0.15
"""This much sound behind a pause is a word's own: the next word, coming early, left none over."""
LARGE_SHARE_S = 0.45
"""With this much sound before the pause a word stands there after all, if that is more."""
SHORTEST_S = 0.06
LONGEST_S = 1.5
"""A longer word than this holds more than itself; its end is not believed."""


@dataclass
class _Span:
    start: float
    end: float


@dataclass(frozen=True)
class _Pause:
    start: float
    end: float

    @property
    def resumes(self) -> float:
        """Where a word behind the pause starts."""
        return max(self.start, self.end - LEAD_S)


def settle(words: Sequence[Word], sound: Sound, chances: NDArray[np.float32]) -> tuple[Word, ...]:
    """Words with starts at the onset of their sound and ends at its end; order kept, none overlapping.

    All times are from the start of `sound`; `chances` are of speech, one for each frame of it. Starts are
    moved only beside a pause, and never into the word.
    """
    if not words:
        return ()
    quiet = [
        _Pause(start * STEP_S, end * STEP_S)
        for start, end in pauses(quiet_steps(loudness(sound), chances), PAUSE_STEPS)
    ]
    spans = [_Span(word.start, word.end) for word in words]
    for index, span in enumerate(spans):
        before = spans[index - 1].end if index else None
        for pause in quiet:
            if pause.start < span.end and pause.end > span.start:
                _leave(span, pause, before)
    for index, span in enumerate(spans):
        _catch_onset(span, spans[index - 1] if index else None, quiet)
    _meet_ends(spans, quiet)
    _give_length(spans, len(sound) / RATE)
    return tuple(
        word.model_copy(update={"start": round(span.start, 2), "end": round(span.end, 2)})
        for word, span in zip(words, spans, strict=True)
    )


def _leave(span: _Span, pause: _Pause, before: float | None) -> None:
    """Take a word out of a pause that it overlaps, to the side where its sound is."""
    sound_before = max(0.0, pause.start - span.start)
    sound_after = max(0.0, span.end - pause.end)
    follows_directly = before is not None and span.start - before < 0.03
    stands_behind = sound_after >= SHARE_S and (sound_before < LARGE_SHARE_S or sound_after >= sound_before)
    if sound_before >= FOOTHOLD_S and not stands_behind:
        span.end = pause.start
    elif sound_after > 0 or follows_directly or before is None:
        span.start, span.end = pause.resumes, max(span.end, pause.end + SHORTEST_S)
    else:
        span.start = min(span.start, max(0.0, pause.start - SHORTEST_S))
        span.end = pause.start


def _catch_onset(span: _Span, before: _Span | None, quiet: Sequence[_Pause]) -> None:
    """Move a start that comes late after a pause back to the onset."""
    for pause in quiet:
        if 0 < span.start - pause.resumes <= LATE_S and (before is None or before.start < pause.start):
            span.start = pause.resumes
            if before is not None:
                before.end = min(before.end, pause.start)


def _meet_ends(spans: Sequence[_Span], quiet: Sequence[_Pause]) -> None:
    """Let a last word before a pause last until the pause."""
    for index, span in enumerate(spans):
        following = spans[index + 1].start if index + 1 < len(spans) else float("inf")
        for pause in quiet:
            if span.end < pause.start <= min(following, span.end + TAIL_S) and pause.start - span.start <= LONGEST_S:
                span.end = pause.start
                break


def _give_length(spans: Sequence[_Span], length: float) -> None:
    """Put words in order within the sound, each with some length and none reaching into the next."""
    earliest = 0.0
    for span in spans:
        span.start = min(max(span.start, earliest), max(0.0, length - SHORTEST_S))
        earliest = span.start
    for index in range(len(spans) - 1, -1, -1):
        span = spans[index]
        limit = spans[index + 1].start if index + 1 < len(spans) else length
        if limit - span.start < SHORTEST_S and index and span.start - spans[index - 1].start > 2 * SHORTEST_S:
            span.start = max(0.0, limit - SHORTEST_S)
        span.end = min(max(span.end, span.start + SHORTEST_S), max(limit, span.start))
        if span.end - span.start > LONGEST_S:
            span.end = span.start + LONGEST_S
