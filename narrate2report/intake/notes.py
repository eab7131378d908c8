"""Notes whose lines start with a time, `[0:12] The sink is clean.`, to cues."""

from __future__ import annotations

import re
from collections.abc import Sequence

from narrate2report.intake.cues import Cue, CueFault
from narrate2report.intake.stamps import note_seconds

_STAMPED = re.compile(r"\s*\[\s{0,9}(?=[\d.,]{0,9}\d:)([\d:.,]{1,40})\s{0,9}\]\s*(.*)", re.DOTALL)
"""A time in brackets; its length is bounded, so that a line of digits and colons costs no more than any other."""


def has_stamps(text: str) -> bool:
    """Whether any line of a text starts with a time in brackets."""
    return any(_STAMPED.match(line) for line in text.split("\n"))


def parse_notes(lines: Sequence[str]) -> tuple[list[Cue], list[int]]:
    """All timed lines as cues without ends, and the numbers of the lines before the first time, which has
    none.

    Raises CueFault at a bracket that looks like a time and is none.
    """
    cues: list[Cue] = []
    untimed = []
    for number, line in enumerate(lines, start=1):
        found = _STAMPED.match(line)
        if found is not None:
            start = note_seconds(found[1])
            if start is None:
                raise CueFault(number, f"[{found[1][:20]}] is not a time such as [1:05] or [1:02:05]")
            cues.append(Cue(number, start, None, found[2]))
        elif line.strip() and cues:
            above = cues[-1]
            cues[-1] = Cue(above.line, above.start, None, f"{above.text}\n{line}")
        elif line.strip():
            untimed.append(number)
    return cues, untimed
