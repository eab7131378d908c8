"""Small films in which every picture carries its own number as a drawn code, written on the spot."""

from __future__ import annotations

import struct
from collections.abc import Iterator, Sequence
from fractions import Fraction
from pathlib import Path

import av
import av.container
import numpy as np
from av.audio.stream import AudioStream
from av.video.reformatter import ColorRange, Colorspace
from av.video.stream import VideoStream
from numpy.typing import NDArray

from tests.intake.recordings import Sound

Pixels = NDArray[np.uint8]
WIDE, HIGH = 192, 128
BLOCK = 24
BITS = 10
RED, GREEN, BLUE = (230, 20, 20), (20, 230, 20), (20, 20, 230)
TEN_A_SECOND = tuple(number / 10 for number in range(40))
QUIET = {
    "libx264": {"g": "10"},
    "libx265": {"preset": "ultrafast", "x265-params": "log-level=none:keyint=10"},
    "libvpx-vp9": {"g": "10"},
}


def coded(number: int, size: tuple[int, int] = (WIDE, HIGH)) -> Pixels:
    """The upright picture of a number: ten light or dark blocks, and three coloured corners."""
    picture = np.full((HIGH, WIDE, 3), 110, np.uint8)
    picture[:BLOCK, :BLOCK], picture[:BLOCK, -BLOCK:], picture[-BLOCK:, :BLOCK] = RED, GREEN, BLUE
    for bit in range(BITS):
        x, y = _corner(bit)
        picture[y : y + BLOCK, x : x + BLOCK] = 230 if number >> bit & 1 else 25
    rows = np.arange(size[1]) * HIGH // size[1]
    columns = np.arange(size[0]) * WIDE // size[0]
    return picture[rows][:, columns]


def number_of(picture: Pixels) -> int:
    """The number that a picture carries, whatever its size; it must stand upright."""
    high, wide = picture.shape[:2]

    def seen(x: int, y: int) -> NDArray[np.float64]:
        middle_x, middle_y = (x + BLOCK / 2) * wide / WIDE, (y + BLOCK / 2) * high / HIGH
        part = picture[int(middle_y) - 3 : int(middle_y) + 3, int(middle_x) - 3 : int(middle_x) + 3]
        return np.asarray(part.reshape(-1, 3).mean(axis=0))

    for place, colour in (((0, 0), RED), ((WIDE - BLOCK, 0), GREEN), ((0, HIGH - BLOCK), BLUE)):
        assert np.abs(seen(*place) - colour).max() < 60, "the picture does not stand upright"
    return sum(int(seen(*_corner(bit)).mean() > 128) << bit for bit in range(BITS))


def _corner(bit: int) -> tuple[int, int]:
    return 28 + bit % 5 * 28, 34 + bit // 5 * 32


def write_film(
    path: Path,
    codec: str = "libx264",
    times_s: Sequence[float] = TEN_A_SECOND,
    *,
    turned: int = 0,
    size: tuple[int, int] = (WIDE, HIGH),
    sound: tuple[str, Sound, int, float] | None = None,
    tags: dict[str, str] | None = None,
    pictures: Sequence[Pixels] | None = None,
) -> Path:
    """Write a film whose picture n begins at `times_s[n]`.

    `turned` is how many degrees clockwise a player must turn what is stored; `sound` is codec, samples, their rate and
    where they begin.
    """
    ticks = 10 if path.suffix == ".avi" else 1000  # pictures in AVI come evenly
    with av.open(str(path), "w") as container:
        container.metadata.update(tags or {})
        video = container.add_stream(codec, rate=30, options=QUIET.get(codec, {}))
        assert isinstance(video, VideoStream)
        video.width, video.height = size[::-1] if turned % 180 else size
        video.pix_fmt = "yuv420p"
        video.time_base = video.codec_context.time_base = Fraction(1, ticks)
        track = _sound_track(container, sound) if sound else None
        for number, time_s in enumerate(times_s):
            upright = pictures[number] if pictures is not None else coded(number, size)
            stored = np.ascontiguousarray(np.rot90(upright, turned // 90))
            coloured = av.VideoFrame.from_ndarray(stored, format="rgb24")
            matrix = Colorspace.ITU709 if min(size) >= 720 else Colorspace.ITU601  # as cameras do
            frame = coloured.reformat(format="yuv420p", dst_colorspace=matrix, dst_color_range=ColorRange.MPEG)
            frame.pts, frame.time_base = round(time_s * ticks), Fraction(1, ticks)
            container.mux(video.encode(frame))
        container.mux(video.encode())
        if track is not None and sound is not None:
            _write_sound(container, track, sound)
    if turned:
        ask_to_turn(path, turned)
    return path


def ask_to_turn(path: Path, degrees: int, *, mirrored: bool = False) -> None:
    """Write the matrix of a clockwise turn into the track header of an MP4 or MOV (ISO/IEC 14496-12, 8.3.2)."""
    a, b, c, d = {0: (1, 0, 0, 1), 90: (0, 1, -1, 0), 180: (-1, 0, 0, -1), 270: (0, -1, 1, 0)}[degrees]
    if mirrored:
        a, c = -a, -c
    matrix = struct.pack(">9i", a << 16, b << 16, 0, c << 16, d << 16, 0, 0, 0, 1 << 30)
    raw = bytearray(path.read_bytes())
    for at in _boxes(raw, b"tkhd"):
        if raw[at + 76 : at + 84] != bytes(8):  # width and height; a track of sound has none
            raw[at + 40 : at + 76] = matrix
    path.write_bytes(raw)


def cut_beginning(path: Path, seconds: float) -> None:
    """Let an edit list hide the beginning of the picture track of an MP4, as cutting on a phone does (8.6.6)."""
    raw = bytearray(path.read_bytes())
    (at,) = _boxes(raw, b"elst")
    assert struct.unpack(">II", raw[at : at + 8]) == (0, 1), "one entry, version 0"
    media = next(_boxes(raw, b"mdhd"))
    (scale,) = struct.unpack(">I", raw[media + 12 : media + 16])
    duration, start = struct.unpack(">Ii", raw[at + 8 : at + 16])
    raw[at + 8 : at + 16] = struct.pack(">Ii", duration - round(seconds * 1000), start + round(seconds * scale))
    path.write_bytes(raw)


def _boxes(raw: bytearray, kind: bytes) -> Iterator[int]:
    """Where the contents of the boxes of a kind begin, version and flags included."""
    at = raw.find(kind)
    while at >= 0:
        yield at + 4
        at = raw.find(kind, at + 4)


def _sound_track(container: av.container.OutputContainer, sound: tuple[str, Sound, int, float]) -> AudioStream:
    track = container.add_stream(sound[0], rate=sound[2])
    assert isinstance(track, AudioStream)
    track.layout = "mono"
    return track


def _write_sound(
    container: av.container.OutputContainer, track: AudioStream, sound: tuple[str, Sound, int, float]
) -> None:
    _, samples, rate, late_s = sound
    resampler = av.AudioResampler(format=track.format, layout="mono", rate=rate)
    for start in range(0, len(samples), 4096):
        block = av.AudioFrame.from_ndarray(
            np.ascontiguousarray(samples[start : start + 4096]).reshape(1, -1), format="fltp", layout="mono"
        )
        block.sample_rate, block.time_base = rate, Fraction(1, rate)
        block.pts = start + round(late_s * rate)
        for piece in resampler.resample(block):
            container.mux(track.encode(piece))
    for piece in resampler.resample(None):
        container.mux(track.encode(piece))
    container.mux(track.encode())
