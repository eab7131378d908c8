"""Small recordings made on the spot: drawn noise for a picture, any sound or none."""

from __future__ import annotations

from pathlib import Path

import av
import numpy as np
from numpy.typing import NDArray

RATE = 16_000
Sound = NDArray[np.float32]


def silence(seconds: float) -> Sound:
    return np.zeros(int(seconds * RATE), np.float32)


def music(seconds: float) -> Sound:
    """A slow tune of plain chords: nobody speaks in it."""
    times = np.arange(int(seconds * RATE)) / RATE
    sound = np.zeros(len(times))
    for bar, chord in enumerate([(220.0, 277.2, 329.6), (196.0, 246.9, 293.7), (174.6, 220.0, 261.6)] * 20):
        within = (times >= bar * 0.8) & (times < bar * 0.8 + 0.75)
        for pitch in chord:
            sound += within * np.sin(2 * np.pi * pitch * times) * np.exp(-2 * (times % 0.8))
    return (sound / 5).astype(np.float32)


def record(path: Path, sound: Sound | None, *, seconds: float = 2.0, picture: bool = True) -> Path:
    """Write an MP4 or other container as a phone would, with a picture, a sound track, or both."""
    with av.open(str(path), "w") as container:
        if picture:
            video = container.add_stream("mpeg4", rate=5)
            video.width, video.height, video.pix_fmt = 64, 48, "yuv420p"
        if sound is not None:
            audio = container.add_stream("aac", rate=RATE)
            audio.layout = "mono"
        if picture:
            for shade in range(int(seconds * 5)):
                still = np.full((48, 64, 3), shade * 7 % 255, np.uint8)
                container.mux(video.encode(av.VideoFrame.from_ndarray(still, format="rgb24")))
            container.mux(video.encode())
        if sound is not None:
            for at in range(0, len(sound), 1024):
                frame = av.AudioFrame.from_ndarray(sound[None, at : at + 1024], format="fltp", layout="mono")
                frame.sample_rate, frame.pts = RATE, at
                container.mux(audio.encode(frame))
            container.mux(audio.encode())
    return path
