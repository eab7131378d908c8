"""How the review page opens and scrolls on a walk of three hours: 1,500 entries, 5,000 sentences.

    python tests/benchmarks/review_page.py

Prints how long it takes from asking for the address until the first entry can be decided, beside the sample-sized
walk in the same run, and how long the pictures of a brisk scroll took: 120 px a picture, 600 pictures at most, timed by
requestAnimationFrame.
"""

from __future__ import annotations

import random
import sys
import tempfile
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[2]))

from playwright.sync_api import Browser

from narrate2report.records.files import write_record
from narrate2report.records.findings import Coverage, Entry, Evidence, Findings, Unused
from narrate2report.records.moments import fragment
from tests.benchmarks.long_walk import ROOMS, SCROLL, chromium, flaw, kept_after, opened, told_scroll, walk_of
from tests.browser.conftest import served

FILE = "walk.mp4"
WORDS = "there is a long thin scratch on the left side of the counter next to the sink where the board was kept".split()


def walk(sentences: int, entries: int, hours: float) -> Findings:
    """An invented walk of this size."""
    chance = random.Random(7)
    length = hours * 3600
    spoken = set(chance.sample(range(sentences), entries))
    made: list[Entry] = []
    unused: list[Unused] = []
    for number in range(sentences):
        start = number * length / sentences
        name, text = f"s{number + 1:04d}", " ".join(chance.choices(WORDS, k=14)).capitalize() + "."
        if number not in spoken:
            facts = {"recording": FILE, "start": start, "end": start + 2, "text": text}
            unused.append(Unused(id=name, reason="talk", because="nothing seen", **facts))
            continue
        link = fragment(FILE, start, start + 2)
        piece = Evidence(recording=FILE, start=start, end=start + 2, sentences=(name,), quote=text, link=link)
        made.append(flaw(f"e{number:08d}", number * ROOMS // sentences, "scratch", piece))
    coverage = [Coverage(room="bedroom.1", component=f"part_{one}", status="not_noted") for one in range(40)]
    return walk_of(FILE, length, made, coverage, unused)


def measure(browser: Browser, findings: Findings, folder: Path) -> dict[str, Any]:
    """Seconds until the page is at rest, milliseconds a picture while scrolling, seconds for one decision."""
    file = folder / "walk.findings.json"
    write_record(file, findings)
    with served(file) as address:
        page, until = opened(browser, address)
        frames = page.evaluate(SCROLL)
        decided = kept_after(page, "a")
        page.close()
    file.with_name("walk.journal.jsonl").unlink()
    return {"opened": until, "frames": frames, "decided": decided}


def main() -> None:
    """Measure both walks and print a line for each."""
    with chromium() as browser, tempfile.TemporaryDirectory() as folder:
        for name, size in {"4 minutes": (70, 56, 4 / 60), "3 hours": (5000, 1500, 3.0)}.items():
            found = measure(browser, walk(*size), Path(folder))
            print(
                f"{name:10} opens in {found['opened']:.2f} s; {told_scroll(found['frames'])}; "
                f"a decision is shown as kept after {found['decided']:.2f} s"
            )


if __name__ == "__main__":
    main()
