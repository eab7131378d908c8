"""What the original shows and plays at a time, its review copy shows and plays at that time."""

from __future__ import annotations

import tracemalloc
from pathlib import Path

import av
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from narrate2report.errors import BadInput
from narrate2report.intake.boxes import look_into
from narrate2report.intake.frames import frame_at
from narrate2report.intake.pictures import pictures
from narrate2report.intake.playable import plays_in_browsers
from narrate2report.intake.review_copy import make_copy
from narrate2report.intake.sound import sound_blocks
from tests.intake.films import TEN_A_SECOND, ask_to_turn, coded, cut_beginning, number_of, write_film
from tests.intake.recordings import BEEPS_S, Kind, beep_starts, beeps, write_recording

SOUND = ("aac", beeps(48_000), 48_000, 0.0)
NEAR_S = 0.015
"""Less than a picture at 60 a second: codecs smear a hard edge by some milliseconds."""


def ignored(part: float) -> None:
    """Progress that nobody waits for."""


def copied(path: Path) -> Path:
    out = path.parent / "copies" / "copy.mp4"
    out.parent.mkdir(exist_ok=True)
    make_copy(path, out, ignored)
    return out


def shown(path: Path, time_s: float) -> int:
    return number_of(frame_at(path, time_s).pixels)


def beeps_of(path: Path) -> list[float]:
    return beep_starts(np.concatenate(list(sound_blocks(path))))


def times_agree(original: Path, copy: Path, until_s: float) -> None:
    for time_s in np.arange(0.02, until_s, 0.05).tolist():
        assert shown(copy, time_s) == shown(original, time_s), time_s


@pytest.mark.parametrize("turned", [0, 90, 180, 270])
def test_a_phone_s_film_keeps_its_times_and_stands_upright(tmp_path: Path, turned: int) -> None:
    """HEVC in MOV, filmed sideways, its sound beginning 0.35 s after its picture."""
    sound = ("aac", beeps(44_100), 44_100, 0.35)
    path = write_film(tmp_path / "walk.mov", "libx265", turned=turned, sound=sound)
    assert not plays_in_browsers(path)
    copy = copied(path)
    assert plays_in_browsers(copy)
    assert [shown(copy, time_s) for time_s in (0.05, 1.25, 3.95)] == [0, 12, 39]
    times_agree(path, copy, 4.0)
    assert beeps_of(copy) == pytest.approx([start + 0.35 for start in BEEPS_S], abs=NEAR_S)
    assert beeps_of(copy) == pytest.approx(beeps_of(path), abs=NEAR_S)
    with av.open(str(copy)) as container:
        frame = next(container.decode(video=0))
        assert (frame.width, frame.height, frame.rotation) == (192, 128, 0)


@pytest.mark.parametrize(
    ("ending", "codec", "audio"),
    [
        (".mkv", "libx264", "libopus"),
        (".ts", "libx264", "aac"),
        (".mov", "libx264", "pcm_s16le"),
        (".avi", "mpeg4", "libmp3lame"),
        (".webm", "libvpx-vp9", "libopus"),
    ],
)
@pytest.mark.parametrize("late_s", [0.0, 1.3])
def test_each_kind_keeps_its_times(tmp_path: Path, ending: str, codec: str, audio: str, late_s: float) -> None:
    """Also where the picture begins late: until then its first is shown."""
    path = write_film(
        tmp_path / f"walk{ending}", codec, [late_s + time for time in TEN_A_SECOND], sound=(audio, *SOUND[1:])
    )
    copy = copied(path)
    times_agree(path, copy, late_s + 4.0)
    assert beeps_of(copy) == pytest.approx(beeps_of(path), abs=NEAR_S)


@pytest.mark.parametrize("seconds", [0.7, 2.0])
def test_what_was_cut_off_on_the_phone_is_not_in_the_copy(tmp_path: Path, seconds: float) -> None:
    path = write_film(tmp_path / "walk.mp4")
    cut_beginning(path, seconds)
    copy = copied(path)
    assert shown(copy, 0.05) == round(seconds * 10)
    times_agree(path, copy, 3.9 - seconds)


