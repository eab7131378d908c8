"""One recording to be drafted: from where, to where, how; and what became of it.

These values say all that a draft depends on, so that the same task gives the same bytes in this process, in another one
or on another machine. They are plain and small, since they travel; recordings never travel inside them.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from narrate2report.records.header import GivenFacts

WordFiles: TypeAlias = tuple[tuple[str, str], ...]
"""A folder of words as it is at this moment: each file's name and text."""


@dataclass(frozen=True)
class Lying:
    """A file as it lies there. Places are paths, or addresses such as `s3://bucket/walk.mp4`."""

    place: str
    bytes: int
    changed_s: float
    """When it was last written to, in seconds since 1970; without end where that is not told."""


@dataclass(frozen=True)
class Settings:
    """How every recording of a batch is drafted."""

    program: str
    """The version of this program."""
    model: str | None
    """The speech model as it was named; None for the bundled one."""
    model_sha256: str
    vocabulary_version: str
    """SHA-256 over all words, built-in ones and those of one's own."""
    words: tuple[WordFiles, ...] = ()
    """Words of one's own, the lowest layer first."""
    facts: GivenFacts = field(default_factory=GivenFacts)
    keep_location: bool = False
    track: int | None = None
    """The sound track to listen to, counted from 1; None for the one that the container names first."""
    by_sound: bool = True
    """Whether misheard words are held against the sound."""
    plan: tuple[str, str] | None = None
    """The unit file that walks are measured against: its name and text."""


@dataclass(frozen=True)
class Task:
    """A recording that has no record yet."""

    recording: str
    findings: str
    bytes: int
    """How large the recording is: whoever drafts it sees by this that it has the same file."""
    settings: Settings


@dataclass(frozen=True)
class Progress:
    """How far a recording is heard, in seconds; `total_s` is 0 where its length is not known."""

    recording: str
    done_s: float
    total_s: float


Became = Literal["drafted", "already", "failed"]


@dataclass(frozen=True)
class Outcome:
    """What became of a recording."""

    recording: str
    became: Became
    findings: str | None = None
    """Its record."""
    entries: int = 0
    adverse: int = 0
    duration_s: float = 0.0
    note: str | None = None
    """Why it failed; of whom it is a copy, or what was set otherwise when it was drafted."""


Tell: TypeAlias = Callable[[float, float], None]
"""Is told seconds done, and seconds in all."""

Work: TypeAlias = Callable[[Task, Tell], Outcome]
"""Drafts one recording. Raises NarrateError where that cannot be done."""
