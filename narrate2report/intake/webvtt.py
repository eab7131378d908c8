"""WebVTT captions to cues, as the W3C parser (section 6.1) does, but a bad line is named, not skipped."""

from __future__ import annotations

import html
import re
from collections.abc import Sequence

from narrate2report.intake.cues import Cue, CueFault
from narrate2report.intake.stamps import webvtt_seconds

_TAG = re.compile(r"<[^>]*(?:>|$)")
_MARKS = str.maketrans({"\u200e": None, "\u200f": None, "\xa0": " "})
_ASIDE = re.compile(r"(?:NOTE|STYLE|REGION)(?:[ \t]|$)")


def is_webvtt(text: str) -> bool:
    """Whether a text begins as a WebVTT file must."""
    return re.match(r"WEBVTT(?:[ \t\n]|$)", text) is not None


def parse_webvtt(lines: Sequence[str]) -> list[Cue]:
    """All cues of a WebVTT file. Raises CueFault at the first line that is none of what may stand there."""
    cues = []
    for number, block in _blocks(lines):
        if number == 1 or _ASIDE.match(block[0]):
            if number == 1 and any("-->" in line for line in block):
                raise CueFault(2, "a blank line is missing after WEBVTT")
            continue
        timing = next((index for index, line in enumerate(block[:2]) if "-->" in line), None)
        if timing is None:
            raise CueFault(number, f"words without a time: {block[0][:40]!r}")
        start, end = _timing(block[timing], number + timing)
        for offset, line in enumerate(block[timing + 1 :], start=timing + 1):
            if "-->" in line:
                raise CueFault(number + offset, "a blank line is missing before this time")
        cues.append(Cue(number + timing, start, end, cue_text("\n".join(block[timing + 1 :]))))
    return cues


def cue_text(payload: str) -> str:
    """The words of a cue: tags taken off, character references resolved.

    >>> cue_text("<v Inspector>Sink &amp; <b>tap</b>")
    'Sink & tap'
    """
    return html.unescape(_TAG.sub("", payload)).translate(_MARKS)


def _blocks(lines: Sequence[str]) -> list[tuple[int, list[str]]]:
    """Runs of lines between blank ones, with the number of their first line."""
    blocks: list[tuple[int, list[str]]] = []
    inside = False
    for number, line in enumerate(lines, start=1):
        if not line:
            inside = False
        elif inside:
            blocks[-1][1].append(line)
        else:
            blocks.append((number, [line]))
            inside = True
    return blocks


def _timing(line: str, number: int) -> tuple[float, float]:
    before, _, after = line.partition("-->")
    settings = after.split()
    start = webvtt_seconds(before.strip())
    end = webvtt_seconds(settings[0]) if settings else None
    if start is None or end is None:
        raise CueFault(number, f"{line.strip()[:60]!r} is not a time such as 00:12.000 --> 00:15.500")
    return start, end
