"""Count in which rooms things are told (narrate2report/read/walk/told_in.csv) in narrations marked by hand.

    PYTHONPATH=. python tests/benchmarks/count_rooms.py FOLDER [FOLDER ...] --out narrate2report/read/walk/told_in.csv

A mark that leaves open in which kind of room the thing is, is not counted.
"""

from __future__ import annotations

import argparse
import json
from collections import Counter
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from tests.benchmarks.weight_table import write_table


def count(marked: Iterable[Path]) -> Counter[tuple[str, str]]:
    """How often each component is marked in each kind of room, by these gold files."""
    marks = (
        mark for gold in marked for mark in json.loads(gold.read_text(encoding="utf-8"))["entries"] if mark.get("room")
    )
    return Counter(
        (rooms.pop(), _several(mark["component"])[0])
        for mark in marks
        if len(rooms := {room.split(".")[0] for room in _several(mark["room"])}) == 1
    )


def main() -> None:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("folders", type=Path, nargs="+")
    parser.add_argument("--out", type=Path, required=True)
    options = parser.parse_args()
    counts = count(gold for folder in options.folders for gold in sorted(folder.glob("*.gold.json")))
    rooms = sorted({room for room, _ in counts})
    table = {room: {thing: marks for (there, thing), marks in counts.items() if there == room} for room in rooms}
    print(f"{counts.total()} marks")
    write_table(options.out, table, ("room", "component", "marks"))


def _several(value: Any) -> list[Any]:
    return value if isinstance(value, list) else [value]


if __name__ == "__main__":
    main()
