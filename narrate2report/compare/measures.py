"""How large and how many a speaker said: centimetres and a number, where they can be read."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache

from narrate2report.records.findings import Entry, Size

CENTIMETRES = {"in": 2.54, "inch": 2.54, "inches": 2.54, '"': 2.54, "ft": 30.48, "foot": 30.48, "feet": 30.48} | {
    "yd": 91.44,
    "mm": 0.1,
    "cm": 1.0,
    "m": 100.0,
}
"""International yard and pound agreement of 1959: an inch is 25.4 mm."""


def size_told(entry: Entry, quote: str, borrowed: Mapping[str, float]) -> float | None:
    """How large, in centimetres: measured, or as large as something that everybody knows (`quarter-size`)."""
    measured = centimetres(entry.size)
    if measured is not None or not borrowed:
        return measured
    found = _borrowed(tuple(borrowed)).search(quote)
    return borrowed[found[1] or found[2]] if found else None


def centimetres(size: Size | None) -> float | None:
    """A size in centimetres where it can be read."""
    if size is None or size.value is None or size.value <= 0 or size.unit is None:
        return None
    factor = CENTIMETRES.get(size.unit.strip().lower().rstrip("."))
    return size.value * factor if factor else None


def count_told(entry: Entry, quote: str, nouns: tuple[str, ...]) -> int | None:
    """How many: a number, or one where it says `a crack`."""
    if entry.quantity is not None:
        return entry.quantity
    return 1 if nouns and _single(nouns).search(quote) else None


@cache
def _borrowed(things: tuple[str, ...]) -> re.Pattern[str]:
    choices = "|".join(re.escape(thing) for thing in sorted(things, key=len, reverse=True))
    as_large = r"(?:size of|as big as|as large as|big as)\s+(?:a|an|my|your)"
    return re.compile(rf"\b{as_large}\s+({choices})\b|\b({choices})[- ]sized?\b")


@cache
def _single(nouns: tuple[str, ...]) -> re.Pattern[str]:
    choices = "|".join(re.escape(noun) for noun in sorted(nouns, key=len, reverse=True))
    return re.compile(rf"\b(?:a|an|one|single)\s+(?:[\w-]+\s+){{0,2}}(?:{choices})\b")
