"""Trade words that the recogniser misheard: read what was meant where the neighbourhood makes it plain.

The transcript is never touched. A repaired sentence is read from its repaired text, and its entries show both.
"""

from __future__ import annotations

from collections.abc import Sequence

from rapidfuzz import fuzz, process

from narrate2report.read.inflect import noun_forms, verb_forms
from narrate2report.read.phrasebook import Mention, PhraseTree, Sense
from narrate2report.read.vocabulary import Vocabulary
from narrate2report.read.words import Token, Tokenizer
from narrate2report.records.findings import Heard

Repaired = tuple[str, tuple[Token, ...], tuple[Heard, ...]]

SURE_ALONE, SURE_BY_NEIGHBOUR = 0.9, 0.75


SHORTEST_NEAR, NEAREST = 8, 92
"""Letters that two words need together, and RapidFuzz's ratio, to be taken for one misspelt word."""

COMMON = frozenset(
    "the a an and or of in on at is it its to for with by no not my your this that there some any all".split()
)


def _single_words(vocabulary: Vocabulary) -> frozenset[str]:
    """Long one-word names of components and conditions: what two heard words may be together."""
    words = {word for component in vocabulary.components.values() for word in component.say}
    for condition in vocabulary.conditions.values():
        words.update((*condition.nouns, *condition.adjectives))
    forms = {form for word in words if word.isalpha() and len(word) >= 6 for form in noun_forms(word)}
    return frozenset(forms)


def _own_words(vocabulary: Vocabulary) -> frozenset[str]:
    """Words of the trade that make sense by themselves: two of them in a row are two words."""
    words = {word for component in vocabulary.components.values() for word in (*component.say, *component.else_)}
    words.update(
        word for component in vocabulary.components.values() for near in component.near.values() for word in near
    )
    words.update(vocabulary.descriptions.material)
    for condition in vocabulary.conditions.values():
        words.update((*condition.nouns, *condition.adjectives, *condition.verbs))
    return frozenset(word for word in words if " " not in word)


class Repairer:
    """The table of sound-alikes, ready to be applied to sentences."""

    def __init__(self, vocabulary: Vocabulary, tokenizer: Tokenizer) -> None:
        self._tokenizer = tokenizer
        self._tree = PhraseTree()
        self._single = _single_words(vocabulary)
        self._words = _own_words(vocabulary)
        self._neighbours: dict[tuple[str, str], frozenset[str]] = {}
        for wrong, rights in vocabulary.sound_alikes.items():
            for right, neighbours in rights.items():
                self._tree.add(tokenizer.phrase(wrong), Sense("sound_alike", right, wrong))
                words = {form for word in neighbours for form in (*noun_forms(word), *verb_forms(word))}
                self._neighbours[wrong, right] = frozenset(words)

    def repair(self, texts: Sequence[str]) -> list[Repaired]:
        """Each text with its tokens, repaired where that is plain, and the repairs that were made."""
        plain = list(self._tokenizer.sentences(texts))
        repaired = [self._one(text, tokens) for text, tokens in zip(texts, plain, strict=True)]
        again = iter(self._tokenizer.sentences([text for text, heard in repaired if heard]))
        return [
            (text, next(again) if heard else tokens, heard)
            for (text, heard), tokens in zip(repaired, plain, strict=True)
        ]

    def _joined(self, norms: Sequence[str]) -> list[Mention]:
        """`car pet`, `thresh hold`: words that written together are one word of the trade and apart make no pair."""
        found: list[Mention] = []
        for at in range(len(norms) - 1):
            first, second = norms[at], norms[at + 1]
            if (
                not (first.isalpha() and second.isalpha())
                or (found and at < found[-1].end)
                or min(len(first), len(second)) < 2
            ):
                continue
            joined = first + second
            if {first, second} & self._words:
                continue
            if joined in self._single:
                found.append(Mention(at, at + 2, (Sense("joined", joined),)))
            elif len(joined) >= SHORTEST_NEAR and min(len(first), len(second)) > 2 and not {first, second} & COMMON:
                near = process.extractOne(joined, self._single, scorer=fuzz.ratio, score_cutoff=NEAREST)
                if near is not None:
                    found.append(Mention(at, at + 2, (Sense("joined", near[0]),)))
        return found

    def _one(self, text: str, tokens: Sequence[Token]) -> tuple[str, tuple[Heard, ...]]:
        norms = [token.norm for token in tokens]
        pieces: list[str] = []
        heard: list[Heard] = []
        done = 0
        table = [(mention, found) for mention in self._tree.matches(norms) if (found := self._meant(mention, norms))]
        taken = {at for mention, _ in table for at in range(mention.start, mention.end)}
        joined = [(m, (m.senses[0].id, "")) for m in self._joined(norms) if not {m.start, m.start + 1} & taken]
        for mention, (right, neighbour) in sorted((*table, *joined), key=lambda pair: pair[0].start):
            start, end = tokens[mention.start].start, tokens[mention.end - 1].end
            pieces += [text[done:start], right]
            done = end
            why = f"makes no sense by itself and sounds like '{right}'"
            if neighbour:
                why = f"sounds like '{right}', which '{neighbour}' beside it calls for"
            sureness = SURE_BY_NEIGHBOUR if neighbour else SURE_ALONE
            heard.append(Heard(heard=text[start:end], read=right, why=why, sureness=sureness))
        return "".join((*pieces, text[done:])), tuple(heard)

    def _meant(self, mention: Mention, norms: Sequence[str]) -> tuple[str, str] | None:
        """The right words and the neighbour that admits them; an empty neighbour where none is needed."""
        around = [norm for at, norm in enumerate(norms) if not mention.start <= at < mention.end]
        for sense in mention.senses:
            wanted = self._neighbours[sense.form, sense.id]
            if not wanted:
                return sense.id, ""
            neighbour = next((norm for norm in around if norm in wanted), None)
            if neighbour:
                return sense.id, neighbour
        return None
