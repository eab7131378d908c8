"""Sayings, each a row of words, among the words of a sentence."""

from __future__ import annotations

from collections.abc import Collection, Sequence


def first_saying(norms: Sequence[str], sayings: Collection[Sequence[str]], start: int = 0) -> int | None:
    """Where the first of some sayings begins, from `start` on; None where there is none."""
    for at in range(start, len(norms)):
        for words in sayings:
            if norms[at] == words[0] and list(norms[at : at + len(words)]) == list(words):
                return at
    return None
