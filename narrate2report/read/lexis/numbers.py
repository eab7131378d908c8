"""Spoken numbers and measures: `half a dozen`, `two and a quarter inches`, `an inch and a half`, `2½ in`, `3/8"`.

No unit is converted: a size keeps the unit that was spoken, in its short form (inch and foot as in common use,
metric symbols as in the SI brochure).
"""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from fractions import Fraction

from narrate2report.read.lexis.words import Token
from narrate2report.records.findings import Size
from narrate2report.records.number_words import ONES, TENS

GROUPS = {"couple": 2, "pair": 2, "dozen": 12, "single": 1, "score": 20, "hundred": 100}
NUMBER_WORDS = frozenset({*ONES, *TENS, *GROUPS, "a", "an", "half"})
"""What a whole number can start with, when it is not in figures."""

PARTS = {"half": 2, "halves": 2, "third": 3, "quarter": 4, "fifth": 5, "eighth": 8, "sixteenth": 16}
FRACTIONS = {form: Fraction(1, parts) for word, parts in PARTS.items() for form in (word, f"{word}s")}
UNITS = {
    "inch": "in", "inches": "in", "in": "in", '"': "in", "″": "in", "”": "in", "''": "in",
    "foot": "ft", "feet": "ft", "ft": "ft", "yard": "yd", "yards": "yd",
    "millimeter": "mm", "millimeters": "mm", "millimetre": "mm", "millimetres": "mm", "mm": "mm",
    "mil": "mm", "mils": "mm",
    "centimeter": "cm", "centimeters": "cm", "centimetre": "cm", "centimetres": "cm", "cm": "cm", "centi": "cm",
    "meter": "m", "meters": "m", "metre": "m", "metres": "m",
}  # fmt: skip
INCH_MARKS = frozenset({'"', "″", "”"})
LIKENESS = frozenset("size big large long wide deep across".split())
LIKENESS_WORDS = 5
"""How many words of a likeness are kept: `about the size of a dime`."""

LONGEST_NUMBER = 5
"""Digits of a count; longer ones are serial numbers."""


def whole_number(tokens: Sequence[Token], at: int) -> tuple[int, int] | None:
    """A whole number that starts at `at`: its value and the index after it."""
    first = tokens[at].norm if at < len(tokens) else ""
    if first not in NUMBER_WORDS and not first.isdigit():
        return None
    norms = [token.norm for token in tokens[at : at + 4]]
    if norms[:3] == ["half", "a", "dozen"]:
        return 6, at + 3
    if norms[:1] in (["a"], ["an"]) and len(norms) > 1 and norms[1] in GROUPS:
        return GROUPS[norms[1]], at + 2 + (norms[2:3] == ["of"])
    if norms[0] in GROUPS:
        return GROUPS[norms[0]], at + 1
    value, end = _below_hundred(norms, at)
    if value is None:
        return None
    if norms[end - at : end - at + 1] in (["dozen"], ["hundred"]):
        return value * GROUPS[norms[end - at]], end + 1
    return value, end


def _below_hundred(norms: Sequence[str], at: int) -> tuple[int | None, int]:
    first = norms[0]
    if first in TENS:
        ones = ONES.get(norms[1], 0) if len(norms) > 1 else 0
        return (TENS[first] + ones, at + 2) if 0 < ones < 10 else (TENS[first], at + 1)
    if first in ONES:
        return ONES[first], at + 1
    if first.isascii() and first.isdigit() and len(first) <= LONGEST_NUMBER:
        return int(first), at + 1
    return None, at


