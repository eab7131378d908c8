"""A picture file made smaller for print. The file itself is only read."""

from __future__ import annotations

from pathlib import Path

import av
import numpy as np
from av.video.frame import VideoFrame
from av.video.reformatter import ColorRange, Colorspace

from narrate2report.errors import BadInput
from narrate2report.intake.frames import Frame
from narrate2report.intake.still_file import as_jpeg
from narrate2report.intake.upright import EXACT


def smaller_jpeg(path: Path, longest: int) -> bytes | None:
    """The picture as a JPEG whose longer side has `longest` pixels, or None where it is no larger than that.

    Equal files give equal bytes with the same version of PyAV. Raises BadInput where the file is no picture.
    """
    try:
        with av.open(str(path)) as file:
            stream = file.streams.video[0]
            side = max(stream.codec_context.width, stream.codec_context.height)
            if 0 < side <= longest:
                return None
            picture = next(file.decode(stream))
            return as_jpeg(_shrunk(picture, longest / max(picture.width, picture.height)))
    except (av.FFmpegError, IndexError, StopIteration, ValueError) as error:
        raise BadInput(f"{path}: is no picture that can be read") from error


def _shrunk(picture: VideoFrame, factor: float) -> Frame:
    plain = picture.reformat(
        width=max(1, round(picture.width * factor)),
        height=max(1, round(picture.height * factor)),
        format="rgb24",
        interpolation=EXACT,
        src_colorspace=Colorspace.ITU601,  # as JFIF 1.02 has it; without meaning where the file holds RGB
        src_color_range=ColorRange.JPEG,
    )
    return Frame(time_s=0.0, pixels=plain.to_ndarray().astype(np.uint8))
