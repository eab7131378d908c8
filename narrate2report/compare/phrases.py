"""Whether words and phrases stand in what was said, and whether they are denied there."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache


def has_words(text: str, phrases: Iterable[str]) -> bool:
    """Whether any of the phrases stands in a text in small letters, as whole words; plurals in -s count."""
    phrases = tuple(phrases)
    return bool(phrases) and _any_of(phrases).search(text) is not None


_DENIED = re.compile(r"(?:\b(?:no|not|never|nor|without|hardly)|n['’]t)\s+(?:[\w-]+\s+)?$")


def says(text: str, phrases: tuple[str, ...]) -> bool:
    """As `has_words`, but not where the phrase is denied: `it hasn't grown`, `no bigger`."""
    found = _any_of(phrases).finditer(text) if phrases else ()
    return any(not _DENIED.search(text[: match.start()]) for match in found)


@cache
def _any_of(phrases: tuple[str, ...]) -> re.Pattern[str]:
    choices = "|".join(re.escape(phrase.lower()) for phrase in sorted(phrases, key=len, reverse=True))
    return re.compile(rf"\b(?:{choices})(?:s|es)?\b")
