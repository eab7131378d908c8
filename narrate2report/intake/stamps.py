"""Times as transcripts write them, to seconds.

WebVTT: W3C WebVTT, section 6.3 "collect a WebVTT timestamp". SubRip has no standard: comma or point, one to
three decimals. Notes: `[m:ss]` or `[h:mm:ss]`, with decimals if wanted.
"""

from __future__ import annotations

import re

_VTT = re.compile(r"(?:(\d{1,9}):)?(\d{2}):(\d{2})\.(\d{3})")
_SRT = re.compile(r"(?:(\d{1,9}):)?(\d{1,2}):(\d{1,2})(?:[.,](\d{1,3}))?")
_STAMP = re.compile(r"(?:(\d{1,3}):)?(\d{1,3}):(\d{2})(?:[.,](\d{1,9}))?")


def webvtt_seconds(text: str) -> float | None:
    """Seconds of a WebVTT timestamp, or None when a parser must refuse it.

    >>> webvtt_seconds("01:02:03.004")
    3723.004
    """
    found = _VTT.fullmatch(text)
    if found is None or not text.isascii():
        return None
    return _seconds(found, minutes_below=60)


def subrip_seconds(text: str) -> float | None:
    """Seconds of a SubRip time such as `00:01:02,500`, or None."""
    found = _SRT.fullmatch(text)
    if found is None or not text.isascii():
        return None
    return _seconds(found, minutes_below=60)


def note_seconds(text: str) -> float | None:
    """Seconds of what stands between the brackets of a note line, or None when it is no time of day or
    length.

    >>> note_seconds("75:10.5")
    4510.5
    """
    found = _STAMP.fullmatch(text)
    if found is None or not text.isascii():
        return None
    return _seconds(found, minutes_below=60 if found[1] is not None else 1000)


def _seconds(found: re.Match[str], minutes_below: int) -> float | None:
    hours, minutes, seconds = int(found[1] or 0), int(found[2]), int(found[3])
    if minutes >= minutes_below or seconds >= 60:
        return None
    fraction = int(found[4]) / 10 ** len(found[4]) if found[4] else 0.0
    return hours * 3600 + minutes * 60 + seconds + fraction
