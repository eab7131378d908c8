"""On the workers of a Dask scheduler: everything that knows Dask.

Dask gives tasks to workers, gives those of a lost worker to others, and gives up on one that ends worker after worker.
A task's key comes from its content, so that the same task given twice is done once.
"""

from __future__ import annotations

import hashlib
import logging
import time
from functools import partial
from typing import TYPE_CHECKING, Any

from narrate2report.batch.runner import Runner, attempt, failed
from narrate2report.errors import BadInput
from narrate2report.records.task import Outcome, Progress, Task, Work

if TYPE_CHECKING:
    from distributed import Client, Future

SCHEMES = frozenset({"tcp", "tls"})
CONNECT_S = 15
TOPIC = "narrate2report-progress"
EVERY_S = 2.0
"""How often a worker says how far it is."""


class ClusterRunner(Runner):
    """Hands tasks to a scheduler, and tells what its workers say of them."""

    def __init__(self, work: Work, address: str) -> None:
        """Raises BadInput where no scheduler can be reached, or Dask is not installed."""
        super().__init__()
        self._work, self._address = work, address
        self._client = _connected(address)
        self._futures: set[Future[Any]] = set()
        self._client.subscribe_topic(TOPIC, self._hear)

    @property
    def workers(self) -> int:
        """How many workers there are now."""
        return len(self._client.scheduler_info(n_workers=-1)["workers"])

    def start(self, task: Task) -> None:
        """Take a task."""
        told = f"{getattr(self._work, '__qualname__', self._work)} {task}"
        key = f"narrate2report-{hashlib.sha256(told.encode()).hexdigest()}"
        future = self._client.submit(_on_worker, self._work, task, key=key)
        self._futures.add(future)
        future.add_done_callback(partial(self._finish, task))

    def stop(self) -> None:
        """Take back what no worker has begun, and leave; what is begun goes on to its end there."""
        waiting = [future for future in self._futures if not future.done()]
        if waiting and self._client.status == "running":
            self._client.cancel(waiting, force=True)
        self._client.close()

    def _hear(self, event: tuple[float, Any]) -> None:
        _, (recording, done_s, total_s) = event
        self._told.put(Progress(recording, done_s, total_s))

    def _finish(self, task: Task, future: Future[Any]) -> None:
        self._futures.discard(future)
        self._told.put(_outcome(task, future, self._address))


def _connected(address: str) -> Client:
    try:
        from distributed import Client, Security
    except ModuleNotFoundError as error:
        raise BadInput(f"--scheduler {address}: Dask is not installed here; install narrate2report[cluster]") from error
    # What goes wrong there is told as the outcome of a task, not as a trace of the library's own.
    logging.getLogger("distributed.client").setLevel(logging.CRITICAL)
    scheme = address.partition("://")[0]
    if scheme not in SCHEMES or not address.partition("://")[2]:
        raise BadInput(f"--scheduler {address}: is no address; write it as tls://host:8786 or tcp://host:8786")
    if scheme == "tls" and Security().get_connection_args("client").get("ssl_context") is None:
        raise BadInput(f"--scheduler {address}: no certificates are set; 'narrate2report guide cluster' says how")
    try:
        return Client(address, timeout=CONNECT_S, set_as_default=False)
    except (OSError, ValueError, RuntimeError) as error:
        why = str(error).splitlines()[0] if str(error) else type(error).__name__
        raise BadInput(f"--scheduler {address}: no scheduler can be reached there ({why})") from error


def _outcome(task: Task, future: Future[Any], address: str) -> Outcome:
    if future.status == "finished":
        outcome = future.result()
        assert isinstance(outcome, Outcome)
        return outcome
    if future.status == "error":
        error = future.exception()
        if type(error).__name__ == "KilledWorker":
            why = "every worker that was given it was lost, as happens where memory runs out"
        else:
            why = f"a worker could not do it ({type(error).__name__}: {error})"
        return failed(task, f"{task.recording}: {why}")
    return failed(task, f"{task.recording}: the scheduler at {address} was lost; the same command goes on from there")


def _on_worker(work: Work, task: Task) -> Outcome:
    """What a worker does with a task: the same as is done here, telling how far it is now and then."""
    from distributed import get_worker

    worker = get_worker()
    last = -EVERY_S

    def tell(done_s: float, total_s: float) -> None:
        nonlocal last
        if time.monotonic() - last >= EVERY_S:
            last = time.monotonic()
            worker.log_event(TOPIC, (task.recording, done_s, total_s))

    return attempt(work, task, tell)
