"""What listening needs of a recording: its facts and its sound, not where they come from."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from narrate2report.records.transcript import Recording

RATE = 16_000
"""Samples a second of all sound inside the program: what speech models take."""

Sound = NDArray[np.float32]
"""One channel of sound at RATE, full scale -1 to 1."""


class Clip(Protocol):
    """A recording that can be listened to."""

    @property
    def recording(self) -> Recording:
        """Its facts, as they go into the record."""

    @property
    def track(self) -> int | None:
        """Which of its sound tracks was asked for, counted from 1; None for the first."""

    def blocks(self, tell: Callable[[str], None]) -> Iterator[Sound]:
        """Its sound from the first moment on, piece by piece and without holes.

        Sample n of all pieces together is what a player plays n / RATE seconds after it shows 0:00.
        `tell` is called with what could not be read of it, in plain words, such as `is cut short`.
        """
