"""The record of a walkthrough: entries with evidence, what was not used and why, what was not spoken of."""

from __future__ import annotations

from typing import Final, Literal

from pydantic import Field

from narrate2report.records.base import Seconds, Sha256, Value
from narrate2report.records.moments import fragment
from narrate2report.records.transcript import Gap, Recording
from narrate2report.records.weighing import Weight

FINDINGS_SCHEMA: Final = "narrate2report/findings/1"

WITHDRAWN: Final = "withdrawn:"
"""Before the reason of an entry that was left out since what was said does not stand, though it was heard right."""

Kind = Literal["condition", "check", "handover", "advice", "follow_up", "description"]
Assertion = Literal["present", "absent", "possible"]
Outcome = Literal["works", "fails", "not_tested"]
Action = Literal["repair", "replace", "clean", "secure", "inspect", "touch_up", "treat", "supply"]
Party = Literal["resident", "owner", "manager"]
Severity = Literal["slight", "moderate", "severe"]
Reason = Literal["talk", "moving", "checking_for", "hypothetical", "policy", "unclear"]
CoverageStatus = Literal["noted", "described_sound", "not_noted"]
State = Literal["proposed", "accepted", "changed", "dropped"]
Looked = Literal["not_looked_at", "looked_at_since", "left_not_noted"]

SOUND: Final = frozenset({"good", "clean", "new", "present", "freshly_painted", "repaired"})
"""Conditions that are no flaw."""


class Sourced(Value):
    """A fact of the header with where it came from: given, spoken at m:ss, or a recording's own clock."""

    value: str
    source: str


class Header(Value):
    """Which walk this was. Each fact keeps every source that spoke of it; a clash is shown, never settled."""

    kind: tuple[Sourced, ...] = ()
    unit: tuple[Sourced, ...] = ()
    residents: tuple[Sourced, ...] = ()
    inspector: tuple[Sourced, ...] = ()
    date: tuple[Sourced, ...] = ()
    clashes: tuple[str, ...] = Field(default=(), description="facts whose sources disagree, in plain words")


class TranscriptFacts(Value):
    """How the words came to be read."""

    engine: str
    model: str | None
    model_sha256: Sha256 | None
    language: str
    vocabulary_version: Sha256 = Field(description="SHA-256 over the vocabulary that was used")
    time_precision: Literal["word", "line"]
    gaps: tuple[Gap, ...] = ()
    warnings: tuple[str, ...] = ()


class Evidence(Value):
    """Where an entry was said: a stretch of a recording and its exact, unrepaired words."""

    recording: str
    start: Seconds
    end: Seconds
    sentences: tuple[str, ...]
    quote: str
    link: str = Field(description="W3C media fragment, e.g. clip.mp4#t=12.20,18.14")

    @classmethod
    def of(cls, recording: str, start: float, end: float, quote: str, *sentences: str) -> Evidence:
        """A stretch of a recording, in seconds, with the link that plays it."""
        link = fragment(recording, start, end)
        return cls(recording=recording, start=start, end=end, sentences=sentences, quote=quote, link=link)

    def moved(self, start: float, end: float) -> Evidence:
        """The same words, on another stretch."""
        return Evidence.of(self.recording, start, end, self.quote, *self.sentences)


class Heard(Value):
    """A repair of a mishearing: the transcript keeps `heard`, the reading used `read`; or did not, and asks."""

    heard: str
    read: str
    why: str
    sureness: float = Field(ge=0, le=1)
    sound: Weight | None = Field(default=None, description="how `read` fares against `heard` on the recording itself")
    asked: bool = Field(default=False, description="the sentence was read as heard: a person decides which it was")


class Attribute(Value):
    """What a component is."""

    name: Literal["material", "type", "count", "colour", "age"]
    value: str


class Size(Value):
    """A size in the speaker's words and, where it can be read safely, as value and unit."""

    text: str
    value: float | None = None
    unit: str | None = None


class Decision(Value):
    """Who decided about an entry, and when (ISO 8601)."""

    by: str
    at: str
    why: str | None = None


class Still(Value):
    """A picture taken from a recording, kept in the folder of stills beside the record."""

    file: str
    recording: str
    time: Seconds
    sha256: Sha256


