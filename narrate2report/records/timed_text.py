"""Words that are shown while a recording plays: a caption, or the title of a chapter."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class TimedText:
    """`text` from `start_s` until `end_s`, in seconds from where a player shows 0:00 of one recording."""

    start_s: float
    end_s: float
    text: str


def until_next(starts: Sequence[float], end: float) -> list[tuple[float, float]]:
    """Each start with the next one, the last with `end`."""
    return list(zip(starts, [*starts[1:], end], strict=False))
