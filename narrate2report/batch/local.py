"""On this machine: several tasks at once, each in a process of its own."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from threading import Event

from narrate2report.batch.own_process import do_alone
from narrate2report.batch.room import Room
from narrate2report.batch.runner import Runner, failed
from narrate2report.records.task import Progress, Task, Work


class LocalRunner(Runner):
    """As many processes at once as there is room for; a thread watches each."""

    def __init__(self, work: Work, room: Room) -> None:
        super().__init__()
        self._work, self._room = work, room
        self._stop = Event()
        self._pool = ThreadPoolExecutor(room.jobs, thread_name_prefix="batch")

    def start(self, task: Task) -> None:
        """Take a task."""
        self._pool.submit(self._do, task)

    def stop(self) -> None:
        """End all processes, and wait until they are gone."""
        self._stop.set()
        self._pool.shutdown(wait=True, cancel_futures=True)

    def _do(self, task: Task) -> None:
        def tell(done_s: float, total_s: float) -> None:
            self._told.put(Progress(task.recording, done_s, total_s))

        tell(0.0, 0.0)
        try:
            outcome = do_alone(self._work, task, tell, self._room.threads, self._stop)
        except OSError as error:
            outcome = failed(task, f"{task.recording}: no process can be started for it ({error}); try fewer --jobs")
        if outcome is not None:
            self._told.put(outcome)
