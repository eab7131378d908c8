"""A still as the bytes of a JPEG or PNG file: the picture alone, with no word of place, device or maker."""

from __future__ import annotations

from fractions import Fraction

import av
from av.codec.context import Flags
from av.video.codeccontext import VideoCodecContext
from av.video.frame import VideoFrame
from av.video.reformatter import ColorRange, Colorspace

from narrate2report.intake.frames import Frame
from narrate2report.intake.upright import EXACT

FINEST = 2
"""The encoder's step for coarseness, 1 to 31: tables a quarter of those of the standard (ISO/IEC 10918-1, annex K)."""


def as_jpeg(frame: Frame) -> bytes:
    """A JPEG (JFIF) in high quality, colours at full resolution.

    Equal frames give equal bytes with the same version of PyAV.
    """
    coloured = _rgb(frame).reformat(
        format="yuvj444p",
        interpolation=EXACT,
        dst_colorspace=Colorspace.ITU601,  # as JFIF 1.02 asks
        dst_color_range=ColorRange.JPEG,
    )
    encoder = _encoder("mjpeg", coloured)
    encoder.color_range = ColorRange.JPEG
    encoder.qmin = encoder.qmax = FINEST
    return _encoded(encoder, coloured)


def as_png(frame: Frame) -> bytes:
    """A PNG: the very pixels, some five times as large as a JPEG.

    Equal frames give equal bytes with the same version of PyAV.
    """
    plain = _rgb(frame)
    return _encoded(_encoder("png", plain), plain)


def _rgb(frame: Frame) -> VideoFrame:
    return VideoFrame.from_ndarray(frame.pixels, format="rgb24")


def _encoder(name: str, picture: VideoFrame) -> VideoCodecContext:
    encoder = av.CodecContext.create(name, "w")
    assert isinstance(encoder, VideoCodecContext)
    encoder.width, encoder.height, encoder.pix_fmt = picture.width, picture.height, picture.format.name
    encoder.time_base = encoder.sample_aspect_ratio = Fraction(1)
    encoder.thread_count = 1
    encoder.flags |= Flags.bitexact  # else the library signs with its version
    return encoder


def _encoded(encoder: VideoCodecContext, picture: VideoFrame) -> bytes:
    picture.pts = 0
    return b"".join(bytes(packet) for packet in (*encoder.encode(picture), *encoder.encode(None)))
