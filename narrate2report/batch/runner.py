"""Where tasks are worked on: what all runners have in common."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterator
from queue import Empty, SimpleQueue
from types import TracebackType
from typing import Self

from narrate2report.errors import NarrateError
from narrate2report.records.task import Outcome, Progress, Task, Tell, Work


class Runner(ABC):
    """Takes tasks at any time, and tells what becomes of them. Use as a context: leaving it stops what still runs."""

    def __init__(self) -> None:
        self._told: SimpleQueue[Progress | Outcome] = SimpleQueue()

    @abstractmethod
    def start(self, task: Task) -> None:
        """Take a task. It is begun when there is room for it; its outcome is told once."""

    @abstractmethod
    def stop(self) -> None:
        """End what still runs. What was heard of it is kept."""

    def told(self, wait_s: float) -> Iterator[Progress | Outcome]:
        """All that was told since, after waiting at most so long for the first."""
        try:
            yield self._told.get(timeout=wait_s)
            while True:
                yield self._told.get_nowait()
        except Empty:
            return

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.stop()


def attempt(work: Work, task: Task, tell: Tell) -> Outcome:
    """Do a task; what goes wrong becomes its outcome and never ends those beside it."""
    try:
        return work(task, tell)
    except NarrateError as error:
        return failed(task, str(error))
    except Exception as error:
        return failed(
            task, f"{task.recording}: the program failed ({type(error).__name__}: {error}); draft it by itself"
        )


def failed(task: Task, why: str) -> Outcome:
    """The outcome of a task that could not be done, with its one line."""
    return Outcome(task.recording, "failed", note=" ".join(why.split()))
