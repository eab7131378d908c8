"""Sounds, meters and hearers made for tests: what they contain is known to the sample."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from narrate2report.listen.hearing import Heard
from narrate2report.listen.silero import FRAME
from narrate2report.records.clip import RATE, Sound
from narrate2report.records.transcript import Recording, Word


def bursts(length_s: float, spoken: Sequence[tuple[float, float]], *, room_db: float = -70.0) -> Sound:
    """Noise as loud as speech in the given spans, and a quiet room around it."""
    rng = np.random.default_rng(3)
    sound = rng.standard_normal(int(length_s * RATE)) * 10 ** (room_db / 20)
    for start, end in spoken:
        first, last = int(start * RATE), int(end * RATE)
        sound[first:last] += rng.standard_normal(last - first) * 0.1
    return sound.astype(np.float32)


class LoudnessMeter:
    """Speech is what is loud: stands in for the speech detector."""

    def __init__(self) -> None:
        self._rest: Sound = np.zeros(0, np.float32)

    def feed(self, sound: Sound) -> NDArray[np.float32]:
        joined = np.concatenate([self._rest, sound])
        whole = len(joined) // FRAME * FRAME
        frames, self._rest = joined[:whole].reshape(-1, FRAME), joined[whole:]
        loud = np.sqrt((frames**2).mean(axis=1)) > 0.02 if len(frames) else np.zeros(0)
        return np.where(loud, 0.95, 0.02).astype(np.float32)


def pieces(sound: Sound, size: int = 5_000) -> Iterator[Sound]:
    for start in range(0, len(sound), size):
        yield sound[start : start + size]


@dataclass(frozen=True)
class MadeClip:
    """A clip whose sound is at hand; counts how often it is played."""

    name: str
    sound: Sound
    plays: list[int] = field(default_factory=list)
    track: int | None = None

    @property
    def recording(self) -> Recording:
        return Recording(
            file=self.name,
            sha256=hashlib.sha256(self.name.encode() + self.sound.tobytes()).hexdigest(),
            bytes=len(self.sound),
            duration_s=len(self.sound) / RATE,
        )

    def blocks(self, tell: Callable[[str], None]) -> Iterator[Sound]:  # noqa: ARG002 - nothing of it is ever lost
        self.plays.append(1)
        yield from pieces(self.sound)


class CountingHearer:
    """Hears one word a second, named after how many windows came before; may be told to break down."""

    at_once = 2
    workers = 1

    def __init__(self, *, fails_after: int | None = None, text: str = "word") -> None:
        self.heard = 0
        self._fails_after = fails_after
        self._text = text

    @property
    def settings(self) -> Mapping[str, str | int | float | bool]:
        return {"text": self._text}

    def hear(self, sounds: Sequence[Sound]) -> list[Heard]:
        if self._fails_after is not None and self.heard >= self._fails_after:
            raise KeyboardInterrupt
        self.heard += len(sounds)
        return [
            Heard(
                words=tuple(
                    Word(text=f"{self._text}{second}", start=second + 0.1, end=second + 0.6, probability=0.9)
                    for second in range(max(1, len(sound) // RATE))
                ),
                likelihood=-0.2,
                silence=0.01,
            )
            for sound in sounds
        ]
