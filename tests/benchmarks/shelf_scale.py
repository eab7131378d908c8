"""How a shelf grows: building its index, listing, searching, and searching without one, in the same call.

    python tests/benchmarks/shelf_scale.py [--walks 1000 10000] [--entries 100] [--folder BUILD]

Walks are made up from a few rooms, components and flaws; a tenth of the sentences name the caulk of a bathtub. Told for
each size: seconds to build, to bring up to date when nothing or one walk changed, to list (as the command does it, with
that check), to search rare and common words, and the time of a plain scan of the same rows, as a ratio.
"""

from __future__ import annotations

import argparse
import json
import random
import sqlite3
import statistics
import time
from collections.abc import Callable
from pathlib import Path

from narrate2report.publish.shelf_list import shelf_list
from narrate2report.records.files import write_record
from narrate2report.records.findings import Entry, Evidence, Findings, Header, Sourced, TranscriptFacts
from narrate2report.records.transcript import Recording
from narrate2report.shelf.index import open_index

ROOMS = ["kitchen", "bathroom", "bedroom.1", "bedroom.2", "living_room", "hallway"]
COMPONENTS = ["wall", "door", "window", "sink", "floor", "countertop", "oven", "ceiling", "baseboard"]
FLAWS = ["scratch", "stain", "dent", "crack", "chip", "loose", "leak"]
SAID = "by the left side under there as you come in near where it meets the other about so long".split()


def main() -> None:
    options = _options()
    for walks in options.walks:
        folder = options.folder / f"{walks}x{options.entries}"
        if not folder.exists():
            make(folder, walks, options.entries)
        print(json.dumps(measured(folder, options.folder / f"{walks}.sqlite")), flush=True)


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--walks", nargs="*", type=int, default=[1000, 10000])
    parser.add_argument("--entries", type=int, default=100)
    parser.add_argument("--folder", type=Path, default=Path("build/shelf"))
    return parser.parse_args()


def make(folder: Path, walks: int, entries: int) -> None:
    chance = random.Random(2026)
    for number in range(walks):
        place = folder / f"{number // 100:03}" / f"unit-{number:05}"
        place.mkdir(parents=True)
        write_record(place / "walk.findings.json", walk(chance, number, entries))
    (folder / "done").touch()


def walk(chance: random.Random, number: int, entries: int) -> Findings:
    day = f"20{10 + number % 16}-{1 + number % 12:02}-{1 + number % 28:02}"
    return Findings(
        walkthrough=Header(
            unit=(Sourced(value=f"{number % 500}B", source="given"),), date=(Sourced(value=day, source="given"),)
        ),
        recordings=(Recording(file="walk.mp4", sha256="0" * 64, bytes=1, duration_s=7200.0),),
        transcript=TranscriptFacts(
            engine="made up",
            model=None,
            model_sha256=None,
            language="en",
            vocabulary_version="0" * 64,
            time_precision="line",
        ),
        entries=tuple(entry(chance, at) for at in range(entries)),
        rooms=(),
        coverage=(),
        unused=(),
    )


def entry(chance: random.Random, at: int) -> Entry:
    component, flaw = chance.choice(COMPONENTS), chance.choice(FLAWS)
    words = " ".join(chance.choices(SAID, k=8))
    quote = (
        f"the caulk at the bathtub is {flaw} {words}" if chance.random() < 0.1 else f"{flaw} on the {component} {words}"
    )
    return Entry(
        id=f"e{at:08x}",
        kind="condition",
        room=chance.choice(ROOMS),
        component=component,
        condition=flaw,
        assertion="present",
        evidence=(Evidence.of("walk.mp4", at * 10.0, at * 10.0 + 4, quote, f"s{at}"),),
        confidence=0.8,
        because=("made up",),
    )


def measured(folder: Path, place: Path) -> dict[str, object]:
    place.unlink(missing_ok=True)
    with open_index(place, folder) as index:
        build = seconds(lambda: index.refresh(_silent))
    with open_index(place, folder) as index:
        nothing = median_of(lambda: index.refresh(_silent))
        first = next(folder.rglob("*.findings.json"))

        def one_changed() -> None:
            first.touch()
            index.refresh(_silent)

        one = median_of(one_changed)
        walks = len(index.walks())

        def listed() -> None:
            index.refresh(_silent)
            shelf_list(index.walks())

        listing = median_of(listed)
        searches = {
            words: round(1000 * median_of(lambda words=words: index.search([(one,) for one in words.split()], 50)), 1)  # type: ignore[misc]
            for words in ("caulk bathtub", "scratch", "chip oven ceiling", "nowhere")
        }
    base = sqlite3.connect(place)
    (rows,) = base.execute("select count(*) from line").fetchone()
    scan = median_of(
        lambda: base.execute(
            "select count(*) from line where words like '%caulk%' and words like '%bathtub%'"
        ).fetchone()
    )
    return {
        "walks": walks,
        "entries": rows,
        "build_s": round(build, 1),
        "nothing_changed_s": round(nothing, 3),
        "one_changed_s": round(one, 3),
        "listing_s": round(listing, 3),
        "search_ms": searches,
        "scan_ms": round(1000 * scan, 1),
        "search_to_scan": round(searches["caulk bathtub"] / 1000 / scan, 4),
        "index_mb": round(place.stat().st_size / 1e6),
        "records_mb": round(sum(file.stat().st_size for file in folder.rglob("*.json")) / 1e6),
    }


def _silent(done: int, of: int) -> None:
    """Nobody watches a benchmark."""


def seconds(work: Callable[[], object]) -> float:
    began = time.perf_counter()
    work()
    return time.perf_counter() - began


def median_of(work: Callable[[], object]) -> float:
    return statistics.median(seconds(work) for _ in range(5))


if __name__ == "__main__":
    main()
