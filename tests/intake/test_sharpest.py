"""Of a stretch, the picture is proposed in which most can be made out."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from av.video.frame import VideoFrame
from numpy.typing import NDArray

from narrate2report.intake.frames import sharpest
from narrate2report.intake.sharpness import is_blank, sharpness
from narrate2report.intake.upright import luma
from tests.intake.films import HIGH, WIDE, Pixels, coded, number_of, write_film

RANDOM = np.random.default_rng(5)
GRAIN = RANDOM.normal(0, 12, (HIGH, WIDE, 1))


def smeared(number: int, reach: int) -> Pixels:
    """A coded picture with the grain of a wall, smeared sideways as by a moving hand."""
    picture = coded(number) + GRAIN
    moved = sum(np.roll(picture, step, axis=1) for step in range(-reach, reach + 1)) / (2 * reach + 1)
    return np.clip(moved, 0, 255).astype(np.uint8)


def film(path: Path, reaches: dict[int, int], *, otherwise: int = 4) -> Path:
    return write_film(path, pictures=[smeared(number, reaches.get(number, otherwise)) for number in range(40)])


def dark(level: int) -> Pixels:
    noise = np.random.default_rng(level).normal(level, 2, (HIGH, WIDE, 1))
    return np.repeat(np.clip(noise, 0, 255), 3, axis=2).astype(np.uint8)


@pytest.mark.parametrize("clear", [10, 17, 25])
def test_the_clear_picture_among_smeared_ones_is_taken(tmp_path: Path, clear: int) -> None:
    found = sharpest(film(tmp_path / "walk.mp4", {clear: 0, 14: 2}), 1.0, 2.5)
    assert number_of(found.pixels) == clear
    assert found.time_s == pytest.approx(clear / 10)


def test_only_the_stretch_is_looked_at(tmp_path: Path) -> None:
    """The clear pictures lie just outside; the one shown at its start belongs to it."""
    path = film(tmp_path / "walk.mp4", {9: 0, 21: 0, 15: 2})
    assert number_of(sharpest(path, 1.0, 2.0).pixels) == 15
    assert number_of(sharpest(path, 0.97, 2.0).pixels) == 9


def test_black_and_blank_pictures_are_passed_over(tmp_path: Path) -> None:
    blank = {0: dark(2), 1: dark(128), 2: np.full((HIGH, WIDE, 3), 255, np.uint8)}
    pictures = [blank.get(number % 4, smeared(number, 30)) for number in range(40)]
    assert number_of_smeared(sharpest(write_film(tmp_path / "walk.mp4", pictures=pictures), 0.0, 3.9).pixels)


def number_of_smeared(picture: Pixels) -> bool:
    return bool(picture.std() > 10)


def test_where_all_is_black_there_is_still_a_picture(tmp_path: Path) -> None:
    path = write_film(tmp_path / "walk.mp4", pictures=[dark(3)] * 40)
    assert 1.0 <= sharpest(path, 1.0, 2.0).time_s <= 2.0


def test_of_equally_sharp_pictures_the_earliest_is_taken(tmp_path: Path) -> None:
    still = [smeared(3, 1)] * 40
    path = write_film(tmp_path / "walk.mp4", pictures=still)
    first, again = sharpest(path, 1.0, 3.0), sharpest(path, 1.0, 3.0)
    assert first.time_s == pytest.approx(1.0, abs=0.11)
    assert first.time_s == again.time_s
    assert np.array_equal(first.pixels, again.pixels)


@pytest.mark.parametrize(("start_s", "end_s"), [(2.0, 2.0), (2.05, 2.06), (2.0, 1.0), (3.95, 4.5), (80.0, 90.0)])
def test_a_stretch_without_length_has_its_picture(tmp_path: Path, start_s: float, end_s: float) -> None:
    path = film(tmp_path / "walk.mp4", {})
    assert number_of(sharpest(path, start_s, end_s).pixels) == min(39, int(start_s * 10 + 1e-6))


def test_a_long_stretch_costs_no_more_than_sixty_looks(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = write_film(tmp_path / "walk.mp4", times_s=[number / 25 for number in range(1000)])
    looks: list[float] = []

    def counted(frame: VideoFrame, long_side: int) -> NDArray[np.uint8]:
        looks.append(frame.time)
        return luma(frame, long_side)

    monkeypatch.setattr("narrate2report.intake.frames.luma", counted)
    sharpest(path, 5.0, 39.0)
    assert 50 <= len(looks) <= 60
    assert max(looks) <= 25.0
    assert max(np.diff(looks)) < 0.5


@pytest.mark.parametrize("reach", [1, 2, 5])
def test_smearing_lowers_sharpness(reach: int) -> None:
    def of(smear: int) -> float:
        return sharpness(smeared(5, smear).mean(axis=2).astype(np.uint8))

    assert of(reach) < of(reach - 1)


def test_a_gradient_is_not_sharp_and_a_board_of_squares_is() -> None:
    """The Laplacian of a plane is nothing; of single squares of 0 and 255 it is 4 x 255 either way."""
    ramp = np.tile(np.arange(200, dtype=np.uint8), (100, 1))
    board = (np.indices((100, 100)).sum(axis=0) % 2 * 255).astype(np.uint8)
    assert sharpness(ramp) == 0.0
    assert sharpness(board) == pytest.approx((4 * 255) ** 2)


def test_a_covered_lens_is_blank_and_a_dim_room_is_not() -> None:
    assert is_blank(dark(3)[:, :, 0])
    assert not is_blank((coded(5).mean(axis=2) / 8).astype(np.uint8))
