"""Spoken numbers and measures: `a dozen`, `three quarters of an inch`, `2 1/2 in`, `forty centimetres`.

Unit factors are not needed: a size keeps the unit that was spoken, in its short form.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from narrate2report.read.words import Token
from narrate2report.records.findings import Size

ONES = {
    word: value
    for value, word in enumerate(
        "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen"
        " seventeen eighteen nineteen".split()
    )
}
TENS = {word: 10 * (i + 2) for i, word in enumerate("twenty thirty forty fifty sixty seventy eighty ninety".split())}
GROUPS = {"couple": 2, "pair": 2, "dozen": 12, "single": 1, "score": 20}
FRACTIONS = {
    "half": Fraction(1, 2),
    "quarter": Fraction(1, 4),
    "quarters": Fraction(1, 4),
    "third": Fraction(1, 3),
    "thirds": Fraction(1, 3),
    "eighth": Fraction(1, 8),
    "eighths": Fraction(1, 8),
    "sixteenth": Fraction(1, 16),
    "sixteenths": Fraction(1, 16),
    "fifth": Fraction(1, 5),
}
UNITS = {
    "inch": "in", "inches": "in", "in": "in", '"': "in", "″": "in", "”": "in",
    "foot": "ft", "feet": "ft", "ft": "ft", "yard": "yd", "yards": "yd",
    "millimeter": "mm", "millimeters": "mm", "millimetre": "mm", "millimetres": "mm", "mm": "mm", "mil": "mm",
    "centimeter": "cm", "centimeters": "cm", "centimetre": "cm", "centimetres": "cm", "cm": "cm", "centi": "cm",
    "meter": "m", "meters": "m", "metre": "m", "metres": "m",
}  # fmt: skip
LIKENESS = frozenset("size big large long wide deep across".split())


def whole_number(tokens: Sequence[Token], at: int) -> tuple[int, int] | None:
    """A whole number that starts at `at`: its value and the index after it."""
    norm = tokens[at].norm
    if norm in {"a", "an"} and at + 1 < len(tokens) and tokens[at + 1].norm in GROUPS:
        end = at + 2
        return GROUPS[tokens[at + 1].norm], end + (end < len(tokens) and tokens[end].norm == "of")
    if norm in GROUPS:
        return GROUPS[norm], at + 1
    if norm in TENS:
        extra = ONES.get(tokens[at + 1].norm, 0) if at + 1 < len(tokens) else 0
        return TENS[norm] + extra, at + (2 if 0 < extra < 10 else 1)
    if norm in ONES:
        return ONES[norm], at + 1
    if norm.isdigit() and len(norm) < 6:
        return int(norm), at + 1
    return None


def _amount(tokens: Sequence[Token], at: int) -> tuple[Fraction, int] | None:
    """A whole, fractional or mixed amount: `two and a half`, `three quarters of an`, `1/4`, `2.5`."""
    norm = tokens[at].norm
    try:
        value, end = Fraction(norm), at + 1
    except ValueError:
        if norm in FRACTIONS:
            return FRACTIONS[norm], _skip(tokens, at + 1, ("of", "a", "an"))
        found = whole_number(tokens, at)
        if found is None:
            if norm in {"a", "an"} and at + 1 < len(tokens):
                if tokens[at + 1].norm in FRACTIONS:
                    return FRACTIONS[tokens[at + 1].norm], _skip(tokens, at + 2, ("of", "a", "an"))
                if tokens[at + 1].norm in UNITS:
                    return Fraction(1), at + 1
            return None
        value, end = Fraction(found[0]), found[1]
    except ZeroDivisionError:
        return None
    if end < len(tokens) and tokens[end].norm in FRACTIONS:
        return value * FRACTIONS[tokens[end].norm], _skip(tokens, end + 1, ("of", "a", "an"))
    if end < len(tokens) and "/" in tokens[end].norm and value.denominator == 1:
        try:
            return value + Fraction(tokens[end].norm), end + 1
        except (ValueError, ZeroDivisionError):
            return value, end
    if [token.norm for token in tokens[end : end + 3]] == ["and", "a", "half"]:
        return value + Fraction(1, 2), end + 3
    return value, end


def _skip(tokens: Sequence[Token], at: int, words: tuple[str, ...]) -> int:
    while at < len(tokens) and tokens[at].norm in words:
        at += 1
    return at


def find_size(tokens: Sequence[Token], text: str) -> Size | None:
    """The first size spoken in these tokens, read into value and unit where that is safe.

    A likeness (`about the size of a quarter`) stays in words.
    """
    for at in range(len(tokens)):
        found = _amount(tokens, at)
        if found is None:
            continue
        value, end = found
        if end < len(tokens) and tokens[end].norm in UNITS and end > at:
            words = text[tokens[at].start : tokens[end].end]
            if tokens[end].norm == "in" and not tokens[at].norm[0].isdigit():
                continue
            return Size(text=words, value=round(float(value), 4), unit=UNITS[tokens[end].norm])
    norms = [token.norm for token in tokens]
    for at, norm in enumerate(norms):
        if norm in LIKENESS and norms[at + 1 : at + 2] in (["of"], ["as"]):
            return Size(text=text[tokens[at].start : tokens[min(len(tokens), at + 5) - 1].end])
    return None
