"""Loudness over time, and where it is quiet: what word times are settled against."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from narrate2report.listen.silero import FRAME
from narrate2report.records.clip import RATE, Sound

STEP = RATE // 100
"""Samples in a step, 10 ms."""
STEP_S = STEP / RATE

FAINTEST_DB = -75.0
"""Anything fainter is counted as this faint: digital silence has no level."""

Levels = NDArray[np.float32]
"""dB below full scale, one for each step."""


def loudness(sound: Sound) -> Levels:
    """The level of each step; high tones are lifted, since words often begin with a faint hiss."""
    if len(sound) < STEP:
        return np.zeros(0, np.float32)
    lifted = np.empty_like(sound)
    lifted[0], lifted[1:] = sound[0], sound[1:] - 0.9 * sound[:-1]
    steps = lifted[: len(lifted) // STEP * STEP].reshape(-1, STEP)
    power = np.mean(steps.astype(np.float64) ** 2, axis=1)
    levels: Levels = np.maximum(10 * np.log10(power + 1e-12), FAINTEST_DB).astype(np.float32)
    return levels


def chances_by_step(chances: NDArray[np.float32], count: int) -> NDArray[np.float32]:
    """Chances of speech, given for each FRAME, read off at each of `count` steps."""
    if not len(chances):
        return np.zeros(count, np.float32)
    at = np.minimum((np.arange(count) * STEP + STEP // 2) // FRAME, len(chances) - 1)
    return chances[at]


def quiet_steps(levels: Levels, chances: NDArray[np.float32]) -> NDArray[np.bool_]:
    """Whether each step lies between words: little louder than the room, and hardly anyone speaking.

    The room's own level is what a tenth of the steps stay below; speech is what a twentieth exceed.
    """
    if not len(levels):
        return np.zeros(0, np.bool_)
    room, speech = np.percentile(levels, [10, 95])
    limit = room + min(15.0, max(4.0, 0.25 * (speech - room)))
    spoken = chances_by_step(chances, len(levels))
    quiet: NDArray[np.bool_] = ((levels < limit) & (spoken < 0.6)) | (spoken < 0.08)
    return quiet


def pauses(quiet: NDArray[np.bool_], shortest: int) -> list[tuple[int, int]]:
    """Runs of quiet of at least `shortest` steps, as first step and step behind the last."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], quiet, [False]]).astype(np.int8)))
    runs = zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True)
    return [(start, end) for start, end in runs if end - start >= shortest]
