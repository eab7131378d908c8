"""Words of the trade that sound like what was heard: the rivals of one, two or three words, found by sound alone.

`an ammo` has `enamel`, `house bib` has `hose bib`, `coilet` has `toilet`, `wondry` has `laundry`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

import numpy as np
from rapidfuzz import process
from rapidfuzz.distance import Levenshtein

from narrate2report.read.lexis.inflect import noun_forms
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.misheard.neighbours import JOINTS, Neighbours
from narrate2report.read.misheard.phrasing import Pair
from narrate2report.read.misheard.sounds import CODE, CONSONANTS, Sounds, apart

FARTHEST = 0.36
"""How far a rival's sound may be."""

TOO_USUAL = 7_000
"""How often in a million sentences a word stands that is no rival: it is said for what it is."""

FIRST_OTHER, FIRST_LOST = 0.12, 0.1
"""How far apart words count that differ in their first sound alone, or of which one begins before the other: the
beginning of what is said after a pause is heard worst (`tannel` for `panel`, `oiler` for `boiler`)."""

LETTERS = {"a": "EY", "b": "B IY", "c": "S IY", "d": "D IY"}
"""How the letters are said by which rooms are told apart."""

OFTEN = 2
"""How often two words were heard together that are a rival together without being a name."""

_CONSONANTS = frozenset(CODE[phone] for phone in CONSONANTS)


class Rival(NamedTuple):
    """Words that may have been said, and how far their sound is from what was heard (0 the same, 1 nothing alike)."""

    words: str
    apart: float


class Rivals:
    """The words and names of the vocabulary by their sounds."""

    def __init__(self, vocabulary: Vocabulary, near: Neighbours, sounds: Sounds, pairs: Mapping[Pair, int]) -> None:
        self._sounds = sounds
        own = (near.words | near.deeds | near.rooms) - near.wrong
        words = {one for one in own if one.isalpha() and len(one) > 2 and sounds.common(one) < TOO_USUAL}
        together = set(_together([pair for pair, times in pairs.items() if times >= OFTEN], near))
        self._words = sorted(_well_spelled(words, sounds) | set(_names(vocabulary)) | together)
        self._codes = ["".join(map(self._code, one.split())) for one in self._words]
        self._known: dict[tuple[str, ...], tuple[Rival, ...]] = {}

    def of(self, heard: tuple[str, ...]) -> tuple[Rival, ...]:
        """The rivals of words as they were heard, the nearest first."""
        if heard not in self._known:
            self._known[heard] = self._found(heard)
        return self._known[heard]

    def _found(self, heard: tuple[str, ...]) -> tuple[Rival, ...]:
        code = "".join(self._sounds.of(word) for word in heard if word.isalpha())
        if len(code) < 2:
            return ()
        edits = max(1, round(0.5 * len(code)))
        [counts] = process.cdist([code], self._codes, scorer=Levenshtein.distance, score_cutoff=edits)
        found = [Rival(self._words[at], _apart(code, self._codes[at])) for at in np.flatnonzero(counts <= edits)]
        return tuple(sorted((one for one in found if one.apart <= FARTHEST), key=lambda one: (one.apart, one.words)))

    def _code(self, word: str) -> str:
        if word in LETTERS:
            return "".join(CODE[phone] for phone in LETTERS[word].split())
        return self._sounds.of(word)


def _well_spelled(words: set[str], sounds: Sounds) -> set[str]:
    """Without misspellings of a word that is among them: `allarm` beside `alarm`."""
    told = {sounds.of(word) for word in words if sounds.is_word(word)}
    return {word for word in words if sounds.is_word(word) or sounds.of(word) not in told}


def _names(vocabulary: Vocabulary) -> Iterator[str]:
    """Names of two words: `hose bib`, `hall bath`, `room a`."""
    for component in vocabulary.components.values():
        yield from (form for name in component.say if name.count(" ") == 1 for form in noun_forms(name))
    for room in vocabulary.rooms.values():
        yield from (name for name in room.say if name.count(" ") == 1)
    yield from (f"room {letter}" for letter in LETTERS)


def _together(pairs: Sequence[Pair], near: Neighbours) -> Iterator[str]:
    """`fan works`: a thing or a room, and what is said of it."""
    firsts, seconds = (near.things | near.rooms) - JOINTS, near.words | near.deeds
    for first, second in pairs:
        if first in firsts and second in seconds and len(second) > 3:
            yield f"{first} {second}"


def _apart(heard: str, other: str) -> float:
    """How far two sounds are apart, where the first of each may have been lost or changed."""
    whole = apart(heard, other)
    if heard[0] == other[0]:
        return whole
    ways: Sequence[float] = (
        apart(heard[1:], other[1:]) + FIRST_OTHER if min(len(heard), len(other)) > 2 else 1.0,
        apart(heard, other[1:]) + FIRST_LOST if len(other) > 3 and other[0] in _CONSONANTS else 1.0,
        apart(heard[1:], other) + FIRST_LOST if len(heard) > 3 else 1.0,
    )
    return min(whole, *ways)
