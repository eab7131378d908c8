"""What is named on the command line is checked all together, by content, before anything else is done."""

from __future__ import annotations

import os
from pathlib import Path

import numpy as np
import pytest

from narrate2report.errors import BadInput
from narrate2report.intake.gather import Clips, gather
from narrate2report.records.transcript import Transcript
from tests.intake.recordings import Kind, write_recording

VIDEO = Kind(".mp4", "aac", "libx264")
NOTES = "[0:01] The sink is clean.\n"


def test_clips_keep_their_order(tmp_path: Path) -> None:
    paths = [write_recording(tmp_path / name, VIDEO) for name in ("b.mp4", "a.mp4")]
    given = gather(paths)
    assert isinstance(given, Clips)
    assert [clip.recording.file for clip in given.clips] == ["b.mp4", "a.mp4"]


def test_notes_give_a_transcript(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_text(NOTES, encoding="utf-8")
    given = gather([tmp_path / "a.txt"])
    assert isinstance(given, Transcript)
    assert given.stretches[0].text == "The sink is clean."


@pytest.mark.parametrize("name", ["walk", "walk.txt", "walk.bin", "WALK.MP4"])
def test_a_recording_is_known_by_its_content(tmp_path: Path, name: str) -> None:
    write_recording(tmp_path / "made.mp4", VIDEO).rename(tmp_path / name)
    assert isinstance(gather([tmp_path / name]), Clips)


def test_a_name_with_a_colon_is_a_file_all_the_same(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    write_recording(tmp_path / "made.mp4", VIDEO).rename("kitchen:bath.mp4")
    assert isinstance(gather([Path("kitchen:bath.mp4")]), Clips)


def refusal(*paths: Path) -> str:
    with pytest.raises(BadInput) as error:
        gather(paths)
    assert "\n" not in str(error.value)
    return str(error.value)


def test_the_same_name_in_two_folders(tmp_path: Path) -> None:
    for folder in ("one", "two"):
        (tmp_path / folder).mkdir()
        write_recording(tmp_path / folder / "walk.mp4", VIDEO)
    assert "same name" in refusal(tmp_path / "one" / "walk.mp4", tmp_path / "two" / "walk.mp4")


def test_recordings_and_transcripts_do_not_mix(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_text(NOTES, encoding="utf-8")
    video = write_recording(tmp_path / "walk.mp4", VIDEO)
    assert "a.txt" in refusal(video, tmp_path / "a.txt")


def test_one_bad_file_refuses_all(tmp_path: Path) -> None:
    video = write_recording(tmp_path / "walk.mp4", VIDEO)
    assert "gone.mp4" in refusal(video, tmp_path / "gone.mp4")


def test_nothing_at_all() -> None:
    assert "no recording" in refusal()


@pytest.mark.parametrize("ending", [".mp4", ".mov", ".wav", ".txt", ".json", ".mkv", ""])
def test_noise_is_nothing_that_can_be_used(tmp_path: Path, ending: str) -> None:
    noise = np.random.default_rng(7).integers(0, 256, 50_000, np.uint8).tobytes()
    (tmp_path / f"walk{ending}").write_bytes(noise)
    assert f"walk{ending}: " in refusal(tmp_path / f"walk{ending}")


@pytest.mark.parametrize("ending", [".mp4", ".mov", ".wav", ".m4a"])
def test_text_under_a_recordings_name(tmp_path: Path, ending: str) -> None:
    (tmp_path / f"walk{ending}").write_text(NOTES, encoding="utf-8")
    assert "holds text" in refusal(tmp_path / f"walk{ending}")


def test_a_video_cut_off_before_its_index(tmp_path: Path) -> None:
    video = write_recording(tmp_path / "walk.mp4", VIDEO)
    raw = video.read_bytes()
    video.write_bytes(raw[: raw.index(b"moov") - 4])
    assert "cut off" in refusal(video)


def test_a_recording_of_no_sound(tmp_path: Path) -> None:
    sound = np.zeros(0, np.float32)
    told = refusal(write_recording(tmp_path / "walk.mp4", VIDEO, sound))
    assert "sound" in told


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="the system has no named pipes")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "walk.mp4")
    assert "not a file" in refusal(tmp_path / "walk.mp4")


def test_a_name_that_no_file_can_have() -> None:
    assert refusal(Path("a\0b.mp4"))


def test_a_loop_of_links(tmp_path: Path) -> None:
    (tmp_path / "a.mp4").symlink_to(tmp_path / "b.mp4")
    (tmp_path / "b.mp4").symlink_to(tmp_path / "a.mp4")
    assert "a.mp4" in refusal(tmp_path / "a.mp4")
