"""Going to a moment of a film once, and looking until the picture of that moment is shown."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import TypeVar

from playwright.sync_api import Page

Shown = TypeVar("Shown")

SEEK = """
async ([player, at]) => {
  const video = document.querySelector(player);
  const there = new Promise((done) => video.addEventListener("seeked", done, { once: true }));
  video.currentTime = at;
  await there;
}
"""
PATIENCE_S = 10.0


def seek(page: Page, player: str, at: float) -> None:
    """Go to a moment, in seconds."""
    page.evaluate(SEEK, [player, at])


def soon(look: Callable[[], Shown], right: object) -> Shown:
    """What is seen when it is right, else what was seen last.

    A browser that works hard says `seeked` some time before it shows the picture.
    """
    ends = time.monotonic() + PATIENCE_S
    while (seen := look()) != right and time.monotonic() < ends:
        time.sleep(0.05)
    return seen
