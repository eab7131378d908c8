"""What a layer of words adds to those below it: words that were not known, and blocks of its own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from narrate2report.read.lexis.lexicon import merge
from narrate2report.read.lexis.word_files import Layer
from narrate2report.records.yaml_lines import LinedYaml, Location

NAMES_OF_BLOCKS = frozenset({"expects", "owns", "part_of", "usual", "count_of"})
"""Lists that hold ids and no words."""

MISHEARINGS = frozenset({"sound_alikes", "misheard"})
"""Files whose first words are no blocks."""


@dataclass(frozen=True)
class Addition:
    """What one file adds: words, words that were there already, and blocks that were not."""

    path: Path
    words: int
    known: int
    blocks: tuple[str, ...]


def find_additions(layers: Sequence[Layer]) -> tuple[Addition, ...]:
    """One addition for each file above the first layer, in order. `layers` must fit together."""
    found = []
    for number, layer in enumerate(layers[1:], start=1):
        below = merge(layers[:number])
        found += [_addition(file, below[name]) for name, file in layer.files.items()]
    return tuple(found)


def _addition(file: LinedYaml, below: Any) -> Addition:
    places = [(at[:-1], word) for at, word in file.words() if not NAMES_OF_BLOCKS & set(at)]
    if file.path.stem in MISHEARINGS:
        places = [((one,), other) for one, others in file.data.items() for other in others]
    known = sum(word in _at(below, place) for place, word in places)
    blocks = file.data if isinstance(file.data, dict) and file.path.stem not in MISHEARINGS else {}
    own = tuple(block for block in blocks if block not in below)
    return Addition(file.path, len(places) - known, known, own if file.path.stem != "descriptions" else ())


def _at(data: Any, place: Location) -> Any:
    """The list or block at a place of plain data; an empty one where nothing stands."""
    for step in place:
        if not isinstance(data, Mapping) or step not in data:
            return ()
        data = data[step]
    return data
