"""What a reading gives: the record, and what became of every sentence."""

from __future__ import annotations

from dataclasses import dataclass, field

from narrate2report.read.speech.sentences import Sentence
from narrate2report.read.speech.spoken import Spoken
from narrate2report.records.findings import Findings, Reason, Unused


@dataclass(frozen=True)
class ReadSentence:
    """What became of one sentence: its entries, or the reason why it gave none."""

    sentence: Sentence
    room: str
    entries: tuple[str, ...]
    reason: Reason | None
    because: tuple[str, ...]
    spoken: Spoken = field(repr=False, compare=False)
    """The sentence with the words that were found in it."""

    @property
    def id(self) -> str:
        """The id of the sentence."""
        return self.sentence.id

    @property
    def text(self) -> str:
        """Its words as they were transcribed."""
        return self.sentence.text

    @property
    def start(self) -> float:
        """When it starts, in seconds of its recording."""
        return self.sentence.start

    @property
    def end(self) -> float:
        """When it ends, in seconds of its recording."""
        return self.sentence.end

    @property
    def fate(self) -> str:
        """`entries`, or the reason why it gave none."""
        return self.reason or "entries"

    def as_unused(self) -> Unused | None:
        """How it stands in the record's `unused`, if it gave no entry."""
        if self.reason is None:
            return None
        told = self.sentence
        return Unused(
            id=told.id,
            recording=told.recording,
            start=told.start,
            end=told.end,
            text=told.text,
            reason=self.reason,
            because="; ".join(self.because),
            heard=self.spoken.heard,
        )


@dataclass(frozen=True)
class Reading:
    """The record that was read, and what became of every sentence."""

    findings: Findings
    sentences: tuple[ReadSentence, ...]
