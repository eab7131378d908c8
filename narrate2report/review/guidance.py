"""What has been published about wear and damage, to stand beside a change. It is shown, and decides nothing.

`references/wear-vs-damage.csv` holds the published lists and definitions, each with its source and how well that was
verified; `references/wear-applies.csv` says which of our components and conditions a row speaks of (`*` for any).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from narrate2report.records.findings import Entry
from narrate2report.records.references import table

FAILED = "not_working"
"""The condition that guidance is looked up by where a check failed."""


@dataclass(frozen=True)
class Guidance:
    """A row of the published lists, every column as it stands there."""

    id: str
    component_group: str
    component: str
    ordinary_wear_example: str
    damage_example: str
    kind: str
    source: str
    verified: str
    confidence: str
    note: str


@dataclass(frozen=True)
class Applies:
    """Which components and conditions a row speaks of."""

    components: frozenset[str]
    conditions: frozenset[str]

    def to(self, component: str, condition: str | None) -> bool:
        """Whether it speaks of this component and of what was seen of it."""
        return self.to_component(component) and condition in self.conditions

    def to_component(self, component: str) -> bool:
        """Whether it names this component, or holds for any."""
        return component in self.components or "*" in self.components


@cache
def published() -> dict[str, Guidance]:
    """Every row by its id, in the order of the file."""
    return {row["id"]: Guidance(**row) for row in table("wear-vs-damage.csv")}


@cache
def applying() -> dict[str, Applies]:
    """Of what the rows about components speak, by their ids."""
    return {
        row["id"]: Applies(frozenset(row["components"].split()), frozenset(row["conditions"].split()))
        for row in table("wear-applies.csv")
    }


def definitions() -> tuple[Guidance, ...]:
    """How laws word it, place by place, and where they contradict each other."""
    return tuple(row for row in published().values() if row.id not in applying())


def guidance_for(*entries: Entry) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The ids of the rows that speak of these flaws, and of those that speak of their components otherwise."""
    seen = {(entry.component, FAILED if entry.kind == "check" else entry.condition) for entry in entries}
    return _speaking_of(frozenset(seen))


@cache
def _speaking_of(seen: frozenset[tuple[str, str | None]]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The same for components and conditions: of 1,500 changes most are of a few kinds."""
    fitting = tuple(name for name, one in applying().items() if any(one.to(*what) for what in seen))
    named = ((name, one) for name, one in applying().items() if "*" not in one.components)
    others = (name for name, one in named if any(one.to_component(component) for component, _ in seen))
    return fitting, tuple(name for name in others if name not in fitting)
