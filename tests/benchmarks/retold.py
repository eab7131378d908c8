"""How much of a record stays the same when the same walk is told otherwise: without marks, with fillers, cut up.

    PYTHONPATH=. python tests/benchmarks/retold.py FOLDER [FOLDER ...]

FOLDER holds narrations, NAME.txt. For each change of tests/read/retold.py: the agreement over all of a folder
(1 is the same record), and how many entries were lost and how many are new.
"""

from __future__ import annotations

import argparse
from pathlib import Path

from narrate2report.intake.transcripts import read_transcript
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.reading import Reader
from tests.read.retold import ADDED, RETELLINGS, changes


def main() -> None:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("folder", type=Path, nargs="+")
    reader = Reader(load_vocabulary())
    for folder in parser.parse_args().folder:
        walks = [read_transcript(path) for path in sorted(folder.glob("*.txt"))]
        print(f"{folder}: {len(walks)} narrations")
        for name, retelling in {**RETELLINGS, **ADDED}.items():
            told = changes(reader.read, walks, retelling)
            print(
                f"  {name:26} {told.agreement:.4f}   {told.lost:4} lost, {told.new:4} new of {told.before}", flush=True
            )


if __name__ == "__main__":
    main()
