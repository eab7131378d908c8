"""The shipped vocabulary with words taken out, as a firm finds it whose people speak otherwise."""

from __future__ import annotations

import copy
import random
import re
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple
from unittest.mock import patch

from narrate2report.read.lexis import lexicon
from narrate2report.read.lexis.inflect import noun_forms, verb_forms
from narrate2report.read.lexis.word_files import Layer

LISTS = {
    "components": ("say",),
    "conditions": ("nouns", "adjectives", "verbs", "phrases"),
    "actions": ("verbs", "nouns", "phrases"),
}
"""What is taken out: words for parts, flaws and work."""


class Word(NamedTuple):
    """A word of the vocabulary and the list that it stands in."""

    file: str
    block: str
    field: str
    word: str


def said_words(texts: Sequence[str], fewest: int) -> list[Word]:
    """The words of the shipped vocabulary that stand in so many of the texts, in whatever form."""
    told = [_runs(text) for text in texts]
    return [word for word in _words() if sum(not _forms(word).isdisjoint(runs) for runs in told) >= fewest]


def choose(words: Sequence[Word], count: int, seed: int) -> list[Word]:
    """So many of the words, at random."""
    return random.Random(seed).sample(list(words), min(count, len(words)))


@contextmanager
def without(words: Iterable[Word]) -> Iterator[None]:
    """All reading in here does without these words of the shipped vocabulary."""
    thinned = _thinned(list(words))
    with patch.object(lexicon, "_shipped_layer", lambda: thinned):
        yield


def _words() -> Iterator[Word]:
    files = lexicon.read_layers([])[0].files
    for file, fields in LISTS.items():
        for block, term in files[file].data.items():
            for field in fields:
                yield from (Word(file, block, field, word) for word in term.get(field, ()))


def _forms(word: Word) -> set[str]:
    said = word.word.lower()
    return set(verb_forms(said) if word.field == "verbs" else noun_forms(said))


def _runs(text: str) -> set[str]:
    """All short runs of words in a text."""
    words = re.findall(r"[\w']+", text.lower())
    return {" ".join(words[at : at + length]) for length in range(1, 7) for at in range(len(words))}


def _thinned(words: Sequence[Word]) -> Layer:
    base = lexicon.read_layers([])[0]
    files = dict(base.files)
    for name in LISTS:
        files[name] = copy.copy(files[name])
        files[name].data = copy.deepcopy(files[name].data)
    for word in words:
        files[word.file].data[word.block][word.field].remove(word.word)
    return Layer(Path(base.folder), files, base.labels)
