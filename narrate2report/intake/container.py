"""Opening a media file, its faults put into words, and which of its tracks are used."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import av
import av.container
from av.audio.stream import AudioStream
from av.stream import Disposition
from av.video.stream import VideoStream

from narrate2report.errors import BadInput
from narrate2report.intake.boxes import look_into

TIMELINE_FROM_ZERO = ("mp4", "matroska", "webm")
"""Containers whose players count from the container's own zero; the others are counted from their first
packet.
"""


@contextmanager
def opened(path: Path) -> Iterator[av.container.InputContainer]:
    """Open a recording for reading. Raises BadInput saying what keeps it from being read."""
    _look_first(path)
    try:
        # As a file, whatever its name looks like, and following no reference to anywhere else.
        container = av.open(f"file:{path}", options={"protocol_whitelist": "file"}, metadata_errors="replace")
    except (av.FFmpegError, OSError, ValueError) as error:
        raise BadInput(f"{path}: is not a recording that can be read (damaged or another kind of file)") from error
    with container:
        yield container


def sound_stream(container: av.container.InputContainer, path: Path) -> AudioStream:
    """The sound track to listen to: the first that can be decoded. Raises BadInput when there is none."""
    tracks = container.streams.audio
    if not tracks:
        raise BadInput(f"{path}: has no sound; the walk must be narrated aloud to be read")
    for track in tracks:
        # A track of an unknown codec has no context; phones put such a second track beside the plain one.
        if track.codec_context is not None:
            return track
    raise BadInput(f"{path}: its sound is in a form that cannot be decoded here; convert it to AAC or WAV")


def picture_stream(container: av.container.InputContainer, path: Path) -> VideoStream:
    """The picture track that a player shows: the first that can be decoded and is no cover of an album.

    Raises BadInput when there is none.
    """
    tracks = [track for track in container.streams.video if not track.disposition & Disposition.attached_pic]
    if not tracks:
        raise BadInput(f"{path}: this recording has no picture, only sound")
    for track in tracks:
        if track.codec_context is not None:
            return track
    raise BadInput(f"{path}: its picture is in a form that cannot be decoded here; convert it to H.264 (MP4)")


def time_zero(container: av.container.InputContainer) -> float:
    """The container time, in seconds, at which a player shows 0:00."""
    if any(name in container.format.name.split(",") for name in TIMELINE_FROM_ZERO):
        return 0.0
    return 0.0 if container.start_time is None else container.start_time / av.time_base


def _look_first(path: Path) -> None:
    """Three faults of MP4 and MOV files that a decoder would not tell from any other damage."""
    try:
        boxes = look_into(path)
    except OSError as error:
        raise BadInput(f"{path}: cannot be read ({error.strerror or error})") from error
    if boxes is None:
        return
    if not boxes.has_index:
        raise BadInput(f"{path}: the recording was cut off before its index was written; copy it from the phone again")
    if boxes.missing_bytes:
        raise BadInput(
            f"{path}: is cut short, {boxes.missing_bytes:,} bytes are missing at its end; copy it from the phone again"
        )
    if boxes.encrypted:
        raise BadInput(f"{path}: is encrypted; export an unprotected copy from the app that made it")
