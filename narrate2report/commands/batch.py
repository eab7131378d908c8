"""`batch FOLDER|GLOB...`: every recording that has no record yet is drafted, here or on a cluster.

Look what lies there, plan what is to be done, hand it to a runner, tell what becomes of it. `--watch` does so again
whenever something changed.
"""

from __future__ import annotations

import time
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from pathlib import Path
from urllib.parse import urlsplit

from narrate2report.batch.cluster import ClusterRunner
from narrate2report.batch.known import Records
from narrate2report.batch.local import LocalRunner
from narrate2report.batch.places import Here, as_place, digest_place, is_address, look
from narrate2report.batch.plan import plan
from narrate2report.batch.room import room
from narrate2report.batch.runner import Runner
from narrate2report.batch.watching import Still, only_still, rounds
from narrate2report.commands.batch_screen import Screen
from narrate2report.commands.batch_work import draft_task, settings_now
from narrate2report.errors import BadInput
from narrate2report.records.header import GivenFacts
from narrate2report.records.task import Lying, Outcome, Settings, Task

WAIT_S = 0.5
LOOK_AGAIN_S = 60.0
"""Network drives do not tell of changes, so one looks now and then all the same."""


@dataclass(frozen=True)
class WantedBatch:
    """What the person at the keyboard asked for."""

    places: tuple[str, ...]
    jobs: int | None = None
    watch: bool = False
    scheduler: str | None = None
    model: str | None = None
    track: int | None = None
    by_sound: bool = True
    plan: Path | None = None
    vocabulary: Path | None = None
    facts: GivenFacts = field(default_factory=GivenFacts)
    keep_location: bool = False
    quiet: bool = False
    as_json: bool = False


def batch(wanted: WantedBatch) -> int:
    """Draft what has no record yet, and return how many recordings could not be.

    Raises NarrateError where nothing can be begun: a folder, the words, the model or the scheduler cannot be used.
    """
    places = tuple(as_place(place, anywhere=wanted.scheduler is not None) for place in wanted.places)
    _check(wanted, places)
    settings = replace(
        settings_now(model=wanted.model, vocabulary=wanted.vocabulary, plan=wanted.plan),
        facts=wanted.facts,
        keep_location=wanted.keep_location,
        track=wanted.track,
        by_sound=wanted.by_sound,
    )
    first = look(places)
    with _runner(wanted) as runner, Screen(quiet=wanted.quiet, as_json=wanted.as_json, at_once=wanted.watch) as screen:
        rounds_of = _Rounds(settings, runner, screen)
        _note_runner(wanted, runner, screen)
        if wanted.watch:
            _follow(places, rounds_of)
        else:
            rounds_of.begin(first)
            rounds_of.finish()
    return sum(outcome.became == "failed" for outcome in screen.outcomes)


def _check(wanted: WantedBatch, places: tuple[str, ...]) -> None:
    if wanted.jobs is not None and wanted.scheduler is not None:
        raise BadInput("--jobs is for this machine; on a cluster its workers are as many as were started")
    if not wanted.watch:
        return
    for place in places:
        if is_address(place) or not Path(place).is_dir():
            raise BadInput(f"{place}: only a folder of this machine can be watched")


def _runner(wanted: WantedBatch) -> Runner:
    if wanted.scheduler is not None:
        return ClusterRunner(draft_task, wanted.scheduler)
    return LocalRunner(draft_task, room(wanted.jobs))


def _note_runner(wanted: WantedBatch, runner: Runner, screen: Screen) -> None:
    """What one should know of a cluster before anything goes there."""
    if wanted.quiet or not isinstance(runner, ClusterRunner):
        return
    parts = urlsplit(wanted.scheduler or "")
    if parts.scheme != "tls" and parts.hostname not in {"127.0.0.1", "::1", "localhost"}:
        screen.note(f"the connection to {wanted.scheduler} is not encrypted; 'narrate2report guide cluster' says how")
    if not runner.workers:
        screen.note(f"no worker is at {wanted.scheduler} yet; waiting for one")


class _Rounds:
    """What was handed to the runner, and what came back."""

    def __init__(self, settings: Settings, runner: Runner, screen: Screen) -> None:
        self._settings, self._runner, self._screen = settings, runner, screen
        self._records = Records()
        self._at_work: dict[str, Lying] = {}
        self._failed: dict[str, Lying] = {}
        """Recordings that failed, as they were then: they are tried again when they change."""

    def begin(self, folders: Iterable[Here]) -> None:
        """Hand over what is new in these folders."""
        for here in folders:
            planned = plan(here, self._records.of(here.records), self._settings, digest_place)
            self._screen.settled(each for each in planned.settled if each.recording not in self._at_work)
            lying = {each.place: each for each in here.recordings}
            tasks = [task for task in planned.tasks if self._is_new(task, lying[task.recording])]
            self._screen.begin(len(tasks))
            for task in tasks:
                self._at_work[task.recording] = lying[task.recording]
                self._runner.start(task)

    def tell(self, wait_s: float) -> None:
        """Show what was told meanwhile."""
        for told in self._runner.told(wait_s):
            self._screen.tell(told)
            if isinstance(told, Outcome):
                lying = self._at_work.pop(told.recording, None)
                if lying is not None and told.became == "failed":
                    self._failed[told.recording] = lying

    def finish(self) -> None:
        """Wait until nothing is at work."""
        while self._at_work:
            self.tell(WAIT_S)

    def _is_new(self, task: Task, lying: Lying) -> bool:
        return task.recording not in self._at_work and self._failed.get(task.recording) != lying


def _follow(places: tuple[str, ...], rounds_of: _Rounds) -> None:
    """Until it is stopped."""
    still = Still()
    looked = float("-inf")
    for changed in rounds(places):
        if changed or still.waiting or time.monotonic() - looked >= LOOK_AGAIN_S:
            looked = time.monotonic()
            rounds_of.begin(only_still(look(places), still))
        rounds_of.tell(0.0)
