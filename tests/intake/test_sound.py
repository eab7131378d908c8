"""The sound of a recording lies where a player would play it, whatever the file is made of."""

from __future__ import annotations

import re
import tracemalloc
from pathlib import Path

import numpy as np
import pytest

from narrate2report.errors import BadInput
from narrate2report.intake.gather import Clips, gather
from narrate2report.intake.sound import sound_blocks, tell_nobody
from narrate2report.records.clip import RATE
from tests.intake.recordings import BEEPS_S, KINDS, LENGTH_S, Kind, beep_starts, beeps, write_recording

NEAR_S = 0.03
"""Codecs smear a hard edge by up to a frame's fraction."""


def heard(
    path: Path, track: int | None = None, lost: list[str] | None = None
) -> np.ndarray[tuple[int, ...], np.dtype[np.float32]]:
    tell = tell_nobody if lost is None else lost.append
    return np.concatenate(list(sound_blocks(path, track, tell)))


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: f"{kind.ending[1:]}-{kind.video}-{kind.audio}")
def test_each_kind_of_recording_gives_its_sound_at_its_times(tmp_path: Path, kind: Kind) -> None:
    path = write_recording(tmp_path / f"walk{kind.ending}", kind)
    sound = heard(path)
    assert sound.dtype == np.float32
    assert len(sound) / RATE == pytest.approx(LENGTH_S, abs=0.15)
    assert beep_starts(sound) == pytest.approx(BEEPS_S, abs=NEAR_S)


@pytest.mark.parametrize("ending", [".mp4", ".mov", ".mkv"])
def test_a_sound_track_that_starts_late_is_heard_late(tmp_path: Path, ending: str) -> None:
    path = write_recording(tmp_path / f"walk{ending}", Kind(ending, "aac", "libx264"), late_s=1.2)
    assert beep_starts(heard(path)) == pytest.approx([start + 1.2 for start in BEEPS_S], abs=NEAR_S)


def test_a_transport_stream_counts_from_its_first_packet(tmp_path: Path) -> None:
    """Its clock starts at 1.4 s; a player shows 0:00 there."""
    path = write_recording(tmp_path / "walk.ts", Kind(".ts", "aac", "libx264"))
    assert beep_starts(heard(path)) == pytest.approx(BEEPS_S, abs=NEAR_S)


def test_a_channel_without_sound_does_not_silence_the_other(tmp_path: Path) -> None:
    path = write_recording(tmp_path / "walk.mp4", Kind(".mp4", "aac", "libx264"), channels=2)
    sound = heard(path)
    assert beep_starts(sound) == pytest.approx(BEEPS_S, abs=NEAR_S)
    assert np.abs(sound).max() > 0.2


@pytest.mark.parametrize("ending", [".mp4", ".mov", ".mkv"])
def test_the_sound_track_that_is_asked_for_is_heard(tmp_path: Path, ending: str) -> None:
    kind = Kind(ending, "aac", "libx264")
    other = beeps(kind.rate, at=(1.0, 2.0))
    path = write_recording(tmp_path / f"walk{ending}", kind, more_tracks=(other,))
    assert beep_starts(heard(path)) == pytest.approx(BEEPS_S, abs=NEAR_S)
    assert beep_starts(heard(path, 1)) == pytest.approx(BEEPS_S, abs=NEAR_S)
    assert beep_starts(heard(path, 2)) == pytest.approx((1.0, 2.0), abs=NEAR_S)


@pytest.mark.parametrize("track", [0, 3, -1])
def test_a_sound_track_that_is_not_there_lists_those_that_are(tmp_path: Path, track: int) -> None:
    kind = Kind(".mp4", "aac", "libx264")
    path = write_recording(tmp_path / "walk.mp4", kind, channels=2, more_tracks=(beeps(kind.rate),))
    with pytest.raises(BadInput) as error:
        gather([path], track=track)
    told = str(error.value)
    assert f"no sound track {track}; there is 1 (aac, 2 channels" in told
    assert "2 (aac, 1 channel" in told


def test_clipped_sound_keeps_its_times(tmp_path: Path) -> None:
    kind = Kind(".wav", "pcm_s16le", rate=16_000)
    path = write_recording(tmp_path / "walk.wav", kind, np.clip(beeps(16_000) * 20, -1, 1))
    assert beep_starts(heard(path)) == pytest.approx(BEEPS_S, abs=NEAR_S)


def test_equal_files_give_equal_samples(tmp_path: Path) -> None:
    path = write_recording(tmp_path / "walk.m4a", Kind(".m4a", "aac"))
    assert heard(path).tobytes() == heard(path).tobytes()


