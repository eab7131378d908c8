"""How the review page opens and scrolls on a walk of three hours: 1,500 entries, 5,000 sentences.

    python tests/benchmarks/review_page.py

Prints how long it takes from asking for the address until the first entry can be decided, beside the sample-sized
walk in the same run, and how long the pictures of a brisk scroll took: 120 px a picture, 600 pictures at most, timed by
requestAnimationFrame.
"""

from __future__ import annotations

import random
import shutil
import statistics
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[2]))

from playwright.sync_api import Browser, sync_playwright

from narrate2report.records.files import write_record
from narrate2report.records.findings import (
    Coverage,
    Entry,
    Evidence,
    Findings,
    Header,
    RoomVisit,
    TranscriptFacts,
    Unused,
)
from narrate2report.records.moments import fragment
from narrate2report.records.transcript import Recording
from tests.browser.conftest import served

FILE = "walk.mp4"
WORDS = "there is a long thin scratch on the left side of the counter next to the sink where the board was kept".split()
SCROLL = """
() => new Promise((done) => {
  const times = []; let last = performance.now(); let at = 0;
  const step = (now) => {
    times.push(now - last); last = now; at += 120;
    window.scrollTo(0, at);
    const more = at < document.documentElement.scrollHeight && times.length < 600;
    if (more) requestAnimationFrame(step); else done(times.slice(1));
  };
  requestAnimationFrame(step);
})
"""


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
        made.append(
            Entry(
                id=f"e{number:08d}",
                kind="condition",
                room=f"bedroom.{number * 12 // sentences + 1}",
                component="wall",
                condition="scratch",
                assertion="present",
                evidence=(piece,),
                confidence=0.8,
                because=("'scratch' means scratch",),
            )
        )
    rooms = [
        RoomVisit(room=f"bedroom.{one + 1}", recording=FILE, start=one * length / 12, end=(one + 1) * length / 12)
        for one in range(12)
    ]
    return Findings(
        walkthrough=Header(),
        recordings=(Recording(file=FILE, sha256="0" * 64, bytes=1, duration_s=length),),
        transcript=TranscriptFacts(
            engine="invented",
            model=None,
            model_sha256=None,
            language="en",
            vocabulary_version="0" * 64,
            time_precision="line",
        ),
        entries=tuple(made),
        rooms=tuple(rooms),
        coverage=tuple(Coverage(room="bedroom.1", component=f"part_{one}", status="not_noted") for one in range(40)),
        unused=tuple(unused),
    )


def measure(browser: Browser, findings: Findings, folder: Path) -> dict[str, Any]:
    """Seconds until the page is at rest, milliseconds a picture while scrolling, seconds for one decision."""
    file = folder / "walk.findings.json"
    write_record(file, findings)
    with served(file) as address:
        page = browser.new_page(viewport={"width": 1440, "height": 900})
        began = time.perf_counter()
        page.goto(address)
        page.wait_for_selector("body[data-busy=no]")
        opened = time.perf_counter() - began
        frames = page.evaluate(SCROLL)
        began = time.perf_counter()
        page.keyboard.press("a")
        page.wait_for_selector("#notice:has-text('Kept')")
        decided = time.perf_counter() - began
        page.close()
    file.with_name("walk.journal.jsonl").unlink()
    return {"opened": opened, "frames": frames, "decided": decided}


def main() -> None:
    """Measure both walks and print a line for each."""
    with sync_playwright() as playwright, tempfile.TemporaryDirectory() as folder:
        options = ["--no-sandbox", "--disable-gpu"]
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=options)
        for name, size in {"4 minutes": (70, 56, 4 / 60), "3 hours": (5000, 1500, 3.0)}.items():
            found = measure(browser, walk(*size), Path(folder))
            slow = sum(one > 50 for one in found["frames"])
            print(
                f"{name:10} opens in {found['opened']:.2f} s; scrolling: {len(found['frames'])} pictures, "
                f"median {statistics.median(found['frames']):.0f} ms, longest {max(found['frames']):.0f} ms, "
                f"{slow} over 50 ms; a decision is shown as kept after {found['decided']:.2f} s"
            )
        browser.close()


if __name__ == "__main__":
    main()
