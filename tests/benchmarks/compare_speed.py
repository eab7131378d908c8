"""How long setting two long walks beside each other takes, against plainly grading every two flaws of the two.

    python tests/benchmarks/compare_speed.py [--entries 2000] [--rooms 20]

Both sides hold the same number of entries over the same rooms. The plain way grades each earlier flaw with each later
one and assigns all of them in one matrix. Printed: seconds of both, their ratio, and how the time grows with length.
"""

from __future__ import annotations

import argparse
import random
import time
from typing import Any

import numpy as np
from scipy.optimize import linear_sum_assignment

from narrate2report.compare.alike import likeness
from narrate2report.compare.flaws import counting, flaws_of
from narrate2report.compare.scope import Scope
from narrate2report.records.findings import Findings
from tests.compare.walks import compared, terms, walk

COMPONENTS = ("wall", "floor", "ceiling", "door", "window", "carpet", "sink", "countertop", "cabinet", "blinds")
CONDITIONS = ("scuff", "scratch", "stain", "hole", "nail_hole", "dent", "crack", "dirty", "worn", "good")
ANCHORS = ("door", "window", "corner", "closet", "sink", "radiator", "outlet", "shelf", "stairs", "desk")
SIDES = ("left of the", "right of the", "by the", "under the", "above the")


def long_walk(entries: int, rooms: int, seed: int) -> Findings:
    """A walk of so many entries, most of them flaws, at places as people tell them."""
    chance = random.Random(seed)
    return walk(
        {
            "schema": "narrate2report/findings/1",
            "recordings": [{"file": "walk.mp4"}],
            "entries": [_entry(number, number * rooms // entries, chance) for number in range(entries)],
        }
    )


def _entry(number: int, room: int, chance: random.Random) -> dict[str, Any]:
    where = f"{chance.choice(SIDES)} {chance.choice(ANCHORS)}"
    component, condition = chance.choice(COMPONENTS), chance.choice(CONDITIONS)
    quote = f"There is a {condition} on the {component} {where}."
    return {
        "id": f"f-{number:05d}",
        "kind": "condition",
        "room": f"bedroom.{room + 1}",
        "component": component,
        "condition": condition,
        "where": where,
        "quantity": chance.choice((None, 1, 2, 3)),
        "evidence": [{"recording": 0, "start": number * 4.0, "end": number * 4.0 + 3, "quote": quote}],
    }


def plainly(before: Findings, after: Findings) -> int:
    """Every two flaws graded, all in one matrix; how many are paired."""
    said = counting(before), counting(after)
    one, other = flaws_of(said[0], terms()), flaws_of(said[1], terms())
    rooms = {entry.room: entry.room for entry in said[0]}
    scope = Scope.of(rooms, *said, terms())
    worth = np.zeros((len(one), len(other)))
    for row, earlier in enumerate(one):
        for column, later in enumerate(other):
            found = likeness(earlier, later, scope.grade(earlier.entry, later.entry), terms())
            worth[row, column] = found.grade if found else 0.0
    rows, columns = linear_sum_assignment(worth, maximize=True)
    return int((worth[rows, columns] > 0).sum())


def timed(what: Any, *given: Any) -> tuple[float, Any]:
    """Seconds that a call takes, and what it gives."""
    start = time.perf_counter()
    found = what(*given)
    return time.perf_counter() - start, found


def main() -> None:
    """Print the times and their ratio."""
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else None)
    arguments.add_argument("--entries", type=int, default=2000, help="of each walk")
    arguments.add_argument("--rooms", type=int, default=20)
    chosen = arguments.parse_args()
    terms()
    for entries in (chosen.entries // 4, chosen.entries // 2, chosen.entries):
        before, after = (long_walk(entries, chosen.rooms, seed) for seed in (1, 2))
        ours, comparison = timed(compared, before, after)
        pairs = sum(bool(change.before and change.after) for change in comparison.changes)
        line = f"{entries} x {entries} entries, {chosen.rooms} rooms: {ours:.2f} s, {pairs} pairs"
        if entries == chosen.entries:
            plain, plain_pairs = timed(plainly, before, after)
            line += f"; plainly {plain:.2f} s, {plain_pairs} pairs; {plain / ours:.1f} times as long"
        print(line, flush=True)


if __name__ == "__main__":
    main()
