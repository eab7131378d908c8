"""Several threads hear at a time: nothing is lost or mixed up, whichever is done first and whatever stops the run."""

from __future__ import annotations

import threading
import time
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest

from narrate2report.listen import line
from narrate2report.listen.device import CPU
from narrate2report.listen.hearing import Heard
from narrate2report.listen.windows import cut_windows
from narrate2report.records.clip import Sound
from tests.listen.sounds import CountingHearer, LoudnessMeter, MadeClip, bursts
from tests.listen.test_listening import hear

TALK = [(start, start + 3.0) for start in range(1, 101, 10)]
"""Ten windows, five batches."""


@pytest.fixture(autouse=True)
def _loud_is_speech(monkeypatch: pytest.MonkeyPatch) -> None:
    def cut(blocks: Iterator[Sound]) -> object:
        return cut_windows(blocks, LoudnessMeter())

    monkeypatch.setattr(line, "cut_windows", cut)


class Uneven(CountingHearer):
    """Two threads; whoever comes first is done only after the second, and may then be stopped as by Ctrl-C."""

    workers = 2

    def __init__(self, *, first_is_stopped: bool = False) -> None:
        super().__init__()
        self._begun = iter(("first", "second"))
        self._first_is_stopped = first_is_stopped
        self._second_is_done = threading.Event()

    def hear(self, sounds: Sequence[Sound]) -> list[Heard]:
        turn = next(self._begun, "later")
        if turn == "first":
            assert self._second_is_done.wait(30)
            if self._first_is_stopped:
                raise KeyboardInterrupt
        heard = super().hear(sounds)
        if turn == "second":
            self._second_is_done.set()
        return heard


class Lost(CountingHearer):
    """Counts at the start of each window how many were begun before and are not on disk: what a kill would lose."""

    workers, at_once = CPU.workers, CPU.at_once

    def __init__(self, keep: Path) -> None:
        super().__init__()
        self._keep, self._begun = keep, 0
        self._counting = threading.Lock()
        self.most = 0

    def hear(self, sounds: Sequence[Sound]) -> list[Heard]:
        with self._counting:
            self._begun += len(sounds)
            self.most = max(self.most, self._begun - len(self._keep.read_bytes().splitlines()))
        time.sleep(0.02)
        return super().hear(sounds)


def clip() -> MadeClip:
    """Ten times somebody speaks, never the same."""
    return MadeClip("a.mp4", bursts(110, TALK))


def test_the_words_stand_in_their_order_whoever_is_done_first() -> None:
    assert hear(Uneven(), clip()) == hear(CountingHearer(), clip())


def test_what_the_others_heard_is_kept_when_one_is_stopped(tmp_path: Path) -> None:
    keep, stopped, second = tmp_path / "a.heard.jsonl", Uneven(first_is_stopped=True), CountingHearer()
    with pytest.raises(KeyboardInterrupt):
        hear(stopped, clip(), keep=keep)
    transcript = hear(second, clip(), keep=keep)
    assert stopped.heard >= 2
    assert stopped.heard + second.heard == len(TALK)
    assert transcript == hear(CountingHearer(), clip())


def test_a_kill_costs_the_window_of_each_thread_and_no_more(tmp_path: Path) -> None:
    keep = tmp_path / "a.heard.jsonl"
    hearer = Lost(keep)
    hear(hearer, clip(), keep=keep)
    assert hearer.heard == len(TALK)
    assert hearer.most <= CPU.workers
