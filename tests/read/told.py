"""A narration told line by line, and what was read of it, as the tests of reading want to look at it."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass

from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.lexis.words import Tokenizer
from narrate2report.read.outcome import Reading, ReadSentence
from narrate2report.read.reading import Reader
from narrate2report.records.findings import Entry, Findings
from narrate2report.records.transcript import Engine, Recording, Stretch, Transcript

CLIP = "walk.mp4"
LINE_S = 10.0
"""Seconds from the start of one line to the start of the next."""

SPOKEN_S = 9.0
"""Seconds that a line is spoken for: the rest is silence."""


def recording(duration_s: float, file: str = CLIP, recorded_at: str | None = None) -> Recording:
    """The facts of an invented recording."""
    digest = hashlib.sha256(file.encode()).hexdigest()
    return Recording(file=file, sha256=digest, bytes=1, duration_s=duration_s, recorded_at=recorded_at)


def transcript_of(lines: Sequence[str], recorded_at: str | None = None) -> Transcript:
    """A transcript that knows the time of each line, as captions and notes do."""
    stretches = tuple(
        Stretch(recording=CLIP, start=LINE_S * number, end=LINE_S * number + SPOKEN_S, text=line)
        for number, line in enumerate(lines)
    )
    return Transcript(
        recordings=(recording(LINE_S * (len(lines) + 1), recorded_at=recorded_at),),
        engine=Engine(name="told by a test"),
        time_precision="line",
        stretches=stretches,
    )


@dataclass(frozen=True)
class Told:
    """What was read of a narration."""

    reading: Reading

    @property
    def findings(self) -> Findings:
        return self.reading.findings

    @property
    def entries(self) -> tuple[Entry, ...]:
        return self.reading.findings.entries

    @property
    def sentences(self) -> tuple[ReadSentence, ...]:
        return self.reading.sentences

    def said_from(self, line: int) -> tuple[Entry, ...]:
        """The entries whose first evidence stands in this line (from 0) or later."""
        return tuple(entry for entry in self.entries if entry.evidence[0].start >= LINE_S * line)

    def reasons_from(self, line: int) -> list[str]:
        """Why the unused sentences of this line and later gave nothing."""
        return [one.reason for one in self.findings.unused if one.start >= LINE_S * line]

    def conditions(self) -> set[tuple[str, str, str]]:
        """Component, condition and assertion of every condition."""
        return {
            (entry.component, entry.condition or "", entry.assertion or "")
            for entry in self.entries
            if entry.kind == "condition"
        }

    def checks(self) -> list[tuple[str, str]]:
        """Component and outcome of every check, in the order they were said."""
        return [(one.component, one.outcome or "") for one in self.entries if one.kind == "check"]

    def follow_ups(self) -> list[tuple[str, str]]:
        """Component and action of every follow-up, in the order they were said."""
        return [(one.component, one.action or "") for one in self.entries if one.kind == "follow_up"]

    def told(self) -> str:
        """All entries in one line each, for the message of a failed test."""
        lines = [
            f"{one.kind} {one.room} {one.component} "
            f"{one.condition or one.outcome or one.action or one.attribute or ''} {one.assertion or ''}"
            f" x{one.quantity} where={one.where!r} {[f'{h.heard}->{h.read}' for h in one.heard]}"
            for one in self.entries
        ]
        return "\n".join(lines + [f"unused ({one.reason}): {one.text}" for one in self.findings.unused])


class Narrator:
    """Reads narrations with one vocabulary, loaded once."""

    def __init__(self, vocabulary: Vocabulary, tokenizer: Tokenizer) -> None:
        self._reader = Reader(vocabulary, tokenizer)

    def __repr__(self) -> str:
        return "Narrator()"

    def __call__(self, *lines: str, room: str | None = None) -> Told:
        """What is read of these lines, after walking into `room` (which is then line 0)."""
        walked = (f"Okay, into the {room}.", *lines) if room else lines
        return self.read(transcript_of(walked))

    def read(self, transcript: Transcript, room: str | None = None) -> Told:
        """What is read of a transcript of a walk that starts in a room, called by its id."""
        return Told(self._reader.read(transcript, room))
