"""How far a denial reaches, on sentences that others published and marked (see negex.py).

Collected where the folder with them is given in NEGEX_FOLDER; it is no part of this repository.
Published on the same rows: GenNegEx 1.2 precision 0.935, recall 0.959, F 0.947; GenConText 0.984, 0.978, 0.981.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.lexis.words import Tokenizer
from tests.read.negex import Row, judge, load_rows, load_triggers

FOLDER = Path(os.environ["NEGEX_FOLDER"])


@pytest.fixture(scope="module")
def rows() -> list[Row]:
    return load_rows(FOLDER)


def test_denials_with_the_published_cues(rows: list[Row], tokenizer: Tokenizer) -> None:
    assert len(rows) == 2376
    tally = judge(rows, load_triggers(FOLDER), tokenizer)
    print(f"published cues: {tally}")  # noqa: T201
    assert tally.precision >= 0.98, tally
    assert tally.recall >= 0.945, tally


def test_denials_with_the_cues_of_a_walk(rows: list[Row], vocabulary: Vocabulary, tokenizer: Tokenizer) -> None:
    """Clinical verbs of denial (`denies`, `was ruled out`) are no part of a walk through a home: recall is lower."""
    tally = judge(rows, vocabulary.cues, tokenizer)
    print(f"own cues: {tally}")  # noqa: T201
    assert tally.precision >= 0.97, tally
    assert tally.recall >= 0.76, tally
