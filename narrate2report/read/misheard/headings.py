"""A room at the head of a sentence that is no word: `Upspairs, the handrail is solid` is told upstairs.

Whoever misses a room puts everything after it into the one before, so that here less is asked of the sound than of a
word in the midst of a sentence.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from rapidfuzz import fuzz

from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.lexis.words import Token
from narrate2report.read.misheard.sounds import apart, english_sounds
from narrate2report.read.speech.changes import Change
from narrate2report.read.speech.clauses import LEADING, MARKS

SURE = 0.65
SHORTEST = 5
"""Letters that a room's name needs, to be known by most of them."""

NEAREST, FARTHEST = 80, 0.25
"""RapidFuzz's ratio, and how far the sounds may be apart; how a word sounds that is none is only guessed, so that of
more letters than that the first and the last may do."""
NEARER = 83

ELSEWHERE = frozenset({"upstairs", "downstairs", "outside"})


class Headings:
    """The rooms whose names are one word."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        said = {name for room in vocabulary.rooms.values() for name in room.say}
        said |= ELSEWHERE
        self._rooms = sorted(name for name in said if name.isalpha() and len(name) >= SHORTEST)

    def find(self, tokens: Sequence[Token]) -> Iterator[Change]:
        """The room that the sentence begins with, where it is no word as it was heard."""
        at = 0
        while at < len(tokens) and tokens[at].norm in LEADING | MARKS:
            at += 1
        if at >= len(tokens) or not _stands_alone(tokens, at):
            return
        norm, sounds = tokens[at].norm, english_sounds()
        if len(norm) < SHORTEST or not norm.isalpha() or sounds.is_word(norm) or norm in self._rooms:
            return
        alike = [(fuzz.ratio(norm, room), room) for room in self._rooms]
        near = [(apart(sounds.of(norm), sounds.of(room)), room) for ratio, room in alike if ratio >= NEAREST]
        framed = [room for ratio, room in alike if ratio >= NEARER and (norm[0], norm[-1]) == (room[0], room[-1])]
        known = [room for distance, room in sorted(near) if distance <= FARTHEST] or framed
        if known:
            yield Change(at, at + 1, known[0], f"heads a sentence, is no word and is nearly '{known[0]}'", SURE)


def _stands_alone(tokens: Sequence[Token], at: int) -> bool:
    return at + 1 == len(tokens) or tokens[at + 1].text in MARKS