def test_memory_does_not_grow_with_the_recording(tmp_path: Path) -> None:
    kind = Kind(".wav", "pcm_s16le", rate=16_000)
    peaks = []
    for seconds in (5, 100):
        path = write_recording(tmp_path / f"{seconds}.wav", kind, beeps(16_000, length_s=seconds))
        tracemalloc.start()
        for _ in sound_blocks(path):
            pass
        peaks.append(tracemalloc.get_traced_memory()[1])
        tracemalloc.stop()
    assert peaks[1] < peaks[0] + 500_000


def test_a_recording_that_breaks_off_gives_what_there_is(tmp_path: Path) -> None:
    path = write_recording(tmp_path / "walk.mkv", Kind(".mkv", "aac"))
    path.write_bytes(path.read_bytes()[: path.stat().st_size * 2 // 3])
    sound = heard(path)
    assert 1.0 < len(sound) / RATE < LENGTH_S
    assert beep_starts(sound)[0] == pytest.approx(BEEPS_S[0], abs=NEAR_S)


EVERY_SECOND = tuple(float(second) for second in range(1, 20))


def beeps_every_second(path: Path) -> Path:
    """20 s with something to hear everywhere, the index before the sound, as some phones and all servers write it."""
    kind = Kind(".mp4", "aac")
    noise = np.random.default_rng(4).normal(0, 0.01, 20 * kind.rate)
    sound = beeps(kind.rate, length_s=20.0, at=EVERY_SECOND) + noise
    return write_recording(path, kind, sound.astype(np.float32), options={"movflags": "faststart"})


@pytest.mark.parametrize("part", [0.4, 0.7, 0.95])
def test_an_mp4_that_lost_its_end_gives_what_there_is_and_tells(tmp_path: Path, part: float) -> None:
    path = beeps_every_second(tmp_path / "walk.mp4")
    whole = path.stat().st_size
    left = int(whole * part)
    path.write_bytes(path.read_bytes()[:left])
    lost: list[str] = []
    starts = beep_starts(heard(path, lost=lost))
    assert 20 * (part - 0.15) < len(starts) < 20 * part + 1
    assert starts == pytest.approx(EVERY_SECOND[: len(starts)], abs=NEAR_S)
    (told,) = lost
    assert told.startswith(f"is cut short, {whole - left:,} bytes are missing at its end; copy it")


def test_what_cannot_be_decoded_in_between_is_silence_and_told(tmp_path: Path) -> None:
    path = beeps_every_second(tmp_path / "walk.mp4")
    raw = bytearray(path.read_bytes())
    middle, length = len(raw) // 2, len(raw) // 5
    raw[middle : middle + length] = b"\0" * length
    path.write_bytes(raw)
    lost: list[str] = []
    starts = beep_starts(heard(path, lost=lost))
    assert starts[:8] == pytest.approx(EVERY_SECOND[:8], abs=NEAR_S)
    assert starts[-4:] == pytest.approx(EVERY_SECOND[-4:], abs=NEAR_S)
    (told,) = lost
    assert re.fullmatch(r"is damaged: [34]\.\d s of its sound could not be decoded and are silence here", told)


def test_a_recording_that_changes_while_it_is_read_is_refused(tmp_path: Path) -> None:
    path = write_recording(tmp_path / "walk.mp4", Kind(".mp4", "aac", "libx264"))
    given = gather([path])
    assert isinstance(given, Clips)
    blocks = given.clips[0].blocks(tell_nobody)
    next(blocks)
    with path.open("ab") as file:
        file.write(b"more")
    with pytest.raises(BadInput, match=r"walk\.mp4: changed while it was being read"):
        list(blocks)
    with pytest.raises(BadInput, match="changed while"):
        next(given.clips[0].blocks(tell_nobody))


def test_sound_that_is_noise_to_the_decoder_is_refused(tmp_path: Path) -> None:
    path = write_recording(tmp_path / "walk.mp4", Kind(".mp4", "aac"))
    raw = bytearray(path.read_bytes())
    start = raw.index(b"mdat") + 4
    end = raw.index(b"moov") - 4
    raw[start:end] = np.random.default_rng(1).integers(0, 256, end - start, np.uint8).tobytes()
    path.write_bytes(raw)
    with pytest.raises(BadInput, match=r"walk\.mp4"):
        gather([path])


def test_a_clip_tells_its_facts_and_gives_its_sound(tmp_path: Path) -> None:
    path = write_recording(tmp_path / "walk.mp4", Kind(".mp4", "aac", "libx264"))
    given = gather([path])
    assert isinstance(given, Clips)
    (clip,) = given.clips
    assert clip.recording.file == "walk.mp4"
    assert beep_starts(np.concatenate(list(clip.blocks(tell_nobody)))) == pytest.approx(BEEPS_S, abs=NEAR_S)
