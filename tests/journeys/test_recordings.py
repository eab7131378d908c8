"""Recordings as they come from phones, from the file to the record: broken off, in clips, with several tracks."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from narrate2report.cli import main
from narrate2report.intake.sound import sound_blocks
from narrate2report.records.clip import RATE, Sound
from narrate2report.records.files import read_record
from narrate2report.records.findings import Findings
from narrate2report.records.transcript import Transcript
from tests.drafted import SAMPLES
from tests.intake.recordings import Kind, write_recording

AUDIO = Kind(".m4a", "aac", rate=RATE)


@cache
def spoken(start: int, end: int) -> Sound:
    """Some seconds of the sample walk."""
    sound: Sound = np.concatenate(list(sound_blocks(SAMPLES / "move-in.mp4")))[start * RATE : end * RATE]
    return sound


def heard_of(folder: Path, *recordings: Path, options: tuple[str, ...] = ()) -> tuple[Findings, Transcript]:
    """Draft recordings, and return both files."""
    out = folder / "walk.findings.json"
    assert main(["draft", *map(str, recordings), "--out", str(out), "--quiet", *options]) == 0
    return read_record(out, Findings), read_record(folder / "walk.transcript.json", Transcript)


def words(transcript: Transcript) -> str:
    return " ".join(stretch.text for stretch in transcript.stretches).lower()


def test_a_recording_that_breaks_off_is_heard_as_far_as_it_goes(tmp_path: Path) -> None:
    """The index stands in front: what is left can be played, and what is missing is said in the record."""
    walk = write_recording(tmp_path / "walk.m4a", AUDIO, spoken(27, 67), options={"movflags": "faststart"})
    walk.write_bytes(walk.read_bytes()[: walk.stat().st_size // 2])
    findings, transcript = heard_of(tmp_path, walk)
    assert "front door" in words(transcript)
    assert transcript.stretches[-1].end < 25
    cut, ends = findings.transcript.warnings
    assert cut.startswith("walk.m4a: is cut short, ")
    assert ends.startswith("walk.m4a: its sound ends at 0:")
    assert ends.endswith("though the file says 0:40")
    assert heard_of(tmp_path, walk)[0] == findings


def test_two_clips_with_a_pause_between_them(tmp_path: Path) -> None:
    one = write_recording(tmp_path / "one.m4a", AUDIO, spoken(27, 37), tags={"creation_time": "2026-03-04T14:00:00Z"})
    two = write_recording(tmp_path / "two.m4a", AUDIO, spoken(37, 50), tags={"creation_time": "2026-03-04T14:10:10Z"})
    findings, transcript = heard_of(tmp_path, one, two)
    assert findings.transcript.warnings == ("about 10:00 lie between one.m4a and two.m4a by their own clocks",)
    files = [stretch.recording for stretch in transcript.stretches]
    assert files == sorted(files)
    assert {evidence.recording for entry in findings.entries for evidence in entry.evidence} <= {"one.m4a", "two.m4a"}
    assert transcript.stretches[files.index("two.m4a")].start < 3


def test_the_track_that_is_asked_for_is_the_one_in_the_record(tmp_path: Path) -> None:
    walk = write_recording(tmp_path / "walk.m4a", AUDIO, np.zeros(10 * RATE, np.float32), more_tracks=(spoken(27, 37),))
    findings, transcript = heard_of(tmp_path, walk, options=("--track", "2"))
    assert "front door" in words(transcript)
    assert [track.chosen for track in findings.recordings[0].tracks] == [False, True]


def test_place_and_device_are_kept_only_when_asked_for(tmp_path: Path) -> None:
    tags = {"location": "+12.3456-012.3456/", "make": "Anymaker", "model": "Anyphone"}
    walk = write_recording(tmp_path / "walk.mov", Kind(".mov", "aac", rate=RATE), spoken(27, 37), tags=tags)
    findings, _ = heard_of(tmp_path, walk)
    written = "".join(path.read_text("utf-8") for path in tmp_path.iterdir() if path.suffix in {".json", ".jsonl"})
    assert "Any" not in written
    assert "12.3456" not in written
    assert findings.recordings[0].device is None
    findings, transcript = heard_of(tmp_path, walk, options=("--keep-location",))
    assert findings.recordings[0].device == "Anymaker Anyphone"
    assert findings.recordings[0].location == "+12.3456-012.3456/"
    assert transcript.recordings == findings.recordings


def louder(sound: Sound) -> Sound:
    """Ten times too loud for the recorder: its peaks are cut off."""
    clipped: Sound = np.clip(sound * np.float32(10 / np.abs(sound).max()), -1, 1)
    return clipped


def quieter(sound: Sound) -> Sound:
    """As from a phone in a coat pocket, 40 dB down: some eight of the sixteen bits are left."""
    return (sound / 100).astype(np.float32)


@pytest.mark.parametrize("change", [louder, quieter], ids=["clipped", "very quiet"])
def test_sound_that_is_too_loud_or_too_quiet_is_heard(tmp_path: Path, change: Callable[[Sound], Sound]) -> None:
    walk = write_recording(tmp_path / "walk.wav", Kind(".wav", "pcm_s16le", rate=RATE), change(spoken(27, 37)))
    findings, transcript = heard_of(tmp_path, walk)
    assert "front door" in words(transcript)
    assert any("too loud" in warning for warning in findings.transcript.warnings) == (change is louder)


def test_speech_that_is_hardly_there_is_told(tmp_path: Path) -> None:
    """54 dB down, parts of it can no longer be told from silence: the record must say that words may be missing."""
    sound = (spoken(27, 37) / 500).astype(np.float32)
    walk = write_recording(tmp_path / "walk.wav", Kind(".wav", "pcm_s16le", rate=RATE), sound)
    (told,) = heard_of(tmp_path, walk)[0].transcript.warnings
    assert told.startswith("walk.wav: is very quiet (-")


def test_the_other_channel_may_be_silent(tmp_path: Path) -> None:
    walk = write_recording(tmp_path / "walk.m4a", AUDIO, spoken(27, 37), channels=2)
    assert "front door" in words(heard_of(tmp_path, walk)[1])
