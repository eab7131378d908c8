"""A sentence that breaks off anywhere is read all the same: rules look at the words beside, and there may be none."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.read.told import LINE_S, Narrator

WALKS = Path(__file__).parents[1] / "narrations"
EVERY, WORDS = 9, 5
"""Each how many lines one is taken, and after how many words at most it breaks off."""


def _beginnings() -> list[str]:
    """The first words of lines of all marked narrations, and their last, without the marks that end a sentence."""
    lines = [line for walk in sorted(WALKS.glob("*.txt")) for line in walk.read_text(encoding="utf-8").splitlines()]
    told = [re.sub(r"^\[[^]]*]\s*", "", line).split() for line in lines[::EVERY]]
    parts = [words[:count] for words in told for count in range(1, min(len(words), WORDS + 1))]
    parts += [words[-count:] for words in told for count in (1, 2)]
    return sorted({" ".join(words).rstrip(".,;:!?") for words in parts} - {""})


def test_whatever_word_a_sentence_breaks_off_after_it_is_read(entries: Narrator) -> None:
    lines = _beginnings()
    assert len(lines) >= 1_500
    told = entries(*lines)
    assert told.sentences[-1].end >= LINE_S * (len(lines) - 1)


@pytest.mark.parametrize("said", ["my mother", "so my brother", "it works, my sister", "whoever", "the guy", "lost"])
def test_a_subject_without_its_verb_is_read(said: str, entries: Narrator) -> None:
    assert not entries(said, room="kitchen").entries or said.startswith("it works")
