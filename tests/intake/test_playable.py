"""What every browser plays is told from what needs a copy."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import av
import numpy as np
import pytest

from narrate2report.errors import BadInput
from narrate2report.intake.playable import plays_in_browsers
from tests.intake.films import write_film
from tests.intake.recordings import KINDS, Kind, beeps, write_recording

PLAYED = {
    (".mp4", "aac", "libx264"),
    (".webm", "libopus", "libvpx-vp9"),
    (".webm", "libopus", "libvpx"),
    (".webm", "libopus", "libsvtav1"),
    (".m4a", "aac", None),
    (".mp3", "libmp3lame", None),
    (".wav", "pcm_s16le", None),
    (".wav", "pcm_s24le", None),
    (".flac", "flac", None),
}
FURTHER = (
    Kind(".webm", "libopus", "libvpx"),
    Kind(".mp4", "ac3", "libx264"),
    Kind(".mp4", "aac", "mpeg4"),
    Kind(".mp4", "aac", "libvpx-vp9"),
    Kind(".mkv", "aac", "libx264"),
    Kind(".mov", "aac"),
    Kind(".wav", "pcm_alaw", rate=8_000),
    Kind(".avi", "libmp3lame", "mpeg4"),
)


@pytest.mark.parametrize("kind", KINDS + FURTHER, ids=lambda kind: f"{kind.ending[1:]}-{kind.video}-{kind.audio}")
def test_a_kind_of_recording_is_judged(tmp_path: Path, kind: Kind) -> None:
    path = write_recording(tmp_path / f"walk{kind.ending}", kind, beeps(kind.rate))
    assert plays_in_browsers(path) is ((kind.ending, kind.audio, kind.video) in PLAYED)


def test_the_content_tells_and_not_the_name(tmp_path: Path) -> None:
    film = write_film(tmp_path / "walk.mov")
    assert plays_in_browsers(film.rename(tmp_path / "walk.mp4")) is False
    film = write_film(tmp_path / "other.mp4")
    assert plays_in_browsers(film.rename(tmp_path / "other.mov")) is True


@pytest.mark.parametrize("pixels", ["yuv422p", "yuv444p", "yuv420p10le"])
def test_pictures_finer_than_decoders_in_hardware_take_need_a_copy(tmp_path: Path, pixels: str) -> None:
    path = tmp_path / "walk.mp4"
    with av.open(str(path), "w") as container:
        video = container.add_stream("libx264", rate=10)
        video.width, video.height, video.pix_fmt = 64, 48, pixels
        frame = av.VideoFrame.from_ndarray(np.zeros((48, 64, 3), np.uint8), format="rgb24")
        frame.pts, frame.time_base = 0, Fraction(1, 10)
        container.mux(video.encode(frame))
        container.mux(video.encode())
    assert plays_in_browsers(path) is False


def test_a_picture_alone_plays(tmp_path: Path) -> None:
    assert plays_in_browsers(write_film(tmp_path / "walk.mp4")) is True
    assert plays_in_browsers(write_film(tmp_path / "walk.webm", "libvpx-vp9")) is True


def test_what_is_no_recording_is_refused(tmp_path: Path) -> None:
    (tmp_path / "walk.mp4").write_bytes(b"words " * 1000)
    with pytest.raises(BadInput, match=r"walk\.mp4"):
        plays_in_browsers(tmp_path / "walk.mp4")
