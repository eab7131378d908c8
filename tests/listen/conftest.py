"""The sample walk, listened to once for all tests with the bundled model."""

from __future__ import annotations

from pathlib import Path

import pytest

from narrate2report.intake.gather import Clips, gather
from narrate2report.listen.listening import listen
from narrate2report.records.transcript import Transcript

SAMPLES = Path(__file__).parents[2] / "samples"


@pytest.fixture(scope="session")
def sample_kept(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where what was heard of the sample walk is kept."""
    return tmp_path_factory.mktemp("heard") / "move-in.heard.jsonl"


@pytest.fixture(scope="session")
def sample_transcript(sample_kept: Path) -> Transcript:
    return listen(sample_clips().clips, keep=sample_kept)


def sample_clips() -> Clips:
    given = gather([SAMPLES / "move-in.mp4"])
    assert isinstance(given, Clips)
    return given
