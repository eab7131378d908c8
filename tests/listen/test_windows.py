"""A stream of sound becomes windows, of which only one is held at a time."""

from __future__ import annotations

import tracemalloc
from collections.abc import Iterator

import numpy as np
import pytest

from narrate2report.listen.silero import FRAME
from narrate2report.listen.windows import cut_windows
from narrate2report.records.clip import RATE, Sound
from tests.listen.sounds import LoudnessMeter, bursts, pieces

TALK = [(1.0, 3.0), (3.4, 6.0), (13.0, 15.0), (30.0, 31.0)]


def test_each_window_is_the_very_sound_at_its_place() -> None:
    sound = bursts(40, TALK)
    windows = list(cut_windows(pieces(sound), LoudnessMeter()))
    assert len(windows) == 3
    for window in windows:
        assert np.array_equal(window.sound, sound[window.start : window.start + len(window.sound)])
        assert len(window.chances) * FRAME == len(window.sound)
    spans = [(window.start_s + start, window.start_s + end) for window in windows for start, end in window.speech]
    assert spans == [pytest.approx(span, abs=0.04) for span in TALK]


@pytest.mark.parametrize("size", [100, 512, 5_000, 400_000, 10_000_000])
def test_it_does_not_matter_how_the_sound_comes(size: int) -> None:
    sound = bursts(40, TALK)
    expected = [window.digest() for window in cut_windows(pieces(sound), LoudnessMeter())]
    assert [window.digest() for window in cut_windows(pieces(sound, size), LoudnessMeter())] == expected


def test_memory_does_not_grow_with_the_stream() -> None:
    def endless(minutes: int) -> Iterator[Sound]:
        rng = np.random.default_rng(1)
        for number in range(minutes * 60):
            loud = 0.1 if number % 7 < 5 else 1e-4
            yield (rng.standard_normal(RATE) * loud).astype(np.float32)

    peaks = []
    for minutes in (3, 30):
        tracemalloc.start()
        for _ in cut_windows(endless(minutes), LoudnessMeter()):
            pass
        peaks.append(tracemalloc.get_traced_memory()[1])
        tracemalloc.stop()
    assert peaks[1] < peaks[0] * 1.1 + 200_000
