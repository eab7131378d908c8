"""Words that are shown while a recording plays: a caption, or the title of a chapter."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class TimedText:
    """`text` from `start_s` until `end_s`, in seconds from where a player shows 0:00 of one recording."""

    start_s: float
    end_s: float
    text: str
