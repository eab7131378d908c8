"""Likenesses: what something is as dry, flat or slick as says nothing of the unit.

`Dry as toast` burns nothing and `slick as glass` makes no glass floor. The quality itself is read (`dry`), what it is
likened to is not, unless the vocabulary knows the saying as a whole (`solid as a rock`).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from narrate2report.read.lexis.words import Token

SIZES = frozenset("big large small long short wide broad narrow high tall deep shallow thick thin round".split())
"""How large something is, which is said by likeness too: `as long as a pencil` is a size."""

COMPARED = frozenset("same such well soon far much many just twice visible noticeable bad recent late early".split())
"""Words before `as` after which something else than a likeness comes."""

_QUALITIES = frozenset({"JJ", "JJR", "RB"})
_NOUNS = frozenset({"NN", "NNS"})
_LONGEST = 3
"""Words that a thing is likened to in, at most: `a baby's bottom`."""


def likenesses(tokens: Sequence[Token]) -> Iterator[range]:
    """The words of each thing that a quality is likened to, its article included."""
    for at, token in enumerate(tokens[1:], start=1):
        before = tokens[at - 1]
        if token.norm != "as" or before.tag not in _QUALITIES or before.norm in SIZES | COMPARED:
            continue
        begin = at + 1
        first = begin + 1 if begin < len(tokens) and tokens[begin].norm in {"a", "an"} else begin
        end = first
        while end < len(tokens) and end - first < _LONGEST and tokens[end].tag in {*_NOUNS, "JJ", "POS"}:
            end += 1
        if end > first and tokens[end - 1].tag in _NOUNS:
            yield range(begin, end)
