"""A change of the words of a sentence, how it is told, and where words then stand that stood elsewhere before."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from narrate2report.read.lexis.words import Token
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


@dataclass(frozen=True)
class Reread:
    """A text as it is read after its changes: its tokens, and where each stood in the text as it was heard.

    None for a word inside a change, which stood nowhere.
    """

    tokens: tuple[Token, ...]
    offsets: tuple[int | None, ...]

    def among(self, said: Sequence[Token], fluent: Sequence[Token]) -> Reread:
        """The same, with the offsets of a text in which there is more: fillers, which `fluent` leaves out."""
        left = iter(said)
        places = {one.start: next((other.start for other in left if other.text == one.text), None) for one in fluent}
        return Reread(self.tokens, tuple(None if at is None else places.get(at) for at in self.offsets))


def reread(tokens: Sequence[Token], heard: Sequence[Token], changes: Sequence[Change]) -> Reread:
    """`tokens` of a text with the changes made, `heard` of the text without, changes from left to right."""
    return Reread(tuple(tokens), tuple(_offsets(tokens, heard, [one for one in changes if not one.asked])))


def _offsets(tokens: Sequence[Token], heard: Sequence[Token], changes: Sequence[Change]) -> Iterator[int | None]:
    moved, waiting = 0, list(reversed(changes))
    for token in tokens:
        while waiting:
            begin, end = heard[waiting[-1].start].start, heard[waiting[-1].end - 1].end
            if token.start < begin + moved + len(waiting[-1].read):
                break
            moved += len(waiting.pop().read) - (end - begin)
        if waiting and token.start >= begin + moved:
            yield begin if token.start == begin + moved else None
        else:
            yield token.start - moved
