"""One clip at a time through the line: its windows, heard or known from before, each result kept at once."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from narrate2report.listen.crew import Crew
from narrate2report.listen.hearing import Heard, Hearing, Window
from narrate2report.listen.onset import settle
from narrate2report.listen.store import Store, result_key
from narrate2report.listen.stretches import Placed
from narrate2report.listen.windows import cut_windows
from narrate2report.records.clip import RATE, Clip, Sound

FAINT_PEAK = 0.004
"""A recording whose loudest sample is below this (-48 dB) loses words: speech is no longer told from silence."""
FULL_SCALE, CUT_OFF_SHARE = 0.98, 0.01
"""So large a share of samples at full scale is no loud word but a recorder driven too hard."""


@dataclass(frozen=True)
class HeardClip:
    """The windows of a clip in order, with what was heard in each."""

    placed: tuple[Placed, ...]
    length: float
    """Seconds of sound that there really were."""
    lost: tuple[str, ...] = ()
    """What could not be read of it, or hardly be heard, in plain words."""


class _Counted:
    """Blocks of sound as they pass, with the number of samples so far and how loud they were."""

    def __init__(self, blocks: Iterator[Sound]) -> None:
        self.samples = 0
        self._blocks = blocks
        self._peak = 0.0
        self._cut_off = 0

    def __iter__(self) -> Iterator[Sound]:
        for block in self._blocks:
            self.samples += len(block)
            loud = np.abs(block)
            self._peak = max(self._peak, float(loud.max(initial=0.0)))
            self._cut_off += int(np.count_nonzero(loud >= FULL_SCALE))
            yield block

    def faults(self) -> list[str]:
        """What is wrong with the loudness of all that passed, in plain words."""
        if 0.0 < self._peak < FAINT_PEAK:
            return [f"is very quiet ({20 * math.log10(self._peak):.0f} dB at its loudest); words may have been missed"]
        if self.samples and self._cut_off / self.samples > CUT_OFF_SHARE:
            return ["was recorded too loud, its peaks are cut off; words may have been misheard"]
        return []


class Line:
    """Windows through the hearer, as many at a time as it likes, past those whose result is known."""

    def __init__(self, crew: Crew, store: Store, depends_on: Mapping[str, object]) -> None:
        self._crew = crew
        self._store = store
        self._depends_on = depends_on

    def hear_clip(self, clip: Clip, tell: Callable[[float], None]) -> HeardClip:
        """All of a clip; when its file was heard to the end before, without decoding any of it."""
        whole = result_key(recording=clip.recording.sha256, track=clip.track, **self._depends_on)
        if (known := self._known_clip(whole)) is not None:
            tell(known.length)
            return known
        tell(0.0)
        lost: list[str] = []
        blocks = _Counted(clip.blocks(lost.append))
        try:
            places = self._hear_windows(blocks, tell)
        except KeyboardInterrupt:
            # What is being heard just now is done in a few seconds: it need not be heard again.
            self._keep(self._crew.finish())
            raise
        tell(blocks.samples / RATE)
        whole_result = {"length": blocks.samples, "windows": places, "lost": [*lost, *blocks.faults()]}
        self._store.put(whole, whole_result)
        return self._placed(whole_result)

    def _hear_windows(self, blocks: Iterable[Sound], tell: Callable[[float], None]) -> list[tuple[int, str]]:
        """Have heard what is not known; gives where each window begins (in samples) and the name of its result."""
        places: list[tuple[int, str]] = []
        waiting: list[tuple[str, Window]] = []
        for window in cut_windows(blocks):
            key = result_key(sound=window.digest(), **self._depends_on)
            places.append((window.start, key))
            if self._store.get(key) is None and key not in {*dict(waiting), *self._crew.names}:
                waiting.append((key, window))
            if waiting and len(waiting) >= self._crew.at_once:
                self._keep(self._crew.hear(waiting))
                waiting = []
            tell(self._done_s(places, window.end_s))
        if waiting:
            self._keep(self._crew.hear(waiting))
        self._keep(self._crew.finish())
        return places

    def _done_s(self, places: Sequence[tuple[int, str]], end_s: float) -> float:
        """Seconds of the clip up to which everything is heard."""
        return next((start / RATE for start, key in places if self._store.get(key) is None), end_s)

    def _keep(self, results: Iterable[tuple[str, Window, Heard]]) -> None:
        """Put what was heard on disk, window by window, with word times settled against the sound."""
        for key, window, heard in results:
            hearing = Hearing(
                words=settle(heard.words, window.sound, window.chances),
                likelihood=heard.likelihood,
                silence=heard.silence,
                other_language=heard.other_language,
                speech=window.speech,
            )
            self._store.put(key, hearing.model_dump(mode="json"))

    def _known_clip(self, whole: str) -> HeardClip | None:
        """A clip from the store alone, if all of it is there."""
        known = self._store.get(whole)
        if known is None or any(self._store.get(key) is None for _, key in known["windows"]):
            return None
        return self._placed(known)

    def _placed(self, known: Mapping[str, Any]) -> HeardClip:
        placed = (Placed(start / RATE, Hearing.model_validate(self._store.get(key))) for start, key in known["windows"])
        return HeardClip(tuple(placed), known["length"] / RATE, tuple(known.get("lost", ())))