@settings(max_examples=15)
@given(gaps=st.lists(st.integers(26, 1500), min_size=1, max_size=25))
def test_uneven_times_are_kept(tmp_path_factory: pytest.TempPathFactory, gaps: list[int]) -> None:
    begins = [0.0]
    for gap in gaps:
        begins.append(round(begins[-1] + gap / 1000, 3))
    path = write_film(tmp_path_factory.mktemp("walk") / "walk.mkv", times_s=begins)
    copy = copied(path)
    assert [picture.time_s for picture in pictures(copy)] == pytest.approx(begins, abs=1e-4)
    for number, time_s in enumerate(begins):
        assert shown(copy, time_s + 0.002) == number


def test_sixty_pictures_a_second_become_thirty_and_stay_within_one(tmp_path: Path) -> None:
    path = write_film(tmp_path / "walk.mkv", times_s=[number / 60 for number in range(180)])
    copy = copied(path)
    assert len(list(pictures(copy))) == 90
    for number in range(0, 180, 7):
        assert number - shown(copy, number / 60 + 0.008) in (0, 1)


@pytest.mark.parametrize(
    ("size", "turned", "expected"),
    [((1920, 1080), 0, (1280, 720)), ((1080, 1920), 90, (720, 1280)), ((640, 360), 0, (640, 360))],
)
def test_a_copy_is_no_larger_than_1280(
    tmp_path: Path, size: tuple[int, int], turned: int, expected: tuple[int, int]
) -> None:
    path = write_film(tmp_path / "walk.mov", times_s=TEN_A_SECOND[:5], size=size, turned=turned)
    frame = frame_at(copied(path), 0.25)
    assert (frame.width, frame.height) == expected
    assert number_of(frame.pixels) == 2
    for part in (0.05, 0.95):  # red or blue, and green or grey: the colours are those of the original
        there = frame.pixels[int(frame.height * part), int(frame.width * part)].astype(int)
        original = frame_at(path, 0.25)
        wanted = original.pixels[int(original.height * part), int(original.width * part)]
        assert there == pytest.approx(wanted, abs=8)


def test_odd_sizes_become_even(tmp_path: Path) -> None:
    path = write_film(tmp_path / "walk.webm", "libvpx-vp9", TEN_A_SECOND[:5], size=(193, 127))
    frame = frame_at(copied(path), 0.25)
    assert (frame.width % 2, frame.height % 2, number_of(frame.pixels)) == (0, 0, 2)


def test_a_mirrored_film_is_mirrored_back(tmp_path: Path) -> None:
    path = write_film(tmp_path / "walk.mp4", pictures=[np.ascontiguousarray(coded(n)[:, ::-1]) for n in range(40)])
    ask_to_turn(path, 0, mirrored=True)
    assert shown(copied(path), 1.75) == 17


def test_one_can_jump_to_every_second_before_the_whole_copy_is_there(tmp_path: Path) -> None:
    """Key frames at least each second, and the index before what it points to."""
    path = write_film(tmp_path / "walk.mkv", times_s=[number / 30 for number in range(300)], sound=SOUND)
    copy = copied(path)
    with av.open(str(copy)) as container:
        keys = [
            float((packet.pts or 0) * packet.time_base) for packet in container.demux(video=0) if packet.is_keyframe
        ]
    assert keys[0] == 0
    assert max(np.diff([*keys, 10.0])) <= 1.04
    raw = copy.read_bytes()
    assert 0 < raw.index(b"moov") < raw.index(b"mdat")
    assert look_into(copy) is not None


