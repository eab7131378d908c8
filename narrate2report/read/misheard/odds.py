"""How likely it is that other words were said than those that were heard: signs, and what each of them weighs.

Two logistic regressions over the same signs: one before the sound is asked, which decides what is worth asking, and one
with the sound's answer, which decides what is read. Their weights stand in odds.csv and are learned by
tests/benchmarks/learn_odds.py from spoken narrations: other voices and other words than those that figures are told of.
"""

from __future__ import annotations

import csv
import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from itertools import chain
from pathlib import Path

from narrate2report.records.weighing import Weight

WEIGHTS = Path(__file__).with_name("odds.csv")

SURELY = 0.995
"""A probability nearer to 0 or 1 than this tells nothing more."""


@dataclass(frozen=True)
class Signs:
    """What is known of words that were heard and of those that may have been said instead."""

    gain: float
    """Nats by which the other words are likelier in talk of a walk."""
    apart: float
    """How far their sounds are."""
    chance: float
    """The least probability with which one of the words was heard."""
    clarity: float
    """The mean probability of the words of the sentence."""
    is_word: bool
    """Whether all that was heard are words of English."""
    is_ours: bool
    """Whether all of it are words of the vocabulary."""
    is_first: bool
    """Whether it begins its sentence."""
    is_name: bool
    """Whether it was written with a capital inside its sentence."""
    length: int
    """How many words were heard."""
    becomes: int
    """How many were said."""
    common: int
    """How often the most usual word that was heard stands in a million sentences."""
    mined: int
    """How often synthetic voices that said the other word were heard so."""

    def measures(self) -> Iterator[tuple[str, float]]:
        """Each sign as a number of about the same size."""
        gain = min(20.0, self.gain) / 6
        yield "always", 1.0
        yield "gain", gain
        yield "gain_of_words", gain * self.is_word
        yield "apart", 5 * self.apart
        yield "chance", _logit(self.chance) / 2
        yield "clarity", _logit(self.clarity) / 2
        yield "letters", float(not self.is_word)
        yield "ours", float(self.is_ours)
        yield "first", float(self.is_first)
        yield "name", float(self.is_name)
        yield "two", float(self.length == 2)
        yield "three", float(self.length == 3)
        yield "several", float(self.becomes > 1)
        yield "common", math.log10(1 + self.common) / 2
        yield "mined", math.log1p(self.mined)


@dataclass(frozen=True)
class Weights:
    """What each sign adds to the logarithm of the odds, before the sound is asked and with its answer."""

    unasked: Mapping[str, float]
    asked: Mapping[str, float]


def odds_unasked(signs: Signs) -> float:
    """The odds that the other words were said, before the sound is asked."""
    return _odds(signs.measures(), weights().unasked)


def odds_asked(signs: Signs, weight: Weight) -> float:
    """The odds that the other words were said, by what the sound gave as well."""
    return _odds(chain(signs.measures(), sound_measures(weight)), weights().asked)


def sound_measures(weight: Weight) -> Iterator[tuple[str, float]]:
    """What the sound gave, as numbers of about the size of the other signs."""
    yield "context", _within(weight.plain if weight.context is None else weight.context) / 4
    yield "against", min(0.0, max(-12.0, weight.plain) + 3) / 4


@cache
def weights(path: Path = WEIGHTS) -> Weights:
    """The weights in the table of signs."""
    with path.open(encoding="utf-8", newline="") as table:
        rows = list(csv.DictReader(table))
    unasked, asked = ({row["sign"]: float(row[name]) for row in rows if row[name]} for name in ("unasked", "asked"))
    return Weights(unasked, asked)


def _within(nats: float) -> float:
    return max(-12.0, min(6.0, nats))


def _odds(measures: Iterable[tuple[str, float]], adds: Mapping[str, float]) -> float:
    return math.exp(sum(adds.get(sign, 0.0) * value for sign, value in measures))


def _logit(chance: float) -> float:
    kept = min(SURELY, max(0.02, chance))
    return math.log(kept / (1 - kept))
