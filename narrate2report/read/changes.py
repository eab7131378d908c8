"""A change of the words of a sentence, and how it is told."""

from __future__ import annotations

from dataclasses import dataclass

from narrate2report.records.findings import Heard
from narrate2report.records.weighing import Weight


@dataclass(frozen=True)
class Change:
    """Tokens `start` to `end` (exclusive) that are read as other words, why, and how sure that is."""

    start: int
    end: int
    read: str
    why: str
    sureness: float
    sound: Weight | None = None
    asked: bool = False
    """Whether the words stay as they were heard, and the reviewer is asked."""

    def overlaps(self, other: Change) -> bool:
        """Whether both change one word."""
        return self.start < other.end and other.start < self.end

    def told(self, heard: str) -> Heard:
        """How the record tells it, of the words that were heard."""
        return Heard(
            heard=heard, read=self.read, why=self.why, sureness=self.sureness, sound=self.sound, asked=self.asked
        )
