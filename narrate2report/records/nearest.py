"""The known name that somebody who misspelt one most likely meant."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from difflib import get_close_matches
from typing import Any

CLOSE = 0.66
"""How alike two names are, of 1, to be taken for one that was misspelt: one letter of three."""


def nearest(name: str, known: Sequence[str] | Mapping[str, Any], ending: str = "") -> str:
    """The known name that is most like `name`, or all of them."""
    dot = f".{ending}" if ending else ""
    close = get_close_matches(name.lower(), list(known), n=1, cutoff=CLOSE)
    if close:
        return f"{close[0]}{dot}"
    return "one of " + ", ".join(f"{one}{dot}" for one in sorted(known))
