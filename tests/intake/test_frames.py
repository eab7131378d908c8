"""A still is the picture that a player shows at that time, whatever the file is made of."""

from __future__ import annotations

from bisect import bisect_right
from pathlib import Path
from tempfile import TemporaryDirectory

import av
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from narrate2report.errors import BadInput
from narrate2report.intake.frames import frame_at, neighbour
from tests.intake.films import HIGH, TEN_A_SECOND, WIDE, ask_to_turn, coded, cut_beginning, number_of, write_film
from tests.intake.recordings import Kind, write_recording

KINDS = (
    (".mp4", "libx264"),
    (".mov", "libx264"),
    (".mp4", "libx265"),
    (".mov", "libx265"),
    (".mkv", "libx264"),
    (".webm", "libvpx-vp9"),
    (".ts", "libx264"),
    (".avi", "mpeg4"),
    (".3gp", "mpeg4"),
)
UNEVEN = (0.0, 0.1, 0.15, 0.19, 0.9, 0.92, 1.3, 2.5, 2.51, 6.0)


def shown(path: Path, time_s: float) -> int:
    return number_of(frame_at(path, time_s).pixels)


@pytest.mark.parametrize(("ending", "codec"), KINDS)
def test_every_picture_is_found_at_its_time(tmp_path: Path, ending: str, codec: str) -> None:
    path = write_film(tmp_path / f"walk{ending}", codec)
    for number, begins in enumerate(TEN_A_SECOND):
        for time_s in (begins, begins + 0.04, begins + 0.098):
            frame = frame_at(path, time_s)
            assert number_of(frame.pixels) == number
            assert frame.time_s == pytest.approx(begins, abs=1e-6)
            assert (frame.width, frame.height) == (WIDE, HIGH)


@pytest.mark.parametrize(("ending", "codec"), KINDS)
def test_one_steps_picture_by_picture_up_to_the_ends(tmp_path: Path, ending: str, codec: str) -> None:
    path = write_film(tmp_path / f"walk{ending}", codec)
    last = len(TEN_A_SECOND) - 1
    for steps in (-100, -21, -2, -1, 0, 1, 2, 15, 100):
        frame = neighbour(path, 2.34, steps)
        expected = min(max(23 + steps, 0), last)
        assert number_of(frame.pixels) == expected
        assert frame.time_s == pytest.approx(expected / 10, abs=1e-6)


@pytest.mark.parametrize("turned", [0, 90, 180, 270])
@pytest.mark.parametrize(("ending", "codec"), [(".mp4", "libx264"), (".mov", "libx265")])
def test_a_picture_filmed_sideways_stands_upright(tmp_path: Path, turned: int, ending: str, codec: str) -> None:
    path = write_film(tmp_path / f"walk{ending}", codec, turned=turned)
    frame = frame_at(path, 1.75)
    assert (frame.width, frame.height) == (WIDE, HIGH)
    assert number_of(frame.pixels) == 17


def test_a_mirrored_picture_is_mirrored_back(tmp_path: Path) -> None:
    mirrored = [np.ascontiguousarray(coded(number)[:, ::-1]) for number in range(40)]
    path = write_film(tmp_path / "walk.mp4", pictures=mirrored)
    ask_to_turn(path, 0, mirrored=True)
    assert shown(path, 1.75) == 17


@pytest.mark.parametrize("ending", [".mp4", ".mov", ".mkv", ".webm"])
def test_a_picture_that_starts_late_keeps_its_time(tmp_path: Path, ending: str) -> None:
    """Nothing is shown before 1.3 s; the first picture stands in for it."""
    codec = "libvpx-vp9" if ending == ".webm" else "libx264"
    path = write_film(tmp_path / f"walk{ending}", codec, [1.3 + time for time in TEN_A_SECOND])
    assert frame_at(path, 0.5).time_s == pytest.approx(1.3)
    assert [shown(path, time_s) for time_s in (0.0, 1.35, 1.45, 3.85)] == [0, 0, 1, 25]


def test_a_transport_stream_counts_from_its_first_packet(tmp_path: Path) -> None:
    path = write_film(tmp_path / "walk.ts", times_s=[7.0 + time for time in TEN_A_SECOND])
    assert [shown(path, time_s) for time_s in (0.0, 0.15, 2.55)] == [0, 1, 25]


@pytest.mark.parametrize("seconds", [0.7, 1.0, 2.3])
def test_what_was_cut_off_on_the_phone_is_not_shown(tmp_path: Path, seconds: float) -> None:
    path = write_film(tmp_path / "walk.mp4")
    cut_beginning(path, seconds)
    hidden = round(seconds * 10)
    assert [shown(path, number / 10 + 0.05) for number in range(10)] == [hidden + number for number in range(10)]
    assert number_of(neighbour(path, 0.55, -100).pixels) == hidden


@settings(max_examples=25)
@given(
    gaps=st.lists(st.integers(3, 2500), min_size=1, max_size=30),
    first=st.integers(0, 3000),
    asked=st.lists(st.floats(0, 40), min_size=1, max_size=5),
)
def test_the_last_picture_that_began_is_shown(gaps: list[int], first: int, asked: list[float]) -> None:
    """Pictures at uneven times, such as phones make in the dark."""
    begins = [first / 1000]
    for gap in gaps:
        begins.append(begins[-1] + gap / 1000)
    with TemporaryDirectory() as folder:
        path = write_film(Path(folder) / "walk.mp4", times_s=begins)
        for time_s in (*asked, *begins[-2:]):
            reached = max(0, bisect_right(begins, time_s + 0.001) - 1)
            assert abs(shown(path, time_s) - reached) <= (1 if near_a_change(time_s, begins) else 0)


