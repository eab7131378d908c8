"""Which stretches of a sentence could be a word of the vocabulary, in the form that a word file has."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

from narrate2report.learn.reviewed import Token

Form = Literal["noun", "verb", "words"]
"""A noun is written in the singular, a verb in the infinitive; `words` stand as they are said."""

LONGEST = 4
"""Words of a phrase."""

SHORTEST_WORD = 3
"""Letters of the word that a phrase is about."""

AUXILIARIES = frozenset(
    "is are was were be been being am has have had having do does did doing done will would can could shall should"
    " may might must 's 're 've 'll 'm 'd get gets got getting let".split()
)
EMPTY = frozenset(
    "here there now then just also too very really quite well okay ok yeah yes no not so still again all some any"
    " thing things stuff bit lot one ones".split()
)
"""Words that say nothing of a thing, whatever the tagger takes them for."""

OPEN_TAGS = ("NN", "JJ", "VB", "RB", "FW", "RP")
NAMING_TAGS = ("NN", "JJ", "VBG", "VBN", "FW")


class Phrase(NamedTuple):
    """Tokens `start` to `end` of a sentence (exclusive), and the phrase they make."""

    start: int
    end: int
    words: tuple[str, ...]


def phrases(tokens: Sequence[Token], form: Form, meaning: str) -> Iterator[Phrase]:
    """The phrases of a form that the vocabulary does not take for `meaning` already."""
    for start in range(len(tokens)):
        for end in range(start + 1, min(start + LONGEST, len(tokens)) + 1):
            inside = tokens[start:end]
            if not inside[-1].norm[0].isalnum():
                if not inside[-1].norm.startswith("'"):
                    break  # a mark ends every phrase
                continue
            if _may_be(inside, form) and not all(meaning in one.known for one in inside):
                yield Phrase(start, end, _written(inside, form))


def cuts_a_name(tokens: Sequence[Token], phrase: Phrase) -> bool:
    """Whether the noun goes on beside the phrase: of `slab top`, `slab` alone is only a part."""
    before = tokens[phrase.start - 1] if phrase.start else None
    after = tokens[phrase.end] if phrase.end < len(tokens) else None
    return any(one is not None and one.tag.startswith("NN") and not one.known for one in (before, after))


def _may_be(inside: Sequence[Token], form: Form) -> bool:
    first, last = inside[0], inside[-1]
    if not (_tells(first) and (_tells(last) or last.tag == "RP")):
        return False
    if not any(_tells(one) and len(one.norm) >= SHORTEST_WORD for one in inside):
        return False
    if form == "noun":
        return all(one.tag.startswith(NAMING_TAGS) for one in inside[:-1]) and last.tag.startswith(("NN", "VB", "JJ"))
    if form == "verb":
        return first.tag.startswith("VB") and all(one.tag == "RP" for one in inside[1:])
    return True


def _tells(token: Token) -> bool:
    """Whether a word says something by itself."""
    return token.tag.startswith(OPEN_TAGS) and token.norm not in AUXILIARIES | EMPTY and token.norm.isalpha()


def _written(inside: Sequence[Token], form: Form) -> tuple[str, ...]:
    norms = [token.norm for token in inside]
    if form == "noun" and inside[-1].tag == "NNS":
        return (*norms[:-1], inside[-1].base)
    if form == "verb":
        return (inside[0].base, *norms[1:])
    return tuple(norms)