class Entry(Value):
    """One thing that the record says, with where it was said and why it was read that way."""

    id: str
    kind: Kind
    room: str
    component: str
    condition: str | None = None
    assertion: Assertion | None = None
    outcome: Outcome | None = None
    action: Action | None = None
    party: Party | None = None
    quantity: int | None = None
    direction: Literal["given", "returned"] | None = None
    attribute: Attribute | None = None
    where: str | None = None
    size: Size | None = None
    severity: Severity | None = None
    pre_existing: bool = False
    evidence: tuple[Evidence, ...] = Field(min_length=1)
    heard: tuple[Heard, ...] = ()
    confidence: float = Field(ge=0, le=1)
    because: tuple[str, ...] = Field(min_length=1)
    note: str | None = Field(default=None, description="a remark of the person who reviewed it")
    state: State = "proposed"
    decided: Decision | None = None
    merged_into: str | None = Field(default=None, description="the entry that took over its evidence")
    split_from: str | None = Field(default=None, description="the entry that it was a part of")
    stills: tuple[Still, ...] = ()

    @property
    def is_open(self) -> bool:
        """Whether no person has decided about it; a state without whoever decided is no decision."""
        return self.state == "proposed" or self.decided is None

    @property
    def stands(self) -> bool:
        """Whether it is still part of what the record says: nobody left it out or merged it into another."""
        return self.state != "dropped"

    @property
    def is_adverse(self) -> bool:
        """Whether it speaks of something wrong: a flaw seen or suspected, or a check that failed."""
        if self.kind == "check":
            return self.outcome == "fails"
        return self.kind == "condition" and self.assertion != "absent" and self.condition not in SOUND


class RoomVisit(Value):
    """A room as it was walked."""

    room: str
    recording: str
    start: Seconds
    end: Seconds


class Acknowledged(Value):
    """What a person says of a component that was not spoken of."""

    looked: Looked
    note: str | None = None
    by: str
    at: str


class Coverage(Value):
    """What was said of an expected component: silence is `not_noted`, never good."""

    room: str
    component: str
    status: CoverageStatus
    acknowledged: Acknowledged | None = None

    @property
    def is_open(self) -> bool:
        """Whether it was not spoken of and no person has said anything of that."""
        return self.status == "not_noted" and self.acknowledged is None


class Unused(Value):
    """A sentence that gave no entry, and the reason."""

    id: str
    recording: str
    start: Seconds
    end: Seconds
    text: str
    reason: Reason
    because: str
    heard: tuple[Heard, ...] = ()


class SealedFile(Value):
    """A file that a seal covers, named as it lies beside the record (`/` between folder and name)."""

    role: Literal["recording", "transcript", "journal", "still"]
    file: str
    sha256: Sha256
    bytes: int = Field(ge=0)


class Signature(Value):
    """A seal signed with a key of the firm's: Ed25519 (RFC 8032), both as lower-case hex."""

    public_key: Sha256 = Field(description="the 32 bytes of the public key")
    signature: str = Field(pattern=r"^[0-9a-f]{128}$")


class Seal(Value):
    """What makes a later change visible. Absent until a person seals the record.

    `sha256` is over the canonical form (RFC 8785) of the whole record without this hash and without the signature.
    """

    sha256: Sha256
    sealed_at: str
    sealed_by: str
    statement: str
    previous: Sha256 | None = None
    files: tuple[SealedFile, ...]
    signature: Signature | None = None


class Amended(Value):
    """The sealed record that this one adds to."""

    file: str
    sha256: Sha256 = Field(description="its seal")


class Findings(Value):
    """The whole record of one walkthrough."""

    schema_: Literal["narrate2report/findings/1"] = Field(default=FINDINGS_SCHEMA, alias="schema")
    walkthrough: Header
    recordings: tuple[Recording, ...]
    transcript: TranscriptFacts
    entries: tuple[Entry, ...]
    rooms: tuple[RoomVisit, ...]
    coverage: tuple[Coverage, ...]
    unused: tuple[Unused, ...]
    amends: Amended | None = None
    seal: Seal | None = None

    def numbers(self) -> dict[str, int]:
        """Each recording's place in the walk, from 0, by its file name."""
        return {recording.file: number for number, recording in enumerate(self.recordings)}
