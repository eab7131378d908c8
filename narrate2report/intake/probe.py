"""Recording facts: identity, length, tracks and when it was made; where and with what only where that was asked for."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import av
import av.container
from av.audio.stream import AudioStream
from av.stream import Stream

from narrate2report.errors import BadInput
from narrate2report.intake.container import opened, sound_stream, time_zero
from narrate2report.records.digest import digest_file
from narrate2report.records.transcript import Recording, Track

CLOCK_TAGS = ("com.apple.quicktime.creationdate", "creation_time", "date")
"""Where containers keep the moment of recording, the one that tells the zone first."""

EARLIEST_YEAR = 1990
"""Clocks that were never set say 1904 or 1970."""


DEVICE_TAGS = (
    ("com.apple.quicktime.make", "com.apple.quicktime.model"),
    ("com.android.manufacturer", "com.android.model"),
    ("make", "model"),
)
"""Where containers name the maker and the model of the device."""

PLACE_TAGS = ("com.apple.quicktime.location.iso6709", "location", "location-eng")
"""Where containers keep the place of recording (ISO 6709)."""


def probe(path: Path, track: int | None = None, *, keep_location: bool = False) -> Recording:
    """The facts of a recording with sound, of which `track` (from 1) is listened to.

    Where it was made, and with what device, is left out unless `keep_location` asks for it: a record goes to people
    whom that does not concern. Raises BadInput when it cannot be listened to.
    """
    with opened(path) as container:
        chosen = sound_stream(container, path, track)
        tracks = tuple(
            _track(stream, chosen=stream.index == chosen.index)
            for stream in container.streams
            if stream.type in ("video", "audio")
        )
        duration = _duration(container)
        tags = {name.lower(): value.strip() for name, value in container.metadata.items()}
        _require_decodable(container, chosen, path)
    identity = digest_file(path)
    return Recording(
        file=path.name,
        sha256=identity.sha256,
        bytes=identity.bytes,
        duration_s=duration,
        recorded_at=recorded_moment(tags),
        device=recorded_with(tags) if keep_location else None,
        location=next((tags[tag] for tag in PLACE_TAGS if tags.get(tag)), None) if keep_location else None,
        tracks=tracks,
    )


def recorded_moment(tags: dict[str, str]) -> str | None:
    """The moment of recording as ISO 8601 from a container's tags, or None when it tells none worth keeping.

    >>> recorded_moment({"com.apple.quicktime.creationdate": "2026-03-04T09:15:00-0500"})
    '2026-03-04T09:15:00-05:00'
    """
    lowered = {name.lower(): value for name, value in tags.items()}
    for tag in CLOCK_TAGS:
        value = lowered.get(tag, "").strip()
        if len(value) < len("2026-03-04T09:15"):
            continue  # a bare year or day is the date of an album, not of a walk
        try:
            moment = datetime.fromisoformat(value)
        except ValueError:
            continue
        if moment.year >= EARLIEST_YEAR:
            return moment.replace(microsecond=0).isoformat()
    return None


def recorded_with(tags: dict[str, str]) -> str | None:
    """Maker and model of the device, from a container's tags (names in lower case), or None.

    >>> recorded_with({"make": "Anymaker", "model": "Anyphone 3"})
    'Anymaker Anyphone 3'
    """
    for pair in DEVICE_TAGS:
        if words := [tags[tag] for tag in pair if tags.get(tag)]:
            return " ".join(words)
    return None


def _track(stream: Stream, chosen: bool) -> Track:
    language = stream.language if stream.language not in (None, "", "und") else None
    codec = "unknown" if stream.codec_context is None else stream.codec_context.name
    return Track(kind="video" if stream.type == "video" else "audio", codec=codec, language=language, chosen=chosen)


def _duration(container: av.container.InputContainer) -> float | None:
    """Seconds from where a player shows 0:00 to where it stops, as the container declares it."""
    if container.duration is None:
        return None
    start = 0 if container.start_time is None else container.start_time
    return max(0.0, (start + container.duration) / av.time_base - time_zero(container))


def _require_decodable(container: av.container.InputContainer, chosen: AudioStream, path: Path) -> None:
    """Decode the first sound, so that a hopeless file is refused before any other is begun."""
    try:
        for frame in container.decode(chosen):
            if frame.samples:
                return
    except av.FFmpegError as error:
        raise BadInput(f"{path}: its sound cannot be decoded (damaged or encrypted)") from error
    raise BadInput(f"{path}: has a sound track without any sound in it")
