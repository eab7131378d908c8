"""The bundled model on real files: the sample walk, and sounds in which nobody speaks."""

from __future__ import annotations

import json
import re
from itertools import pairwise
from pathlib import Path
from statistics import median

import jiwer
import numpy as np
import pytest

from narrate2report.intake.sound import tell_nobody
from narrate2report.listen.listening import listen
from narrate2report.listen.silero import SpeechMeter
from narrate2report.records.clip import RATE
from narrate2report.records.transcript import Transcript
from tests.listen.conftest import SAMPLES, sample_clips
from tests.listen.sounds import MadeClip, pieces

LINES = [
    re.sub(r"^\[[\d:.]+\]\s*", "", line)
    for line in (SAMPLES / "move-in.txt").read_text(encoding="utf-8").splitlines()
    if line.strip()
]
TIMES: list[list[float]] = json.loads((SAMPLES / "move-in.times.json").read_text(encoding="utf-8"))


def plain(text: str) -> list[str]:
    return re.sub(r"[^a-z0-9' ]+", " ", text.lower()).split()


def test_the_words_are_those_that_were_spoken(sample_transcript: Transcript) -> None:
    heard = " ".join(stretch.text for stretch in sample_transcript.stretches)
    assert jiwer.wer(" ".join(plain(" ".join(LINES))), " ".join(plain(heard))) < 0.08
    assert [stretch.text for stretch in sample_transcript.stretches if stretch.doubt] == []


def test_every_line_starts_where_it_was_spoken_and_never_late(sample_transcript: Transcript) -> None:
    late_s = start_errors(sample_transcript)
    assert len(late_s) >= 0.9 * len(LINES)
    assert abs(median(late_s)) <= 0.05
    assert max(late_s) <= 0.05
    assert min(late_s) >= -0.5


def start_errors(transcript: Transcript) -> list[float]:
    """How late each line's first word starts, where that word was understood."""
    words = [(plain(word.text), word.start) for each in transcript.stretches for word in each.words]
    spoken = [(text, start) for texts, start in words for text in texts]
    reference = [plain(line) for line in LINES]
    firsts = {sum(len(line) for line in reference[:number]): number for number in range(len(reference))}
    aligned = jiwer.process_words(
        " ".join(text for line in reference for text in line), " ".join(text for text, _ in spoken)
    )
    return [
        spoken[chunk.hyp_start_idx + index][1] - TIMES[firsts[chunk.ref_start_idx + index]][0]
        for chunk in aligned.alignments[0]
        if chunk.type == "equal"
        for index in range(chunk.ref_end_idx - chunk.ref_start_idx)
        if chunk.ref_start_idx + index in firsts
    ]


def test_times_run_forward_and_lie_inside_the_recording(sample_transcript: Transcript) -> None:
    (recording,) = sample_transcript.recordings
    assert recording.duration_s is not None
    words = [word for stretch in sample_transcript.stretches for word in stretch.words]
    assert all(0 <= word.start < word.end <= recording.duration_s for word in words)
    assert all(before.end <= after.start for before, after in pairwise(words))
    for stretch in sample_transcript.stretches:
        assert stretch.text == " ".join(word.text for word in stretch.words)
        assert (stretch.start, stretch.end) == (stretch.words[0].start, stretch.words[-1].end)


def test_a_second_run_gives_the_same_bytes_at_once(sample_transcript: Transcript, sample_kept: Path) -> None:
    before = sample_kept.read_bytes()
    again = listen(sample_clips().clips, keep=sample_kept)
    assert again.model_dump_json() == sample_transcript.model_dump_json()
    assert sample_kept.read_bytes() == before


def test_a_run_that_lost_part_of_what_was_kept_comes_to_the_same(
    sample_transcript: Transcript, sample_kept: Path, tmp_path: Path
) -> None:
    """All but two windows are known: they are heard together or alone, with the same words."""
    lines = sample_kept.read_bytes().splitlines(keepends=True)
    (tmp_path / "kept").write_bytes(b"".join(lines[1:3] + lines[4:-1]))
    again = listen(sample_clips().clips, keep=tmp_path / "kept")
    assert again.model_dump_json() == sample_transcript.model_dump_json()


def test_the_speech_meter_does_not_mind_where_the_sound_is_cut() -> None:
    (clip,) = sample_clips().clips
    sound = np.concatenate(list(clip.blocks(tell_nobody)))[: 20 * RATE]
    whole = SpeechMeter().feed(sound)
    meter = SpeechMeter()
    cut = np.concatenate([meter.feed(piece) for piece in pieces(sound, 777)])
    assert cut == pytest.approx(whole, abs=1e-4)
    assert whole.max() > 0.9
    assert whole.min() < 0.1


def test_very_quiet_speech_is_heard() -> None:
    """The sample at a hundredth of its loudness, as from a phone in a coat pocket."""
    (clip,) = sample_clips().clips
    sound = np.concatenate(list(clip.blocks(tell_nobody)))[27 * RATE : 37 * RATE]
    heard = listen([MadeClip("walk.mp4", (sound / 100).astype(np.float32))], keep=None)
    assert "front door" in " ".join(stretch.text for stretch in heard.stretches).lower()