def test_sound_that_browsers_do_not_play_is_copied_alone(tmp_path: Path) -> None:
    path = write_recording(tmp_path / "walk.3gp", Kind(".3gp", "libopencore_amrnb", rate=8_000))
    copy = copied(path)
    assert plays_in_browsers(copy)
    assert beeps_of(copy) == pytest.approx(beeps_of(path), abs=NEAR_S)
    with pytest.raises(BadInput, match="no picture"):
        frame_at(copy, 1.0)


def test_a_copy_tells_nothing_of_place_or_device(tmp_path: Path) -> None:
    tags = {"location": "+12.3456-045.6789/", "make": "an invented phone", "title": "unit 2B"}
    path = write_film(tmp_path / "walk.mov", tags=tags)
    raw = copied(path).read_bytes()
    assert not [value for value in tags.values() if value.encode() in raw]


def test_progress_is_told_from_nothing_to_all(tmp_path: Path) -> None:
    path = write_film(tmp_path / "walk.mkv", times_s=[number / 10 for number in range(120)])
    told: list[tuple[float, bool]] = []
    make_copy(path, tmp_path / "copy.mp4", lambda part: told.append((part, (tmp_path / "copy.mp4").exists())))
    parts = [part for part, _ in told]
    assert parts == sorted(parts)
    assert (parts[0], parts[-1]) == (0.0, 1.0)
    assert 10 <= len(parts) <= 16
    assert [there for _, there in told] == [False] * (len(told) - 1) + [True]


class Stopped(Exception):
    """Raised by whoever waits for a copy."""


@pytest.mark.parametrize("after", [0.0, 0.01, 0.5, 0.9])
def test_a_copy_that_is_stopped_leaves_nothing_behind(tmp_path: Path, after: float) -> None:
    path = write_film(tmp_path / "walk.mkv", times_s=[number / 10 for number in range(120)], sound=SOUND)
    (tmp_path / "copy.mp4").write_bytes(b"the copy of before")

    def stop(part: float) -> None:
        if part >= after:
            raise Stopped

    with pytest.raises(Stopped):
        make_copy(path, tmp_path / "copy.mp4", stop)
    assert sorted(file.name for file in tmp_path.iterdir()) == ["copy.mp4", "walk.mkv"]
    assert (tmp_path / "copy.mp4").read_bytes() == b"the copy of before"


def test_what_cannot_be_read_gives_no_copy(tmp_path: Path) -> None:
    (tmp_path / "walk.mov").write_bytes(b"no film" * 1000)
    with pytest.raises(BadInput, match=r"walk\.mov"):
        make_copy(tmp_path / "walk.mov", tmp_path / "copy.mp4", ignored)
    assert [file.name for file in tmp_path.iterdir()] == ["walk.mov"]


def test_a_place_that_cannot_be_written_to_is_named(tmp_path: Path) -> None:
    path = write_film(tmp_path / "walk.mov")
    with pytest.raises(BadInput, match=r"copy\.mp4: cannot be written"):
        make_copy(path, tmp_path / "missing" / "copy.mp4", ignored)


def test_a_recording_that_breaks_off_is_copied_as_far_as_it_goes(tmp_path: Path) -> None:
    path = write_film(tmp_path / "walk.mkv", sound=None)
    path.write_bytes(path.read_bytes()[: path.stat().st_size * 2 // 3])
    copy = copied(path)
    assert 15 < shown(copy, 60.0) == shown(path, 60.0) < 35


def test_memory_does_not_grow_with_the_recording(tmp_path: Path) -> None:
    peaks = []
    for seconds in (5, 60):
        times = [number / 10 for number in range(seconds * 10)]
        sound = ("aac", beeps(48_000, length_s=seconds), 48_000, 0.0)
        path = write_film(tmp_path / f"{seconds}.mov", times_s=times, turned=90, sound=sound)
        tracemalloc.start()
        make_copy(path, tmp_path / "copy.mp4", ignored)
        peaks.append(tracemalloc.get_traced_memory()[1])
        tracemalloc.stop()
    assert peaks[1] < peaks[0] + 500_000
