"""Films whose frames show the time at which they were filmed, with clicks at known times of the same clock.

What a player shows beside a click is then read off the picture itself, whatever the file does to its times.
"""

from __future__ import annotations

import struct
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path

import av
import numpy as np
from av.audio.stream import AudioStream
from av.video.stream import VideoStream
from numpy.typing import NDArray

from tests.intake.recordings import beeps

RATE = 48_000
LENGTH_S = 6.0
CLICKS_S = (1.5, 3.2, 4.6)
BITS, SIDE = 10, 16
TICK_S = 0.01
"""The burnt-in clock counts hundredths of a second, in ten squares: white for 1, black for 0."""

Picture = NDArray[np.uint8]
MATRIX_90 = (0, 65536, 0, -65536, 0, 0, 0, 0, 1 << 30)
"""A quarter turn clockwise (ISO/IEC 14496-12, 8.3.2: a b u c d v x y w in 16.16 and 2.30 fixed point)."""


@dataclass(frozen=True)
class Film:
    """How a film is made."""

    ending: str = ".mp4"
    video: str = "libx264"
    audio: str = "aac"
    frame_times: tuple[float, ...] = tuple(number / 25 for number in range(int(LENGTH_S * 25)))
    shift_s: float = 0.0
    """Added to all times: the file does not begin at zero."""
    options: dict[str, str] = field(default_factory=dict)


def every(*steps_s: float) -> tuple[float, ...]:
    """Frame times at uneven distances, as phones give them in changing light."""
    times, now = [], 0.0
    while now < LENGTH_S:
        times.append(round(now, 2))
        now += steps_s[len(times) % len(steps_s)]
    return tuple(times)


def shoot(path: Path, film: Film) -> Path:
    """Write a film."""
    with av.open(str(path), "w") as container:
        video = container.add_stream(film.video, rate=25, options=film.options)
        assert isinstance(video, VideoStream)
        video.width, video.height, video.pix_fmt = BITS * SIDE, 48, "yuv420p"
        video.codec_context.time_base = Fraction(1, 1000)
        audio = container.add_stream(film.audio, rate=RATE)
        assert isinstance(audio, AudioStream)
        audio.layout = "mono"
        for at in film.frame_times:
            frame = av.VideoFrame.from_ndarray(_burnt_in(at), format="rgb24")
            frame.pts, frame.time_base = round((at + film.shift_s) * 1000), Fraction(1, 1000)
            container.mux(video.encode(frame))
        container.mux(video.encode())
        resampler = av.AudioResampler(format=audio.format, layout="mono", rate=RATE, frame_size=audio.frame_size or 960)
        sound = beeps(RATE, length_s=LENGTH_S, at=CLICKS_S)
        block = av.AudioFrame.from_ndarray(sound.reshape(1, -1), format="fltp", layout="mono")
        block.sample_rate, block.time_base, block.pts = RATE, Fraction(1, RATE), round(film.shift_s * RATE)
        for piece in [*resampler.resample(block), *resampler.resample(None)]:
            container.mux(audio.encode(piece))
        container.mux(audio.encode())
    return path


def shown_at(path: Path, seconds: float) -> float:
    """What the burnt-in clock shows in the frame that a player shows at this time.

    A player counts an MP4 or Matroska film from the file's own zero, which its demuxer's times are told in.
    """
    shown = None
    with av.open(str(path)) as container:
        for frame in container.decode(video=0):
            if frame.time is not None and frame.time <= seconds + 1e-6:
                shown = np.asarray(frame.to_ndarray(format="gray"), np.uint8)
            else:
                break
    assert shown is not None, "no frame at or before this time"
    return _read_off(shown)


def cut_start(path: Path, seconds: float) -> None:
    """Let the edit lists begin this much later, as a phone does that trims a film without writing it anew."""
    raw = bytearray(path.read_bytes())
    movie_scale = _scale(raw, raw.index(b"mvhd"))
    at = raw.find(b"elst")
    while at >= 0:
        scale = _scale(raw, raw.index(b"mdhd", at))
        entry = at + 12
        length, start = struct.unpack_from(">Ii", raw, entry)
        struct.pack_into(">Ii", raw, entry, length - round(seconds * movie_scale), start + round(seconds * scale))
        at = raw.find(b"elst", at + 4)
    path.write_bytes(raw)


def turn(path: Path) -> None:
    """Mark the picture as filmed upright: a quarter turn in its track header."""
    raw = bytearray(path.read_bytes())
    struct.pack_into(">9i", raw, raw.index(b"tkhd") + 44, *MATRIX_90)
    path.write_bytes(raw)


def _scale(raw: bytearray, at: int) -> int:
    """Units a second of a version 0 mvhd or mdhd box."""
    (scale,) = struct.unpack_from(">I", raw, at + 16)
    return int(scale)


def _burnt_in(seconds: float) -> Picture:
    ticks = round(seconds / TICK_S)
    squares = [255 if ticks >> bit & 1 else 0 for bit in reversed(range(BITS))]
    row = np.repeat(np.array(squares, np.uint8), SIDE)
    return np.repeat(np.tile(row, (48, 1))[:, :, None], 3, axis=2)


def _read_off(gray: Picture) -> float:
    middle = gray[gray.shape[0] // 2, SIDE // 2 :: SIDE][:BITS]
    return int("".join("1" if level > 127 else "0" for level in middle), 2) * TICK_S
