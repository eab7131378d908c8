"""Several at once on this machine: whatever ends one process is a line, and the others go on."""

from __future__ import annotations

import sys
import time

import pytest

from narrate2report.batch.local import LocalRunner
from narrate2report.batch.room import Room, room_for
from narrate2report.records.task import Outcome, Progress
from tests.batch.works import obliging, task


def outcomes_of(*names: str, jobs: int = 2, threads: int = 1) -> dict[str, Outcome]:
    with LocalRunner(obliging, Room(jobs, threads)) as runner:
        for name in names:
            runner.start(task(name))
        outcomes: dict[str, Outcome] = {}
        until = time.monotonic() + 120
        while len(outcomes) < len(names) and time.monotonic() < until:
            for told in runner.told(0.5):
                if isinstance(told, Outcome):
                    assert told.recording not in outcomes
                    outcomes[told.recording] = told
    return outcomes


@pytest.mark.skipif(sys.platform == "win32", reason="signals are told otherwise there")
def test_what_ends_a_process_is_a_line_and_the_others_go_on() -> None:
    outcomes = outcomes_of("killed", "one", "leaves", "bad", "broken", "two")
    assert {name for name, outcome in outcomes.items() if outcome.became == "drafted"} == {"one", "two"}
    notes = {name: outcome.note or "" for name, outcome in outcomes.items() if outcome.became == "failed"}
    assert notes["bad"] == "bad: cannot be used"
    assert notes["killed"].startswith("killed: its process broke down or was ended from outside (SIGKILL, as happens")
    assert "exit status 3" in notes["leaves"]
    assert "KeyError: 'a mistake of ours'" in notes["broken"]
    assert all("\n" not in note for note in notes.values())


def test_a_process_prints_nothing_and_has_the_threads_it_was_given(capfd: pytest.CaptureFixture[str]) -> None:
    outcomes = outcomes_of("noisy", "threads", threads=3)
    assert outcomes["threads"].note == "3"
    assert capfd.readouterr() == ("", "")


def test_leaving_ends_what_still_runs_and_begins_nothing_more() -> None:
    began = time.monotonic()
    with LocalRunner(obliging, Room(1, 1)) as runner:
        for name in ("slow", "later"):
            runner.start(task(name))
        seen: list[object] = []
        while not any(isinstance(told, Progress) and told.total_s for told in seen):
            seen += runner.told(0.5)
    assert time.monotonic() - began < 50
    assert not [told for told in [*seen, *runner.told(0.0)] if isinstance(told, Outcome)]


@pytest.mark.parametrize(
    ("cores", "free_mb", "asked", "wanted"),
    [
        (8, 64_000, None, Room(4, 2)),
        (8, 2_000, None, Room(2, 4)),
        (1, 64_000, None, Room(1, 1)),
        (2, 100, None, Room(1, 2)),
        (16, 64_000, 3, Room(3, 5)),
        (2, 64_000, 6, Room(6, 1)),
    ],
)
def test_there_is_room_for_what_cores_and_memory_allow_or_what_is_asked(
    cores: int, free_mb: int, asked: int | None, wanted: Room
) -> None:
    assert room_for(cores, free_mb << 20, asked) == wanted
