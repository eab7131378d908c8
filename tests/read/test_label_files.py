"""Labels in a language are files of words like the others: checked with their line, and of no weight in reading."""

from __future__ import annotations

from pathlib import Path

import pytest

from narrate2report.errors import BadVocabulary
from narrate2report.read.lexis.lexicon import load_vocabulary

OWN = {
    "components.yaml": "dumbwaiter:\n  label: Dumbwaiter\n  group: appliances\n  say: [dumbwaiter]\n",
    "labels_es.yaml": "components:\n  dumbwaiter: montaplatos\nsuffixes:\n  guest: de huéspedes\n",
}


def folder(place: Path, **files: str) -> Path:
    for name, content in files.items():
        (place / name).write_text(content, encoding="utf-8")
    return place


def test_labels_of_ones_own_may_name_what_ones_own_words_add(tmp_path: Path) -> None:
    assert load_vocabulary(folder(tmp_path, **OWN)).components["dumbwaiter"].label == "Dumbwaiter"


def test_labels_do_not_change_what_is_read(tmp_path: Path) -> None:
    labels = {"labels_es.yaml": "components:\n  sink: pila\n"}
    assert load_vocabulary(folder(tmp_path, **labels)).version == load_vocabulary().version


@pytest.mark.parametrize(
    ("content", "told"),
    [
        ("components:\n  sinks: pila\n", "labels_es.yaml:2: components: no such id 'sinks'; use sink"),
        ("suffixes:\n  gest: de huéspedes\n", "labels_es.yaml:2: suffixes: no such id 'gest'; use guest"),
        ("rooms:\n  kitchen: ' '\n", "labels_es.yaml:2: rooms.kitchen: a name is wanted"),
        ("components: [sink]\n", "labels_es.yaml:1: components: blocks are wanted"),
        ("component:\n  sink: pila\n", "labels_es.yaml:1: component: no such key; use components"),
        ("actions:\n  repair: [reparar]\n", "labels_es.yaml:2: actions.repair: one word or phrase is wanted"),
    ],
)
def test_a_mistake_is_told_with_its_line(tmp_path: Path, content: str, told: str) -> None:
    with pytest.raises(BadVocabulary) as refused:
        load_vocabulary(folder(tmp_path, **{"labels_es.yaml": content}))
    assert told in str(refused.value)


@pytest.mark.parametrize("name", ["labels_es.yml", "Labels_es.yaml", "label_es.yaml"])
def test_a_file_of_nearly_the_right_name_is_told_the_right_one(tmp_path: Path, name: str) -> None:
    with pytest.raises(BadVocabulary, match=r"labels_es\.yaml"):
        load_vocabulary(folder(tmp_path, **{name: "components:\n  sink: pila\n"}))
