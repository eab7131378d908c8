"""What the measurements of both pages share: an invented walk, a browser, opening, a brisk scroll, one decision."""

from __future__ import annotations

import shutil
import statistics
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager

from playwright.sync_api import Browser, Page, sync_playwright

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
from narrate2report.records.transcript import Recording

ROOMS = 12
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


def flaw(name: str, room: int, condition: str, piece: Evidence) -> Entry:
    """A flaw of the wall in one of the rooms, counted from 0."""
    return Entry(
        id=name,
        kind="condition",
        room=f"bedroom.{room + 1}",
        component="wall",
        condition=condition,
        assertion="present",
        evidence=(piece,),
        confidence=0.8,
        because=("told so",),
    )


def walk_of(
    file: str,
    length_s: float,
    entries: Sequence[Entry],
    coverage: Sequence[Coverage] = (),
    unused: Sequence[Unused] = (),
) -> Findings:
    """The record of a walk that stays equally long in each room."""
    starts = [at * length_s / ROOMS for at in range(ROOMS + 1)]
    return Findings(
        walkthrough=Header(),
        recordings=(Recording(file=file, sha256="0" * 64, bytes=1, duration_s=length_s),),
        transcript=TranscriptFacts(
            engine="invented",
            model=None,
            model_sha256=None,
            language="en",
            vocabulary_version="0" * 64,
            time_precision="line",
        ),
        entries=tuple(entries),
        rooms=tuple(
            RoomVisit(room=f"bedroom.{at + 1}", recording=file, start=starts[at], end=starts[at + 1])
            for at in range(ROOMS)
        ),
        coverage=tuple(coverage),
        unused=tuple(unused),
    )


@contextmanager
def chromium() -> Iterator[Browser]:
    """The browser of this computer."""
    with sync_playwright() as playwright:
        options = ["--no-sandbox", "--disable-gpu"]
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=options)
        yield browser
        browser.close()


def opened(browser: Browser, address: str) -> tuple[Page, float]:
    """The page at rest, and the seconds from asking for it until then."""
    page = browser.new_page(viewport={"width": 1440, "height": 900})
    began = time.perf_counter()
    page.goto(address)
    page.wait_for_selector("body[data-busy=no]")
    return page, time.perf_counter() - began


def kept_after(page: Page, key: str) -> float:
    """Seconds from pressing the key of a decision until it is shown as kept."""
    began = time.perf_counter()
    page.keyboard.press(key)
    page.wait_for_selector("#notice:has-text('Kept')")
    return time.perf_counter() - began


def told_scroll(frames: Sequence[float]) -> str:
    """How long the pictures of a scroll took, in milliseconds each."""
    slow = sum(one > 50 for one in frames)
    return (
        f"scrolling: {len(frames)} pictures, median {statistics.median(frames):.0f} ms, "
        f"longest {max(frames):.0f} ms, {slow} over 50 ms"
    )
