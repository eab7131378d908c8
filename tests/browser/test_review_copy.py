"""A recording that browsers cannot play is reviewed in a copy; its times stay those of the recording."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from playwright.sync_api import Page

from narrate2report.intake.probe import probe
from narrate2report.records.files import read_record, record_json, write_record
from narrate2report.records.findings import Findings
from tests.browser.conftest import Opened
from tests.browser.seeking import seek, soon
from tests.intake.films import number_of, write_film
from tests.review.walks import walk

SHOWN = """
() => {
  const video = document.querySelector("#player");
  const canvas = document.createElement("canvas");
  [canvas.width, canvas.height] = [video.videoWidth, video.videoHeight];
  const paper = canvas.getContext("2d");
  paper.drawImage(video, 0, 0);
  return [canvas.width, canvas.height, [...paper.getImageData(0, 0, canvas.width, canvas.height).data]];
}
"""


@pytest.fixture
def filmed(tmp_path: Path) -> Path:
    """A walk filmed upright with a phone that stores HEVC in MOV lying down; picture n is shown from second n on."""
    file = walk(tmp_path)
    hum = 0.1 * np.sin(np.arange(40 * 16_000) / 20).astype(np.float32)
    film = write_film(
        tmp_path / "clip.mov",
        "libx265",
        [float(second) for second in range(40)],
        turned=90,
        sound=("aac", hum, 16_000, 0.0),
    )
    record = read_record(file, Findings)
    renamed = record.model_dump_json(by_alias=True).replace("walk.txt", "clip.mov")
    moved = Findings.model_validate_json(renamed).model_copy(update={"recordings": (probe(film),)})
    write_record(file, Findings.model_validate(record_json(moved)))
    return file


def test_a_film_that_browsers_cannot_play_shows_the_right_second(
    open_walk: Callable[..., Opened], filmed: Path
) -> None:
    opened = open_walk(filmed)
    opened.page.wait_for_selector("#player[src='recording/0']", timeout=60_000)
    opened.until("document.querySelector('#player').readyState >= 2")
    for second in (0, 9, 25, 31):
        seek(opened.page, "#player", second + 0.5)
        assert soon(lambda: shown(opened.page), second) == second


def shown(page: Page) -> int:
    """The number in the picture that is shown."""
    wide, high, flat = page.evaluate(SHOWN)
    return number_of(np.array(flat, np.uint8).reshape(high, wide, 4)[:, :, :3])


def test_a_picture_for_the_record_comes_from_the_recording_itself(
    open_walk: Callable[..., Opened], filmed: Path
) -> None:
    opened = open_walk(filmed)
    entry = opened.record.entries[0]
    opened.press("t")
    opened.page.wait_for_selector(".strip img[src^='blob:']")
    opened.press("Enter")
    opened.page.wait_for_selector(".stills img")
    (still,) = opened.record.entries[0].stills
    assert still.recording == "clip.mov"
    assert entry.evidence[0].start - 1 <= still.time <= entry.evidence[0].end
