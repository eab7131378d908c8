"""Learn where a speaker breathes (narrate2report/read/speech/breaths.csv) from narrations that were written with marks.

    PYTHONPATH=. python tests/benchmarks/learn_breaths.py FOLDER [FOLDER ...] [--out FILE]

Each narration gives its lines, one by one and two at a time, without marks and capitals; what is learned is where a
comma or a stop stood. Prints how many breaths of narrations left out of the learning are found (a fifth at a time),
how many found are there, and, of the records of these narrations told without marks, how much is the same as with them.
With --out the weights learned from all narrations are written.
"""

from __future__ import annotations

import argparse
import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from scipy.optimize import minimize
from scipy.sparse import csr_matrix

from narrate2report.intake.transcripts import read_transcript
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.lexis.phrasebook import PhraseBook
from narrate2report.read.lexis.words import Token, Tokenizer
from narrate2report.read.reading import Reader
from narrate2report.read.speech.breath_signs import Breath, Observed
from narrate2report.read.speech.breaths import ALWAYS, Breaths, Weights
from narrate2report.records.files import write_whole
from narrate2report.records.transcript import Transcript
from tests.read.retold import RETELLINGS, changes, under_one_time, without_marks

PARTS = 5
"""How many times a part of the narrations is left out of the learning, to be tried on."""

RAREST = 20
"""How often a sign is seen before it is learned."""
HELD_BACK = 0.05
"""Variance of the Gaussian prior on the weights (Chen and Rosenfeld 1999): smaller keeps them nearer to 0."""
LEAN = -0.3
"""Added to a stop: one too many parts what belongs together, and where one is missed a comma is found instead."""
LEAST_WEIGHT = 10
"""Hundredths: a sign that weighs less on both is left out of the table."""
LEAST_MARKED = 0.5
"""Share of the lines of a narration that end in a full stop, for its marks to be learned from."""

STOP, COMMA = re.compile(r"(?<!\.)[.!?]+[\"')\]”’]*$"), re.compile(r"(?:[,;:]|\.\.\.|…)[\"')\]”’]*$")
TITLE = re.compile(r"(?:Mr|Mrs|Ms|Dr|St)\.$")


@dataclass(frozen=True)
class Unmarked:
    """A text without marks and capitals, and before which of its offsets a comma (1) or a stop (2) stood."""

    text: str
    marks: dict[int, int]


def unmarked(text: str) -> Unmarked:
    """A marked text as a recogniser without marks gives it."""
    words: list[str] = []
    marks: dict[int, int] = {}
    length = mark = 0
    for chunk in text.split():
        plain = without_marks(chunk).lower()
        if not plain:
            mark = mark or 1
            continue
        if words and mark:
            marks[length + 1] = mark
        length += len(plain) + bool(words)
        words.append(plain)
        stops = STOP.search(chunk) and not TITLE.match(chunk)
        mark = 2 if stops else 1 if COMMA.search(chunk) else 0
    return Unmarked(" ".join(words), marks)


def texts_of(walk: Transcript) -> Iterator[Unmarked]:
    """The lines of a walk, one by one and two at a time."""
    for count in (1, 2):
        for one in under_one_time(count)(walk).stretches:
            yield unmarked(one.text)


@dataclass(frozen=True)
class Gap:
    """The signs of a gap between two words and what stood there: nothing, a comma, a stop."""

    signs: tuple[str, ...]
    mark: int


class Learner:
    """Turns narrations into gaps, and gaps into weights."""

    def __init__(self) -> None:
        self.vocabulary = load_vocabulary()
        self.tokenizer = Tokenizer()
        self.book = PhraseBook(self.vocabulary, self.tokenizer)

    def gaps(self, walk: Transcript) -> list[Gap]:
        """All gaps of a walk, as they are seen when every breath before them was found."""
        texts = list(texts_of(walk))
        found: list[Gap] = []
        for one, tokens in zip(texts, self.tokenizer.sentences([one.text for one in texts]), strict=True):
            found += self._gaps(tokens, one.marks)
        return found

    def _gaps(self, tokens: Sequence[Token], marks: dict[int, int]) -> Iterator[Gap]:
        observed, last = Observed(tokens, self.book.find(tokens)), Breath(0, is_stop=False)
        for at in range(1, len(tokens)):
            mark = marks.get(tokens[at].start, 0)
            yield Gap((ALWAYS, *observed.signs(at, last)), mark)
            if mark:
                last = Breath(at, is_stop=mark == 2)

    def breaths(self, weights: Weights) -> Breaths:
        """The finder of breaths with these weights."""
        return Breaths(self.book, weights)


