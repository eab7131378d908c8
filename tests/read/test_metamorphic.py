"""The record stays what it was when the same walk is told otherwise (see retold.py).

Rates are agreements over all narrations: 1 is the same record. Each bound stands just under what was measured when it
was set; `python tests/benchmarks/retold.py tests/narrations` prints the rates. What changes nothing of what is said
of this place (other letters, a cue a sentence, talk in between) must change no entry at all.

Where speakers breathe was learned from most of these narrations: the rate without marks flatters those. Of narrations
left out of the learning tests/benchmarks/learn_breaths.py tells it.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from narrate2report.intake.transcripts import read_transcript
from narrate2report.read.outcome import Reading
from narrate2report.records.transcript import Transcript
from tests.read.retold import ADDED, RETELLINGS, Retelling, changes
from tests.read.told import Narrator

NARRATIONS = Path(__file__).parents[1] / "narrations"

LEAST = {
    "no marks": 0.815,  # 0.836 of the narrations before: those of eight new speakers, unknown to `breaths`, lower it
    "lower case": 1.0,
    "upper case": 1.0,
    "British words": 0.985,
    "American words": 0.99,
    "fillers": 0.98,
    "a sentence a cue": 1.0,
    "two cues under one time": 0.925,
    "three cues under one time": 0.92,
    "a cue cut in two": 0.955,
}


class Remembering:
    """Reads each walk once, however often it is asked for; what it was retold as is asked for once and not kept."""

    def __init__(self, entries: Narrator, walks: list[Transcript]) -> None:
        self._entries = entries
        self._walks = {id(walk) for walk in walks}
        self._read: dict[int, Reading] = {}

    def __call__(self, transcript: Transcript) -> Reading:
        if id(transcript) not in self._walks:
            return self._entries.read(transcript).reading
        if id(transcript) not in self._read:
            self._read[id(transcript)] = self._entries.read(transcript).reading
        return self._read[id(transcript)]


@pytest.fixture(scope="module")
def walks() -> list[Transcript]:
    return [read_transcript(path) for path in sorted(NARRATIONS.glob("*.txt"))]


@pytest.fixture(scope="module")
def read(entries: Narrator, walks: list[Transcript]) -> Remembering:
    return Remembering(entries, walks)


def test_every_retelling_has_its_bound() -> None:
    assert LEAST.keys() == RETELLINGS.keys()


@pytest.mark.parametrize("name", RETELLINGS)
def test_the_same_walk_told_otherwise_is_the_same_record(name: str, walks: list[Transcript], read: Remembering) -> None:
    told = changes(read, walks, RETELLINGS[name])
    assert told.agreement >= LEAST[name], f"{name}: {told.agreement:.4f}\n" + "\n".join(told.told)


@pytest.mark.parametrize("added", ADDED.values(), ids=ADDED)
def test_talk_of_what_would_be_changes_nothing(added: Retelling, walks: list[Transcript], read: Remembering) -> None:
    longer = sum(len(added.change(walk).stretches) for walk in walks)
    assert longer >= 1.2 * sum(len(walk.stretches) for walk in walks)
    assert changes(read, walks, added).told == ()
