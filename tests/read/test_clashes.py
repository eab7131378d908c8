"""Before words are used, one is told what they add and which of them mean something else already."""

from __future__ import annotations

from pathlib import Path

import pytest

from narrate2report.read.lexis.additions import find_additions
from narrate2report.read.lexis.clashes import find_clashes
from narrate2report.read.lexis.lexicon import read_layers
from narrate2report.read.lexis.word_files import Layer, read_layer


@pytest.fixture(scope="module")
def shipped_layer() -> Layer:
    (layer,) = read_layers(())
    return layer


def own_layer(folder: Path, **files: str) -> Layer:
    for name, content in files.items():
        (folder / f"{name}.yaml").write_text(content, encoding="utf-8")
    return read_layer(folder)


CLASHES: dict[str, tuple[str, str, int, str, str]] = {
    "a name of another component": (
        "components",
        "range_hood:\n  say: [sucker, dishwasher]\n",
        2,
        "dishwasher",
        "was the component dishwasher; now it is the component range hood",
    ),
    "its plural": ("components", "range_hood:\n  say: [dishwashers]\n", 2, "dishwashers", "component dishwasher"),
    "in capitals": ("components", "range_hood:\n  say: [Dish-Washer]\n", 2, "Dish-Washer", "component dishwasher"),
    "a plain word that another one has for itself": (
        "components",
        "sink:\n  else: [dishwasher]\n",
        2,
        "dishwasher",
        "never read",
    ),
    "a word beside the same owner": (
        "components",
        "sink:\n  near:\n    paint: [plaster]\n",
        3,
        "plaster",
        "means the component wall there already",
    ),
    "a condition": ("components", "sink:\n  say: [scratch]\n", 2, "scratch", "the condition scratch as well"),
    "a condition of another name": ("conditions", "rust:\n  adjectives: [scratched]\n", 2, "scratched", "was the con"),
    "an idiom": ("conditions", "rust:\n  phrases: [from scratch]\n", 2, "from scratch", "never read: it is an idiom"),
    "an idiom of a known word": ("idioms", "- dent\n", 1, "dent", "now it is read as nothing"),
    "a phrase kept out by itself": (
        "conditions",
        "scratch:\n  phrases: [scratch card]\n",
        2,
        "scratch card",
        "not_in of the condition scratch",
    ),
    "a mishearing": ("components", "sink:\n  say: [bass board]\n", 2, "bass board", "misheard 'baseboard'"),
    "a cue": ("components", "sink:\n  say: [without]\n", 2, "without", "the cue negation as well"),
    "another cue": ("cues", "policy: [without]\n", 1, "without", "the cue negation as well; both count"),
    "a room": ("rooms", "office:\n  say: [pantry, kitchen]\n", 2, "kitchen", "was the room kitchen"),
    "its own other line": (
        "components",
        "sink:\n  say: [gurgler]\nbathtub:\n  say: [gurgler]\n",
        4,
        "gurgler",
        "was the component sink",
    ),
}


@pytest.mark.parametrize(("name", "content", "line", "word", "told"), CLASHES.values(), ids=CLASHES.keys())
def test_a_word_with_another_meaning_is_told_with_its_line(
    name: str, content: str, line: int, word: str, told: str, tmp_path: Path, shipped_layer: Layer
) -> None:
    clashes = find_clashes((shipped_layer, own_layer(tmp_path, **{name: content})))
    of_word = [(one.path.name, one.line) for one in clashes if one.word == word and told in one.told]
    assert (f"{name}.yaml", line) in of_word, clashes


HARMLESS = {
    "a new word": ("components", "sink:\n  say: [gurgler]\n"),
    "a word it has already": ("components", "sink:\n  say: [sink]\n"),
    "a plain word beside an owner of its own": ("components", "sink:\n  near:\n    bathtub: [plaster]\n"),
    "a word of another one, kept out": ("components", "sink:\n  not_in: [sink hole]\n"),
    "a condition word of one component": ("conditions", "rust:\n  only:\n    sink: [freckled]\n"),
    "ids of what a room has": ("rooms", "office:\n  expects: [radiator]\n"),
    "a mishearing that needs a neighbour": ("sound_alikes", "dent:\n  vent: [air]\n"),
}


@pytest.mark.parametrize(("name", "content"), HARMLESS.values(), ids=HARMLESS.keys())
def test_words_that_clash_with_nothing_are_not_complained_of(
    name: str, content: str, tmp_path: Path, shipped_layer: Layer
) -> None:
    assert find_clashes((shipped_layer, own_layer(tmp_path, **{name: content}))) == ()


def test_what_each_file_adds_is_counted(tmp_path: Path, shipped_layer: Layer) -> None:
    layer = own_layer(
        tmp_path,
        components="dumbwaiter:\n  label: Dumbwaiter\n  say: [dumbwaiter, small lift]\nsink:\n  say: [sink, gurgler]\n",
        rooms="kitchen:\n  say: [cook house]\n  expects: [radiator]\n",
        sound_alikes="gargler:\n  gurgler: [water, drain]\n",
    )
    told = [(one.path.name, one.words, one.known, one.blocks) for one in find_additions((shipped_layer, layer))]
    assert told == [
        ("components.yaml", 3, 1, ("dumbwaiter",)),
        ("rooms.yaml", 1, 0, ()),
        ("sound_alikes.yaml", 1, 0, ()),
    ]
