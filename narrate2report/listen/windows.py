"""A clip's sound to windows of up to 28 s, cut where nobody speaks; one is held, however long the clip."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from narrate2report.listen.cuts import Cut, Cutter
from narrate2report.listen.hearing import Window
from narrate2report.listen.silero import FRAME, SpeechMeter
from narrate2report.records.clip import RATE, Sound


class Meter(Protocol):
    """What tells how likely someone speaks."""

    def feed(self, sound: Sound) -> NDArray[np.float32]:
        """The chances of the frames that this piece completes."""


def cut_windows(blocks: Iterable[Sound], meter: Meter | None = None) -> Iterator[Window]:
    """Yield the windows of a stream in order; sound in which nobody speaks is in none of them."""
    meter = SpeechMeter() if meter is None else meter
    cutter, held = Cutter(), _Held()
    for block in blocks:
        chances = meter.feed(block)
        held.add(block, chances)
        for chance in chances:
            for cut in cutter.feed(float(chance)):
                yield held.window(cut)
        held.forget(cutter.needed_from)
    for cut in cutter.finish():
        yield held.window(cut)


class _Held:
    """The sound and chances that a coming window may need."""

    def __init__(self) -> None:
        self._base = 0
        self._sound: Sound = np.zeros(0, np.float32)
        self._chances: NDArray[np.float32] = np.zeros(0, np.float32)
        self._new: list[Sound] = []

    def add(self, sound: Sound, chances: NDArray[np.float32]) -> None:
        self._new.append(sound)
        self._chances = np.concatenate([self._chances, chances])

    def window(self, cut: Cut) -> Window:
        self._join()
        first, last = cut.start - self._base, cut.end - self._base
        sound = self._sound[first * FRAME : last * FRAME].copy()
        speech = tuple(
            ((run.start - cut.start) * FRAME / RATE, (run.end - cut.start) * FRAME / RATE) for run in cut.speech
        )
        return Window(cut.start * FRAME, sound, self._chances[first:last].copy(), speech)

    def forget(self, before: int) -> None:
        """Let go of frames before this one; in steps, so that the sound is seldom copied."""
        if before - self._base < 100 and len(self._new) < 100:
            return
        self._join()
        gone = max(0, before - self._base)
        self._sound = self._sound[gone * FRAME :].copy()
        self._chances = self._chances[gone:].copy()
        self._base += gone

    def _join(self) -> None:
        if self._new:
            self._sound = np.concatenate([self._sound, *self._new])
            self._new = []
