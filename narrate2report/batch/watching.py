"""Following folders: what came or changed, once it lies still."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

from narrate2report.batch.places import Here
from narrate2report.records.task import Lying

STILL_S = 5.0
"""A file that did not change for so long is whole, as far as one can see from outside; listening checks again."""
LOOK_MS = 1000


class Still:
    """Tells which files did not change for a while, by looking at them again and again."""

    def __init__(self, still_s: float = STILL_S, clock: Callable[[], float] = time.monotonic) -> None:
        self._still_s, self._clock = still_s, clock
        self._since: dict[Lying, float] = {}
        self.waiting = False
        """Whether some file was seen that may still be being written."""

    def of(self, lying: Iterable[Lying]) -> tuple[Lying, ...]:
        """Those of these files that are as they were `still_s` ago."""
        now = self._clock()
        self._since = {each: self._since.get(each, now) for each in lying}
        whole = tuple(each for each, since in self._since.items() if now - since >= self._still_s)
        self.waiting = len(whole) < len(self._since)
        return whole


def only_still(folders: Iterable[Here], still: Still) -> list[Here]:
    """The folders without recordings that are still being written."""
    folders = list(folders)
    whole = set(still.of(lying for here in folders for lying in here.recordings))
    return [
        Here(here.folder, tuple(lying for lying in here.recordings if lying in whole), here.records) for here in folders
    ]


def rounds(folders: Iterable[str]) -> Iterator[bool]:
    """Once at first, then about every second, whether anything changed below the folders meanwhile."""
    from watchfiles import watch

    yield True
    for changes in watch(*map(Path, folders), rust_timeout=LOOK_MS, yield_on_timeout=True, raise_interrupt=True):
        yield bool(changes)
