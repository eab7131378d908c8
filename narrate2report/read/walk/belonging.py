"""In which rooms things are told, as marked narrations have it: a threshold in the entry, and hardly in the attic.

How often each component was marked in each room stands in told_in.csv, counted by tests/benchmarks/count_rooms.py.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from functools import cached_property
from math import log
from pathlib import Path
from typing import Final

from narrate2report.read.lexis.tables import Table, read_table

COUNTS: Final = Path(__file__).with_name("told_in.csv")

BORROWED: Final = 8
"""How many marks a room borrows from all rooms together: few marks tell little of what is never told there."""

MOST: Final = 2.5
"""What one thing can say for a room or against it, in nats: one misheard word shall not outweigh the rest."""


class Belonging:
    """Counts, given or in a table that is read when the first question is asked."""

    def __init__(self, counts: Table | Path = COUNTS) -> None:
        """`counts`: by kind of room, how often each component was marked there."""
        self._given = counts

    def speaks_for(self, components: Iterable[str], room: str, other: str) -> float:
        """What the components, each once, add to the logarithm of the odds that they are told in `room` and not in
        `other`, both without number or name. What was marked in neither says nothing, and so do rooms without marks."""
        here, there = (self._counts.get(one, Counter()) for one in (room, other))
        if not here or not there:
            return 0.0
        return sum(
            max(-MOST, min(MOST, self._share(one, here) - self._share(one, there)))
            for one in sorted(set(components))
            if here[one] or there[one]
        )

    def _share(self, component: str, told: Counter[str]) -> float:
        borrowed = BORROWED * self._all[component] / self._all.total()
        return log((told[component] + borrowed) / (told.total() + BORROWED))

    @cached_property
    def _counts(self) -> Mapping[str, Counter[str]]:
        counts = read_table(self._given) if isinstance(self._given, Path) else self._given
        return {room: Counter(told) for room, told in counts.items()}

    @cached_property
    def _all(self) -> Counter[str]:
        return sum(self._counts.values(), Counter())
