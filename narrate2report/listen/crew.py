"""Windows being heard in threads, while the sound goes on being cut; each comes back as soon as it is done."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, Future, ThreadPoolExecutor, wait
from types import TracebackType

from narrate2report.listen.hearing import Heard, Hearer, Window

Batch = Sequence[tuple[str, Window]]
"""Windows that are heard together, each with the name of its result."""


class Crew:
    """As many threads as the hearer likes, each with one batch at a time; use as a context.

    Leaving it waits for what is being heard just now, also after a failure or Ctrl-C: a few seconds at most.
    """

    def __init__(self, load: Callable[[], Hearer]) -> None:
        """The hearer is loaded when there is something to hear."""
        self._load = load
        self._hearer: Hearer | None = None
        self._threads: ThreadPoolExecutor | None = None
        self._at_work: dict[Future[list[Heard]], Batch] = {}

    def __enter__(self) -> Crew:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self._threads is not None:
            self._threads.shutdown(cancel_futures=True)

    @property
    def at_once(self) -> int:
        """How many windows to hand over together."""
        return self._ready()[0].at_once

    @property
    def names(self) -> set[str]:
        """The results that are still to come."""
        return {name for batch in self._at_work.values() for name, _ in batch}

    def hear(self, batch: Batch) -> Iterator[tuple[str, Window, Heard]]:
        """Begin to hear a batch; yields what came of earlier ones: of all that are done, and of as many as make room.

        Raises what the hearer raised.
        """
        hearer, threads = self._ready()
        yield from self._done(at_most=hearer.workers - 1)
        self._at_work[threads.submit(hearer.hear, [window.sound for _, window in batch])] = batch

    def finish(self) -> Iterator[tuple[str, Window, Heard]]:
        """What comes of all that is still being heard."""
        yield from self._done(at_most=0)

    def _done(self, at_most: int) -> Iterator[tuple[str, Window, Heard]]:
        """What is done, waiting until at most so many batches are still at work."""
        while self._at_work:
            done, _ = wait(
                self._at_work, timeout=0 if len(self._at_work) <= at_most else None, return_when=FIRST_COMPLETED
            )
            if not done:
                return
            for future in done:
                batch = self._at_work.pop(future)
                for (name, window), heard in zip(batch, future.result(), strict=True):
                    yield name, window, heard

    def _ready(self) -> tuple[Hearer, ThreadPoolExecutor]:
        if self._hearer is None or self._threads is None:
            self._hearer = self._load()
            self._threads = ThreadPoolExecutor(self._hearer.workers)
        return self._hearer, self._threads
