"""Count in which rooms things are told (narrate2report/read/walk/told_in.csv) in narrations marked by hand.

    PYTHONPATH=. python tests/benchmarks/count_rooms.py FOLDER [FOLDER ...] --out narrate2report/read/walk/told_in.csv

A mark that leaves open in which kind of room the thing is, is not counted.
"""

from __future__ import annotations

import argparse
from collections import Counter
from collections.abc import Iterable
from pathlib import Path

from narrate2report.read.walk.place import kind_of
from tests.benchmarks.marked import marks_beside, several
from tests.benchmarks.weight_table import write_table


def count(texts: Iterable[Path]) -> Counter[tuple[str, str]]:
    """How often each component is marked in each kind of room of these narrations."""
    marks = (mark for text in texts for mark in marks_beside(text) if mark.get("room"))
    return Counter(
        (rooms.pop(), several(mark["component"])[0])
        for mark in marks
        if len(rooms := {kind_of(room) for room in several(mark["room"])}) == 1
    )


def main() -> None:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("folders", type=Path, nargs="+")
    parser.add_argument("--out", type=Path, required=True)
    options = parser.parse_args()
    counts = count(text for folder in options.folders for text in sorted(folder.glob("*.txt")))
    rooms = sorted({room for room, _ in counts})
    table = {room: {thing: marks for (there, thing), marks in counts.items() if there == room} for room in rooms}
    print(f"{counts.total()} marks")
    write_table(options.out, table, ("room", "component", "marks"))


if __name__ == "__main__":
    main()
