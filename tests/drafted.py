"""The sample walk as it lies after drafting."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from narrate2report.records.files import read_record
from narrate2report.records.findings import Findings

SAMPLES = Path(__file__).parents[1] / "samples"


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
