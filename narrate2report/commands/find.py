"""`find "WORDS" [FOLDER]`: entries and sentences of all walks below a folder in which the words stand."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from pathlib import Path

from narrate2report.commands.shelf import shelf_index
from narrate2report.commands.words import word_folders
from narrate2report.errors import BadInput
from narrate2report.publish.shelf_list import hit_list
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.shelf.names import groups
from narrate2report.shipped import shipped


@dataclass(frozen=True)
class WantedFind:
    """What the person at the keyboard asked for."""

    words: str
    folder: Path
    most: int = 50
    as_json: bool = False


def find(wanted: WantedFind) -> None:
    """Print where the words stand, newest walks first. Raises BadInput for a search or folder that cannot be used."""
    if not any(map(str.isalnum, wanted.words)):
        raise BadInput("find needs a word to look for")
    folders = (shipped("vocab"), *word_folders())
    with shelf_index(wanted.folder) as index:
        index.know_names(_stamp(folders), lambda: _names(folders[1:]))
        hits = index.search(groups(wanted.words, index.other_names), wanted.most + 1)
    if wanted.as_json:
        sys.stdout.write(json.dumps([asdict(hit) for hit in hits[: wanted.most]], ensure_ascii=False, indent=1) + "\n")
    else:
        sys.stdout.write(hit_list(hits[: wanted.most], wanted.folder, more=len(hits) > wanted.most) + "\n")


def _names(folders: tuple[Path, ...]) -> Iterator[tuple[str, str]]:
    """Each name of the vocabulary with the id of what it names."""
    vocabulary = load_vocabulary(*folders)
    for name, room in vocabulary.rooms.items():
        yield from ((said.lower(), name) for said in (room.label, *room.say) if said)
    for name, component in vocabulary.components.items():
        yield from ((said.lower(), name) for said in (component.label, *component.say) if said)
    for name, condition in vocabulary.conditions.items():
        told = (condition.label, *condition.nouns, *condition.adjectives, *condition.verbs, *condition.phrases)
        yield from ((said.lower(), name) for said in told if said)


def _stamp(folders: tuple[Path, ...]) -> str:
    """Changes when a file of words does."""
    files = sorted(file for folder in folders for file in folder.glob("*.yaml"))
    return " ".join(f"{file}:{file.stat().st_mtime_ns}:{file.stat().st_size}" for file in files)
