"""Sealed walks read once more with today's words, or with words on trial, and held against what a person left.

This is where reading, evaluating and learning meet, which know nothing of each other.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from narrate2report.commands.sealed_walks import SealedWalk
from narrate2report.evaluate.marks import decided_marks
from narrate2report.evaluate.matching import match
from narrate2report.learn.habits import is_left_out
from narrate2report.learn.reviewed import Mistakes, ReviewedWalk, Said, Token
from narrate2report.publish.word_layer import WordLine, layer_files
from narrate2report.read.lexis.inflect import infinitive, singular
from narrate2report.read.lexis.lexicon import combine, read_layers
from narrate2report.read.lexis.word_files import Layer, read_layer
from narrate2report.read.lexis.words import Tokenizer
from narrate2report.read.outcome import Reading, ReadSentence
from narrate2report.read.reading import Reader
from narrate2report.records.findings import Entry, Findings
from narrate2report.records.proposal import Addition
from narrate2report.records.transcript import Transcript
from narrate2report.review.added import BY_HAND

CERTAIN = frozenset({"component", "condition", "action", "room", "cue"})
"""Roles of words that mean the same in any sentence."""


@dataclass(frozen=True)
class _Held:
    """A reading held against what a person left: entries by the number of the sentence they were said in."""

    right: Mapping[int, list[Entry]]
    read: Mapping[int, list[Entry]]
    missed: Mapping[int, list[Entry]]
    extra: Mapping[int, list[Entry]]
    excused: Mapping[int, list[Entry]]
    """What was read right and does not stand all the same: merged into another entry, or taken back."""
    mistakes: Mistakes


class ReadingAgain:
    """The walks, read with the words of `folders` laid over the built-in ones."""

    def __init__(self, walks: Sequence[SealedWalk], folders: Sequence[Path]) -> None:
        self._walks = {walk.name: walk for walk in walks}
        self._transcripts: dict[str, Transcript] = {walk.name: walk.transcript() for walk in walks}
        self._layers = read_layers(folders)
        self._tokenizer = Tokenizer(remembers=True)

    def reviewed(self) -> tuple[ReviewedWalk, ...]:
        """All of them as learning sees them."""
        reader = Reader(combine(self._layers), self._tokenizer)
        return tuple(self._reviewed(reader, walk) for walk in self._walks.values())

    def mistakes(self, additions: Sequence[Addition], names: Collection[str]) -> Mapping[str, Mistakes]:
        """What is wrong in the walks of these names, by sentence, with these additions to the words."""
        reader = Reader(combine([*self._layers, on_trial(additions)]), self._tokenizer)
        return {name: self._held(reader, self._walks[name])[1].mistakes for name in sorted(names)}

    def _held(self, reader: Reader, walk: SealedWalk) -> tuple[Reading, _Held]:
        reading = reader.read(self._transcripts[walk.name])
        return reading, _hold(reading, walk)

    def _reviewed(self, reader: Reader, walk: SealedWalk) -> ReviewedWalk:
        reading, held = self._held(reader, walk)
        said = tuple(
            Said(
                text=one.text,
                tokens=_tokens(one),
                read=tuple(held.read.get(number, ())),
                right=tuple(held.right.get(number, ())),
                taught=tuple(filter(_by_hand, held.missed.get(number, ()))),
                dropped=_dropped(held, number),
            )
            for number, one in enumerate(reading.sentences)
        )
        return ReviewedWalk(walk.name, said, held.mistakes)


def on_trial(additions: Iterable[Addition]) -> Layer:
    """The additions as a layer of words, made as if a person had accepted each in a file."""
    with TemporaryDirectory() as name:
        folder = Path(name)
        for file, text in layer_files([WordLine(one, accepted=True) for one in additions]).items():
            (folder / f"{file}.yaml").write_text(text, encoding="utf-8")
        return read_layer(folder)


def _hold(reading: Reading, walk: SealedWalk) -> _Held:
    spots = _Spots(reading.sentences, walk.decided)
    kept = [entry for entry in walk.decided.entries if entry.stands]
    marks = decided_marks(walk.decided).marks
    entry_of = {id(mark): entry for mark, entry in zip(marks, kept, strict=True)}
    matched = match(marks, reading.findings.entries)
    missed = spots.by_sentence(entry_of[id(mark)] for mark in matched.missed)
    extra = spots.by_sentence(matched.extra)
    mistakes = tuple(
        len(missed.get(number, ())) + len(extra.get(number, ())) for number in range(len(reading.sentences))
    )
    gone = (entry for entry in walk.decided.entries if not entry.stands and not is_left_out(entry))
    return _Held(
        right=spots.by_sentence(kept),
        read=spots.by_sentence(reading.findings.entries),
        missed=missed,
        extra=extra,
        excused=spots.by_sentence(gone),
        mistakes=mistakes,
    )


class _Spots:
    """In which sentence of a reading something was said."""

    def __init__(self, sentences: Sequence[ReadSentence], record: Findings) -> None:
        self._clips = record.numbers()
        self._starts = [self._place(one.sentence.recording, one.start) for one in sentences]

    def by_sentence(self, entries: Iterable[Entry]) -> dict[int, list[Entry]]:
        """Entries by the number of the sentence in which the first words for them stand."""
        found: dict[int, list[Entry]] = {}
        for entry in entries:
            first = entry.evidence[0]
            number = bisect_right(self._starts, self._place(first.recording, first.start)) - 1
            found.setdefault(max(0, number), []).append(entry)
        return found

    def _place(self, recording: str, start: float) -> tuple[int, float]:
        return self._clips.get(recording, len(self._clips)), start


def _by_hand(entry: Entry) -> bool:
    """Whether a person added or changed it."""
    return entry.state == "changed" or entry.because == BY_HAND or entry.split_from is not None


def _dropped(held: _Held, number: int) -> tuple[Entry, ...]:
    """What is read of a sentence though a person left nothing of its kind there, said twice or to be put right."""
    missed = {entry.kind for entry in held.missed.get(number, ())}
    excused = {(entry.kind, entry.component) for entry in held.excused.get(number, ())}
    return tuple(
        entry
        for entry in held.extra.get(number, ())
        if entry.kind not in missed and (entry.kind, entry.component) not in excused
    )


def _tokens(read: ReadSentence) -> tuple[Token, ...]:
    spoken = read.spoken
    known: dict[int, set[str]] = defaultdict(set)
    bound = set()
    for mention in (*spoken.found.terms, *spoken.found.cues):
        taken_for = {sense.id for sense in mention.senses if sense.role in CERTAIN}
        for at in range(mention.start, mention.end):
            known[at] |= taken_for
        if mention.end - mention.start > 1:
            bound |= set(range(mention.start, mention.end))
    for named in spoken.named:
        for at in range(named.start, named.end):
            known[at].add(named.component)
    return tuple(
        Token(token.norm, _base(token.norm, token.tag), token.tag, frozenset(known[at]), at in bound)
        for at, token in enumerate(spoken.tokens)
    )


def _base(norm: str, tag: str) -> str:
    if tag == "NNS":
        return singular(norm)
    return infinitive(norm) if tag in {"VBZ", "VBD", "VBN", "VBG"} else norm
