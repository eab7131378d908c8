"""What was heard: the recordings, and their speech as timed stretches of words.

A transcript is made by listening (word times) or read from captions or notes (line times).
It is never edited.
"""

from __future__ import annotations

from typing import Final, Literal

from pydantic import Field

from narrate2report.records.base import Seconds, Sha256, Value

TRANSCRIPT_SCHEMA: Final = "narrate2report/transcript/1"


class Track(Value):
    """One stream of a recording as its container declares it."""

    kind: Literal["video", "audio"]
    codec: str
    language: str | None = None
    chosen: bool = Field(default=False, description="the sound track that was listened to")


class Recording(Value):
    """A file that was listened to or read, known by its SHA-256. It is never changed."""

    file: str = Field(description="file name, without its folder")
    sha256: Sha256
    bytes: int = Field(ge=0)
    duration_s: Seconds | None = Field(default=None, description="null for a transcript that does not tell")
    recorded_at: str | None = Field(default=None, description="ISO 8601, from the file's own clock")
    device: str | None = Field(default=None, description="maker and model; only where it was asked to be kept")
    location: str | None = Field(default=None, description="ISO 6709; only where it was asked to be kept")
    tracks: tuple[Track, ...] = ()
    media: bool = Field(default=True, description="false where only a transcript was given")


class Word(Value):
    """A word as it was heard, with its own start and end."""

    text: str
    start: Seconds
    end: Seconds
    probability: float = Field(ge=0, le=1)


class Stretch(Value):
    """Speech under one time: a caption cue, a line of notes, or what lay between two pauses."""

    recording: str = Field(description="the file name of its recording")
    start: Seconds
    end: Seconds
    text: str
    words: tuple[Word, ...] = Field(default=(), description="empty where only the line's time is known")
    doubt: str | None = Field(default=None, description="why this may not have been said, in plain words")


class Gap(Value):
    """A stretch in which someone seems to speak but nothing was understood."""

    recording: str
    start: Seconds
    end: Seconds


class Engine(Value):
    """What listened: kept so that a record can say how it came to be."""

    name: str
    model: str | None = None
    model_sha256: Sha256 | None = None
    settings: dict[str, str | int | float | bool] = {}


class Transcript(Value):
    """All speech of a walkthrough in order, with the recordings it came from."""

    schema_: Literal["narrate2report/transcript/1"] = Field(default=TRANSCRIPT_SCHEMA, alias="schema")
    recordings: tuple[Recording, ...]
    engine: Engine
    language: str = "en"
    time_precision: Literal["word", "line"]
    stretches: tuple[Stretch, ...]
    gaps: tuple[Gap, ...] = ()
    warnings: tuple[str, ...] = Field(
        default=(), description="what the reader of the record should know, in plain words"
    )
