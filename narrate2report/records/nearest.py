"""The known name that somebody who misspelt one most likely meant."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from difflib import get_close_matches

CLOSE = 0.66
"""How alike two names are, of 1, to be taken for one that was misspelt: one letter of three."""


def close_to(name: str, known: Iterable[str]) -> str | None:
    """The known name that is most like `name`; None where none is like it. Their order is no matter."""
    close = get_close_matches(name.lower(), list(known), n=1, cutoff=CLOSE)
    return close[0] if close else None


def nearest(name: str, known: Collection[str], ending: str = "") -> str:
    """The known name that is most like `name`, or all of them."""
    dot = f".{ending}" if ending else ""
    close = close_to(name, known)
    return f"{close}{dot}" if close else "one of " + ", ".join(f"{one}{dot}" for one in sorted(known))
