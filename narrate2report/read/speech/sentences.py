"""Stretches of speech to timed sentences: pauses first (they end a stretch), then punctuation, and where none was
written, where a speaker would breathe.

A sentence keeps its own text unchanged. Its times come from its words, or else are its share of the
stretch by length.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from narrate2report.records.moments import LEAD_S, rounded
from narrate2report.records.transcript import Stretch, Transcript, Word

SENTENCE_END = re.compile(
    r"(?<!\bMr)(?<!\bMrs)(?<!\bMs)(?<!\bDr)(?<!\bSt)(?:(?<!\.)(?<!\bNo)\.(?!\.)|(?<=\bNo)\.(?!\s*\d)|[!?]+)[\"')\]]*\s+(?=\S)"
)
"""A full stop, question or exclamation mark before more text; an ellipsis trails off and ends nothing."""

SMALLEST_STEP = 0.01

BREATH_S = 0.4
"""A pause after a comma that starts a new statement, in seconds."""

LONGEST_BREAK_S = 3.0
"""A statement is not taken up again after a longer silence, in seconds."""

CLOSED_SHARE, OPENED_SHARE = 0.1, 0.8
"""Where so many stretches end in a full stop, and so many of those that follow them start with a capital letter,
a stretch that ends without is not finished."""

LONGEST_TAKEN_UP = 400
"""Letters of a statement that is still taken up by the next stretch."""

LONGEST_UNMARKED = 25
"""Words that are said in one breath in a transcript with marks; a recogniser that goes on longer has lost its marks."""

UNFINISHED = frozenset(
    "the a an of from to with and or but is are was were been has have it's there's i'm i've we've you've they've"
    " that's my your our their because which very".split()
)
UNFINISHED_PHRASES = ("don't see", "do not see", "it left", "can't see", "there is", "has a", "they left")
CLOSING = frozenset('.!?"”')
CONTINUING = frozenset({"by", "from", "with", "of", "than", "any"})
"""Words that end an unfinished statement, and words (in lower case) that take one up."""

AUXILIARIES = frozenset("is are was were has".split())
ASKED = tuple([word] for word in "it that this there the he she they you we anybody anyone".split())
"""`is humming but it don't spin` has its subject in the stretch before; `is that a crack` asks."""


@dataclass(frozen=True)
class Sentence:
    """One sentence of the narration: what entries point at. Times in seconds of its recording."""

    id: str
    recording: str
    start: float
    end: float
    text: str
    doubt: str | None = None
    words: tuple[Word, ...] = ()
    """As they were heard; empty where only the line's time is known."""
    commas: tuple[int, ...] = ()
    """Offsets of the words before which a comma is heard that nobody wrote."""

    @property
    def marked(self) -> str:
        """The text with the commas that are only heard."""
        ends = [*self.commas, len(self.text)]
        return ", ".join(self.text[at:end].rstrip() for at, end in pairwise([0, *ends]))


@dataclass(frozen=True)
class Pause:
    """Where speech without marks pauses: before the word at `offset`; `is_stop` where its sentence ends there."""

    offset: int
    is_stop: bool


FindPauses = Callable[[Sequence[str]], Iterable[Sequence[Pause]]]
"""The pauses of each text, in order."""


def split_sentences(transcript: Transcript, find_pauses: FindPauses | None = None) -> tuple[Sentence, ...]:
    """All sentences of a transcript in order, numbered from s0001.

    Speech that runs on without marks is parted where `find_pauses` hears a stop, if that is given.
    """
    pieces: list[_Piece] = []
    closes = _closes_its_sentences(transcript)
    for stretch in transcript.stretches:
        for place, piece in enumerate(_pieces(stretch)):
            cut_by_captions = closes and place == 0  # what is parted inside a stretch, a breath has parted
            if pieces and _goes_on(pieces[-1], piece, closes=cut_by_captions):
                pieces[-1] = _joined(pieces[-1], piece)
            else:
                pieces.append(piece)
    if find_pauses is not None:
        pieces = list(_parted(pieces, find_pauses, closes=closes))
    return tuple(
        Sentence(
            f"s{number:04d}",
            piece.recording,
            piece.start,
            piece.end,
            piece.text,
            piece.doubt,
            piece.words,
            piece.commas,
        )
        for number, piece in enumerate(pieces, 1)
    )


@dataclass(frozen=True)
class _Piece:
    recording: str
    start: float
    end: float
    text: str
    doubt: str | None
    words: tuple[Word, ...]
    commas: tuple[int, ...] = ()


