"""A reader of media fragments written from the W3C grammar, to check the links that we write."""

from __future__ import annotations

import re
from urllib.parse import unquote

_NPT = r"(?:\d+(?:\.\d*)?|(?:\d+:)?[0-5]\d:[0-5]\d(?:\.\d*)?)"
_RANGE = re.compile(rf"(?:npt:)?(?:({_NPT})(?:,({_NPT}))?|,({_NPT}))")


def temporal(fragment: str) -> tuple[float, float | None] | None:
    """Start and end in seconds of the last valid `t` in a fragment; None where there is none."""
    found = None
    for part in fragment.split("&"):
        name, _, value = part.partition("=")
        match = _RANGE.fullmatch(unquote(value)) if unquote(name) == "t" else None
        if match is None:
            continue
        start = _seconds(match[1]) if match[1] else 0.0
        end = match[2] or match[3]
        if end is None or _seconds(end) > start:
            found = (start, None if end is None else _seconds(end))
    return found


def _seconds(npt: str) -> float:
    total = 0.0
    for part in npt.split(":"):
        total = total * 60 + float(part)
    return total
