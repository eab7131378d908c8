"""A decoded picture to what a player shows of it: turned upright, in the colours of a plain screen.

Leaves to others which picture that is (`pictures`) and what becomes of it (`frames`, `review_copy`).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import cast

import numpy as np
from av.sidedata.sidedata import SideDataContainer, Type
from av.video.frame import VideoFrame
from av.video.reformatter import ColorPrimaries, ColorRange, Colorspace, ColorTrc, Interpolation
from numpy.typing import NDArray

Pixels = NDArray[np.uint8]
"""Rows, columns, then red, green and blue of sRGB, 0 to 255."""

EXACT = Interpolation.BICUBIC | Interpolation.ACCURATE_RND | Interpolation.FULL_CHR_H_INT | Interpolation.BITEXACT
"""Conversion that takes its time and gives the same bytes on every processor."""

HIGH_DYNAMIC_RANGE = (ColorTrc.SMPTE2084, ColorTrc.ARIB_STD_B67)
"""Brightness curves of ITU-R BT.2100, PQ and HLG: shown as they are, a plain screen makes them dull."""

UNSPECIFIED = 2
"""Colour matrix of a picture that tells none (ISO/IEC 23091-2, table 4)."""

SMALLEST_HIGH_DEFINITION = 720
"""Lines; players take a picture without a colour matrix for BT.709 from here on, for BT.601 below."""


@dataclass(frozen=True)
class Turn:
    """How to make a picture upright: rows made columns first, then mirrored left to right, then upside down."""

    transposed: bool = False
    mirrored: bool = False
    flipped: bool = False

    def apply(self, rows: Pixels) -> Pixels:
        """The picture, or one plane of it, turned."""
        if self.transposed:
            rows = rows.swapaxes(0, 1)
        if self.mirrored:
            rows = rows[:, ::-1]
        if self.flipped:
            rows = rows[::-1]
        return np.ascontiguousarray(rows)


def turn_of(frame: VideoFrame) -> Turn:
    """What the display matrix of a recording asks for, to the nearest quarter turn.

    The matrix takes a point (p, q) to (a p + c q, b p + d q), q counted downwards (ISO/IEC 14496-12, 8.3.2).
    """
    beside = cast(SideDataContainer, frame.side_data)  # PyAV's own hints say otherwise
    if Type.DISPLAYMATRIX not in beside:
        return Turn()
    a, b, _, c, d = (int(number) for number in np.frombuffer(bytes(beside[Type.DISPLAYMATRIX]), np.int32)[:5])
    if abs(b) + abs(c) > abs(a) + abs(d):
        return Turn(True, c < 0, b < 0)
    return Turn(False, a < 0, d < 0)


def upright_pixels(frame: VideoFrame) -> Pixels:
    """The whole picture as a player shows it; what was filmed in high dynamic range is brought down to sRGB."""
    wide_range = frame.color_trc in HIGH_DYNAMIC_RANGE
    shown = frame.reformat(
        format="rgb24",
        interpolation=EXACT,
        src_colorspace=assumed_matrix(frame),
        dst_color_range=ColorRange.JPEG,
        dst_color_trc=ColorTrc.IEC61966_2_1 if wide_range else None,
        dst_color_primaries=ColorPrimaries.BT709 if wide_range else None,
    )
    return turn_of(frame).apply(shown.to_ndarray().astype(np.uint8, copy=False))


def assumed_matrix(frame: VideoFrame) -> Colorspace | None:
    """The colour matrix that players take for granted where a recording tells none; None where it tells one."""
    if frame.colorspace != UNSPECIFIED:
        return None
    is_high = min(frame.width, frame.height) >= SMALLEST_HIGH_DEFINITION
    return Colorspace.ITU709 if is_high else Colorspace.ITU601


def luma(frame: VideoFrame, long_side: int) -> Pixels:
    """The brightness of a picture, 0 to 255, reduced to `long_side` pixels; not turned."""
    scale = min(1.0, long_side / max(frame.width, frame.height))
    small = frame.reformat(
        width=max(1, round(frame.width * scale)),
        height=max(1, round(frame.height * scale)),
        format="gray",
        interpolation=Interpolation.AREA,
    )
    return small.to_ndarray().astype(np.uint8, copy=False)
