"""The names in a layer of words: those that must be known already, and those that a manager may make up."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.lexis.word_files import Layer
from narrate2report.records.nearest import close_to, nearest
from narrate2report.records.yaml_lines import LinedYaml, Location

ID = re.compile(r"[a-z][a-z0-9_]{0,59}")
"""An id is printed with spaces for its `_`, and a dot in it would be the name of one of several rooms."""

ROOM_ID = re.compile(rf"({ID.pattern})(\.[a-z0-9][a-z0-9_]{{0,59}})?")

LISTS_OF_IDS = (
    *(("conditions", field) for field in ("alike", "akin", "grows", "grows_here", "mended", "fails")),
    *(("components", field) for field in ("same", "near", "once", "many")),
    *(("rooms", field) for field in ("near", "outside")),
)
"""The lists of likeness.yaml that hold ids; its others hold words."""


def check_own_ids(layer: Layer, below: Mapping[str, Any]) -> None:
    """Raise BadVocabulary at a block that is not in the files `below` and is not plainly meant to be new.

    Without this, a misspelt name would silently become a component of its own.
    """
    for name, file in layer.files.items():
        for term, block in file.data.items() if isinstance(file.data, dict) else ():
            if term in below[name] or name in {"descriptions", "sound_alikes", "misheard", "befalls", "likeness"}:
                continue
            if name in {"actions", "cues"}:
                known = nearest(term, below[name])
                raise file.mistake((term,), f"{term}: no such block, and none can be added here; use {known}")
            close = close_to(term, below[name])
            meant = f"; did you mean {close}?" if close else ""
            if not ID.fullmatch(term):
                raise file.mistake(
                    (term,), f"{term}: a name has small letters, digits and _ only, as mail_alcove{meant}"
                )
            if not block.get("label", "").strip():
                raise file.mistake((term,), f"{term}: not known{meant or ';'} to add it as new, give it a label")
            if name == "conditions" and block.get("class", "") in {"", "sound"}:
                problem = "a new condition is a flaw: give it class damage, soil, fault or hazard"
                raise file.mistake((term,), f"{term}: {problem}; words of praise belong to good or clean")


def check_references(layer: Layer, vocabulary: Vocabulary) -> None:
    """Raise BadVocabulary at the first id that one block names of another and that is not there."""
    components, rooms = set(vocabulary.components), set(vocabulary.rooms)
    families = {term.group for term in vocabulary.components.values()} - {""}
    for name, fields in {
        "rooms": {"expects": components, "owns": components},
        "components": {"near": components, "in": rooms, "part_of": components},
        "conditions": {
            "usual": components | {f"group:{family}" for family in families},
            "only": components,
            "default": components,
        },
        "descriptions": {"type": components | {"any"}, "count_of": components},
    }.items():
        file = layer.files.get(name)
        if file is None:
            continue
        for at, block in _blocks(name, file):
            for field, known in fields.items():
                for place, unknown in _named(block.get(field, ())):
                    if unknown not in known:
                        where = ".".join(map(str, (*at, field)))
                        raise file.mistake((*at, field, *place), f"{where}: {_not_there(unknown, known)}")
            if name == "rooms":
                _check_room(file, at, block)
    if "befalls" in layer.files:
        _check_befalls(layer.files["befalls"], vocabulary)
    if "likeness" in layer.files:
        _check_likeness(layer.files["likeness"], vocabulary)


def _check_befalls(file: LinedYaml, vocabulary: Vocabulary) -> None:
    for condition, told in file.data.items():
        if condition not in vocabulary.conditions:
            raise file.mistake((condition,), _not_there(condition, vocabulary.conditions))
        for component in told:
            if component not in vocabulary.components:
                problem = f"{condition}: {_not_there(component, vocabulary.components)}"
                raise file.mistake((condition, component), problem)


def _check_likeness(file: LinedYaml, vocabulary: Vocabulary) -> None:
    """The lists of likeness.yaml name ids; those of `grows` also by what the lists are called."""
    known = {
        "conditions": set(vocabulary.conditions),
        "components": set(vocabulary.components),
        "rooms": set(vocabulary.rooms),
    }
    for section, field in LISTS_OF_IDS:
        block = file.data.get(section, {}).get(field, {})
        for place, unknown in _listed(block, keys_too=field in {"grows", "grows_here"}):
            if unknown not in known[section]:
                problem = f"{section}.{field}: {_not_there(unknown, known[section])}"
                raise file.mistake((section, field, *place), problem)


def _listed(block: Any, keys_too: bool) -> Iterator[tuple[Location, str]]:
    """The ids in a list or in a block of named lists, with where each stands."""
    if isinstance(block, dict):
        for key, ids in block.items():
            if keys_too:
                yield (key,), key
            yield from (((key, index), one) for index, one in enumerate(ids))
    else:
        yield from (((index,), one) for index, one in enumerate(block))


def check_families(layer: Layer, families: set[str]) -> None:
    """Raise BadVocabulary at a component whose `group` is none of the families that rules and words speak of."""
    file = layer.files.get("components")
    if file is None:
        return
    for term, block in file.data.items():
        if (family := block.get("group", "")) and family not in families:
            raise file.mistake((term, "group"), f"{term}.group: no such family; use {nearest(family, families)}")


def check_labels(layer: Layer, vocabulary: Vocabulary) -> None:
    """Raise BadVocabulary at the first label of an id that is not there, and at one without words."""
    suffixes = {suffix for room in vocabulary.rooms.values() for suffix in room.qualifiers}
    suffixes |= {named.partition(".")[2] for room in vocabulary.rooms.values() for named in room.named}
    known = {
        "rooms": set(vocabulary.rooms),
        "suffixes": suffixes,
        "components": set(vocabulary.components),
        "conditions": set(vocabulary.conditions),
        "actions": set(vocabulary.actions),
    }
    for file in layer.labels.values():
        for sort, labels in file.data.items():
            for name, label in labels.items():
                if name not in known[sort]:
                    raise file.mistake((sort, name), f"{sort}: {_not_there(name, known[sort])}")
                if not label.strip():
                    raise file.mistake(
                        (sort, name), f"{sort}.{name}: a name is wanted; write one, or take this line out"
                    )


def _check_room(file: LinedYaml, at: Location, block: Mapping[str, Any]) -> None:
    """A room that is told apart keeps the id of its kind before the dot."""
    for named in block.get("named", {}):
        found = ROOM_ID.fullmatch(named)
        if found is None or found[1] != at[0]:
            raise file.mistake((*at, "named", named), f"{at[0]}.named: '{named}' must be {at[0]}, a dot and a name")
    for suffix in block.get("qualifiers", {}):
        if not ROOM_ID.fullmatch(f"{at[0]}.{suffix}"):
            problem = f"{at[0]}.qualifiers: '{suffix}' must be small letters, digits and _"
            raise file.mistake((*at, "qualifiers", suffix), problem)


def _blocks(name: str, file: LinedYaml) -> Iterator[tuple[Location, Mapping[str, Any]]]:
    if name == "descriptions":
        yield (), file.data
    else:
        yield from (((term,), block) for term, block in file.data.items())


def _named(value: Any) -> Iterator[tuple[Location, str]]:
    """The ids in a field, be it one id, a list of them or words by id, with where each stands."""
    if isinstance(value, str):
        yield from [((), value)] if value else []
    elif isinstance(value, dict):
        yield from (((key,), key) for key in value)
    else:
        yield from (((index,), one) for index, one in enumerate(value))


def _not_there(name: str, known: Iterable[str]) -> str:
    """What is wrong with an id that is unknown, and what to write instead."""
    return f"no such id '{name}'; use {close_to(name, known) or 'an id that is there, or add it'}"
