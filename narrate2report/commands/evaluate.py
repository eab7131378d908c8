"""`evaluate GOLD FINDINGS...`: how well walks were read, by what a person marked or decided."""

from __future__ import annotations

import json
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from rich.console import Console

from narrate2report.errors import BadInput
from narrate2report.evaluate.marks import Gold, decided_marks, marks_of
from narrate2report.evaluate.matching import match
from narrate2report.evaluate.rates import Walk, evaluation
from narrate2report.intake.transcripts import read_transcript
from narrate2report.publish.evaluation import evaluation_page
from narrate2report.records.beside import journal_beside
from narrate2report.records.files import read_bytes, read_record
from narrate2report.records.findings import Findings
from narrate2report.records.fold import folded, unfolded
from narrate2report.records.journal import JournalLine
from narrate2report.records.journal_file import kept_lines
from narrate2report.records.walk import read_walk

MARKED = ".gold.json"
SPOKEN_SLACK_S = 1.0
"""Where the true times of the lines are known, speech recognised this much beside them is still of that line."""


@dataclass(frozen=True)
class WantedEvaluation:
    """What the person at the keyboard asked for: gold and findings by turns."""

    files: tuple[Path, ...]
    errors: bool = False
    as_json: bool = False


def evaluate(wanted: WantedEvaluation) -> None:
    """Print how well the drafts were read. Raises NarrateError where a file cannot be used."""
    if len(wanted.files) % 2:
        raise BadInput("evaluate takes files in pairs: what is right, then what was drafted of the same walk")
    pairs = list(zip(wanted.files[::2], wanted.files[1::2], strict=True))
    told = evaluation([_walk(gold, path) for gold, path in pairs])
    if wanted.as_json:
        sys.stdout.write(json.dumps(told.model_dump(mode="json"), ensure_ascii=False, indent=1) + "\n")
    else:
        Console(highlight=False, markup=False).print(evaluation_page(told, wanted.errors))


def _walk(right: Path, drafted: Path) -> Walk:
    gold = _gold(right)
    return Walk(drafted.name, match(gold.marks, _draft(drafted).entries), gold.stretches)


def _draft(path: Path) -> Findings:
    """What was read of a walk, before anybody decided anything."""
    on_disk = read_record(path, Findings)
    lines = kept_lines(journal_beside(path), JournalLine)
    return unfolded(folded(on_disk, lines), lines)


def _gold(path: Path) -> Gold:
    if path.name.endswith(MARKED):
        return _marked(path)
    findings = read_walk(path)
    undecided = sum(entry.is_open for entry in findings.entries)
    if undecided:
        raise BadInput(f"{path}: {undecided} entries are still to be decided; only a reviewed walk tells what is right")
    return decided_marks(findings)


def _marked(path: Path) -> Gold:
    """`NAME.gold.json`, with the times of its lines in `NAME.times.json`, or else in `NAME.txt`, beside it."""
    name = path.name.removesuffix(MARKED)
    times, text = path.with_name(f"{name}.times.json"), path.with_name(f"{name}.txt")
    try:
        if times.is_file():
            lines, slack = [(float(start), float(end)) for start, end in _json(times)], SPOKEN_SLACK_S
        elif text.is_file():
            lines, slack = [(said.start, said.end) for said in read_transcript(text).stretches], 0.0
        else:
            raise BadInput(f"{path}: needs {text.name} (lines with their times) or {times.name} beside it")
        return Gold(marks_of(_json(path)["entries"], lines, slack), len(lines))
    except (KeyError, TypeError, IndexError, ValueError) as error:
        raise BadInput(f"{path}: is no narration marked by hand ({type(error).__name__}: {error})") from error


def _json(path: Path) -> Any:
    try:
        return json.loads(read_bytes(path))
    except ValueError as error:
        raise BadInput(f"{path}: is not JSON ({error})") from error
