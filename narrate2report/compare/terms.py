"""What is known of conditions, components and words when two records are compared.

In comes the vocabulary in plain values, out come answers to: is this a flaw, may these two conditions be one flaw,
may these two components be one thing. The grades are chosen on the pairs in tests/compare/pairs whose names begin
with `a`, and so that one step away in one respect still pairs, and two steps only where the place agrees.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations
from typing import Literal

from narrate2report.compare.phrases import has_words
from narrate2report.compare.places import Gazetteer
from narrate2report.records.likeness import Likeness

FAILS = "fails"
"""How a failed check is named among conditions."""
IDLE = "not_working"

How = Literal["same", "alike", "akin", "grown", "shrunk", "mended"]

SAME = 1.0
SAME_THING = 0.95
ALIKE = 0.85
TURNED = 0.8
NEAR = 0.8
AKIN = 0.65


@dataclass(frozen=True)
class Tie:
    """How an earlier condition may be the later one, of 1; `here` where only at the same place."""

    grade: float
    how: How
    here: bool = False


@dataclass(frozen=True)
class Component:
    """What comparing needs of a component's block in the vocabulary."""

    group: str
    words: tuple[str, ...]
    part_of: tuple[str, ...]


@dataclass(frozen=True)
class Terms:
    """The vocabulary as comparing needs it: ids are those of its files."""

    components: Mapping[str, Component]
    classes: Mapping[str, str]
    """The class of each condition: damage, soil, fault, hazard, sound."""
    nouns: Mapping[str, tuple[str, ...]]
    """The nouns of each condition, singular."""
    rooms: Mapping[str, tuple[str, ...]]
    """The words for each kind of room."""
    likeness: Likeness

    @cached_property
    def gazetteer(self) -> Gazetteer:
        """What reads words of place."""
        words = {name: component.words for name, component in self.components.items() if component.group != "furnished"}
        return Gazetteer.of(self.likeness.places, words, self.rooms)

    def class_of(self, condition: str | None) -> str:
        """The class of a condition; a failed check is a fault."""
        return "fault" if condition == FAILS else self.classes.get(condition or "", "")

    def is_of_state(self, kind: str) -> bool:
        """Whether a flaw is of the looks or soundness of a thing, so that one that works and is there may have it."""
        fails = kind == FAILS or kind in self.likeness.conditions.fails
        return not fails and kind != "missing" and self.class_of(kind) != "fault"

    def tie(self, before: str, after: str) -> Tie | None:
        """How two conditions may be one flaw; None where they are two."""
        if before == after:
            return Tie(SAME, "same")
        if FAILS in (before, after):
            other = after if before == FAILS else before
            if other in self.likeness.conditions.fails:
                return Tie(ALIKE, "alike")
            before, after = (IDLE if one == FAILS else one for one in (before, after))
        return self._ties.get((before, after))

    def is_one_thing(self, one: str, other: str) -> bool:
        """Whether what is said of one component is said of the other."""
        return one == other or (one, other) in self._same

    def is_near(self, one: str, other: str) -> bool:
        """Whether one component is easily named for the other, being its part, its whole or its neighbour."""
        return (one, other) in self._near

    def component_grade(self, one: str, other: str) -> float:
        """How far two components may be one thing, of 1; 0 where they are two."""
        if one == other:
            return SAME
        if (one, other) in self._same:
            return SAME_THING
        return NEAR if (one, other) in self._near else 0.0

    def names(self, quote: str, component: str) -> bool:
        """Whether a quote, in small letters, holds a word for the component."""
        key = (quote, component)
        if key not in self._named:
            words = self.components[component].words if component in self.components else ()
            self._named[key] = has_words(quote, words)
        return self._named[key]

    def group_of(self, component: str) -> str:
        """The family of a component; nothing for one that is not known."""
        return self.components[component].group if component in self.components else ""

    @cached_property
    def _named(self) -> dict[tuple[str, str], bool]:
        return {}

    @cached_property
    def _ties(self) -> dict[tuple[str, str], Tie]:
        known = self.likeness.conditions
        found: dict[tuple[str, str], Tie] = {}
        for pair in _pairs(known.akin.values()):
            found[pair] = Tie(AKIN, "akin", here=True)
        for growing, here in ((known.grows_here, True), (known.grows, False)):
            for before, later in growing.items():
                for after in later:
                    found[before, after] = Tie(AKIN if here else TURNED, "grown", here)
                    if after != "missing":
                        # What was missing and is there, though broken, was put back: another matter.
                        found[after, before] = Tie(AKIN if here else TURNED, "shrunk", here)
        for pair in _pairs(known.alike.values()):
            if pair not in found or found[pair].how == "akin":
                found[pair] = Tie(ALIKE, "alike")
        for before in known.mended:
            found[before, "patched"] = Tie(ALIKE, "mended")
        return found

    @cached_property
    def _same(self) -> frozenset[tuple[str, str]]:
        return frozenset(_pairs(self.likeness.components.same.values()))

    @cached_property
    def _near(self) -> frozenset[tuple[str, str]]:
        parts = [(name, whole) for name, component in self.components.items() for whole in component.part_of]
        return frozenset(_pairs([*self.likeness.components.near.values(), *parts]))


def _pairs(lists: Iterable[Iterable[str]]) -> Iterable[tuple[str, str]]:
    """Any two of each list, in both orders."""
    for names in lists:
        for one, other in combinations(names, 2):
            yield one, other
            yield other, one
