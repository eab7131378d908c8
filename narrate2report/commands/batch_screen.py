"""What is seen of a batch: a bar for each recording at work, a line for each that is done, the ending."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable
from types import TracebackType

from rich.console import Console
from rich.progress import BarColumn, Progress, TaskID, TextColumn, TimeElapsedColumn

from narrate2report.batch.places import name_of
from narrate2report.publish.batch_told import ending, failures, outcome_line, outcome_values, totals
from narrate2report.records.moments import so_far
from narrate2report.records.task import Outcome
from narrate2report.records.task import Progress as Heard

MOST_BARS = 20
"""More would scroll a terminal away; a cluster may work on hundreds."""


class Screen:
    """Bars on stderr, lines on stdout: as a person reads them, or JSON."""

    def __init__(self, *, quiet: bool, as_json: bool, at_once: bool) -> None:
        """With `at_once`, failures are told when they happen, and not at the end only."""
        self._quiet, self._as_json, self._at_once = quiet, as_json, at_once
        self._outcomes: dict[str, Outcome] = {}
        self._bars = Progress(
            TextColumn("{task.description}", markup=False),
            BarColumn(),
            TextColumn("{task.fields[at]}"),
            TimeElapsedColumn(),
            console=Console(stderr=True, highlight=False, markup=False),
            disable=quiet or as_json,
        )
        self._all = self._bars.add_task("all recordings", total=0, at="")
        self._rows: dict[str, TaskID] = {}
        self._left = 0
        self._paper = Console(highlight=False, markup=False)

    def __enter__(self) -> Screen:
        self._bars.start()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._bars.stop()
        if self._as_json:
            self._print(json.dumps(totals(self.outcomes)))
            return
        for line in failures(self.outcomes) if self._quiet else ending(self.outcomes, self._left):
            self._print(line)

    @property
    def outcomes(self) -> list[Outcome]:
        """What became of each recording; of one that was tried again, the last."""
        return list(self._outcomes.values())

    def begin(self, tasks: int) -> None:
        """So many more recordings are to be drafted."""
        self._left += tasks
        self._bars.update(self._all, total=(self._bars.tasks[0].total or 0) + tasks)

    def note(self, line: str) -> None:
        """One line that is no outcome, on stderr."""
        self._bars.console.print(f"narrate2report: {line}", soft_wrap=True)

    def settled(self, outcomes: Iterable[Outcome]) -> None:
        """Outcomes that needed no work; a person is told of them at the end. What was told before stands."""
        for outcome in outcomes:
            before = self._outcomes.get(outcome.recording)
            if before == outcome or (before and before.became == "drafted" and outcome.became == "already"):
                continue
            self._outcomes[outcome.recording] = outcome
            if self._as_json:
                self._print(json.dumps(outcome_values(outcome), ensure_ascii=False))
            elif self._at_once and outcome.became == "failed":
                self._print(outcome_line(outcome))

    def tell(self, told: Heard | Outcome) -> None:
        """Show how far a recording is, or what became of it."""
        if isinstance(told, Outcome):
            self._finish(told)
        else:
            self._move(told)

    def _finish(self, outcome: Outcome) -> None:
        row = self._rows.pop(outcome.recording, None)
        if row is not None:
            self._bars.remove_task(row)
        self._bars.advance(self._all)
        self._left -= 1
        self._outcomes[outcome.recording] = outcome
        if self._as_json:
            self._print(json.dumps(outcome_values(outcome), ensure_ascii=False))
        elif not self._quiet and (self._at_once or outcome.became == "drafted"):
            self._print(outcome_line(outcome))

    def _move(self, heard: Heard) -> None:
        row = self._rows.get(heard.recording)
        if row is None:
            if len(self._rows) >= MOST_BARS:
                return
            row = self._rows[heard.recording] = self._bars.add_task(name_of(heard.recording), total=None, at="")
        at = so_far(heard.done_s, heard.total_s)
        self._bars.update(row, completed=heard.done_s, total=heard.total_s or None, at=at)

    def _print(self, line: str) -> None:
        if self._as_json:
            sys.stdout.write(line + "\n")
            sys.stdout.flush()
        else:
            self._paper.print(line, soft_wrap=True)