def near_a_change(time_s: float, begins: list[float]) -> bool:
    """Whether a time lies where rounding decides which picture it means."""
    return any(abs(begin - 0.001 - time_s) < 1e-4 for begin in begins)


@pytest.mark.parametrize("ending", [".mp4", ".mkv"])
def test_a_time_written_to_the_millisecond_finds_its_picture_again(tmp_path: Path, ending: str) -> None:
    """At 30 pictures a second 0.033333 is written 0.033, which lies before it."""
    path = write_film(tmp_path / f"walk{ending}", times_s=[number / 30 for number in range(60)])
    for number in range(60):
        frame = frame_at(path, number / 30 + 0.002)
        assert number_of(frame_at(path, round(frame.time_s, 3)).pixels) == number


@pytest.mark.parametrize(("ending", "codec"), KINDS)
def test_beyond_the_end_the_last_picture_stays(tmp_path: Path, ending: str, codec: str) -> None:
    path = write_film(tmp_path / f"walk{ending}", codec)
    for time_s in (3.95, 4.2, 50.0, 1e9, float("inf")):
        assert shown(path, time_s) == 39


@pytest.mark.parametrize("time_s", [-1.0, float("-inf"), float("nan")])
def test_before_the_beginning_the_first_picture_stands(tmp_path: Path, time_s: float) -> None:
    assert shown(write_film(tmp_path / "walk.mp4"), time_s) == 0


def test_times_may_be_uneven(tmp_path: Path) -> None:
    path = write_film(tmp_path / "walk.webm", "libvpx-vp9", UNEVEN)
    assert [shown(path, time_s) for time_s in (0.12, 0.16, 0.5, 0.91, 2.49, 2.505, 5.9, 6.0)] == [
        1,
        2,
        3,
        4,
        6,
        7,
        8,
        9,
    ]
    assert [number_of(neighbour(path, 2.505, steps).pixels) for steps in (-3, -1, 1, 2)] == [4, 6, 8, 9]


@pytest.mark.parametrize("kind", [Kind(".m4a", "aac"), Kind(".mp3", "libmp3lame", rate=44_100)])
def test_a_recording_without_picture_is_refused(tmp_path: Path, kind: Kind) -> None:
    path = write_recording(tmp_path / f"walk{kind.ending}", kind)
    with pytest.raises(BadInput, match=r"walk\.\w+: this recording has no picture"):
        frame_at(path, 1.0)


def test_the_cover_of_an_album_is_no_picture_of_the_walk(tmp_path: Path) -> None:
    path = tmp_path / "walk.mp3"
    with av.open(str(path), "w") as container:
        sound = container.add_stream("libmp3lame", rate=44_100)
        cover = container.add_stream("png", rate=1)
        cover.width, cover.height, cover.pix_fmt = WIDE, HIGH, "rgb24"
        cover.disposition = av.stream.Disposition.attached_pic
        container.mux(cover.encode(av.VideoFrame.from_ndarray(coded(1), format="rgb24")))
        silence = av.AudioFrame.from_ndarray(np.zeros((1, 44_100), np.float32), format="fltp", layout="mono")
        silence.sample_rate = 44_100
        for piece in av.AudioResampler("s16p", "stereo", 44_100).resample(silence):
            container.mux(sound.encode(piece))
        container.mux(sound.encode())
    with pytest.raises(BadInput, match="no picture"):
        frame_at(path, 0.5)


def test_a_file_that_is_no_recording_is_refused(tmp_path: Path) -> None:
    (tmp_path / "walk.mp4").write_bytes(b"not a film at all " * 100)
    for path in (tmp_path / "walk.mp4", tmp_path / "missing.mp4"):
        with pytest.raises(BadInput, match=r"\.mp4"):
            frame_at(path, 1.0)


def test_pictures_that_are_noise_to_the_decoder_are_refused(tmp_path: Path) -> None:
    path = write_film(tmp_path / "walk.mp4")
    spoil(path, 0.0, 1.0)
    with pytest.raises(BadInput, match=r"walk\.mp4: its picture cannot be decoded"):
        frame_at(path, 1.0)


def test_a_damaged_place_leaves_the_rest_to_be_seen(tmp_path: Path) -> None:
    path = write_film(tmp_path / "walk.mp4")
    spoil(path, 0.3, 0.5)
    assert shown(path, 0.25) == 2
    assert shown(path, 3.55) == 35


def spoil(path: Path, from_part: float, to_part: float) -> None:
    """Write noise over a part of what is stored."""
    raw = bytearray(path.read_bytes())
    start, end = raw.index(b"mdat") + 4, raw.index(b"moov") - 4
    first, last = (round(start + part * (end - start)) for part in (from_part, to_part))
    raw[first:last] = np.random.default_rng(1).integers(0, 256, last - first, np.uint8).tobytes()
    path.write_bytes(raw)


@pytest.mark.parametrize("ending", [".mkv", ".ts"])
def test_a_recording_that_breaks_off_shows_its_last_picture_to_the_end(tmp_path: Path, ending: str) -> None:
    path = write_film(tmp_path / f"walk{ending}")
    path.write_bytes(path.read_bytes()[: path.stat().st_size * 2 // 3])
    last = shown(path, 60.0)
    assert 15 < last < 35
    assert [shown(path, 0.75), shown(path, last / 10 + 0.05)] == [7, last]