def learn(gaps: Sequence[Gap]) -> Weights:
    """The weights of a maximum entropy model with a Gaussian prior, by L-BFGS (Liu and Nocedal 1989)."""
    seen = Counter(sign for gap in gaps for sign in gap.signs)
    signs = sorted(sign for sign, times in seen.items() if times >= RAREST)
    column = {sign: at for at, sign in enumerate(signs)}
    columns = [[column[sign] for sign in gap.signs if sign in column] for gap in gaps]
    ends = np.cumsum([0, *map(len, columns)])
    indices = np.concatenate([np.array(one, dtype=np.int32) for one in columns])
    matrix = csr_matrix((np.ones(len(indices)), indices, ends), shape=(len(gaps), len(signs)))
    wanted = np.eye(3)[[gap.mark for gap in gaps]]
    free = np.array([[0.0 if sign == ALWAYS else 1 / HELD_BACK] for sign in signs])

    def cost(flat: np.ndarray) -> tuple[float, np.ndarray]:
        weights = flat.reshape(len(signs), 3)
        scores = matrix @ weights
        scores -= scores.max(axis=1, keepdims=True)
        chances = np.exp(scores)
        total = chances.sum(axis=1, keepdims=True)
        loss = float((np.log(total[:, 0]) - (scores * wanted).sum(axis=1)).sum())
        slope = matrix.T @ (chances / total - wanted) + free * weights
        return loss + 0.5 * float((free * weights**2).sum()), slope.ravel()

    flat = minimize(cost, np.zeros(len(signs) * 3), jac=True, method="L-BFGS-B", options={"maxiter": 80}).x
    weights = flat.reshape(len(signs), 3)
    beside = np.rint(100 * (weights[:, 1:] - weights[:, :1])).astype(int)
    beside[column[ALWAYS], 1] += round(100 * LEAN)
    return {
        sign: (int(comma), int(stop))
        for sign, (comma, stop) in zip(signs, beside, strict=True)
        if max(abs(comma), abs(stop)) >= LEAST_WEIGHT
    }


def is_marked(walk: Transcript) -> bool:
    """Whether a narration was written with marks that can be learned from."""
    ends = [one.text.rstrip()[-1:] in {".", "!", "?"} for one in walk.stretches]
    return sum(ends) >= LEAST_MARKED * len(ends)


def try_on(learner: Learner, walks: Sequence[Transcript], weights: Weights) -> Counter[str]:
    """What is found in narrations, and what of their records stays the same without marks."""
    breaths, counts = learner.breaths(weights), Counter[str]()
    texts = [one for walk in walks for one in texts_of(walk)]
    for one, tokens in zip(texts, learner.tokenizer.sentences([one.text for one in texts]), strict=True):
        found = {tokens[breath.at].start for breath in breaths.find(tokens)}
        counts.update(there=len(one.marks), found=len(found), right=len(found & one.marks.keys()))
    reader = Reader(learner.vocabulary, learner.tokenizer, breaths)
    told = changes(reader.read, walks, RETELLINGS["no marks"])
    counts.update(kept=told.kept, lost=told.lost, new=told.new)
    return counts


def main() -> None:
    """Learn, try, and write what was learned."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("folder", type=Path, nargs="+")
    parser.add_argument("--out", type=Path)
    options = parser.parse_args()
    walks = [read_transcript(path) for folder in options.folder for path in sorted(folder.glob("*.txt"))]
    walks = [walk for walk in walks if is_marked(walk)]
    learner = Learner()
    gaps = [learner.gaps(walk) for walk in walks]
    counts = Counter[str]()
    for part in range(PARTS):
        others = [gap for at, of_one in enumerate(gaps) if at % PARTS != part for gap in of_one]
        counts += try_on(learner, walks[part::PARTS], learn(others))
    print(f"{len(walks)} narrations, each left out of the learning once:")
    print(f"  breaths: {counts['right'] / counts['there']:.3f} found, {counts['right'] / counts['found']:.3f} right")
    same = counts["kept"] / (counts["kept"] + counts["lost"] + counts["new"])
    print(f"  records without marks: {same:.4f} the same, {counts['lost']} entries lost, {counts['new']} new")
    if options.out is not None:
        weights = learn([gap for of_one in gaps for gap in of_one])
        rows = [f'"{sign}",{comma},{stop}' for sign, (comma, stop) in sorted(weights.items())]
        write_whole(options.out, "\n".join(["sign,comma,stop", *rows, ""]).encode())
        print(f"  {len(rows)} signs weighed: {options.out}")


if __name__ == "__main__":
    main()
