"""A report as values: what is printed and in which order, worded, but not yet laid out."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

Reader = Literal["resident", "owner", "office"]
"""For whom it is printed: each later one may read more than the one before."""
Standing = Literal["draft", "reviewed", "sealed"]
"""How far the record has come: something undecided, everything decided, closed under a name."""
Mark = Literal["attention", "possible", "fails", "untested", "works", "sound", "fact", "work", "silent"]
"""What a state is shown by: each has a word and a shape of its own, so that no colour is needed."""

WRONG: frozenset[Mark] = frozenset({"attention", "fails", "possible"})
"""The states of what needs attention."""


@dataclass(frozen=True)
class Moment:
    """When something was said: `0:37`, and the address that opens the recording there, if one is known."""

    label: str
    link: str | None = None


@dataclass(frozen=True)
class Picture:
    """A still. `sha256` names its file; `missing` says in plain words why it cannot be shown, or is empty."""

    sha256: str
    alt: str
    caption: str
    missing: str = ""


@dataclass(frozen=True)
class Finding:
    """One entry in full, with the number that the response page refers to.

    `spoken` are details in the speaker's own words, apart from `says` only where these are in another language.
    """

    number: int
    mark: Mark
    state: str
    room: str
    part: str
    says: str
    quotes: tuple[str, ...]
    moments: tuple[Moment, ...]
    pictures: tuple[Picture, ...] = ()
    remarks: tuple[str, ...] = ()
    unreviewed: bool = False
    spoken: str = ""


@dataclass(frozen=True)
class Brief:
    """What can be told in one line."""

    name: str
    says: str
    moments: tuple[Moment, ...] = ()
    unreviewed: bool = False
    spoken: str = ""


@dataclass(frozen=True)
class Part:
    """A component of a room: what it is, then what was found of it, then what of it is in order."""

    name: str
    what: tuple[str, ...]
    findings: tuple[Finding, ...]
    sound: tuple[Brief, ...] = ()


@dataclass(frozen=True)
class Silent:
    """Components that were not spoken of, and what a person said of that."""

    looked: str
    names: tuple[str, ...]
    note: str = ""


@dataclass(frozen=True)
class Room:
    """A room as it was walked."""

    name: str
    parts: tuple[Part, ...]
    sound: tuple[Brief, ...]
    silent: tuple[Silent, ...]


@dataclass(frozen=True)
class Fact:
    """A line of the cover or the method page: its name, its value, where it came from."""

    name: str
    value: str
    source: str = ""


@dataclass(frozen=True)
class Safety:
    """A safety device, or a kind of check on it, and how it came out."""

    name: str
    room: str
    mark: Mark
    state: str
    moments: tuple[Moment, ...] = ()
    unreviewed: bool = False


@dataclass(frozen=True)
class Spot:
    """An entry on the timeline, in seconds from the start of the walk."""

    at_s: float
    mark: Mark


@dataclass(frozen=True)
class Lane:
    """A room on the timeline: when somebody was in it, what was said of it, and both in words."""

    room: str
    stays_s: tuple[tuple[float, float], ...]
    spots: tuple[Spot, ...]
    times: str
    told: str


@dataclass(frozen=True)
class Tick:
    """A time written on the timeline; `file` names the recording that begins there, if the walk has several."""

    at_s: float
    label: str
    file: str = ""


@dataclass(frozen=True)
class Timeline:
    """The walk by room, its recordings one after the other."""

    length_s: float
    lanes: tuple[Lane, ...]
    ticks: tuple[Tick, ...]
    title: str
    alt: str


@dataclass(frozen=True)
class NotSpoken:
    """The silent components of one room."""

    room: str
    silent: tuple[Silent, ...]


@dataclass(frozen=True)
class Crowd:
    """What needs attention in one room, told by number alone: `1–40, 43`. `first` is the first of them."""

    room: str
    numbers: str
    told: str
    first: int


@dataclass(frozen=True)
class Recorded:
    """A recording or written source as the method page names it."""

    file: str
    length: str
    recorded_at: str
    sha256: str
    missing: str = ""


@dataclass(frozen=True)
class Unread:
    """A sentence that gave no entry (office version only)."""

    moment: Moment
    text: str
    reason: str


@dataclass(frozen=True)
class Respond:
    """How many days the resident has to answer, and who or what says so; without days, a blank is left."""

    days: int | None = None
    source: str = ""


@dataclass(frozen=True)
class Report:
    """Everything that is printed, in order. `language` is that of the print, `spoken_in` that of the recording.

    `clashes` and `warnings` stand as in the record, which is always written in English.
    """

    title: str
    name: str
    reader: Reader
    reader_word: str
    standing: Standing
    standing_word: str
    standing_told: str
    facts: tuple[Fact, ...]
    clashes: tuple[str, ...]
    urgent: tuple[str, ...]
    attention: tuple[Finding, ...]
    safety: tuple[Safety, ...]
    untested: tuple[Finding, ...]
    not_spoken: tuple[NotSpoken, ...]
    timeline: Timeline
    rooms: tuple[Room, ...]
    handed: tuple[Brief, ...]
    advice: tuple[Brief, ...]
    work: tuple[Finding, ...]
    left_out: tuple[str, ...]
    method: tuple[Fact, ...]
    recordings: tuple[Recorded, ...]
    warnings: tuple[str, ...]
    gaps: tuple[str, ...]
    seal: tuple[Fact, ...]
    cautions: tuple[str, ...]
    residents: tuple[str, ...]
    inspector: str
    respond: tuple[str, ...]
    crowded: tuple[Crowd, ...] = ()
    unread: tuple[Unread, ...] = ()
    empty: bool = False
    language: str = "en"
    spoken_in: str = "en"
    courtesy: str = ""
    marks: dict[Mark, str] = field(default_factory=dict)
    words: dict[str, str] = field(default_factory=dict)
