"""How likely someone speaks, for each 32 ms of a stream: the Silero model that comes with faster-whisper.

The library's own helper wants the whole sound at once; here the model's memory is carried from piece to
piece, so the result does not depend on where the stream was cut.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from narrate2report.records.clip import Sound

FRAME = 512
"""Samples in a frame, 32 ms."""

CONTEXT = 64
"""Samples of the frame before that the model wants to see again."""


class SpeechMeter:
    """Takes sound piece by piece and gives one chance of speech for each full frame so far not told."""

    def __init__(self) -> None:
        from faster_whisper.vad import get_vad_model

        self._session: Any = get_vad_model().session
        self._h = np.zeros((1, 1, 128), np.float32)
        self._c = np.zeros((1, 1, 128), np.float32)
        self._before = np.zeros(CONTEXT, np.float32)
        self._rest: Sound = np.zeros(0, np.float32)

    def feed(self, sound: Sound) -> NDArray[np.float32]:
        """The chances (0 to 1) of the frames that this piece completes."""
        joined = np.concatenate([self._rest, sound])
        whole = len(joined) // FRAME * FRAME
        frames, self._rest = joined[:whole].reshape(-1, FRAME), joined[whole:]
        if not len(frames):
            return np.zeros(0, np.float32)
        tails = np.vstack([self._before, frames[:-1, -CONTEXT:]])
        self._before = frames[-1, -CONTEXT:]
        chances, self._h, self._c = self._session.run(
            None, {"input": np.hstack([tails, frames]), "h": self._h, "c": self._c}
        )
        return np.asarray(chances, np.float32).reshape(-1)
