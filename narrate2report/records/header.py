"""Which walk this was: what was given, spoken and clocked, side by side, and where they disagree.

A clash is shown and never settled: which source is right is for a person to say.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date

from narrate2report.errors import BadInput
from narrate2report.records.findings import Header, Sourced

GIVEN = "given"
"""The source of a fact that the person at the keyboard typed."""

_SINGLE_FACTS = ("kind", "unit", "inspector", "date")
_ARTICLES = re.compile(r"\b(?:the|unit|apartment|apt|flat|number|no)\b|[^a-z0-9]+")


@dataclass(frozen=True)
class GivenFacts:
    """What the person at the keyboard says of the walk. Raises BadInput for a date that is none."""

    kind: str | None = None
    unit: str | None = None
    inspector: str | None = None
    residents: tuple[str, ...] = ()
    date: str | None = None

    def __post_init__(self) -> None:
        for name in ("unit", "inspector"):
            if getattr(self, name) is not None and not getattr(self, name).strip():
                raise BadInput(f"--{name} is empty; leave it out or say it")
        if self.date is not None and not _is_day(self.date):
            raise BadInput(f"--date {self.date}: not a day; write it as 2026-03-31")


def with_given(header: Header, given: GivenFacts) -> Header:
    """The header with the given facts in front of the others, and its clashes found anew."""
    facts = {name: _first(getattr(given, name), getattr(header, name)) for name in _SINGLE_FACTS}
    residents = tuple(Sourced(value=name, source=GIVEN) for name in given.residents) + header.residents
    return Header(**facts, residents=residents, clashes=clashes(facts))


def clashes(facts: dict[str, tuple[Sourced, ...]]) -> tuple[str, ...]:
    """Each fact whose sources disagree, in plain words: `unit: 2B (given), 2D (spoken at 0:06)`."""
    found = []
    for name, sources in facts.items():
        if len({_compared(source.value) for source in sources}) > 1:
            told = ", ".join(f"{source.value} ({source.source})" for source in sources)
            found.append(f"{name.replace('_', ' ')}: {told}")
    return tuple(found)


def _first(given: str | None, others: tuple[Sourced, ...]) -> tuple[Sourced, ...]:
    return others if given is None else (Sourced(value=given, source=GIVEN), *others)


def _compared(value: str) -> str:
    """What two spellings of the same fact have in common: `Unit 2-B` and `2b` are one unit."""
    return _ARTICLES.sub("", value.lower())


def _is_day(text: str) -> bool:
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False