def find_size(tokens: Sequence[Token], text: str) -> Size | None:
    """The first size spoken in these tokens, read into value and unit where that is safe.

    A likeness (`about the size of a quarter`) stays in words.
    """
    for at in range(len(tokens)):
        found = _measure(tokens, at)
        if found is not None:
            value, unit, end = found
            words = text[tokens[at].start : tokens[end - 1].end]
            return Size(text=words, value=round(float(value), 4), unit=unit)
    norms = [token.norm for token in tokens]
    for at, norm in enumerate(norms):
        if norm in LIKENESS and norms[at + 1 : at + 2] in (["of"], ["as"]):
            last = min(len(tokens), at + LIKENESS_WORDS) - 1
            return Size(text=text[tokens[at].start : tokens[last].end])
    return None


def _measure(tokens: Sequence[Token], at: int) -> tuple[Fraction, str, int] | None:
    """An amount with its unit: `two and a half inches`, `an inch and a half`."""
    written = tokens[at].norm.rstrip(".")
    if written[-1:] in INCH_MARKS and (inches := _written(written[:-1])) is not None:
        return inches, "in", at + 1
    amount = _amount(tokens, at)
    if amount is None:
        return None
    value, end = amount
    end = _skip(tokens, end, ("of", "a", "an"))
    if end >= len(tokens) or tokens[end].norm not in UNITS:
        return None
    if tokens[end].norm == "in" and not tokens[end - 1].norm[-1].isdigit():
        return None
    unit, end = UNITS[tokens[end].norm], end + 1
    more = _and_part(tokens, end)
    return (value + more[0], unit, more[1]) if more else (value, unit, end)


def _amount(tokens: Sequence[Token], at: int) -> tuple[Fraction, int] | None:
    """A whole, fractional or mixed amount: `three quarters`, `1 3/4`, `2½`, `a`, `two and a quarter`."""
    first = tokens[at].norm
    written = _written(first)
    if written is None and first in {"a", "an"}:
        if at + 1 < len(tokens) and tokens[at + 1].norm in FRACTIONS:
            return FRACTIONS[tokens[at + 1].norm], at + 2
        return (Fraction(1), at + 1) if at + 1 < len(tokens) and tokens[at + 1].norm in UNITS else None
    if written is None and first in FRACTIONS:
        return FRACTIONS[first], at + 1
    if written is not None:
        value, end = written, at + 1
    else:
        whole = whole_number(tokens, at)
        if whole is None:
            return None
        value, end = Fraction(whole[0]), whole[1]
    if end < len(tokens) and tokens[end].norm in FRACTIONS:
        return value * FRACTIONS[tokens[end].norm], end + 1
    if end < len(tokens) and value.denominator == 1 and (part := _written(tokens[end].norm)) is not None and part < 1:
        return value + part, end + 1
    more = _and_part(tokens, end)
    return (value + more[0], more[1]) if more else (value, end)


def _and_part(tokens: Sequence[Token], at: int) -> tuple[Fraction, int] | None:
    """`and a half`, `and three quarters` after a whole amount or its unit."""
    norms = [token.norm for token in tokens[at : at + 3]]
    if len(norms) < 3 or norms[0] != "and" or norms[2] not in FRACTIONS:
        return None
    if norms[1] in {"a", "an"}:
        return FRACTIONS[norms[2]], at + 3
    times = ONES.get(norms[1])
    return (times * FRACTIONS[norms[2]], at + 3) if times else None


def _written(norm: str) -> Fraction | None:
    """A number in figures: `2`, `2.5`, `.5`, `3/8`, `2½`."""
    if not norm or not (norm[0].isdigit() or norm[0] == "." or unicodedata.numeric(norm[0], None) is not None):
        return None
    vulgar = unicodedata.numeric(norm[-1], None) if not norm[-1].isascii() else None
    try:
        if vulgar is not None:
            return Fraction(norm[:-1] or 0) + Fraction(vulgar).limit_denominator(16)
        return Fraction(norm)
    except (ValueError, ZeroDivisionError):
        return None


def _skip(tokens: Sequence[Token], at: int, words: tuple[str, ...]) -> int:
    while at < len(tokens) and tokens[at].norm in words:
        at += 1
    return at
