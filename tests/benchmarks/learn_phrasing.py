"""Learn which words are said side by side on a walk (narrate2report/read/misheard/phrasing.csv) from narrations.

    PYTHONPATH=. python tests/benchmarks/learn_phrasing.py FOLDER [FOLDER ...] [--without NAME ...] [--out FILE]

Each NAME.txt in a folder is a narration. Prints how many words there are and how likely those of narrations left out
are (a fifth at a time), in bits a word, beside single words alone. With --without, narrations are left out: those that
are spoken to learn from what is repaired (learn_odds.py), which must not know their words. With --out the pairs of all
the others are written.
"""

from __future__ import annotations

import argparse
import csv
import io
import math
import re
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise
from pathlib import Path

from narrate2report.intake.transcripts import read_transcript
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.lexis.words import Tokenizer
from narrate2report.read.misheard.neighbours import neighbours_of
from narrate2report.read.misheard.phrasing import BEGIN, END, Pair, Phrasing
from narrate2report.read.misheard.sounds import english_sounds
from narrate2report.records.files import write_whole

SENTENCE_ENDS = re.compile(r"(?<=[.?!;:])\s+")
PARTS = 5


def main() -> None:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("folders", type=Path, nargs="+")
    parser.add_argument("--without", nargs="*", default=[])
    parser.add_argument("--out", type=Path)
    options = parser.parse_args()
    files = [path for folder in options.folders for path in sorted(folder.glob("*.txt"))]
    told = [list(sentences(path)) for path in files if path.stem not in options.without]
    bits, alone = held_out(told)
    print(
        f"{len(told)} narrations, {sum(map(len, told))} sentences; left out: {bits:.2f} bits a word, {alone:.2f} alone"
    )
    if options.out:
        table = io.StringIO(newline="")
        rows = csv.writer(table, lineterminator="\n")
        rows.writerow(("first", "second", "times"))
        rows.writerows((*pair, times) for pair, times in sorted(pairs_of(told).items()))
        write_whole(options.out, table.getvalue().encode())


def sentences(path: Path) -> Iterator[list[str]]:
    """The words of each sentence of a narration, with its beginning and end."""
    texts = [text for stretch in read_transcript(path).stretches for text in SENTENCE_ENDS.split(stretch.text)]
    for tokens in Tokenizer().sentences(texts):
        yield [BEGIN, *(token.norm for token in tokens if token.is_word), END]


def pairs_of(told: Sequence[Sequence[Sequence[str]]]) -> Counter[Pair]:
    """How often each two words stand side by side."""
    return Counter(pair for narration in told for sentence in narration for pair in pairwise(sentence))


def held_out(told: Sequence[Sequence[Sequence[str]]]) -> tuple[float, float]:
    """Bits a word of narrations that were left out, as pairs and by single words alone."""
    near, sounds = neighbours_of(load_vocabulary()), english_sounds()
    by_pairs = by_words = 0.0
    count = 0
    for part in range(PARTS):
        known = pairs_of([one for at, one in enumerate(told) if at % PARTS != part])
        phrasing = Phrasing(known, near, sounds)
        said: Counter[str] = Counter()
        for (_, second), times in known.items():
            said[second] += times
        total = sum(said.values()) + len(said)
        for sentence in (one for at, narration in enumerate(told) if at % PARTS == part for one in narration):
            by_pairs -= phrasing.likelihood(sentence)
            by_words -= sum(math.log((said[word] + 1) / total) for word in sentence[1:])
            count += len(sentence) - 1
    return by_pairs / count / math.log(2), by_words / count / math.log(2)


if __name__ == "__main__":
    main()
