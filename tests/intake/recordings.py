"""Small recordings of every kind a phone or recorder makes, written on the spot: beeps at known times."""

from __future__ import annotations

import os
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import av
import numpy as np
from av.audio.stream import AudioStream
from av.container import OutputContainer
from av.video.stream import VideoStream
from numpy.typing import NDArray

os.environ.setdefault("SVT_LOG", "0")  # the AV1 encoder tells its settings otherwise

Sound = NDArray[np.float32]
BEEPS_S = (0.5, 1.7, 2.4)
LENGTH_S = 3.0


@dataclass(frozen=True)
class Kind:
    """A file ending with the codecs that go with it."""

    ending: str
    audio: str
    video: str | None = None
    rate: int = 48_000


KINDS = (
    Kind(".mp4", "aac", "libx264"),
    Kind(".mp4", "aac", "libx265", 44_100),
    Kind(".mp4", "aac", "libsvtav1"),
    Kind(".mov", "aac", "libx264"),
    Kind(".mov", "aac", "libx265"),
    Kind(".mov", "pcm_s16le", "libx264"),
    Kind(".mkv", "libopus", "libx264"),
    Kind(".mkv", "flac", "libx265"),
    Kind(".webm", "libopus", "libvpx-vp9"),
    Kind(".webm", "libopus", "libsvtav1"),
    Kind(".3gp", "libopencore_amrnb", "mpeg4", 8_000),
    Kind(".3gp", "aac", "libx264"),
    Kind(".amr", "libopencore_amrnb", rate=8_000),
    Kind(".m4a", "aac"),
    Kind(".m4a", "alac"),
    Kind(".aac", "aac"),
    Kind(".mp3", "libmp3lame", rate=44_100),
    Kind(".wav", "pcm_s16le", rate=8_000),
    Kind(".wav", "pcm_s24le", rate=96_000),
    Kind(".flac", "flac"),
    Kind(".ogg", "libopus"),
    Kind(".ts", "aac", "libx264"),
)


def beeps(rate: int, *, length_s: float = LENGTH_S, at: tuple[float, ...] = BEEPS_S) -> Sound:
    """Silence with beeps of 0.2 s that start at full loudness."""
    times = np.arange(int(length_s * rate)) / rate
    on = np.zeros(len(times), bool)
    for start in at:
        on |= (times >= start) & (times < start + 0.2)
    return (0.5 * on * np.sin(2 * np.pi * 700 * times)).astype(np.float32)


def write_recording(
    path: Path,
    kind: Kind,
    sound: Sound | None = None,
    *,
    late_s: float = 0.0,
    channels: int = 1,
    tags: dict[str, str] | None = None,
    more_tracks: tuple[Sound, ...] = (),
    options: dict[str, str] | None = None,
) -> Path:
    """Write a recording; its sound track starts `late_s` after its picture, `more_tracks` follow it as further ones."""
    sound = beeps(kind.rate) if sound is None else sound
    with av.open(str(path), "w", options=options or {}) as container:
        container.metadata.update(tags or {})
        video = container.add_stream(kind.video, rate=10) if kind.video else None
        if video is not None:
            assert isinstance(video, VideoStream)
            video.width, video.height, video.pix_fmt = 64, 48, "yuv420p"
            if kind.video == "libx265":
                video.options = {"x265-params": "log-level=none"}
        audio = _add_sound(container, kind, "mono" if channels == 1 else "stereo")
        others = [_add_sound(container, kind, "mono") for _ in more_tracks]
        if video is not None:
            for number in range(int((LENGTH_S + late_s) * 10)):
                still = np.full((48, 64, 3), number * 7 % 255, np.uint8)
                frame = av.VideoFrame.from_ndarray(still, format="rgb24")
                frame.pts, frame.time_base = number, Fraction(1, 10)
                container.mux(video.encode(frame))
            container.mux(video.encode())
        _write_sound(container, audio, np.vstack([sound] + [np.zeros_like(sound)] * (channels - 1)), late_s)
        for stream, other in zip(others, more_tracks, strict=True):
            _write_sound(container, stream, other.reshape(1, -1), late_s)
    return path


def _add_sound(container: OutputContainer, kind: Kind, layout: str) -> AudioStream:
    stream = container.add_stream(kind.audio, rate=kind.rate)
    assert isinstance(stream, AudioStream)
    stream.layout = layout
    return stream


def _write_sound(container: OutputContainer, stream: AudioStream, samples: Sound, late_s: float) -> None:
    resampler = av.AudioResampler(format=stream.format, layout=stream.layout, rate=stream.rate)
    for start in range(0, samples.shape[1], 4096):
        block = av.AudioFrame.from_ndarray(
            np.ascontiguousarray(samples[:, start : start + 4096]), format="fltp", layout=stream.layout.name
        )
        block.sample_rate, block.time_base = stream.rate, Fraction(1, stream.rate)
        block.pts = start + round(late_s * stream.rate)
        for piece in resampler.resample(block):
            container.mux(stream.encode(piece))
    for piece in resampler.resample(None):
        container.mux(stream.encode(piece))
    container.mux(stream.encode())


def beep_starts(sound: Sound, rate: int = 16_000) -> list[float]:
    """Where beeps begin, in seconds: loud after at least 0.2 s of quiet."""
    step = rate // 200
    levels = np.abs(sound[: len(sound) // step * step]).reshape(-1, step).max(axis=1)
    loud = levels > 0.3 * levels.max()
    starts, last = [], -1e9
    for number in np.flatnonzero(loud).tolist():
        if number - last > 40:
            starts.append(number * step / rate)
        last = number
    return starts