def _parted(pieces: Sequence[_Piece], find_pauses: FindPauses, *, closes: bool) -> Iterator[_Piece]:
    """Pieces parted where they stop, with the commas of each part."""
    run_on = [not piece.doubt and (not closes or len(piece.text.split()) >= LONGEST_UNMARKED) for piece in pieces]
    found = iter(find_pauses([piece.text for piece, runs in zip(pieces, run_on, strict=True) if runs]))
    for piece, runs in zip(pieces, run_on, strict=True):
        pauses = next(found) if runs else ()
        if not pauses:
            yield piece
            continue
        word_starts = list(_word_offsets(piece))
        ends = [*(pause.offset for pause in pauses if pause.is_stop), len(piece.text)]
        for begin, end in pairwise([0, *ends]):
            commas = tuple(one.offset - begin for one in pauses if not one.is_stop and begin < one.offset < end)
            yield replace(_cut(piece, begin, begin + len(piece.text[begin:end].rstrip()), word_starts), commas=commas)


def _closes_its_sentences(transcript: Transcript) -> bool:
    """Whether whoever wrote the transcript set full stops and capitals, so that their absence says something."""
    told = [stretch.text.strip() for stretch in transcript.stretches]
    closed = [text[-1:] in CLOSING for text in told]
    opened = [not text.lstrip("-–—• ")[:1].islower() for text, after in zip(told[1:], closed, strict=False) if after]
    return sum(closed) >= CLOSED_SHARE * len(told) and sum(opened) >= OPENED_SHARE * len(opened) > 0


def _goes_on(piece: _Piece, following: _Piece, *, closes: bool) -> bool:
    """Whether a statement was cut in two: `... pulling away` / `from the wall`, `... it's off the` / `track`.

    Where sentences are closed, one that is not goes on in whatever starts with a small letter.
    """
    if piece.recording != following.recording or piece.doubt or following.doubt:
        return False
    if following.start - piece.end > LONGEST_BREAK_S or len(piece.text) > LONGEST_TAKEN_UP:
        return False
    first = following.text.split(None, 1)[0]
    if closes and (piece.text[-1] not in CLOSING or piece.text.endswith("...")) and _is_small(first):
        return True
    if piece.text[-1] in ".!?;:":
        return False
    last = piece.text.lower().rsplit(None, 1)[-1]
    if last in UNFINISHED or piece.text.lower().endswith(UNFINISHED_PHRASES) or first in CONTINUING:
        return True
    return first in AUXILIARIES and following.text.split(None, 2)[1:2] not in ASKED


def _is_small(word: str) -> bool:
    """Whether a word may stand inside a sentence: it starts small, or is `I`."""
    return word[0].islower() or word.partition("'")[0] == "I"


def _joined(piece: _Piece, following: _Piece) -> _Piece:
    return _Piece(
        piece.recording,
        piece.start,
        following.end,
        f"{piece.text} {following.text}",
        None,
        (*piece.words, *following.words),
    )


def _pieces(stretch: Stretch) -> Iterator[_Piece]:
    whole = _Piece(stretch.recording, stretch.start, stretch.end, stretch.text, stretch.doubt, stretch.words)
    word_starts = list(_word_offsets(whole))
    for begin, finish in _spans(stretch.text, _pauses(stretch.text, word_starts)):
        yield _cut(whole, begin, finish, word_starts)


def _cut(piece: _Piece, begin: int, finish: int, word_starts: Sequence[tuple[int, Word]]) -> _Piece:
    """The part of a piece between two offsets of its text, with its own times."""
    inside = tuple(word for offset, word in word_starts if begin <= offset < finish)
    if inside:
        start, end = max(0.0, inside[0].start - LEAD_S), inside[-1].end
    else:
        share = (piece.end - piece.start) / max(1, len(piece.text))
        start, end = piece.start + share * begin, piece.start + share * finish
    start = rounded(start)
    finish_time = max(rounded(end), rounded(start + SMALLEST_STEP))
    return _Piece(piece.recording, start, finish_time, piece.text[begin:finish], piece.doubt, inside)


def _word_offsets(piece: _Piece) -> Iterator[tuple[int, Word]]:
    """Each timed word with the offset of its text in the piece."""
    at = 0
    for word in piece.words:
        found = piece.text.find(word.text.strip(), at)
        if found >= 0:
            yield found, word
            at = found + len(word.text.strip())


def _pauses(text: str, words: Sequence[tuple[int, Word]]) -> list[int]:
    """Offsets of words that follow a mark and a pause: people breathe between statements that a comma joins."""
    return [
        offset
        for (_, before), (offset, word) in pairwise(words)
        if word.start - before.end >= BREATH_S and text[:offset].rstrip()[-1:] in {",", ";", ":", "-"}
    ]


def _spans(text: str, pauses: Sequence[int]) -> Iterator[tuple[int, int]]:
    """Offsets of the sentences of a text, without the white space around them."""
    begin = 0
    for end in sorted({match.end() for match in SENTENCE_END.finditer(text)} | set(pauses) | {len(text)}):
        piece = text[begin:end]
        if any(letter.isalnum() for letter in piece):
            yield begin + len(piece) - len(piece.lstrip()), begin + len(piece.rstrip())
            begin = end
