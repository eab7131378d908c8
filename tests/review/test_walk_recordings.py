"""Recordings that go missing, come back, or were put in another's place while the review is open."""

from __future__ import annotations

import hashlib
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from narrate2report.commands.walk_recordings import WalkRecordings
from narrate2report.errors import BadInput
from narrate2report.records.transcript import Recording
from narrate2report.review import requests as ask
from narrate2report.review.choices import Choices
from narrate2report.review.desk import Desk
from narrate2report.review.guard import Pass
from narrate2report.review.server import application
from narrate2report.review.walk_site import WalkSite
from tests.intake.films import write_film
from tests.review.hand_made import draft, written

PATIENCE_S = 20


@pytest.fixture
def clip(tmp_path: Path) -> Path:
    return write_film(tmp_path / "one.mp4")


@pytest.fixture
def recordings(clip: Path) -> Iterator[WalkRecordings]:
    content = clip.read_bytes()
    sha256 = hashlib.sha256(content).hexdigest()
    recording = Recording(file=clip.name, sha256=sha256, bytes=len(content), duration_s=2.0)
    opened = WalkRecordings(clip.with_name("walk.findings.json"), (recording,))
    yield opened
    opened.close()


def swapped(clip: Path) -> None:
    """Another recording of the same name and size."""
    content = bytearray(clip.read_bytes())
    content[-1] ^= 1
    clip.write_bytes(content)


def test_a_missing_recording_that_was_put_back_plays(recordings: WalkRecordings, clip: Path) -> None:
    away = clip.rename(clip.with_name("away.mp4"))
    assert "does not lie beside" in (recordings.playing(0).why or "")
    away.rename(clip)
    assert recordings.playing(0).file == clip
    clip.unlink()
    assert "does not lie beside" in (recordings.playing(0).why or "")


def test_a_record_that_names_a_recording_elsewhere_plays_nothing(clip: Path, tmp_path: Path) -> None:
    inside = tmp_path / "walk"
    inside.mkdir()
    content = clip.read_bytes()
    facts = {"sha256": hashlib.sha256(content).hexdigest(), "bytes": len(content)}
    opened = WalkRecordings(inside / "walk.findings.json", (Recording(file=f"../{clip.name}", **facts),))
    state = opened.playing(0)
    opened.close()
    assert state.file is None
    assert "outside its own folder" in (state.why or "")


def test_another_recording_of_the_same_name_and_size_is_told_and_gives_no_pictures(
    recordings: WalkRecordings, clip: Path
) -> None:
    assert recordings.playing(0).file == clip
    swapped(clip)
    give_up = time.monotonic() + PATIENCE_S
    while recordings.playing(0).why is None and time.monotonic() < give_up:
        time.sleep(0.01)
    assert recordings.playing(0).why == "one.mp4 is not the recording that was drafted: its content differs"
    for asked in (lambda: recordings.frame(0, 1.0, 0), lambda: recordings.sharpest(0, 0.5, 1.5)):
        with pytest.raises(BadInput, match="its content differs"):
            asked()


def test_no_picture_of_another_recording_is_kept_however_soon_it_is_asked_for(
    recordings: WalkRecordings, clip: Path
) -> None:
    swapped(clip)
    with pytest.raises(BadInput, match="its content differs"):
        recordings.take(draft(), ask.TakeStill(entry="e1"))
    assert not clip.with_name("walk.stills").exists()


def test_a_recording_removed_while_it_is_reviewed_is_told_in_one_line(recordings: WalkRecordings, clip: Path) -> None:
    entry = Pass(40_404)
    site = WalkSite(Desk(written(clip.parent)), Choices(), recordings)
    with TestClient(application(site, entry), base_url=f"http://127.0.0.1:40404{entry.folder}") as client:
        client.get(entry.address, follow_redirects=False)
        assert client.get("/recording/0").status_code == 200
        clip.unlink()
        answer = client.get("/recording/0")
        assert answer.status_code == 404
        assert "does not lie beside the findings file" in answer.json()["error"]
