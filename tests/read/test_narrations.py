"""Whole narrations by many speakers, marked by hand before they were read, against what is read of them.

The bounds hold over all of a folder, some way below what was measured when they were set; `unseen` are those whose
mistakes nobody looked at while the rules were written.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from narrate2report.evaluate.rates import OBSERVED
from narrate2report.intake.transcripts import read_transcript
from tests.read.told import Narrator
from tests.scoring import is_adverse, load_gold, score

NARRATIONS = Path(__file__).parents[1] / "narrations"


@pytest.mark.parametrize(
    ("folder", "least_f1", "least_adverse_recall"),
    [(NARRATIONS, 0.86, 0.85), (NARRATIONS / "unseen", 0.75, 0.76)],
    ids=["known", "unseen"],
)
def test_what_is_read_of_many_speakers(
    entries: Narrator, folder: Path, least_f1: float, least_adverse_recall: float
) -> None:
    hits = over = adverse = missed_adverse = 0
    for narration in sorted(folder.glob("*.txt")):
        transcript = read_transcript(narration)
        read = [entry.model_dump(mode="json") for entry in entries.read(transcript).entries]
        gold = load_gold(narration.with_name(f"{narration.stem}.gold.json"))
        result = score(gold, read, [(stretch.start, stretch.end) for stretch in transcript.stretches])
        hits += result.hits
        over += len(result.missed) + len(result.extra)
        adverse += sum(is_adverse(one) for one in gold if one["kind"] in OBSERVED and not one.get("optional"))
        missed_adverse += len(result.missed_adverse)
    assert 2 * hits / (2 * hits + over) >= least_f1
    assert 1 - missed_adverse / adverse >= least_adverse_recall
