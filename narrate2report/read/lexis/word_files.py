"""A folder of vocabulary files to checked layers: which files, what shape each has, mistakes told in plain words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from pydantic import BaseModel, PositiveInt, TypeAdapter, ValidationError

from narrate2report.errors import BadVocabulary
from narrate2report.read.lexis.vocabulary import (
    ActionTerm,
    ComponentTerm,
    ConditionTerm,
    DescriptionTerms,
    Mined,
    RoomTerm,
    Words,
)
from narrate2report.records.labels import LANGUAGES, Labels
from narrate2report.records.likeness import Likeness
from narrate2report.records.nearest import nearest
from narrate2report.records.yaml_lines import FileKind, LinedYaml

GUIDE = "see: narrate2report guide vocabulary"
WORDS = FileKind("words", BadVocabulary, GUIDE, sayings=True)
SHIPPED_WORDS = replace(WORDS, comes_with_program=True)

SHAPES: dict[str, TypeAdapter[Any]] = {
    "rooms": TypeAdapter(dict[str, RoomTerm]),
    "components": TypeAdapter(dict[str, ComponentTerm]),
    "conditions": TypeAdapter(dict[str, ConditionTerm]),
    "actions": TypeAdapter(dict[str, ActionTerm]),
    "descriptions": TypeAdapter(DescriptionTerms),
    "cues": TypeAdapter(dict[str, Words]),
    "idioms": TypeAdapter(Words),
    "sound_alikes": TypeAdapter(dict[str, dict[str, Words]]),
    "likeness": TypeAdapter(Likeness),
    "misheard": TypeAdapter(dict[str, dict[str, Mined]]),
    "befalls": TypeAdapter(dict[str, dict[str, PositiveInt]]),
}
"""What each file holds, by its name without the ending."""

LABELS: dict[str, TypeAdapter[Any]] = {f"labels_{tag}": TypeAdapter(Labels) for tag in LANGUAGES}
"""Files that say how a report calls an id in one language. Reading does without them, so they are only checked."""

BLOCKS: Mapping[str, type[BaseModel]] = {
    "rooms": RoomTerm,
    "components": ComponentTerm,
    "conditions": ConditionTerm,
    "actions": ActionTerm,
    "descriptions": DescriptionTerms,
    **dict.fromkeys(LABELS, Labels),
    "likeness": Likeness,
    "misheard": Mined,
}

FAULTS = {
    "tuple_type": "a list of words is wanted, such as [one word, another]",
    "int_parsing": "a whole number is wanted",
    "greater_than": "a whole number above 0 is wanted",
    "missing": "this must be given",
    "string_type": "one word or phrase is wanted, without a list or block",
    "dict_type": "blocks are wanted, each a name, a colon and what belongs to it",
    "model_type": "a block is wanted: indented lines such as  say: [one word, another]",
    "model_attributes_type": "a block is wanted: indented lines such as  say: [one word, another]",
}


@dataclass(frozen=True)
class Layer:
    """The files of one folder of words, by their names without the ending; those of labels apart."""

    folder: Path
    files: Mapping[str, LinedYaml]
    labels: Mapping[str, LinedYaml] = field(default_factory=dict)


def read_layer(folder: Path, kind: FileKind = WORDS) -> Layer:
    """The vocabulary files of a folder; other files that lie there are passed over.

    Raises BadVocabulary for a folder that is none, for a file that is named almost like a vocabulary file, and for
    the first mistake in a file, with its line.
    """
    if not folder.is_dir():
        fault = "is no folder" if folder.exists() else "no such folder"
        raise BadVocabulary(f"{folder}: {fault}; name a folder with files such as components.yaml")
    try:
        paths = sorted(folder.iterdir())
    except OSError as error:
        raise BadVocabulary(f"{folder}: cannot be read ({error.strerror or error})") from error
    files: dict[str, LinedYaml] = {}
    labels: dict[str, LinedYaml] = {}
    for path in paths:
        if _is_vocabulary(path):
            lined = LinedYaml(path, kind)
            if not lined.is_empty:
                check_shape(path.stem, lined)
                (labels if path.stem in LABELS else files)[path.stem] = lined
    return Layer(folder, files, labels)


def _is_vocabulary(path: Path) -> bool:
    """Whether a file holds words. Raises BadVocabulary where its name says so and is not quite right."""
    if path.name.startswith("."):
        return False
    stem, _, ending = path.name.partition(".")
    names = (*SHAPES, *LABELS)
    known = stem.lower() in names
    if ending == "yaml" and stem in names:
        return True
    if known and ending.lower() in {"yaml", "yml", "txt", "yaml.txt", "yml.txt", ""}:
        raise BadVocabulary(f"{path}:1: this name is not read; call the file {stem.lower()}.yaml")
    if path.suffix.lower() in {".yaml", ".yml"}:
        raise BadVocabulary(f"{path}:1: no file of words has this name; use {nearest(stem, names, 'yaml')}")
    return False


def check_shape(name: str, file: LinedYaml) -> None:
    """Raise BadVocabulary at the first value of a file that is not what must stand there."""
    try:
        (SHAPES | LABELS)[name].validate_python(file.data)
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        at = tuple(part for part in first["loc"] if isinstance(part, str | int))
        where = ".".join(str(part) for part in at if isinstance(part, str))
        told = _told(_block_at(name, at), first["type"], str(at[-1]) if at else "", first.get("ctx", {}))
        raise file.mistake(at, f"{where}: {told}" if where else told) from error


def _block_at(name: str, at: tuple[str | int, ...]) -> type[BaseModel] | None:
    """The kind of block in which the last key of `at` stands: one of the file's, or one within it."""
    block = BLOCKS.get(name)
    for key in at[:-1]:
        inner = block.model_fields[str(key)].annotation if block and key in block.model_fields else None
        block = inner if isinstance(inner, type) and issubclass(inner, BaseModel) else block
    return block


def _told(block: type[BaseModel] | None, fault: str, key: str, context: Mapping[str, Any]) -> str:
    if fault == "extra_forbidden" and block is not None:
        keys = [field.alias or key for key, field in block.model_fields.items()]
        return f"no such key; use {nearest(key, keys)}"
    if fault == "literal_error":
        return f"use one of {context['expected']}".replace(", ''", "").replace(" or ''", "")
    return FAULTS.get(fault, f"not what must stand here; {GUIDE}")
