"""The words that come with the program and the layers laid over them, as one vocabulary."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Any

from narrate2report.errors import BadVocabulary
from narrate2report.read.lexis.befalls import Befalls
from narrate2report.read.lexis.inflect import verb_forms
from narrate2report.read.lexis.references import check_families, check_labels, check_own_ids, check_references
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.lexis.word_files import SHAPES, SHIPPED_WORDS, Layer, read_layer
from narrate2report.records.canonical import canonical_sha256
from narrate2report.shipped import shipped

EXCLUSIVE: Mapping[str, tuple[str, ...]] = {
    "rooms": ("say",),
    "components": ("say",),
    "conditions": ("nouns", "adjectives", "verbs", "phrases"),
}
"""Lists in which a word means one block only: given to another block by a layer above, it leaves its old one."""


def load_vocabulary(*folders: Path) -> Vocabulary:
    """The vocabulary that comes with the program, with the files of `folders` laid over it in this order.

    Lists add to those that are there, single values replace them, and a word that a layer gives to another block
    of its kind means that one from then on. Raises BadVocabulary with file and line of the first mistake.
    """
    return combine(read_layers(folders))


def read_layers(folders: Sequence[Path]) -> tuple[Layer, ...]:
    """The shipped layer and those of `folders`, each checked by itself."""
    return _shipped_layer(), *(read_layer(folder) for folder in folders)


@cache
def _shipped_layer() -> Layer:
    base = read_layer(shipped("vocab"), SHIPPED_WORDS)
    missing = sorted(set(SHAPES) - set(base.files))
    if missing:
        raise BadVocabulary(f"{base.folder}: {', '.join(missing)}.yaml missing; install the program again")
    return base


def combine(layers: Sequence[Layer]) -> Vocabulary:
    """One vocabulary of layers, the lowest first. Raises BadVocabulary where a layer names what is not there."""
    merged = merge(layers)
    parsed = {name: shape.validate_python(merged[name]) for name, shape in SHAPES.items()}
    # What counts as the same between two walks has no part in how a sentence is read.
    read_with = {name: block for name, block in merged.items() if name != "likeness"}
    parsed["befalls"] = Befalls(parsed["befalls"])
    vocabulary = Vocabulary(**parsed, version=canonical_sha256(json.loads(json.dumps(read_with))))
    for layer in layers:
        check_references(layer, vocabulary)
        check_labels(layer, vocabulary)
    return vocabulary


def merge(layers: Sequence[Layer]) -> dict[str, Any]:
    """The plain data of all files, laid over each other; raises BadVocabulary for a block that must not be added."""
    merged: dict[str, Any] = {name: file.data for name, file in layers[0].files.items()}
    families = {term.get("group", "") for term in merged["components"].values()}
    for layer in layers[1:]:
        check_own_ids(layer, merged)
        check_families(layer, families)
        for name, file in layer.files.items():
            below = _without_words_of(merged[name], file.data, EXCLUSIVE.get(name, ()))
            merged[name] = _laid_over(below, file.data)
    return merged


def _without_words_of(below: Any, above: Any, fields: Sequence[str]) -> Any:
    """The blocks `below` without the words that the layer `above` gives to other blocks."""
    given: dict[str, set[str]] = {}
    for term, block in above.items() if fields else ():
        for field in fields:
            for word in block.get(field, ()):
                given.setdefault(word.lower(), set()).add(term)
    if not given:
        return below
    lost = {term: {word for word, owners in given.items() if term not in owners} for term in below}
    return {term: _without(block, lost[term], fields) for term, block in below.items()}


def _without(block: dict[str, Any], lost: set[str], fields: Sequence[str]) -> dict[str, Any]:
    """A block that has lost words: they leave its lists, and a form of one of its verbs no longer counts for it."""
    kept = {field: [word for word in block[field] if word.lower() not in lost] for field in fields if field in block}
    formed = {form for verb in kept.get("verbs", ()) for form in verb_forms(verb.lower())} & lost
    return block | kept | ({"not_in": [*block.get("not_in", ()), *sorted(formed)]} if formed else {})


def _laid_over(below: Any, above: Any) -> Any:
    """What is above counts; an empty list or block adds nothing, and leaves no trace in the version of the words."""
    if isinstance(below, dict) and isinstance(above, dict):
        return below | {key: _laid_over(below.get(key), value) for key, value in above.items() if value not in ([], {})}
    if isinstance(below, list) and isinstance(above, list):
        return [*below, *(word for word in above if word not in below)]
    return above
