"""Recordings in which nobody speaks, made on the spot: silence, music, a picture alone."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import av
import numpy as np

from tests.intake.recordings import Kind, Sound, write_recording

RATE = 16_000
VIDEO = Kind(".mp4", "aac", "libx264", RATE)
AUDIO = Kind(".m4a", "aac", rate=RATE)


def silent_walk(path: Path) -> Path:
    """A video whose sound track is silence."""
    return write_recording(path, VIDEO, np.zeros(3 * RATE, np.float32))


def music(path: Path) -> Path:
    """Eight seconds of a slow tune of plain chords."""
    return write_recording(path, AUDIO, _tune(8.0))


def picture_alone(path: Path) -> Path:
    """A video without a sound track."""
    with av.open(str(path), "w") as container:
        video = container.add_stream("libx264", rate=10)
        video.width, video.height, video.pix_fmt = 64, 48, "yuv420p"
        for number in range(20):
            still = np.full((48, 64, 3), number * 7, np.uint8)
            frame = av.VideoFrame.from_ndarray(still, format="rgb24")
            frame.pts, frame.time_base = number, Fraction(1, 10)
            container.mux(video.encode(frame))
        container.mux(video.encode())
    return path


def _tune(seconds: float) -> Sound:
    times = np.arange(int(seconds * RATE)) / RATE
    sound = np.zeros(len(times))
    for bar, chord in enumerate([(220.0, 277.2, 329.6), (196.0, 246.9, 293.7), (174.6, 220.0, 261.6)] * 4):
        within = (times >= bar * 0.8) & (times < bar * 0.8 + 0.75)
        for pitch in chord:
            sound += within * np.sin(2 * np.pi * pitch * times) * np.exp(-2 * (times % 0.8))
    return (sound / 5).astype(np.float32)
