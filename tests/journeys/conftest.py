"""The sample recording, drafted once for all journeys that start from it."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest

from narrate2report.cli import main
from narrate2report.records.files import read_record
from narrate2report.records.findings import Findings

SAMPLES = Path(__file__).parents[2] / "samples"


@dataclass(frozen=True)
class Drafted:
    """A recording with the files that were made of it."""

    recording: Path
    out: Path
    transcript: Path
    heard: Path

    @property
    def findings(self) -> Findings:
        return read_record(self.out, Findings)


@pytest.fixture(scope="session")
def move_in(tmp_path_factory: pytest.TempPathFactory) -> Drafted:
    """The move-in sample, from sound, with the model that comes with the program."""
    folder = tmp_path_factory.mktemp("move-in")
    drafted = Drafted(
        recording=SAMPLES / "move-in.mp4",
        out=folder / "walk.findings.json",
        transcript=folder / "walk.transcript.json",
        heard=folder / ".walk.heard.jsonl",
    )
    assert main(["draft", str(drafted.recording), "--out", str(drafted.out), "--quiet"]) == 0
    return drafted
