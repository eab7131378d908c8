"""A picture made smaller for print: of the size that was asked for, and of the same colours."""

from __future__ import annotations

from pathlib import Path

import av
import numpy as np
import pytest

from narrate2report.errors import BadInput
from narrate2report.intake.frames import Frame
from narrate2report.intake.smaller import smaller_jpeg
from narrate2report.intake.still_file import as_jpeg, as_png
from narrate2report.intake.upright import Pixels


def picture() -> Frame:
    """Red above blue, 400 by 200."""
    pixels = np.zeros((200, 400, 3), np.uint8)
    pixels[:100] = (200, 40, 30)
    pixels[100:] = (20, 60, 180)
    return Frame(time_s=0.0, pixels=pixels)


def decoded(path: Path) -> Pixels:
    with av.open(str(path)) as file:
        shown: Pixels = next(file.decode(video=0)).to_ndarray(format="rgb24").astype(np.uint8)
        return shown


@pytest.mark.parametrize("name", ["a.jpg", "a.png"])
def test_it_has_the_size_that_was_asked_for_and_the_same_colours(tmp_path: Path, name: str) -> None:
    place = tmp_path / name
    place.write_bytes(as_jpeg(picture()) if name == "a.jpg" else as_png(picture()))
    content = smaller_jpeg(place, 100)
    assert content is not None
    small = tmp_path / "small.jpg"
    small.write_bytes(content)
    shown = decoded(small)
    assert shown.shape == (50, 100, 3)
    assert np.abs(shown[5:20].mean(axis=(0, 1)) - (200, 40, 30)).max() < 6
    assert np.abs(shown[30:45].mean(axis=(0, 1)) - (20, 60, 180)).max() < 6


def test_a_picture_that_is_small_enough_stays_as_it_is(tmp_path: Path) -> None:
    (tmp_path / "a.jpg").write_bytes(as_jpeg(picture()))
    assert smaller_jpeg(tmp_path / "a.jpg", 400) is None


@pytest.mark.parametrize("content", [b"", b"no picture", as_jpeg(picture())[:40]])
def test_what_is_no_picture_is_refused(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "a.jpg").write_bytes(content)
    with pytest.raises(BadInput):
        smaller_jpeg(tmp_path / "a.jpg", 100)
