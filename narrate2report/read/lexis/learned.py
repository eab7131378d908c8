"""What was learned of how something is worded: by the question that is asked, what each sign adds to the answer."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cached_property
from pathlib import Path

from narrate2report.read.lexis.tables import read_table

Sign = str
"""Something observed, by name."""

ALWAYS = "always"
"""The sign that everything has."""

Weights = Mapping[str, Mapping[Sign, int]]
"""By question, what each sign adds, in hundredths of a logit."""

TELLING = ("w ", "b ")
"""How the signs begin that are words of the sentence."""

TOLD = 3
"""How many words a reason names."""


class Learned:
    """Weights, given or in a table that is read when the first question is asked."""

    def __init__(self, weights: Weights | Path) -> None:
        self._given = weights

    @cached_property
    def _weights(self) -> Weights:
        return read_table(self._given) if isinstance(self._given, Path) else self._given

    def total(self, question: str, signs: Iterable[Sign]) -> int:
        """What the signs add to an answer, each once; above 0 where it is likelier yes than no."""
        weights = self._weights.get(question, {})
        return sum(weights.get(sign, 0) for sign in {ALWAYS, *signs})

    def loudest(self, question: str, signs: Iterable[Sign], *, against: bool = False) -> str:
        """The words of the sentence that speak most for an answer or against it, in brackets; empty if none does."""
        weights = self._weights.get(question, {})
        adds = {sign: -weights.get(sign, 0) if against else weights.get(sign, 0) for sign in signs}
        adding = sorted((sign for sign, more in adds.items() if more > 0), key=lambda sign: (-adds[sign], sign))
        words = [word for sign in adding if (word := _word(sign)) is not None][:TOLD]
        return f" ({', '.join(repr(word) for word in words)})" if words else ""


def _word(sign: Sign) -> str | None:
    """The words of the sentence that a sign stands for; None for one of its grammar."""
    if not sign.startswith(TELLING) or "<" in sign or ">" in sign:
        return None
    return sign.split(" ", 1)[1]
