"""Where a speaker breathes: the commas and stops of speech that was written down without any.

A recogniser that gives no marks runs statements into each other. Each gap between two words is weighed by its signs
(`breath_signs`), left to right, and where they speak for a breath, the speech is read as if a mark stood there. The
weights are those of a maximum entropy model (Berger, Della Pietra and Della Pietra 1996), learned by
tests/benchmarks/learn_breaths.py from narrations with marks; they stand in breaths.csv, in hundredths.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property
from pathlib import Path

from narrate2report.read.lexis.phrasebook import PhraseBook
from narrate2report.read.lexis.vocabulary import SEVERAL
from narrate2report.read.lexis.words import Token
from narrate2report.read.speech.breath_limits import holds_together
from narrate2report.read.speech.breath_signs import Breath, Observed
from narrate2report.read.speech.changes import Reread
from narrate2report.read.speech.clauses import MARKS
from narrate2report.read.speech.sentences import Pause

WEIGHTS = Path(__file__).with_name("breaths.csv")

Weights = Mapping[str, tuple[int, int]]
"""For each sign what it adds to a comma and to a stop, in hundredths; without a breath is always 0."""

LEAST_WORDS_A_MARK = 12
"""Speech with more marks than one to so many words was written by somebody who set them."""

ALWAYS = "always"
"""The sign that every gap has."""


class Breaths:
    """Finds the breaths of texts without marks; the weights are read when the first is asked for."""

    def __init__(self, book: PhraseBook, weights: Weights | None = None) -> None:
        self._book, self._given = book, weights

    @cached_property
    def _weights(self) -> Weights:
        return read_weights(WEIGHTS) if self._given is None else self._given

    def pauses(self, text: Reread) -> tuple[Pause, ...]:
        """Where a text pauses, in terms of how it was heard; never inside what is read otherwise."""
        found = [(text.offsets[breath.at], breath.is_stop) for breath in self.find(text.tokens)]
        return tuple(Pause(offset, is_stop) for offset, is_stop in found if offset is not None)

    def find(self, tokens: Sequence[Token]) -> list[Breath]:
        """The breaths in a run of speech, in order, beyond its marks; none where it was written with marks."""
        marks = {at for at, token in enumerate(tokens) if token.text in MARKS}
        if len(marks) * LEAST_WORDS_A_MARK > len(tokens):
            return []
        matches = self._book.find(tokens)
        observed = Observed(tokens, matches)
        found: list[Breath] = []
        last = Breath(0, is_stop=False)
        numbered = {room.end for room in matches.terms if any(sense.id in SEVERAL for sense in room.of("room"))}
        for at in range(1, len(tokens)):
            if at - 1 in marks:
                last = Breath(at, is_stop=False)
            if at in marks or at - 1 in marks:
                continue
            comma, stop = self._weigh((ALWAYS, *observed.signs(at, last)))
            if max(comma, stop) > 0 and not holds_together(tokens, at, last.at, numbered):
                last = Breath(at, is_stop=stop > comma and observed.says_something(last.at, at))
                found.append(last)
        return found

    def _weigh(self, signs: Iterable[str]) -> tuple[int, int]:
        comma = stop = 0
        for sign in signs:
            if weights := self._weights.get(sign):
                comma += weights[0]
                stop += weights[1]
        return comma, stop


def read_weights(path: Path) -> Weights:
    """The weights in a table of signs."""
    with path.open(encoding="utf-8", newline="") as table:
        return {row["sign"]: (int(row["comma"]), int(row["stop"])) for row in csv.DictReader(table)}
