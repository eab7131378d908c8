"""Stretches of speech to timed sentences: pauses first (they end a stretch), then punctuation.

A sentence keeps its own text unchanged. Its times come from its words, or else are its share of the
stretch by length.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from narrate2report.records.moments import LEAD_S, rounded
from narrate2report.records.transcript import Stretch, Transcript, Word

SENTENCE_END = re.compile(r"(?<!\.\.)(?<!\bMr)(?<!\bMrs)(?<!\bMs)(?<!\bDr)(?<!\bNo)(?<!\bSt)[.!?]+[\"')\]]*\s+(?=\S)")
"""A full stop, question or exclamation mark before more text; an ellipsis trails off and ends nothing."""

SMALLEST_STEP = 0.01


@dataclass(frozen=True)
class Sentence:
    """One sentence of the narration: what entries point at. Times in seconds of its recording."""

    id: str
    recording: str
    start: float
    end: float
    text: str
    doubt: str | None = None


def split_sentences(transcript: Transcript) -> tuple[Sentence, ...]:
    """All sentences of a transcript in order, numbered from s0001."""
    pieces = [piece for stretch in transcript.stretches for piece in _pieces(stretch)]
    return tuple(
        Sentence(f"s{number:04d}", stretch.recording, start, end, text, stretch.doubt)
        for number, (stretch, start, end, text) in enumerate(pieces, 1)
    )


def _pieces(stretch: Stretch) -> Iterator[tuple[Stretch, float, float, str]]:
    word_starts = list(_word_offsets(stretch))
    for begin, finish in _spans(stretch.text):
        text = stretch.text[begin:finish]
        inside = [word for offset, word in word_starts if begin <= offset < finish]
        if inside:
            start, end = max(0.0, inside[0].start - LEAD_S), inside[-1].end
        else:
            share = (stretch.end - stretch.start) / max(1, len(stretch.text))
            start, end = stretch.start + share * begin, stretch.start + share * finish
        start = rounded(start)
        yield stretch, start, max(rounded(end), rounded(start + SMALLEST_STEP)), text


def _word_offsets(stretch: Stretch) -> Iterator[tuple[int, Word]]:
    """Each timed word with the offset of its text in the stretch."""
    at = 0
    for word in stretch.words:
        found = stretch.text.find(word.text.strip(), at)
        if found >= 0:
            yield found, word
            at = found + len(word.text.strip())


def _spans(text: str) -> Iterator[tuple[int, int]]:
    """Offsets of the sentences of a text, without the white space around them."""
    begin = 0
    for end in [match.end() for match in SENTENCE_END.finditer(text)] + [len(text)]:
        piece = text[begin:end]
        if any(letter.isalnum() for letter in piece):
            yield begin + len(piece) - len(piece.lstrip()), begin + len(piece.rstrip())
            begin = end
