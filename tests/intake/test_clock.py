"""Where sound is heard, a player shows the picture that belongs to it: read off a clock burnt into the frames."""

from __future__ import annotations

from pathlib import Path

import av
import numpy as np
import pytest

from narrate2report.intake.sound import sound_blocks
from tests.intake.clock_films import CLICKS_S, LENGTH_S, Film, cut_start, every, shoot, shown_at, turn
from tests.intake.recordings import beep_starts

FRAME_S = 0.04
NEAR_S = 0.03


def clicks(path: Path) -> list[float]:
    return beep_starts(np.concatenate(list(sound_blocks(path))))


def check(path: Path, expected: int = len(CLICKS_S), longest_frame_s: float = FRAME_S) -> None:
    """At each click a player shows the frame that was filmed when it sounded, or the one just before."""
    heard = clicks(path)
    assert len(heard) == expected
    for at, filmed in zip(heard, CLICKS_S[-expected:], strict=True):
        behind = filmed - shown_at(path, at + NEAR_S)
        assert -2 * NEAR_S <= behind <= longest_frame_s, f"the click of {filmed} s is heard beside {filmed - behind} s"


STEADY = {
    "mp4": Film(),
    "mp4 with frames out of order": Film(options={"bf": "2", "g": "12"}),
    "mov": Film(".mov", audio="pcm_s16le"),
    "hevc": Film(video="libx265", options={"x265-params": "log-level=none"}),
    "mkv": Film(".mkv", audio="libopus"),
    "av1": Film(video="libsvtav1"),
    "webm": Film(".webm", video="libvpx-vp9", audio="libopus"),
    "3gp": Film(".3gp", video="mpeg4"),
}


@pytest.mark.parametrize("film", STEADY.values(), ids=STEADY.keys())
def test_a_click_is_heard_beside_its_picture(tmp_path: Path, film: Film) -> None:
    path = shoot(tmp_path / f"walk{film.ending}", film)
    check(path)
    assert clicks(path) == pytest.approx(CLICKS_S, abs=NEAR_S)


@pytest.mark.parametrize("ending", [".mp4", ".mov", ".mkv"])
def test_uneven_frames_do_not_move_the_sound(tmp_path: Path, ending: str) -> None:
    """Frames 0.03 to 0.4 s apart: counting frames would be off by seconds."""
    film = Film(ending, frame_times=every(0.03, 0.05, 0.4, 0.1))
    path = shoot(tmp_path / f"walk{ending}", film)
    check(path, longest_frame_s=0.4)
    assert clicks(path) == pytest.approx(CLICKS_S, abs=NEAR_S)


@pytest.mark.parametrize("ending", [".mp4", ".mov"])
@pytest.mark.parametrize("options", [{}, {"bf": "2", "g": "12"}], ids=["in order", "out of order"])
def test_a_trimmed_start_is_not_played(tmp_path: Path, ending: str, options: dict[str, str]) -> None:
    """The edit lists begin 2 s into the film: a player shows that moment as 0:00."""
    path = shoot(tmp_path / f"walk{ending}", Film(ending, options=options))
    cut_start(path, 2.0)
    assert clicks(path) == pytest.approx([at - 2.0 for at in CLICKS_S[1:]], abs=NEAR_S)
    check(path, expected=2)
    assert sum(len(block) for block in sound_blocks(path)) / 16_000 == pytest.approx(LENGTH_S - 2.0, abs=0.1)


@pytest.mark.parametrize("ending", [".mp4", ".mov", ".mkv"])
def test_a_film_that_begins_late_keeps_its_times(tmp_path: Path, ending: str) -> None:
    """All times 1.2 s later, as a cut without new encoding leaves them: players wait that long."""
    path = shoot(tmp_path / f"walk{ending}", Film(ending, shift_s=1.2))
    check(path)
    assert clicks(path) == pytest.approx([at + 1.2 for at in CLICKS_S], abs=NEAR_S)


def test_a_film_marked_as_turned_is_heard_like_any_other(tmp_path: Path) -> None:
    path = shoot(tmp_path / "walk.mp4", Film())
    straight = list(sound_blocks(path))
    turn(path)
    with av.open(str(path)) as container:
        assert next(container.decode(video=0)).rotation in (90, -90)
    assert np.array_equal(np.concatenate(list(sound_blocks(path))), np.concatenate(straight))
    check(path)
