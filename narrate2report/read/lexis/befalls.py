"""How much likelier a flaw is of one component than of any: drips befall taps, streaks befall glass."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from math import log

KEEPS = 1.0
"""How many sayings are added to those counted and to those expected: what is rare tells little by being absent."""


@dataclass(frozen=True)
class Befalls:
    """How often each condition was marked of each component, as `vocab/befalls.yaml` holds it."""

    counts: Mapping[str, Mapping[str, int]]

    def speaks_for(self, condition: str, component: str) -> float:
        """The logarithm of how much more often the condition was marked of this component than chance would have it.

        0 tells nothing. Chance is what the two have each by themselves; shrunk towards 0 where little was counted.
        """
        known = self._told
        expected = self._of_condition[condition] * self._of_component[component] / known if known else 0.0
        told = self.counts.get(condition, {}).get(component, 0)
        return log((told + KEEPS) / (expected + KEEPS))

    @cached_property
    def _of_component(self) -> Counter[str]:
        total: Counter[str] = Counter()
        for told in self.counts.values():
            total.update(told)
        return total

    @cached_property
    def _told(self) -> int:
        return self._of_component.total()

    @cached_property
    def _of_condition(self) -> Counter[str]:
        return Counter({condition: sum(told.values()) for condition, told in self.counts.items()})
