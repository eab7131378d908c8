"""In which rooms things are told, as marked narrations have it: a threshold in the entry, and hardly in the attic.

How often each component was marked in each room stands in told_in.csv, counted by tests/benchmarks/count_rooms.py.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from functools import cached_property
from math import log
from pathlib import Path
from typing import Final

from narrate2report.read.lexis.tables import Table, read_table

COUNTS: Final = Path(__file__).with_name("told_in.csv")

BORROWED: Final = 8
"""How many marks a room borrows from all rooms together: few marks tell little of what is never told there."""

MOST: Final = 1.8
"""What one thing can say for a room or against it, in nats: one misheard word shall not outweigh the rest."""


class Belonging:
    """Counts, given or in a table that is read when the first question is asked."""

    def __init__(self, counts: Table | Path = COUNTS) -> None:
        """`counts`: by kind of room, how often each component was marked there."""
        self._given = counts

    def tells_for(self, component: str, room: str) -> float:
        """What a component that is told of adds to the logarithm of the odds that one is in `room`, a kind of room,
        and not just anywhere. What was never marked says nothing, and nothing is said of a room without marks."""
        here, everywhere = self._counts.get(room), self._all
        if here is None or not everywhere[component]:
            return 0.0
        anywhere = everywhere[component] / everywhere.total()
        share = (here[component] + BORROWED * anywhere) / (here.total() + BORROWED)
        return max(-MOST, min(MOST, log(share / anywhere)))

    @cached_property
    def _counts(self) -> Mapping[str, Counter[str]]:
        counts = read_table(self._given) if isinstance(self._given, Path) else self._given
        return {room: Counter(told) for room, told in counts.items()}

    @cached_property
    def _all(self) -> Counter[str]:
        return sum(self._counts.values(), Counter())
