"""The public NegEx sentences, judged by the reading's own scope rules.

`annotations.tsv` holds a concept, a sentence and whether the sentence denies the concept; `triggers.txt` the published
cue words. Both are clinical: nothing of a home is known here, so what is judged is how far a denial reaches and nothing
else. Chapman et al. 2001 (NegEx), Chapman et al. 2011 (the published figures of both programs on these rows).
"""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from narrate2report.read.lexis.phrase_tree import Mention, Sense, Senses
from narrate2report.read.lexis.phrasebook import PhraseBook
from narrate2report.read.lexis.vocabulary import DescriptionTerms, Vocabulary, Words
from narrate2report.read.lexis.words import Token, Tokenizer
from narrate2report.read.meant.denial import deny
from narrate2report.read.speech.sentences import Sentence
from narrate2report.read.speech.spoken import Spoken

KINDS = {
    "PREN": "negation",
    "POST": "negation_after",
    "PSEU": "not_negation",
    "CONJ": "terminator",
    "PREP": "hedge",
    "POSP": "hedge_after",
}
"""What the published kinds of trigger are called in vocab/cues.yaml."""


@dataclass(frozen=True)
class Row:
    """One sentence with the concept that is asked of, white space made single."""

    concept: str
    sentence: str
    negated: bool


@dataclass(frozen=True)
class Tally:
    """How rows were judged; a row whose concept is not in its sentence is judged affirmed, as nothing denies it."""

    right: int
    too_many: int
    too_few: int
    absent: int
    """Rows, of all, whose concept is not in the sentence."""

    @property
    def precision(self) -> float:
        return self.right / (self.right + self.too_many)

    @property
    def recall(self) -> float:
        return self.right / (self.right + self.too_few)

    @property
    def f1(self) -> float:
        return 2 * self.right / (2 * self.right + self.too_many + self.too_few)

    def __str__(self) -> str:
        figures = f"precision {self.precision:.3f}, recall {self.recall:.3f}, F {self.f1:.3f}"
        return f"{figures} ({self.absent} rows without their concept)"


def load_rows(folder: Path) -> list[Row]:
    """The published rows."""
    with (folder / "annotations.tsv").open(encoding="utf-8", newline="") as file:
        return [
            Row(_single_spaced(row["Concept"]), _single_spaced(row["Sentence"]), row["Negation"] == "Negated")
            for row in csv.DictReader(file, delimiter="\t")
        ]


def load_triggers(folder: Path) -> Mapping[str, Words]:
    """The published triggers as cues."""
    cues: dict[str, list[str]] = {}
    for line in (folder / "triggers.txt").read_text(encoding="utf-8").splitlines():
        phrase, _, kind = line.partition("\t")
        if phrase.strip():
            cues.setdefault(KINDS[kind.strip(" \t[]")], []).append(phrase.strip())
    return {kind: tuple(phrases) for kind, phrases in cues.items()}


def judge(rows: Sequence[Row], cues: Mapping[str, Words], tokenizer: Tokenizer) -> Tally:
    """Ask the reading of each row whether its concept is denied, knowing only these cues."""
    book = PhraseBook(_only(cues), tokenizer)
    right = too_many = too_few = absent = 0
    for row, tokens in zip(rows, tokenizer.sentences([row.sentence for row in rows]), strict=True):
        mention = _mention(row, tokens)
        absent += mention is None
        denied = mention is not None and _is_denied(row, tokens, mention, book)
        right += denied and row.negated
        too_many += denied and not row.negated
        too_few += row.negated and not denied
    return Tally(right, too_many, too_few, absent)


def _is_denied(row: Row, tokens: tuple[Token, ...], mention: Mention, book: PhraseBook) -> bool:
    sentence = Sentence("s0001", "sentences", 0.0, 1.0, row.sentence)
    found = replace(book.find(tokens), terms=(mention,))
    return deny(Spoken(sentence, row.sentence, tokens, found), mention).assertion == "absent"


def _only(cues: Mapping[str, Words]) -> Vocabulary:
    """A vocabulary without a word of a home."""
    return Vocabulary(
        rooms={}, components={}, conditions={}, actions={}, descriptions=DescriptionTerms(), cues=cues, idioms=(),
        sound_alikes={}, misheard={}, version="",
    )  # fmt: skip


def _mention(row: Row, tokens: Sequence[Token]) -> Mention | None:
    """Where the concept stands: the rows have it in capitals, where a sentence holds it twice."""
    at = row.sentence.find(row.concept.upper())
    if at < 0:
        at = row.sentence.lower().find(row.concept.lower())
    if at < 0:
        return None
    inside = list(_inside(tokens, at, at + len(row.concept)))
    return Mention(inside[0], inside[-1] + 1, Senses([Sense("condition", "concept", "noun")]))


def _inside(tokens: Sequence[Token], start: int, end: int) -> Iterator[int]:
    return (at for at, token in enumerate(tokens) if token.end > start and token.start < end)


def _single_spaced(text: str) -> str:
    return " ".join(text.split())
