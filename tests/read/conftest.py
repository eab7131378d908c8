"""One vocabulary and one tokenizer for all tests of reading."""

from __future__ import annotations

import os

import pytest

from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.lexis.words import Tokenizer
from tests.read.told import Narrator

collect_ignore = [] if os.environ.get("NEGEX_FOLDER") else ["test_public_denials.py"]
"""The published sentences are no part of this repository: without them nothing is tested, and nothing passed."""


@pytest.fixture(scope="session")
def vocabulary() -> Vocabulary:
    return load_vocabulary()


@pytest.fixture(scope="session")
def tokenizer() -> Tokenizer:
    return Tokenizer()


@pytest.fixture(scope="session")
def entries(vocabulary: Vocabulary, tokenizer: Tokenizer) -> Narrator:
    """Tell lines, get what was read: `entries("The tub is chipped.", room="bathroom")`."""
    return Narrator(vocabulary, tokenizer)
