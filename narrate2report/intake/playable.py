"""Whether a recording plays in a browser as it is, or needs a review copy (`review_copy`).

A list of what all browsers in use can be relied on to play, seek and keep in time. In doubt the answer is no: a copy
that was not needed costs minutes, a recording that stays black costs the review.
"""

from __future__ import annotations

from pathlib import Path

import av
import av.container
from av.audio.stream import AudioStream
from av.video.stream import VideoStream

from narrate2report.intake.container import opened, picture_tracks

MP4_BRANDS = ("isom", "iso2", "iso4", "iso5", "iso6", "avc1", "mp41", "mp42", "M4A ", "M4V ", "dash", "MSNV")
"""Major brands (ISO/IEC 14496-12, 4.3) of files that browsers take for MP4; `qt  ` (MOV) and 3GPP are left out."""

WEBM = b"\x42\x82\x84webm"
"""DocType of an EBML header (RFC 8794, 11.2.7); Matroska files say `matroska` there."""

HEAD = 4096
"""Bytes in which an EBML header lies."""

PICTURE_CODECS = {"mp4": {"h264"}, "webm": {"vp8", "vp9", "av1", "libdav1d"}}
SOUND_CODECS = {
    "mp4": {"aac", "mp3"},
    "webm": {"opus", "vorbis", "libopus"},
    "mp3": {"mp3", "mp3float"},
    "wav": {"pcm_u8", "pcm_s16le", "pcm_s24le"},
    "flac": {"flac"},
}
PIXELS = {"yuv420p", "yuvj420p"}
"""8 bits, colour halved both ways: the form that every decoder in hardware takes."""


def plays_in_browsers(path: Path) -> bool:
    """Whether a browser plays picture and sound of a recording from the file as it is.

    Raises BadInput when the recording cannot be read at all.
    """
    with opened(path) as container:
        family = _family(container, path)
        if family is None:
            return False
        pictures = picture_tracks(container)
        sounds = list(container.streams.audio)
        if not pictures and not sounds:
            return False
        # A browser plays the first track of each kind.
        return all(_picture_plays(track, family) for track in pictures[:1]) and all(
            _sound_plays(track, family) for track in sounds[:1]
        )


def _family(container: av.container.InputContainer, path: Path) -> str | None:
    """The kind of container, where it is one that browsers know."""
    names = container.format.name.split(",")
    if "mp4" in names:
        return "mp4" if container.metadata.get("major_brand") in MP4_BRANDS else None
    if "webm" in names:
        with path.open("rb") as file:
            return "webm" if WEBM in file.read(HEAD) else None
    return names[0] if names[0] in SOUND_CODECS else None


def _picture_plays(track: VideoStream, family: str) -> bool:
    context = track.codec_context
    if context is None or context.name not in PICTURE_CODECS.get(family, set()):
        return False
    return context.pix_fmt in PIXELS


def _sound_plays(track: AudioStream, family: str) -> bool:
    return track.codec_context is not None and track.codec_context.name in SOUND_CODECS[family]
