"""Sounds of an empty flat in which nobody speaks, made on the spot; each of any length."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from narrate2report.records.clip import RATE, Sound


def _noise(seconds: float, loudness: float, tilt: float) -> Sound:
    """Noise that falls off towards high tones: 0 is a hiss, 1 a rumble."""
    spectrum = np.fft.rfft(np.random.default_rng(5).standard_normal(round(seconds * RATE)))
    spectrum /= np.maximum(20, np.arange(len(spectrum)) / seconds) ** tilt
    noise = np.fft.irfft(spectrum)
    sound: Sound = (noise / np.abs(noise).max() * loudness).astype(np.float32)
    return sound


def _times(seconds: float) -> NDArray[np.float64]:
    return np.arange(round(seconds * RATE)) / RATE


def silence(seconds: float) -> Sound:
    return np.zeros(round(seconds * RATE), np.float32)


def fan(seconds: float) -> Sound:
    return _noise(seconds, 0.3, 1.0)


def running_water(seconds: float) -> Sound:
    return _noise(seconds, 0.5, 0.2)


def faint_hiss(seconds: float) -> Sound:
    return _noise(seconds, 0.003, 0.5)


def hum(seconds: float) -> Sound:
    """A refrigerator or a transformer."""
    return (0.3 * np.sin(2 * np.pi * 120 * _times(seconds))).astype(np.float32)


def music(seconds: float) -> Sound:
    """A slow tune of plain chords."""
    times, sound = _times(seconds), np.zeros(round(seconds * RATE))
    chords = [(220.0, 277.2, 329.6), (196.0, 246.9, 293.7), (174.6, 220.0, 261.6)]
    for bar in range(int(seconds / 0.8)):
        within = (times >= bar * 0.8) & (times < bar * 0.8 + 0.75)
        for pitch in chords[bar % 3]:
            sound += within * np.sin(2 * np.pi * pitch * times) * np.exp(-2 * (times % 0.8))
    return (sound / 5).astype(np.float32)


def singing_pipe(seconds: float) -> Sound:
    """Overtones that waver and swell like a voice without words."""
    times = _times(seconds)
    wave = sum(np.sin(2 * np.pi * k * 180 * times + 2 * k * np.sin(2 * np.pi * 5 * times)) / k for k in range(1, 12))
    return np.asarray(wave * (0.5 + 0.5 * np.sin(2 * np.pi * 1.7 * times)) * 0.1, np.float32)


def footsteps(seconds: float) -> Sound:
    rng, sound = np.random.default_rng(2), np.zeros(round(seconds * RATE))
    for start in np.arange(0.3, seconds - 0.2, 0.62):
        at = int(start * RATE)
        sound[at : at + 1500] += rng.standard_normal(1500) * np.exp(-np.arange(1500) / 250) * 0.3
    return sound.astype(np.float32)


def dripping(seconds: float) -> Sound:
    return (footsteps(seconds) * np.sin(2 * np.pi * 900 * _times(seconds))).astype(np.float32)


NOBODY: dict[str, Callable[[float], Sound]] = {
    "silence": silence,
    "a fan": fan,
    "running water": running_water,
    "a faint hiss": faint_hiss,
    "a hum": hum,
    "music": music,
    "a singing pipe": singing_pipe,
    "footsteps": footsteps,
    "dripping": dripping,
}
