"""Moments in a recording: seconds as float in memory, written to 0.01 s, shown as m:ss.

Media fragments follow W3C Media Fragments URI 1.0, section 4.2.1 (temporal dimension, npt).
"""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Literal
from urllib.parse import quote

LEAD_S = 0.15
"""How much before its first word a statement starts to play, in seconds (the contract allows 0.5)."""


def rounded(seconds: float) -> float:
    """Seconds to the 0.01 s that files carry."""
    return round(seconds + 0.0, 2)


def stamp(at: datetime | None = None, precision: Literal["seconds", "milliseconds"] = "milliseconds") -> str:
    """A moment in the world, or now, as records carry it: RFC 3339 in UTC, `2026-03-06T10:00:00.000Z`."""
    return (at or datetime.now(UTC)).astimezone(UTC).isoformat(timespec=precision).replace("+00:00", "Z")


def clock(seconds: float) -> str:
    """`75.3` as `1:15`, `3675` as `1:01:15`: what a player shows at that moment."""
    whole = int(seconds)
    hours, rest = divmod(whole, 3600)
    minutes, secs = divmod(rest, 60)
    return f"{hours}:{minutes:02d}:{secs:02d}" if hours else f"{minutes}:{secs:02d}"


def so_far(done_s: float, total_s: float) -> str:
    """`1:05 of 3:42`, or `1:05` where it is not known how long all of it is (0)."""
    return f"{clock(done_s)} of {clock(total_s)}" if total_s else clock(done_s)


def fragment(file_name: str, start: float, end: float) -> str:
    """A media-fragment link that plays one stretch: `clip.mp4#t=12.20,18.14`."""
    return f"{quote(file_name)}#t={start:.2f},{end:.2f}"
