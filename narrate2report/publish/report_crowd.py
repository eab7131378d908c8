"""A summary that stays one: where very much is wrong, a line a room with the numbers of its entries.

The entries themselves stand in full in their rooms; a list of hundreds of them at a glance would be none.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from narrate2report.publish.language import Language
from narrate2report.publish.report_values import Crowd, Finding

GLANCE = 120
"""Entries that are listed one by one: four pages or so."""


def crowded(findings: Sequence[Finding], words: Language) -> tuple[Crowd, ...]:
    """A line a room, or none where the entries are few enough to be listed."""
    return tuple(_rooms(findings, words)) if len(findings) > GLANCE else ()


def _rooms(findings: Sequence[Finding], words: Language) -> Iterator[Crowd]:
    for room in dict.fromkeys(one.room for one in findings):
        inside = [one for one in findings if one.room == room]
        counts = Counter(one.state for one in inside)
        told = ", ".join(f"{state}: {words.number(number)}" for state, number in counts.items())
        yield Crowd(room, ranges(one.number for one in inside), told, inside[0].number)


def ranges(numbers: Iterable[int]) -> str:
    """`1–3, 7`: rising numbers, those that follow each other drawn together."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(str(run[0]) if len(run) == 1 else f"{run[0]}–{run[-1]}" for run in runs)
