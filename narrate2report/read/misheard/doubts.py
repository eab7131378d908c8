"""Words that may have been misheard, and the words of the trade that may have been said in their place.

A wide net: what was heard with little confidence or is no word at all, beside what sounds like it and is likelier in
talk of a walk. It only proposes. Whether other words were said is decided by the sound (`by_sound`).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from narrate2report.read.lexis.inflect import same_word
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.lexis.words import Token
from narrate2report.read.misheard.neighbours import Neighbours
from narrate2report.read.misheard.odds import Signs, odds_unasked
from narrate2report.read.misheard.phrasing import BEGIN, END, Pair, Phrasing, read_pairs
from narrate2report.read.misheard.rivals import Rival, Rivals
from narrate2report.read.misheard.sounds import Sounds

UNSURE = 0.9
"""A word heard with less probability than this is doubtful by itself: it holds nine in ten mishearings, and three in
ten of the words that were heard right."""

LONGEST = 3
"""Words that may have been one or two others together."""

LEAST_GAIN = -1.5
"""Nats: what is less usual than this beside what was heard is not worth asking for."""

WORTH_ASKING = 0.03
"""The least odds, before the sound is asked, at which it is; eight in ten of what was really said have more."""

MOST_HERE, MOST = 4, 8
"""Readings that are weighed in one place and in one sentence; each costs about as much as a word of listening."""

USUAL, CLEAR_GAIN = 2_500, 2.0
"""In a million sentences, and nats: so usual a word, and a word of the trade, is doubted only for what is clearly
likelier. `There` was heard for `stair` once, and is said a thousand times for once that it was."""

STOPS = frozenset(".?!;:")


@dataclass(frozen=True)
class Doubt:
    """Tokens `start` to `end` (exclusive), what may have been said in their place, and the signs of it."""

    start: int
    end: int
    words: str
    signs: Signs
    odds: float
    """For it, before the sound is asked."""


@dataclass(frozen=True)
class Place:
    """Tokens `start` to `end` (exclusive) and the words among them, with what all their rivals are held against."""

    start: int
    end: int
    heard: tuple[str, ...]
    around: tuple[str, str]
    """The word before and the one behind."""
    likelihood: float
    """Of what was heard, with those two, in nats."""
    chance: float
    clarity: float
    is_word: bool
    is_ours: bool
    is_name: bool
    common: int
    """These as in `Signs`."""


class Doubts:
    """Finds doubts in the tokens of a sentence; what sounds alike is looked up when the first is asked for."""

    def __init__(self, vocabulary: Vocabulary, near: Neighbours, sounds: Sounds) -> None:
        self._vocabulary, self._near, self._sounds = vocabulary, near, sounds
        self._mined: dict[tuple[str, str], int] = defaultdict(int)
        for right, wrongs in vocabulary.misheard.items():
            for wrong, told in wrongs.items():
                self._mined[wrong, right] = told.times

    @cached_property
    def _pairs(self) -> Mapping[Pair, int]:
        return read_pairs()

    @cached_property
    def _phrasing(self) -> Phrasing:
        return Phrasing(self._pairs, self._near, self._sounds)

    @cached_property
    def _rivals(self) -> Rivals:
        return Rivals(self._vocabulary, self._near, self._sounds, self._pairs)

    def find(self, tokens: Sequence[Token], chances: Sequence[float]) -> list[Doubt]:
        """The doubts about a sentence that are worth asking; `chances` tells how surely each token was heard."""
        clarity = sum(chances) / len(chances) if chances else 0.0
        found: list[Doubt] = []
        for start, end in self._places(tokens, chances):
            place = self._place(tokens, start, end, min(chances[start:end]), clarity)
            doubts = (self._doubt(place, rival) for rival in self._rivals.of(place.heard))
            here = [doubt for doubt in doubts if doubt is not None]
            found += sorted(here, key=lambda one: -one.odds)[:MOST_HERE]
        return _each_once(sorted(found, key=lambda one: -one.odds))[:MOST]

    def _places(self, tokens: Sequence[Token], chances: Sequence[float]) -> Iterator[tuple[int, int]]:
        """Runs of up to three words in which one is doubtful, none across the end of a sentence."""
        for start, token in enumerate(tokens):
            if not token.norm.isalpha():
                continue
            doubtful = False
            for end in range(start + 1, min(start + LONGEST, len(tokens)) + 1):
                last = tokens[end - 1]
                if last.text in STOPS or not (last.is_word or last.text == ","):
                    break
                doubtful = doubtful or self._is_doubtful(last.norm, chances[end - 1])
                if doubtful and last.norm.isalpha():
                    yield start, end

    def _is_doubtful(self, norm: str, chance: float) -> bool:
        return norm.isalpha() and (chance < UNSURE or not self._sounds.is_word(norm))

    def _place(self, tokens: Sequence[Token], start: int, end: int, chance: float, clarity: float) -> Place:
        """What is known of a run of words before anything is held against it."""
        heard = tuple(token.norm for token in tokens[start:end] if token.is_word)
        before = next((token.norm for token in reversed(tokens[:start]) if token.is_word), BEGIN)
        after = next((token.norm for token in tokens[end:] if token.is_word), END)
        return Place(
            start=start,
            end=end,
            heard=heard,
            around=(before, after),
            likelihood=self._phrasing.likelihood((before, *heard, after)),
            chance=chance,
            clarity=clarity,
            is_word=all(map(self._sounds.is_word, heard)),
            is_ours=all(word in self._near.words for word in heard),
            is_name=start > 0 and tokens[start].text[:1].isupper(),
            common=max(map(self._sounds.common, heard)),
        )

    def _doubt(self, place: Place, rival: Rival) -> Doubt | None:
        said = rival.words.split()
        if _says_the_same(place.heard, said) or self._is_one_doubt(place.heard, said):
            return None
        before, after = place.around
        gain = self._phrasing.likelihood((before, *said, after)) - place.likelihood
        if gain < (CLEAR_GAIN if place.common >= USUAL or place.is_ours else LEAST_GAIN):
            return None
        signs = Signs(
            gain=gain,
            apart=rival.apart,
            chance=place.chance,
            clarity=place.clarity,
            is_word=place.is_word,
            is_ours=place.is_ours,
            is_first=place.start == 0,
            is_name=place.is_name,
            length=len(place.heard),
            becomes=len(said),
            common=place.common,
            mined=self._mined[" ".join(place.heard), rival.words],
        )
        odds = odds_unasked(signs)
        return Doubt(place.start, place.end, rival.words, signs, odds) if odds >= WORTH_ASKING else None

    def _is_one_doubt(self, heard: Sequence[str], said: Sequence[str]) -> bool:
        """Whether of several words one alone is another, which is a doubt by itself: `hut water`, `hot water`."""
        if len(heard) != len(said) or len(said) == 1:
            return False
        differ = [(one, other) for one, other in zip(heard, said, strict=True) if one != other]
        return len(differ) == 1 and any(rival.words == differ[0][1] for rival in self._rivals.of((differ[0][0],)))


def _each_once(doubts: Sequence[Doubt]) -> list[Doubt]:
    """Without those whose words a likelier one has in nearly the same place: `the workup` beside `workup`."""
    kept: list[Doubt] = []
    for doubt in doubts:
        if not any(one.words == doubt.words and one.start < doubt.end and doubt.start < one.end for one in kept):
            kept.append(doubt)
    return kept


def _says_the_same(heard: Sequence[str], said: Sequence[str]) -> bool:
    """Whether other words are no other reading: the same in other forms or written together, or a part of it alone."""
    if "".join(heard) == "".join(said):
        return True
    if len(heard) == len(said):
        return all(one == other or _is_another_form(one, other) for one, other in zip(heard, said, strict=True))
    return len(said) < len(heard) and any(one == other or _begins(one, other) for one in heard for other in said)


def _is_another_form(word: str, norm: str) -> bool:
    """Whether two words are one to whoever reads them: `electric` and `electrical`, `center` and `centre`."""
    return same_word(word, norm) or _begins(word, norm) or sorted(word) == sorted(norm)


def _begins(word: str, other: str) -> bool:
    """Whether one is the beginning of the other, and no short word by chance: `electric`, `electrical`."""
    longer, shorter = sorted((word, other), key=len, reverse=True)
    return len(shorter) > 4 and longer.startswith(shorter)
