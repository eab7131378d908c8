"""Read vocab/*.yaml, lay a manager's own folder over it, and refuse what cannot be meant, with file and line."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from pydantic import TypeAdapter, ValidationError

from narrate2report.errors import BadVocabulary
from narrate2report.read.vocabulary import (
    ActionTerm,
    ComponentTerm,
    ConditionTerm,
    DescriptionTerms,
    RoomTerm,
    Vocabulary,
    Words,
)
from narrate2report.read.yaml_lines import LinedYaml
from narrate2report.records.canonical import canonical_sha256
from narrate2report.shipped import shipped

SHAPES: Mapping[str, TypeAdapter[Any]] = {
    "rooms": TypeAdapter(dict[str, RoomTerm]),
    "components": TypeAdapter(dict[str, ComponentTerm]),
    "conditions": TypeAdapter(dict[str, ConditionTerm]),
    "actions": TypeAdapter(dict[str, ActionTerm]),
    "descriptions": TypeAdapter(DescriptionTerms),
    "cues": TypeAdapter(dict[str, Words]),
    "idioms": TypeAdapter(Words),
    "sound_alikes": TypeAdapter(dict[str, dict[str, Words]]),
}


def load_vocabulary(extra: Path | None = None) -> Vocabulary:
    """The vocabulary, with the files of `extra` (a manager's own folder) laid over it.

    In `extra`, lists add to those that are there and single values replace them.
    Raises BadVocabulary with file and line of the first mistake.
    """
    layers = [_read_folder(shipped("vocab"), complete=True)]
    if extra is not None:
        if not extra.is_dir():
            raise BadVocabulary(f"{extra}: not a folder; --vocab takes a folder with files like components.yaml")
        layers.append(_read_folder(extra, complete=False))
    merged: dict[str, Any] = {}
    for layer in layers:
        merged = _laid_over(merged, {name: file.data for name, file in layer.items()})
    parsed = {name: shape.validate_python(merged[name]) for name, shape in SHAPES.items()}
    vocabulary = Vocabulary(**parsed, version=canonical_sha256(json.loads(json.dumps(merged))))
    for layer in layers:
        _check_references(layer, vocabulary)
    return vocabulary


def _read_folder(folder: Path, *, complete: bool) -> dict[str, LinedYaml]:
    layer = {}
    for path in sorted(folder.glob("*.yaml")):
        if path.stem not in SHAPES:
            raise BadVocabulary(f"{path}:1: no such vocabulary; use one of {', '.join(sorted(SHAPES))}.yaml")
        lined = LinedYaml(path)
        if lined.is_empty:
            continue
        layer[path.stem] = lined
        try:
            SHAPES[path.stem].validate_python(lined.data)
        except ValidationError as error:
            first = error.errors(include_url=False)[0]
            at = tuple(part for part in first["loc"] if isinstance(part, str | int))
            raise lined.mistake(at, f"{'.'.join(map(str, at))}: {first['msg']}") from error
    missing = sorted(set(SHAPES) - set(layer))
    if complete and missing:
        raise BadVocabulary(f"{folder}: {', '.join(missing)}.yaml missing; install the program again")
    return layer


def _laid_over(below: Any, above: Any) -> Any:
    if isinstance(below, dict) and isinstance(above, dict):
        return below | {key: _laid_over(below.get(key), value) for key, value in above.items()}
    if isinstance(below, list) and isinstance(above, list):
        return [*below, *above]
    return above


def _check_references(layer: Mapping[str, LinedYaml], vocabulary: Vocabulary) -> None:
    """Every id that one term names of another must exist."""
    components, rooms = set(vocabulary.components), set(vocabulary.rooms)
    groups = {f"group:{term.group}" for term in vocabulary.components.values()}
    for name, fields in {
        "rooms": {"expects": components, "owns": components},
        "components": {"near": components, "in": rooms, "part_of": components},
        "conditions": {"usual": components | groups, "only": components, "default": components},
        "descriptions": {"type": components | {"any"}, "count_of": components},
    }.items():
        file = layer.get(name)
        if file is None:
            continue
        terms = {"": file.data} if name == "descriptions" else file.data
        for term_id, term in terms.items():
            for field, known in fields.items():
                named = term.get(field, ())
                for unknown in _unknown([named] if isinstance(named, str) else named, known):
                    at = (term_id, field, unknown) if term_id else (field, unknown)
                    raise file.mistake(at, f"{'.'.join(at[:-1])}: no such id '{unknown}'")


def _unknown(named: Iterable[str], known: set[str]) -> list[str]:
    return [one for one in named if one not in known]
