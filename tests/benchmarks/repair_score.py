"""How well mishearings are repaired, what is repaired wrongly, and what that costs in time.

    python tests/benchmarks/repair_score.py [--half tune] [--show]

Counts tests/read/data/confusions.csv with the table of sound-alikes alone and with the repair by sound, and repairs in
the story and the talk beside it, in which there are none to make. `--show` prints what was not read as meant; look at
the half `held` only for its count.
"""

from __future__ import annotations

import argparse
import csv
import re
import time
from collections import Counter
from pathlib import Path

from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.lexis.words import Tokenizer
from narrate2report.read.misheard.repair import Repairer

DATA = Path(__file__).parents[1] / "read" / "data"


def main() -> None:
    options = _options()
    vocabulary, tokenizer = load_vocabulary(), Tokenizer()
    with (DATA / "confusions.csv").open(encoding="utf-8", newline="") as file:
        rows = [row for row in csv.DictReader(file) if options.half in (None, row["half"])]
    for by_sound in (False, True):
        repairer = Repairer(vocabulary, tokenizer, by_sound=by_sound)
        print("with the repair by sound" if by_sound else "the table alone")
        told: dict[str, Counter[str]] = {}
        for row, (text, _, heard) in zip(rows, repairer.repair([row["heard"] for row in rows]), strict=True):
            end = "right" if _letters(text) == _letters(row["meant"]) else "wrong" if heard else "left"
            told.setdefault(row["half"], Counter())[end] += 1
            if options.show and by_sound and end != "right":
                print(f"  {end:6} {row['heard']}  {[(one.heard, one.read) for one in heard] or ''}")
        for half, counts in sorted(told.items()):
            print(f"  {half}: {dict(sorted(counts.items()))} of {counts.total()}")
        for name in ("prose.txt", "talk.txt"):
            _count_wrong(repairer, tokenizer, name)


def _count_wrong(repairer: Repairer, tokenizer: Tokenizer, name: str) -> None:
    text = (DATA / name).read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    words = sum(len(line.split()) for line in lines)
    wrong = sum(len(heard) for _, _, heard in repairer.repair(lines))
    start = time.process_time()
    list(tokenizer.sentences(lines))
    bare = time.process_time() - start
    start = time.process_time()
    repairer.repair(lines)
    whole = time.process_time() - start
    cost = f"{1e6 * (whole - bare) / words:.1f} us a word beside {1e6 * bare / words:.1f} of the language model"
    print(f"  {name}: {wrong} repairs in {words} words, {1000 * wrong / words:.2f} in 1,000; {cost}")


def _letters(text: str) -> str:
    return re.sub(r"[^a-z0-9]", "", text.lower())


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--half", choices=("tune", "held"))
    parser.add_argument("--show", action="store_true")
    return parser.parse_args()


if __name__ == "__main__":
    main()
