"""`coverage FILE`: what was said of each part that was expected; alarms that nobody spoke of come first."""

from __future__ import annotations

import json
import sys
from dataclasses import dataclass
from pathlib import Path

from rich.console import Console

from narrate2report.commands.planned import expected_rooms, read_plan
from narrate2report.commands.words import word_folders
from narrate2report.publish.coverage_list import coverage_list, numbers
from narrate2report.read.coverage import cover
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.records.findings import Acknowledged, Coverage, Findings
from narrate2report.records.walk import read_walk


@dataclass(frozen=True)
class WantedCoverage:
    """What the person at the keyboard asked for."""

    file: Path
    plan: Path | None = None
    vocabulary: Path | None = None
    as_json: bool = False


def coverage(wanted: WantedCoverage) -> None:
    """Print the coverage of a record, or of the record measured against another plan. The file stays as it is.

    Raises NarrateError for a record or a unit file that cannot be read.
    """
    findings = read_walk(wanted.file)
    if wanted.plan is not None:
        findings = _measured(findings, wanted.plan, wanted.vocabulary)
    if wanted.as_json:
        sys.stdout.write(json.dumps(numbers(findings), ensure_ascii=False) + "\n")
        return
    Console(highlight=False, markup=False).print(coverage_list(findings))


def _measured(findings: Findings, plan: Path, words: Path | None) -> Findings:
    """The record with its coverage by a plan; what a person said of a gap stays said."""
    vocabulary = load_vocabulary(*word_folders(words))
    expected = expected_rooms(read_plan(plan, vocabulary), vocabulary)
    kept = [entry for entry in findings.entries if entry.stands]
    said = {(row.room, row.component): row.acknowledged for row in findings.coverage}
    rows = cover(kept, [visit.room for visit in findings.rooms], vocabulary, expected)
    return findings.model_copy(update={"coverage": tuple(_with_said(row, said) for row in rows)})


def _with_said(row: Coverage, said: dict[tuple[str, str], Acknowledged | None]) -> Coverage:
    acknowledged = said.get((row.room, row.component)) if row.status == "not_noted" else None
    return row.model_copy(update={"acknowledged": acknowledged})
