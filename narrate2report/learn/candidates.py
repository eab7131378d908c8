"""Phrases that stand again and again where reviewers had to put the same thing right, and hardly anywhere else."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import comb
from typing import TypeAlias

from narrate2report.learn.meanings import fits, is_shield, not_meant, places
from narrate2report.learn.phrases import LONGEST, Form, Phrase, cuts_a_name, phrases
from narrate2report.learn.reviewed import ReviewedWalk, Said
from narrate2report.records.proposal import Addition, Place

FEWEST_WALKS = 2
"""A word of one walk may be a slip of one tongue."""

LEAST_PRECISION = 0.5
"""Of the reviewed sentences with the words that say anything at all, so many must bear them out."""

LEAST_SHARE = 0.3
"""And so many of all sentences with the words: a thing is also named where nothing is said of it."""

CHANCE = 0.05
"""How likely it may be at the most that words and entries meet by chance alone (Fisher's exact test, one-sided)."""

At: TypeAlias = tuple[int, int]
"""The number of a walk, and of a sentence in it."""

Words: TypeAlias = tuple[str, ...]


@dataclass(frozen=True)
class Candidate:
    """A phrase in a place of the vocabulary, with where it was said."""

    addition: Addition
    said_at: tuple[At, ...]
    """Every sentence with these words."""
    so: int
    """How many of them bear the words out."""
    asked_at: tuple[At, ...]
    """Those in which a person had to put right what these words mean."""
    is_whole: bool
    """No noun goes on beside it."""
    new_words: int
    """How many of its words the vocabulary does not know."""

    @property
    def rank(self) -> tuple[object, ...]:
        """The better one first: what is asked for in most walks; then whole names, then the shortest."""
        walks = len({walk for walk, _ in self.asked_at})
        length = len(self.addition.phrase.split())
        return -walks, -len(self.asked_at), not self.is_whole, length - self.new_words, length, _order(self)


FIELDS = ("say", "nouns", "verbs", "adjectives", "phrases", "else", "not_in")


def _order(candidate: Candidate) -> tuple[object, ...]:
    place = candidate.addition.place
    field = place.keys[-1] if place.keys else ""
    return FIELDS.index(field) if field in FIELDS else -1, place, candidate.addition.phrase


def find_candidates(walks: Sequence[ReviewedWalk]) -> list[Candidate]:
    """All candidates, the best first; whether the reading fares better with them is not asked here."""
    asked = _asked(walks)
    occurrences = _occurrences(walks, {words for _, words in asked})
    told = [said for walk in walks for said in walk.said if said.right or said.read]
    found = []
    for (place, words), seeds in asked.items():
        where = occurrences[words]
        sentences = [_sentence(walks, at) for at in where]
        so = sum(fits(place, words, said) for said in sentences)
        telling = sum(bool(said.right or said.read) for said in sentences)
        if so < max(LEAST_PRECISION * telling, LEAST_SHARE * len(where)) or _by_chance(
            place, words, so, len(where), told
        ):
            continue
        shown = [(walks[at[0]].said[at[1]], phrase) for at, phrase in seeds.items()]
        found.append(
            Candidate(
                Addition(place, " ".join(words)),
                tuple(where),
                so,
                tuple(seeds),
                is_whole=2 * sum(cuts_a_name(said.tokens, phrase) for said, phrase in shown) < len(shown),
                new_words=max(
                    sum(not token.known for token in said.tokens[phrase.start : phrase.end]) for said, phrase in shown
                ),
            )
        )
    return sorted(found, key=lambda candidate: candidate.rank)


def _asked(walks: Sequence[ReviewedWalk]) -> dict[tuple[Place, Words], dict[At, Phrase]]:
    """For each phrase and place the corrections that ask for it, where they are of several walks."""
    found: dict[tuple[Place, Words], dict[At, Phrase]] = defaultdict(dict)
    for number, walk in enumerate(walks):
        for index, said in enumerate(walk.said):
            for place, form in _places(said):
                for phrase in phrases(said.tokens, form, place.keys[0] if place.keys else ""):
                    if not is_shield(place) or _may_shield(said, phrase):
                        found[place, phrase.words][number, index] = phrase
    return {key: seeds for key, seeds in found.items() if len({walk for walk, _ in seeds}) >= FEWEST_WALKS}


def _places(said: Said) -> Iterator[tuple[Place, Form]]:
    for entry in said.taught:
        yield from places(entry, said.read)
    for entry in said.dropped:
        yield from not_meant(entry)


def _may_shield(said: Said, phrase: Phrase) -> bool:
    """A phrase that holds a known word and more: a word alone would be lost to the vocabulary."""
    inside = said.tokens[phrase.start : phrase.end]
    return len(inside) > 1 and any(token.known for token in inside)


def _occurrences(walks: Sequence[ReviewedWalk], wanted: set[Words]) -> dict[Words, list[At]]:
    """Every sentence in which a wanted phrase stands, whatever the tagger made of it there."""
    found: dict[Words, list[At]] = {words: [] for words in wanted}
    for number, walk in enumerate(walks):
        for index, said in enumerate(walk.said):
            for words in wanted.intersection(_runs(said)):
                found[words].append((number, index))
    return found


def _runs(said: Said) -> Iterator[Words]:
    """All short runs of words, as said and with the first or last word in its base form.

    A word that belongs to a longer one that is known (the `ceiling` of a `ceiling fan`) is not said by itself.
    """
    norms = [token.norm for token in said.tokens]
    for start in range(len(norms)):
        for end in range(start + 1, min(start + LONGEST, len(norms)) + 1):
            run = tuple(norms[start:end])
            if end == start + 1 and said.tokens[start].bound:
                continue
            yield run
            yield (*run[:-1], said.tokens[end - 1].base)
            yield (said.tokens[start].base, *run[1:])


def _by_chance(place: Place, words: Words, so: int, said: int, told: Sequence[Said]) -> bool:
    """Whether so many of the sentences would bear the words out if these had nothing to do with it."""
    if is_shield(place):
        return False
    bearing, of = max(so, sum(fits(place, words, one) for one in told)), max(said, len(told))
    ways = sum(comb(bearing, k) * comb(of - bearing, said - k) for k in range(so, min(said, bearing) + 1))
    return ways > CHANCE * comb(of, said)


def _sentence(walks: Sequence[ReviewedWalk], at: At) -> Said:
    return walks[at[0]].said[at[1]]
