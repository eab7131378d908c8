"""Learn how likely other words are than those that were heard (narrate2report/read/misheard/odds.csv).

    PYTHONPATH=. python tests/benchmarks/learn_odds.py ROWS [--others ROWS] [--out FILE]

ROWS is what sound_repair.py writes with --rows for spoken narrations: each proposal with its signs, what the sound gave
for it, and whether it was right. The words of these narrations must not be in phrasing.csv (see learn_phrasing.py), and
all doubts must have been asked (WORTH_ASKING in doubts.py at 0). Prints what would be read and asked at several limits:
of recordings left out of the learning (a quarter at a time), and of --others, with all of them learned. With --out the
weights learned from all are written.
"""

from __future__ import annotations

import argparse
import csv
import io
import json
from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import numpy as np

from narrate2report.read.misheard.odds import sound_measures
from narrate2report.records.files import write_whole
from narrate2report.records.weighing import Weight
from tests.benchmarks.log_linear import whether

PARTS = 4
HELD_BACK = 0.1
"""How strongly weights are kept small (L2)."""
HARM = 1.5
"""How much worse it is to give up a word that had been heard right than to read a wrong one for a wrong one."""
LIMITS = (0.2, 0.3, 0.4, 0.5, 0.55, 0.6, 0.7, 0.8)

Row = Mapping[str, Any]
Learned = dict[str, float]


def main() -> None:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("rows", type=Path)
    parser.add_argument("--others", type=Path)
    parser.add_argument("--out", type=Path)
    options = parser.parse_args()
    rows = read_rows(options.rows)
    names = sorted({row["of"] for row in rows})
    tried = []
    for part in range(PARTS):
        out = set(names[part::PARTS])
        tried.append(
            (learn([row for row in rows if row["of"] not in out], asked=True), [r for r in rows if r["of"] in out])
        )
    tell("left out", tried)
    asked, unasked = learn(rows, asked=True), learn(rows, asked=False)
    if options.others:
        tell("others", [(asked, read_rows(options.others))])
    tell_worth(rows, unasked)
    if options.out:
        table = io.StringIO(newline="")
        writer = csv.writer(table, lineterminator="\n")
        writer.writerow(("sign", "unasked", "asked"))
        for sign, adds in asked.items():
            writer.writerow((sign, f"{unasked[sign]:.3f}" if sign in unasked else "", f"{adds:.3f}"))
        write_whole(options.out, table.getvalue().encode())


def read_rows(path: Path) -> list[Row]:
    """The proposals that the sound was asked of; what is only spelled otherwise teaches nothing."""
    rows = [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines()]
    return [row for row in rows if row["weight"] and row["verdict"] != "spelling"]


def measures(row: Row, *, asked: bool) -> Learned:
    """The signs of a proposal as numbers, with what the sound gave where that is wanted."""
    given = dict(sound_measures(Weight.model_validate(row["weight"]))) if asked else {}
    return {**row["signs"], **given}


def learn(rows: Sequence[Row], *, asked: bool) -> Learned:
    """The weights under which the verdicts are likeliest."""
    told = [measures(row, asked=asked) for row in rows]
    right = [row["verdict"] == "right" for row in rows]
    worth = [HARM if row["verdict"] == "harmful" else 1.0 for row in rows]
    weights = whether(told, right, least=1, variance=0.5 / HELD_BACK, counts=worth)
    return {sign: weights[sign] for sign in told[0]}


def odds(row: Row, weights: Learned, *, asked: bool) -> float:
    """The probability of a proposal by learned weights."""
    logit = sum(weights[sign] * value for sign, value in measures(row, asked=asked).items())
    return float(1 / (1 + np.exp(-logit)))


def tell(what: str, tried: Sequence[tuple[Learned, Sequence[Row]]]) -> None:
    """How many words are read rightly, wrongly and to harm at each limit."""
    for limit in LIMITS:
        print(what, limit, dict(sum((Counter(decided(rows, weights, limit)) for weights, rows in tried), Counter())))


def decided(rows: Sequence[Row], weights: Learned, limit: float) -> list[str]:
    """The verdicts of what is read in each sentence, the likeliest first and none over another."""
    of_sentence: dict[tuple[str, float], list[tuple[float, Row]]] = defaultdict(list)
    for row in rows:
        of_sentence[row["of"], row["start"]].append((odds(row, weights, asked=True), row))
    verdicts = []
    for told in of_sentence.values():
        taken: set[int] = set()
        for chance, row in sorted(told, key=lambda one: -one[0]):
            here = set(range(row["from"], row["to"]))
            if chance >= limit and not here & taken:
                taken |= here
                verdicts.append(row["verdict"])
    return verdicts


def tell_worth(rows: Sequence[Row], weights: Learned) -> None:
    """How many readings are weighed, and how many of the right ones, by the least odds that are asked."""
    for least in (0.0, 0.01, 0.02, 0.03, 0.05, 0.1):
        kept = [row for row in rows if odds(row, weights, asked=False) >= least]
        print(
            "worth asking from", least, len(kept), "readings,", sum(row["verdict"] == "right" for row in kept), "right"
        )


if __name__ == "__main__":
    main()
