"""Words that may have been misheard, and the words of the trade that may have been said in their place.

A wide net: what was heard with little confidence, what is known to be heard for another word, and what makes no sense
beside its neighbours. It only proposes. Whether another word was said is decided by the sound (`by_sound`).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from narrate2report.read.lexis.inflect import same_word
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.lexis.words import Token
from narrate2report.read.misheard.mishearings import COMMON, FIRM, Mishearings
from narrate2report.read.misheard.neighbours import Neighbours
from narrate2report.read.misheard.sounds import Sounds
from narrate2report.read.misheard.surroundings import Kind, Surroundings

UNSURE = 0.9
"""A word heard with less probability than this is doubtful by itself: it holds nine in ten mishearings, and three in
ten of the words that were heard right."""

MOST = 5
"""Readings that are weighed for one word; each costs about as much as a word of listening."""

HOMOPHONES = 0.05
"""How far apart the sounds of two words may be that are the same to the ear."""

FARTHEST_KNOWN, FARTHEST_UNKNOWN = 0.25, 0.34
"""How far a trade word may sound from a word of English, and from a string of letters that is none."""


@dataclass(frozen=True)
class Option:
    """A word that may have been said: how often it was mined as heard so, how far its sound is, what calls for it."""

    word: str
    times: int
    apart: float
    called: frozenset[Kind]
    neighbour: str = ""


@dataclass(frozen=True)
class Suspect:
    """Token `at` of a sentence, heard with this probability, and what may have been said, the likeliest first."""

    at: int
    chance: float
    is_word: bool
    options: tuple[Option, ...]


class Doubts:
    """Finds suspects in the tokens of a sentence."""

    def __init__(self, vocabulary: Vocabulary, near: Neighbours, sounds: Sounds, alike: Mishearings) -> None:
        self._near, self._sounds, self._alike = near, sounds, alike
        self._known = near.words | near.deeds
        self._mined: dict[str, dict[str, int]] = defaultdict(dict)
        for right, wrongs in vocabulary.misheard.items():
            for wrong, told in wrongs.items():
                self._mined[wrong][right] = told.times
        for wrong, rights in vocabulary.sound_alikes.items():
            for right in rights:
                if " " not in wrong and " " not in right:
                    self._mined[wrong].setdefault(right, 1)

    def find(self, tokens: Sequence[Token], chances: Sequence[float]) -> list[Suspect]:
        """The suspects of a sentence, each token with the probability with which it was heard."""
        norms = [token.norm for token in tokens]
        around = Surroundings(tokens, norms, self._near)
        found = []
        for at, (token, chance) in enumerate(zip(tokens, chances, strict=True)):
            if not self._may_be_wrong(token, chance):
                continue
            if options := self._options(at, token, chance, around):
                found.append(Suspect(at, chance, self._sounds.is_word(token.norm), options))
        return found

    def sound_alike(self, one: str, other: str) -> bool:
        """Whether two words are said so nearly alike that no recording tells them apart: `cock` and `caulk`."""
        return one.isalpha() and other.isalpha() and self._alike.apart_from(one, other) <= HOMOPHONES

    def _may_be_wrong(self, token: Token, chance: float) -> bool:
        norm = token.norm
        if len(norm) < 3 or not norm.isalpha() or token.hyphen_before or norm != token.text.lower():
            return False
        if norm in self._mined:
            return True
        if token.tag in FIRM or norm in self._known or self._sounds.common(norm) >= COMMON:
            return False
        return chance < UNSURE or not self._sounds.is_word(norm)

    def _options(self, at: int, token: Token, chance: float, around: Surroundings) -> tuple[Option, ...]:
        """What may have been said, the likeliest first."""
        norm = token.norm
        calls = list(around.calls(at, at + 1))
        usual = token.tag in FIRM or self._sounds.common(norm) >= COMMON
        mined = self._mined.get(norm, {})
        farthest = FARTHEST_KNOWN if self._sounds.is_word(norm) else FARTHEST_UNKNOWN
        alike = {word: far for word, far in self._alike.sounding_like(norm).items() if far <= farthest}
        called = any(norm in call.words for call in calls)
        options = []
        for word in {*mined, *alike}:
            if word == norm or _is_another_form(word, norm):
                continue
            times = mined.get(word, 0)
            callers = [call for call in calls if word in call.words]
            if norm in self._known and (not callers or called):
                continue  # a word of the trade is doubted only for one that fits where it does not
            if usual and not {call.kind for call in callers} - {"said"}:
                continue  # `there` was mined as heard for `stair`, and is said a thousand times for once that it was
            if not (times or callers or chance < UNSURE):
                continue
            options.append(
                Option(
                    word,
                    times,
                    round(alike[word] if word in alike else self._alike.apart_from(word, norm), 3),
                    frozenset(call.kind for call in callers),
                    callers[0].neighbour if callers else "",
                )
            )
        options.sort(key=lambda one: (-min(one.times, 1), not one.called, one.apart, one.word))
        return tuple(options[:MOST])


def _is_another_form(word: str, norm: str) -> bool:
    """Whether two words are one to whoever reads them: `electric` and `electrical`, `center` and `centre`."""
    longer, shorter = sorted((word, norm), key=len, reverse=True)
    return same_word(word, norm) or (len(shorter) > 4 and longer.startswith(shorter)) or sorted(word) == sorted(norm)
