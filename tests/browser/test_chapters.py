"""A film with chapters, in a real browser: whoever goes to a chapter sees the picture of that moment."""

from __future__ import annotations

import base64
from pathlib import Path

import av
import numpy as np
import pytest
from playwright.sync_api import Browser

from narrate2report.cli import main
from narrate2report.records.beside import transcript_beside
from tests.browser.seeking import seek, soon
from tests.clock import read_clock
from tests.drafted import SAMPLES, Drafted

PLAYER = """
async ([film, chapters]) => {
  const blob = async (text, type) => URL.createObjectURL(new Blob(
    [Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0))], { type }));
  const video = document.createElement("video");
  video.muted = true;
  const track = document.createElement("track");
  Object.assign(track, { kind: "chapters", src: await blob(chapters, "text/vtt"), default: true });
  video.append(track);
  document.body.append(video);
  const read = new Promise((done, failed) => { track.onload = done; track.onerror = failed; });
  track.track.mode = "hidden";
  const opened = new Promise((done, failed) => { video.onloadeddata = done; video.onerror = failed; });
  video.src = await blob(film, "video/mp4");
  await Promise.all([read, opened]);
  return [video.duration, [...track.track.cues].map((cue) => [cue.startTime, cue.endTime, cue.text])];
}
"""
SHOWN = """
() => {
  const video = document.querySelector("video");
  const canvas = document.createElement("canvas");
  [canvas.width, canvas.height] = [video.videoWidth, video.videoHeight];
  canvas.getContext("2d").drawImage(video, 0, 0);
  return canvas.toDataURL("image/png").split(",")[1];
}
"""
ACTIVE = """() => [...document.querySelector("track").track.activeCues].map((cue) => cue.text)"""


@pytest.fixture(scope="module")
def films(move_in: Drafted, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The sample film with its chapters."""
    folder = tmp_path_factory.mktemp("films")
    record = folder / "move-in.findings.json"
    record.write_bytes(move_in.out.read_bytes())
    transcript_beside(record).write_bytes(move_in.transcript.read_bytes())
    (folder / "move-in.mp4").write_bytes((SAMPLES / "move-in.mp4").read_bytes())
    assert main(["chapters", str(record), "--to", str(folder), "--quiet"]) == 0
    return folder


def test_going_to_a_chapter_shows_the_picture_of_that_moment(browser: Browser, films: Path, tmp_path: Path) -> None:
    """The clock that is burnt into every picture of the sample says when it was taken."""
    film = films / "move-in.chapters.mp4"
    with av.open(str(film)) as container:
        starts = [float(one["start"] * one["time_base"]) for one in container.chapters() if one["time_base"]]
    page = browser.new_page()
    parts = [base64.b64encode(path.read_bytes()).decode() for path in (film, films / "move-in.chapters.vtt")]
    duration, cues = page.evaluate(PLAYER, parts)
    assert duration == pytest.approx(222.7, abs=0.1)
    assert sorted({start for start, _, _ in cues}) == pytest.approx(starts, abs=0.0015)
    for start in starts[:: max(1, len(starts) // 12)]:
        seek(page, "video", start + 0.01)
        moment = pytest.approx(start, abs=0.15)
        assert soon(lambda: shown_at(base64.b64decode(page.evaluate(SHOWN)), tmp_path), moment) == moment
        active = page.evaluate(ACTIVE)
        assert {text for begin, _, text in cues if begin == pytest.approx(start, abs=0.0015)} <= set(active)
    page.close()


def shown_at(png: bytes, folder: Path) -> float:
    """What the clock in a picture says, in seconds."""
    path = folder / "shown.png"
    path.write_bytes(png)
    with av.open(str(path)) as container:
        picture = next(container.decode(video=0)).to_ndarray(format="rgb24")
    return read_clock(np.ascontiguousarray(picture))
