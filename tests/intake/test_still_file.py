"""The file of a still holds the picture and nothing else."""

from __future__ import annotations

import struct
from collections.abc import Callable, Iterator
from fractions import Fraction
from pathlib import Path

import av
import numpy as np
import pytest
from av.video.reformatter import ColorPrimaries, ColorRange, Colorspace, ColorTrc

from narrate2report.intake.frames import Frame, frame_at
from narrate2report.intake.still_file import as_jpeg, as_png
from tests.intake.films import Pixels, coded, number_of, write_film

PLACE = {"location": "+12.3456-045.6789/", "title": "unit 2B", "make": "an invented phone"}


def read_back(path: Path) -> Pixels:
    with av.open(str(path)) as container:
        return next(container.decode(video=0)).to_ndarray(format="rgb24").astype(np.uint8)


@pytest.fixture
def still(tmp_path: Path) -> Frame:
    return frame_at(write_film(tmp_path / "walk.mp4", turned=90, tags=PLACE), 1.75)


def test_a_png_holds_the_very_pixels(tmp_path: Path, still: Frame) -> None:
    (tmp_path / "still.png").write_bytes(as_png(still))
    assert np.array_equal(read_back(tmp_path / "still.png"), still.pixels)


def test_a_jpeg_can_hardly_be_told_from_the_picture(tmp_path: Path, still: Frame) -> None:
    (tmp_path / "still.jpg").write_bytes(as_jpeg(still))
    there = read_back(tmp_path / "still.jpg").astype(int)
    assert number_of(there.astype(np.uint8)) == 17
    assert np.abs(there - still.pixels).mean() < 1.5
    assert np.abs(there - still.pixels).max() < 20


@pytest.mark.parametrize("make", [as_jpeg, as_png])
def test_equal_pictures_give_equal_bytes(tmp_path: Path, make: Callable[[Frame], bytes]) -> None:
    path = write_film(tmp_path / "walk.mp4")
    assert make(frame_at(path, 1.75)) == make(frame_at(path, 1.7))
    assert make(frame_at(path, 1.75)) != make(frame_at(path, 1.8))


@pytest.mark.parametrize("size", [(1, 1), (17, 9), (193, 127)])
@pytest.mark.parametrize("make", [as_jpeg, as_png])
def test_odd_sizes_are_kept(tmp_path: Path, make: Callable[[Frame], bytes], size: tuple[int, int]) -> None:
    (tmp_path / "still").write_bytes(make(Frame(0.0, coded(3, size))))
    assert read_back(tmp_path / "still").shape == (size[1], size[0], 3)


def test_a_jpeg_tells_nothing_but_the_picture(still: Frame) -> None:
    """Markers of ISO/IEC 10918-1, table B.1: no comment (FE), of application segments JFIF's (E0) alone."""
    assert set(segments(as_jpeg(still))) == {0xE0, 0xDB, 0xC0, 0xC4, 0xDA}


def test_a_png_tells_nothing_but_the_picture(still: Frame) -> None:
    raw, kinds, at = as_png(still), set(), 8
    while at < len(raw):
        length, kind = struct.unpack(">I4s", raw[at : at + 8])
        kinds.add(kind)
        at += 12 + length
    assert {b"IHDR", b"IDAT", b"IEND"} <= kinds <= {b"IHDR", b"IDAT", b"IEND", b"pHYs", b"sRGB", b"gAMA", b"cHRM"}


def segments(raw: bytes) -> Iterator[int]:
    at = 2
    while raw[at + 1] != 0xDA:
        yield raw[at + 1]
        at += 2 + int(struct.unpack(">H", raw[at + 2 : at + 4])[0])
    yield 0xDA


@pytest.mark.parametrize("told", [True, False])
def test_colours_of_a_large_picture_come_out_as_they_went_in(tmp_path: Path, told: bool) -> None:
    """Cameras write BT.709, some without telling so."""
    colour = (200, 60, 30)
    path = tmp_path / "walk.mp4"
    with av.open(str(path), "w") as container:
        video = container.add_stream("libx264", rate=10)
        video.width, video.height, video.pix_fmt = 1280, 720, "yuv420p"
        if told:
            video.codec_context.colorspace = 1
        plain = av.VideoFrame.from_ndarray(np.full((720, 1280, 3), colour, np.uint8), format="rgb24")
        frame = plain.reformat(format="yuv420p", dst_colorspace=Colorspace.ITU709, dst_color_range=ColorRange.MPEG)
        container.mux(video.encode(frame))
        container.mux(video.encode())
    assert frame_at(path, 0).pixels[300, 600] == pytest.approx(colour, abs=4)


@pytest.mark.parametrize(("curve", "white"), [(ColorTrc.ARIB_STD_B67, 0.75), (ColorTrc.SMPTE2084, 0.58)])
def test_a_white_wall_in_high_dynamic_range_is_white(tmp_path: Path, curve: ColorTrc, white: float) -> None:
    """The signal of reference white is 75 % in HLG and 58 % in PQ (ITU-R BT.2408, table 1)."""
    path = tmp_path / "walk.mov"
    # x265 counts the decoding time of a reordered frame from frames before it: with one frame it is left to chance.
    one_frame = {"x265-params": "log-level=none:bframes=0"}
    with av.open(str(path), "w") as container:
        video = container.add_stream("libx265", rate=10, options=one_frame)
        video.width, video.height, video.pix_fmt = 128, 96, "yuv420p10le"
        video.codec_context.color_trc, video.codec_context.color_primaries = curve, ColorPrimaries.BT2020
        video.codec_context.colorspace, video.codec_context.color_range = 9, 1
        frame = av.VideoFrame(128, 96, "yuv420p10le")
        for plane, level in zip(frame.planes, (round(64 + 876 * white), 512, 512), strict=True):
            plane.update(np.full(plane.buffer_size // 2, level, np.uint16).tobytes())
        frame.pts, frame.time_base = 0, Fraction(1, 10)
        container.mux(video.encode(frame))
        container.mux(video.encode())
    middle = frame_at(path, 0).pixels[48, 64].astype(int)
    assert middle.min() > 215
    assert np.ptp(middle) < 8
