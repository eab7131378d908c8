"""What passes through listening: a window of sound, and what was heard in it. Times in seconds."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from narrate2report.records.base import Value
from narrate2report.records.clip import RATE, Sound
from narrate2report.records.transcript import Word


@dataclass(frozen=True)
class Window:
    """A piece of a clip that is listened to by itself, cut where nobody speaks."""

    start: int
    """Its first sample, counted from the clip's 0:00."""
    sound: Sound
    chances: NDArray[np.float32]
    """For each FRAME of its sound, how likely someone speaks in it (0 to 1)."""
    speech: tuple[tuple[float, float], ...]
    """Where someone speaks, start and end from the window's own start."""

    @property
    def start_s(self) -> float:
        """Seconds from the clip's 0:00 to its first sample."""
        return self.start / RATE

    @property
    def end_s(self) -> float:
        """Seconds from the clip's 0:00 to behind its last sample."""
        return (self.start + len(self.sound)) / RATE

    def digest(self) -> str:
        """SHA-256 over its samples: equal sound is heard only once."""
        return hashlib.sha256(self.sound.tobytes()).hexdigest()


class Heard(Value):
    """A window as the speech model heard it; times from the window's start."""

    words: tuple[Word, ...]
    likelihood: float
    """Mean log probability of its tokens: near 0 for certain, below -1 for a guess."""
    silence: float
    """How sure the model is that nobody speaks, 0 to 1."""
    other_language: str | None = None
    """The code of the language that seems to be spoken, where it is not the one that was listened for."""


class Hearing(Heard):
    """What is kept of a window: the words with settled times, and where someone spoke."""

    speech: tuple[tuple[float, float], ...]


class Hearer(Protocol):
    """What a speech model must offer. What it hears of a window does not depend on the others beside it."""

    @property
    def at_once(self) -> int:
        """How many windows it takes at a time at best."""

    @property
    def workers(self) -> int:
        """How many threads may ask it to hear at a time."""

    @property
    def settings(self) -> Mapping[str, str | int | float | bool]:
        """All that its result depends on, apart from sound and model."""

    def hear(self, sounds: Sequence[Sound]) -> list[Heard]:
        """The words of each piece of sound (at most 30 s long), each by itself."""
