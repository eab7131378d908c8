"""Heard words to stretches: one for each run between pauses or sentence ends. Nothing is left out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from narrate2report.listen.hearing import Hearing
from narrate2report.listen.invented import doubt
from narrate2report.listen.languages import language_name
from narrate2report.records.moments import clock
from narrate2report.records.transcript import Gap, Stretch, Word

PAUSE_S = 0.7
"""A pause inside a sentence that long parts it: what follows gets its own time."""
SENTENCE_PAUSE_S = 0.12
"""After a full stop, question or exclamation mark this is enough."""
GAP_S = 1.5
"""Speech this long without a word is worth telling the reader of."""
NEAR_S = 0.5
"""Speech this close to a word belongs to it."""

SAME_PASSAGE_S = 30.0
"""Talk in the same other language so soon afterwards is told as one passage."""


@dataclass(frozen=True)
class Placed:
    """A window's hearing at its place in a clip."""

    start: float
    hearing: Hearing


def to_stretches(placed: Sequence[Placed], recording: str) -> tuple[Stretch, ...]:
    """The stretches of one clip, in order; words that may not have been said carry the reason."""
    stretches: list[Stretch] = []
    for window in placed:
        for words in _runs(window.hearing.words):
            spoken = [_moved(word, window.start) for word in words]
            start = max(spoken[0].start, stretches[-1].start if stretches else 0.0)
            stretches.append(
                Stretch(
                    recording=recording,
                    start=start,
                    end=max(start, spoken[-1].end),
                    text=" ".join(word.text for word in words),
                    words=tuple(spoken),
                    doubt=doubt(words, window.hearing),
                )
            )
    return tuple(stretches)


def find_gaps(placed: Sequence[Placed], recording: str) -> tuple[Gap, ...]:
    """Where someone spoke but no word was understood."""
    gaps: list[Gap] = []
    for window in placed:
        for start, end in window.hearing.speech:
            for begin, until in _without_words(start, end, window.hearing.words):
                if until - begin >= GAP_S:
                    gaps.append(Gap(recording=recording, start=window.start + begin, end=window.start + until))
    return tuple(gaps)


def told_languages(placed: Sequence[Placed], recording: str) -> list[str]:
    """A line for each passage of a clip in another language: `walk.mp4: from 0:10 to 0:38 someone speaks Spanish`."""
    passages: list[tuple[str, float, float]] = []
    for window in placed:
        code, words = window.hearing.other_language, window.hearing.words
        if code is None or not words:
            continue
        start, end = window.start + words[0].start, window.start + words[-1].end
        if passages and passages[-1][0] == code and start - passages[-1][2] < SAME_PASSAGE_S:
            passages[-1] = (code, passages[-1][1], end)
        else:
            passages.append((code, start, end))
    return [
        f"{recording}: from {clock(start)} to {clock(end)} someone seems to speak {language_name(code)}, "
        "which was not listened for; nothing of it was read"
        for code, start, end in passages
    ]


def _runs(words: Sequence[Word]) -> list[list[Word]]:
    runs: list[list[Word]] = []
    for word in words:
        if runs and not _parts(runs[-1][-1], word):
            runs[-1].append(word)
        else:
            runs.append([word])
    return runs


def _parts(before: Word, after: Word) -> bool:
    pause = after.start - before.end
    ends = before.text.rstrip("\"')").endswith((".", "?", "!")) and not before.text.endswith("...")
    return pause > PAUSE_S or (ends and pause >= SENTENCE_PAUSE_S)


def _without_words(start: float, end: float, words: Sequence[Word]) -> list[tuple[float, float]]:
    """What remains of a span of speech when the surroundings of all words are taken away."""
    left = [(start, end)]
    for word in words:
        first, last = word.start - NEAR_S, word.end + NEAR_S
        left = [
            piece
            for begin, until in left
            for piece in ((begin, min(until, first)), (max(begin, last), until))
            if piece[1] > piece[0]
        ]
    return left


def _moved(word: Word, by: float) -> Word:
    return Word(text=word.text, start=word.start + by, end=word.end + by, probability=word.probability)
