"""Words by their sound: which of them a heard sound may have been.

Looked up by the frame of consonants, in which sounds that are easily mistaken count as one, with one of them
missing or too many; what shares a frame is then compared phone by phone.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache

from rapidfuzz.distance import Levenshtein

from narrate2report.read.misheard.sounds import CODE, apart

_CLASSES = {"P": "P B F V", "T": "T D TH DH", "S": "S Z SH ZH CH JH", "K": "K G", "N": "M N NG", "L": "L"}
_CLASS = {CODE[phone]: name for name, phones in _CLASSES.items() for phone in phones.split()}

SHORTEST_FRAME = 3
"""Consonants that a frame needs, for one of them to be missed."""


class SoundIndex:
    """Words under their frames, built once."""

    def __init__(self, codes: Mapping[str, str]) -> None:
        """`codes` gives the phones of every word that may be meant."""
        self._codes = codes
        self._by_frame: dict[str, list[str]] = defaultdict(list)
        for word, code in codes.items():
            for frame in _frames(code):
                self._by_frame[frame].append(word)

    def near(self, code: str, most: float) -> dict[str, float]:
        """The words at most so far from a sound, with how far they are."""
        words = {word for frame in _frames(code) for word in self._by_frame.get(frame, ())}
        return _within(code, ((word, self._codes[word]) for word in words), most)


def _within(code: str, others: Iterable[tuple[str, str]], most: float) -> dict[str, float]:
    found = {}
    edits = max(1, round(0.4 * len(code)))
    for word, other in others:
        if Levenshtein.distance(code, other, score_cutoff=edits) <= edits:
            distance = apart(code, other)
            if distance <= most:
                found[word] = distance
    return found


@lru_cache(maxsize=50_000)
def _frames(code: str) -> tuple[str, ...]:
    """The frame of consonants, and it with each of them left out."""
    frame = "".join(_CLASS.get(phone, "") for phone in code)
    return tuple(dict.fromkeys((frame, *_shorter(frame))))


def _shorter(frame: str) -> Iterator[str]:
    if len(frame) >= SHORTEST_FRAME:
        yield from (frame[:at] + frame[at + 1 :] for at in range(len(frame)))
