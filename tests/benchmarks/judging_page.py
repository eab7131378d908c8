"""How the judging page opens, scrolls, finds and decides on a comparison of 1,500 changes, beside one of 30.

    python tests/benchmarks/judging_page.py [--changes 1500]

Prints for both, in the same run, how long it takes from asking for the address until the first change can be judged,
how long the pictures of a brisk scroll took (120 px a picture, 600 at most), and how long one judgement and one step to
the next change take until they are shown. Lines out of sight are not laid out (`content-visibility: auto`), and
stay in the document for the browser's own search: whether the last one's words are there is printed too.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[2]))

from playwright.sync_api import Browser, Page

from narrate2report.records.comparison import Compared, Comparison, FlawChange
from narrate2report.records.files import write_record
from narrate2report.records.findings import Evidence, Findings
from narrate2report.records.moments import fragment
from tests.benchmarks.long_walk import ROOMS, SCROLL, chromium, flaw, kept_after, opened, told_scroll, walk_of
from tests.browser.conftest import served

SMALL = 30
STEPS = 20
LENGTH_S = 3 * 3600
KINDS = ("scratch", "scuff", "stain", "chip", "dent", "hole")


def walk(side: str, number: int) -> Findings:
    """An invented walk of so many flaws, each in words of its own."""
    file = f"{side}.mp4"
    entries = []
    for at in range(number):
        start = at * LENGTH_S / number
        quote = f"There is a long {KINDS[at % len(KINDS)]} number {at} on the left side next to the board."
        piece = Evidence.of(file, start, start + 2, quote, f"s{at:04d}")
        assert piece.link == fragment(file, start, start + 2)
        entries.append(flaw(f"{side}{at:05d}", at * ROOMS // number, KINDS[at % len(KINDS)], piece))
    return walk_of(file, LENGTH_S, entries)


def laid_out(folder: Path, number: int) -> Path:
    """A comparison of so many changes with both records: of three, one is unchanged, one worse, one new."""
    folder.mkdir()
    for side in ("in", "out"):
        write_record(folder / f"{side}.findings.json", walk(side, number))
    changes = []
    for at in range(number):
        outcome = ("unchanged", "worse", "new")[at % 3]
        before = () if outcome == "new" else (f"in{at:05d}",)
        changes.append(
            FlawChange.model_validate(
                {
                    "id": f"c{at}",
                    "outcome": outcome,
                    "before": before,
                    "after": (f"out{at:05d}",),
                    "because": ("The same wall at the same place.", "Likeness 0.95 of 1."),
                }
            )
        )
    # The earlier flaws of what is new were repaired, so that every flaw stands in one change.
    gone = [at for at in range(number) if at % 3 == 2]
    changes += [
        FlawChange(id=f"g{at}", outcome="gone", before=(f"in{at:05d}",), because=("It is not there any more.",))
        for at in gone
    ]
    sides = {
        side: Compared(file=f"{side}.findings.json", kind=kind)
        for side, kind in (("in", "move_in"), ("out", "move_out"))
    }
    write_record(
        folder / "changes.json", Comparison(before=sides["in"], after=sides["out"], changes=tuple(changes[:number]))
    )
    return folder / "changes.json"


def measure(browser: Browser, file: Path, number: int) -> dict[str, Any]:
    """Seconds until the page is at rest, milliseconds a picture, seconds a judgement and a step, and what was found."""
    with served(file) as address:
        page, until = opened(browser, address)
        painted = page.evaluate("performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? -1")
        frames = page.evaluate(SCROLL)
        judged = kept_after(page, "1")
        stepped = _stepped(page)
        found = f"number {number - 1} " in str(page.evaluate("document.querySelector('#spine').textContent"))
        page.close()
    return {
        "opened": until,
        "painted": painted,
        "frames": frames,
        "judged": judged,
        "stepped": stepped,
        "found": found,
    }


def _stepped(page: Page) -> float:
    page.wait_for_selector("body[data-busy=no]")
    began = time.perf_counter()
    for _ in range(STEPS):
        page.keyboard.press("j")
    page.evaluate("() => new Promise(requestAnimationFrame)")
    return (time.perf_counter() - began) / STEPS


def main() -> None:
    """Measure both comparisons and print a line for each."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--changes", type=int, default=1500)
    wanted = parser.parse_args()
    with chromium() as browser, tempfile.TemporaryDirectory() as folder:
        for number in (SMALL, wanted.changes):
            found = measure(browser, laid_out(Path(folder) / str(number), number), number)
            print(
                f"{number} changes: first paint after {found['painted'] / 1000:.2f} s, opens in {found['opened']:.2f} "
                f"s; {told_scroll(found['frames'])}; a judgement is shown as kept after "
                f"{found['judged']:.2f} s, a step takes {found['stepped'] * 1000:.0f} ms; the words of the last change "
                f"are {'in the document' if found['found'] else 'MISSING from the document'}"
            )


if __name__ == "__main__":
    main()
