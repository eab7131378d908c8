"""How usual words are beside each other in talk of a walk: `fan works` is said all the time, `fam works` never.

Two words count as often as they were heard side by side, and where that was seldom, as often as words of their kinds
were (a thing, a flaw, a deed, a room, ...), so that a pair which nobody has said yet is still likely or not. This is a
bigram model of words and of classes of words, interpolated (Manning and Schütze, Foundations of Statistical Natural
Language Processing, 1999, section 6.3; how far pairs are trusted follows Witten and Bell's method there; from memory).

The pairs stand in phrasing.csv and are learned by tests/benchmarks/learn_phrasing.py from narrations.
"""

from __future__ import annotations

import csv
import math
from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from itertools import pairwise
from pathlib import Path

from narrate2report.read.misheard.neighbours import Neighbours
from narrate2report.read.misheard.sounds import Sounds

PAIRS = Path(__file__).with_name("phrasing.csv")

BEGIN, END = "<begin>", "<end>"
"""What stands before the first word of a sentence and behind its last."""

OWN_KIND = 150
"""So many of the most usual words are each a kind of their own: `is`, `the`, `no`."""

NEW_AFTER, NEW_ANYWHERE = 3, 5
"""How much a word that was never heard behind another weighs, by how many were, and at the least."""

BY_KIND = 0.75
"""Of what is not told by the pair itself, so much by the kinds of both words, the rest by the second word alone."""

SEEN_HERE = 0.7
"""Of what a word weighs by itself, so much by how often it is said on walks, the rest by how often in English."""

Pair = tuple[str, str]


class Phrasing:
    """How likely words are one behind the other."""

    def __init__(self, pairs: Mapping[Pair, int], near: Neighbours, sounds: Sounds) -> None:
        self._sounds, self._pairs = sounds, pairs
        self._kinds_of_vocabulary = (
            ("room", near.rooms),
            ("thing", near.things),
            ("flaw", near.flaws),
            ("state", near.adjectives),
            ("praise", near.praise),
            ("deed", near.deeds),
            ("part", near.parts | near.words),
        )
        self._said: Counter[str] = Counter()
        self._before: Counter[str] = Counter()
        self._followers: Counter[str] = Counter()
        for (first, second), times in pairs.items():
            self._said[second] += times
            self._before[first] += times
            self._followers[first] += 1
        self._usual = frozenset(word for word, _ in self._said.most_common(OWN_KIND))
        self._kinds: dict[str, str] = {}
        self._kind_pairs: Counter[Pair] = Counter()
        self._kind_before: Counter[str] = Counter()
        self._of_kind: dict[str, Counter[str]] = defaultdict(Counter)
        for (first, second), times in pairs.items():
            self._kind_pairs[self._kind(first), self._kind(second)] += times
            self._kind_before[self._kind(first)] += times
            self._of_kind[self._kind(second)][second] += times
        for word in near.words | near.deeds | near.parts:
            self._of_kind[self._kind(word)][word] += 1  # every word of the vocabulary may be said
        self._sizes = {kind: sum(words.values()) for kind, words in self._of_kind.items()}
        self._total = max(1, sum(self._said.values()))

    def likelihood(self, words: Sequence[str]) -> float:
        """The log probability, in nats, of each word but the first behind the one before it."""
        return sum(math.log(self._behind(first, second)) for first, second in pairwise(words))

    def _behind(self, first: str, second: str) -> float:
        """The probability of the second word where the first stands before it."""
        times = self._before[first]
        trusted = times / (times + NEW_AFTER * self._followers[first] + NEW_ANYWHERE)
        by_pair = self._pairs.get((first, second), 0) / times if times else 0.0
        kinds = self._kind(first), self._kind(second)
        by_kind = (self._kind_pairs[kinds] + 0.1) / (self._kind_before[kinds[0]] + 20) * self._within(second)
        return trusted * by_pair + (1 - trusted) * (BY_KIND * by_kind + (1 - BY_KIND) * self._alone(second))

    def _within(self, word: str) -> float:
        """The share of a word in what is said of its kind."""
        kind = self._kind(word)
        if times := self._of_kind[kind][word]:
            return times / self._sizes[kind]
        return min(1e-4, self._in_english(word)) if kind == "word" else 1e-6

    def _alone(self, word: str) -> float:
        """The probability of a word wherever it stands."""
        least = 1e-8 if self._sounds.is_word(word) else 1e-9
        return SEEN_HERE * self._said[word] / self._total + (1 - SEEN_HERE) * 0.3 * self._in_english(word) + least

    def _in_english(self, word: str) -> float:
        """About how often a word is among all words: a sentence of news has some twenty."""
        return (self._sounds.common(word) + 0.1) / 2_000_000

    def _kind(self, word: str) -> str:
        if word not in self._kinds:
            self._kinds[word] = self._found_kind(word)
        return self._kinds[word]

    def _found_kind(self, word: str) -> str:
        if word in (BEGIN, END) or word in self._usual:
            return f"={word}"
        if word.isdigit():
            return "number"
        known = next((kind for kind, words in self._kinds_of_vocabulary if word in words), None)
        return known or ("word" if self._sounds.is_word(word) else "letters")


def read_pairs(path: Path = PAIRS) -> dict[Pair, int]:
    """The pairs of words in a table, with how often each was heard."""
    with path.open(encoding="utf-8", newline="") as table:
        return {(row["first"], row["second"]): int(row["times"]) for row in csv.DictReader(table)}
