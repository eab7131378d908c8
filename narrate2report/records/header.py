"""Which walk this was: what was given, spoken and clocked, side by side, and where they disagree.

A clash is shown and never settled: which source is right is for a person to say.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from itertools import combinations

from narrate2report.errors import BadInput
from narrate2report.records.findings import Header, Sourced
from narrate2report.records.number_words import ONES, TENS

GIVEN = "given"
"""The source of a fact that the person at the keyboard typed."""

SPOKEN = "spoken at "
"""How the source of a spoken fact begins; the time follows."""
OWN_CLOCK = "the recording's own clock"

_SINGLE_FACTS = ("kind", "unit", "inspector", "date")
_WORD = re.compile(r"[a-z]+|\d+")
_FILLERS = frozenset("the unit apartment apt flat suite number no".split())
_TWENTY_ONE = re.compile(rf"\b({'|'.join(TENS)})(?:[ -]({'|'.join(list(ONES)[1:10])})\b)?")


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
        if any(disagree(one.value, other.value) for one, other in combinations(sources, 2)):
            told = ", ".join(f"{source.value} ({source.source})" for source in sources)
            found.append(f"{name.replace('_', ' ')}: {told}")
    return tuple(found)


def first_told(sources: tuple[Sourced, ...]) -> str | None:
    """What the first source says of a fact, if any does: what was given comes before what was spoken or clocked."""
    return sources[0].value if sources else None


def _first(given: str | None, others: tuple[Sourced, ...]) -> tuple[Sourced, ...]:
    return others if given is None else (Sourced(value=given, source=GIVEN), *others)


def disagree(one: str, other: str) -> bool:
    """Whether two sources cannot both be right: `Unit 2-B` and `two b`, `--03-06` and `2026-03-06` can."""
    for shorter, longer in ((one, other), (other, one)):
        if shorter.startswith("--") and longer.endswith(shorter[1:]):
            return False
    return in_common(one) != in_common(other)


def in_common(value: str) -> str:
    """What two spellings of the same fact have in common: `2b` of `Unit 2-B` and of `two b`, `21` of `twenty-one`."""
    return "".join(_parts(value))


def tells_less(one: str, other: str) -> bool:
    """Whether one of the two stops where the other goes on: `two` where the other has `two b`, never `2` of `21`."""
    shorter, longer = sorted((_parts(one), _parts(other)), key=len)
    return bool(shorter) and len(shorter) < len(longer) and longer[: len(shorter)] == shorter


def _parts(value: str) -> tuple[str, ...]:
    figures = _TWENTY_ONE.sub(lambda tens: str(TENS[tens[1]] + ONES.get(tens[2], 0)), value.lower())
    words = (str(ONES.get(word, word)) for word in _WORD.findall(figures))
    return tuple(word for word in words if word not in _FILLERS)


def _is_day(text: str) -> bool:
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False
