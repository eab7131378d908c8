"""SubRip captions to cues. No standard exists; programs write blocks of counter, times and text."""

from __future__ import annotations

import re
from collections.abc import Sequence

from narrate2report.intake.cues import Cue, CueFault
from narrate2report.intake.stamps import subrip_seconds

_MARKUP = re.compile(r"</?(?:i|b|u|s|font)(?:\s[^>]*)?>|\{\\[^}]*\}", re.IGNORECASE)


def is_subrip(text: str) -> bool:
    """Whether a text holds a SubRip time line among its first lines."""
    return any("-->" in line for line in text.split("\n", 50)[:50])


def parse_subrip(lines: Sequence[str]) -> list[Cue]:
    """All cues of a SubRip file; blank lines inside a cue's text are forgiven.

    Raises CueFault at a time line that is none, or at words before the first time.
    """
    at = [number for number, line in enumerate(lines) if "-->" in line]
    for number, line in enumerate(lines[: at[0]] if at else lines):
        if line.strip() and not line.strip().isdigit():
            raise CueFault(number + 1, f"words without a time: {line.strip()[:40]!r}")
    cues = []
    for index, here in enumerate(at):
        until = at[index + 1] if index + 1 < len(at) else len(lines)
        body = list(lines[here + 1 : until])
        if index + 1 < len(at) and body and body[-1].strip().isdigit():
            body.pop()  # the next cue's counter
        start, end = _timing(lines[here], here + 1)
        cues.append(Cue(here + 1, start, end, _MARKUP.sub("", "\n".join(body))))
    return cues


def _timing(line: str, number: int) -> tuple[float, float]:
    before, _, after = line.partition("-->")
    start = subrip_seconds(before.strip())
    end = subrip_seconds(after.split()[0]) if after.split() else None
    if start is None or end is None:
        raise CueFault(number, f"{line.strip()[:60]!r} is not a time such as 00:00:12,000 --> 00:00:15,500")
    return start, end
