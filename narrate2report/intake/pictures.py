"""The pictures of a recording in the order a player shows them, each with its time; from any moment on.

Times are those of the whole program: seconds from where a player shows 0:00 (`container.time_zero`), start offsets and
edit lists applied. One or two decoded pictures are held at a time, whatever the recording's length.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import av
import av.container
from av.video.frame import VideoFrame
from av.video.stream import VideoStream

from narrate2report.errors import BadInput
from narrate2report.intake.container import opened, picture_stream, time_zero

ROUNDING_S = 0.001
"""A picture counts as reached this much before its time: times written down to the millisecond, and clocks of players
that cut digits off, mean the same picture. Far less than the 4 ms between pictures at 240 a second.
"""

BACK_S = (0.0, 2.0, 10.0, 60.0)
"""Where a jump lands too late (reordered or open groups of pictures, indexes by byte), it is tried this much earlier,
and at last from the beginning.
"""


@dataclass(frozen=True)
class Picture:
    """A decoded picture, as stored (not turned), and when a player shows it."""

    time_s: float
    frame: VideoFrame


def pictures(path: Path, start_s: float = 0.0) -> Iterator[Picture]:
    """Pictures in order of their times; the first is the one shown at `start_s`: the last that began until then.

    Before the first picture of a recording it is that one, after the last it is the last. What breaks off half way
    ends early, single pictures that are damaged are passed over. Raises BadInput when there is no picture at all.
    """
    start_s = start_s if start_s > 0 else 0.0
    held: Picture | None = None
    for picture in _from_before(path, start_s):
        if held is not None and picture.time_s > start_s + ROUNDING_S:
            yield held
        held = picture
    if held is None:
        raise BadInput(f"{path}: its picture cannot be decoded (damaged or encrypted)")
    yield held


def _from_before(path: Path, start_s: float) -> Iterator[Picture]:
    """Pictures from some moment at or before `start_s` on, or all of them."""
    if start_s > 0:
        with _picture_track(path) as (container, stream):
            for back_s in BACK_S:
                found = _after_jump(container, stream, start_s - back_s)
                first = next(found, None)
                if first is not None and first.time_s <= start_s + ROUNDING_S:
                    yield first
                    yield from found
                    return
    with _picture_track(path) as (container, stream):
        yield from _decoded(container, stream)


@contextmanager
def _picture_track(path: Path) -> Iterator[tuple[av.container.InputContainer, VideoStream]]:
    with opened(path) as container:
        stream = picture_stream(container, path)
        stream.thread_type = "AUTO"
        yield container, stream


def _after_jump(container: av.container.InputContainer, stream: VideoStream, start_s: float) -> Iterator[Picture]:
    """Pictures from the key frame before a moment on; none where the file cannot be jumped in."""
    assert stream.time_base is not None
    zero = time_zero(container)
    if container.duration is not None:
        start_s = min(start_s, container.duration / av.time_base)
    if start_s <= 0:
        return
    try:
        container.seek(int((zero + start_s) / stream.time_base), stream=stream)
    except (av.FFmpegError, OSError, OverflowError):
        return
    yield from _decoded(container, stream)


def _decoded(container: av.container.InputContainer, stream: VideoStream) -> Iterator[Picture]:
    """Decode on from where the container stands."""
    zero = time_zero(container)
    try:
        for packet in container.demux(stream):
            try:
                frames = packet.decode()
            except av.InvalidDataError:
                continue
            for frame in frames:
                if isinstance(frame, VideoFrame) and frame.time is not None and not frame.is_corrupt:
                    yield Picture(frame.time - zero, frame)
    except (av.FFmpegError, OSError):
        return
