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


def sound_stream(container: av.container.InputContainer, path: Path, wanted: int | None = None) -> AudioStream:
    """The sound track to listen to: the wanted one, counted from 1, or the first that can be decoded.

    Raises BadInput when there is none, listing those that there are.
    """
    tracks = container.streams.audio
    if not tracks:
        raise BadInput(f"{path}: has no sound; the walk must be narrated aloud to be read")
    if wanted is not None and not 1 <= wanted <= len(tracks):
        there = ", ".join(f"{number} ({_described(track)})" for number, track in enumerate(tracks, start=1))
        raise BadInput(f"{path}: has no sound track {wanted}; there is {there}")
    for track in tracks if wanted is None else tracks[wanted - 1 : wanted]:
        # A track of an unknown codec has no context; phones put such a second track beside the plain one.
        if track.codec_context is not None:
            return track
    raise BadInput(f"{path}: its sound is in a form that cannot be decoded here; convert it to AAC or WAV")


def picture_tracks(container: av.container.InputContainer) -> list[VideoStream]:
    """The tracks that hold moving pictures: the cover of an album is none."""
    return [track for track in container.streams.video if not track.disposition & Disposition.attached_pic]


def picture_stream(container: av.container.InputContainer, path: Path) -> VideoStream:
    """The picture track that a player shows: the first that can be decoded.

    Raises BadInput when there is none.
    """
    tracks = picture_tracks(container)
    if not tracks:
        raise BadInput(f"{path}: this recording has no picture, only sound")
    for track in tracks:
        if track.codec_context is not None:
            return track
    raise BadInput(f"{path}: its picture is in a form that cannot be decoded here; convert it to H.264 (MP4)")


def _described(track: AudioStream) -> str:
    """A sound track in a few words, so that one can be chosen: `aac, 2 channels, eng`."""
    words = [track.language, track.metadata.get("title")]
    if track.codec_context is not None:
        channels = "1 channel" if track.channels == 1 else f"{track.channels} channels"
        words = [track.codec_context.name, channels, *words]
    return ", ".join(word for word in words if word and word != "und") or "of a form unknown here"


def time_zero(container: av.container.InputContainer) -> float:
    """The container time, in seconds, at which a player shows 0:00."""
    if any(name in container.format.name.split(",") for name in TIMELINE_FROM_ZERO):
        return 0.0
    return 0.0 if container.start_time is None else container.start_time / av.time_base


def missing_bytes(path: Path) -> int:
    """How many bytes an MP4 or MOV file announces beyond its end; 0 for a whole one and for other kinds."""
    boxes = look_into(path)
    return 0 if boxes is None else boxes.missing_bytes


def _look_first(path: Path) -> None:
    """Two faults of MP4 and MOV files that a decoder would not tell from any other damage."""
    try:
        boxes = look_into(path)
    except OSError as error:
        raise BadInput(f"{path}: cannot be read ({error.strerror or error})") from error
    if boxes is None:
        return
    if not boxes.has_index:
        raise BadInput(f"{path}: the recording was cut off before its index was written; copy it from the phone again")
    if boxes.encrypted:
        raise BadInput(f"{path}: is encrypted; export an unprotected copy from the app that made it")
