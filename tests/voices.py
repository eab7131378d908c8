"""Text to sound in the synthetic voices that are installed: flite:NAME, espeak:NAME, piper:MODEL.onnx.

For what must be spoken with known words, many times over. A text is spoken once: its sound is kept in a folder. Echo
and noise are those of a small empty room and of a fan; both come from a seed.
"""

from __future__ import annotations

import hashlib
import subprocess
import tempfile
import wave
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.signal import fftconvolve, resample_poly

from narrate2report.records.clip import RATE, Sound


def say(text: str, voice: str, keep: Path) -> Sound:
    """The text as 16 kHz mono sound, without the silence around it."""
    keep.mkdir(parents=True, exist_ok=True)
    kept = keep / f"{hashlib.sha256(f'{voice}|{text}'.encode()).hexdigest()[:24]}.npy"
    if not kept.exists():
        np.save(kept, (_trimmed(_spoken(text, voice)) * 32767).astype(np.int16))
    return _scaled(np.load(kept))


def in_a_room(sound: Sound, seed: int = 1, length_s: float = 0.35) -> Sound:
    """With the echo of a small empty room."""
    rng = np.random.default_rng(seed)
    t = np.arange(int(length_s * RATE)) / RATE
    tail = rng.standard_normal(len(t)) * np.exp(-6.9 * t / length_s) * 0.25
    tail[0] = 1.0
    return np.asarray(fftconvolve(sound, tail)[: len(sound)], np.float32)


def with_noise(sound: Sound, snr_db: float, seed: int = 1) -> Sound:
    """With pink noise, so many dB below the speech."""
    rng = np.random.default_rng(seed)
    spectrum = np.fft.rfft(rng.standard_normal(len(sound)))
    spectrum /= np.maximum(1, np.arange(len(spectrum))) ** 0.5
    noise = np.fft.irfft(spectrum, len(sound))
    loud = float(np.std(sound)) * 10 ** (-snr_db / 20)
    return (sound + noise / np.std(noise) * loud).astype(np.float32)


def write_wav(sound: Sound, path: Path) -> None:
    """16 kHz mono, as loud as it may be."""
    level = sound / max(1e-9, float(np.max(np.abs(sound)))) * 0.9
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE)
        file.writeframes((level * 32767).astype(np.int16).tobytes())


def _scaled(samples: NDArray[np.int16]) -> Sound:
    return (samples.astype(np.float32) / np.float32(32768)).astype(np.float32)


def _spoken(text: str, voice: str) -> Sound:
    engine, _, name = voice.partition(":")
    if engine == "piper":
        return _by_piper(text, name)
    with tempfile.TemporaryDirectory() as folder:
        source, raw = Path(folder, "text.txt"), Path(folder, "raw.wav")
        source.write_text(text, encoding="utf-8")
        command = {
            "flite": ["flite", "-voice", name, "-f", str(source), "-o", str(raw)],
            "espeak": ["espeak-ng", "-v", name, "-s", "155", "-f", str(source), "-w", str(raw)],
        }[engine]
        subprocess.run(command, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        with wave.open(str(raw)) as file:
            rate = file.getframerate()
            samples = _scaled(np.frombuffer(file.readframes(file.getnframes()), np.int16))
    return _at_our_rate(samples, rate)


def _by_piper(text: str, model: str) -> Sound:
    from piper import SynthesisConfig

    voice = _piper_voice(model)
    steady = SynthesisConfig(noise_scale=0.0, noise_w_scale=0.0)
    pieces = [np.asarray(chunk.audio_float_array, np.float32) for chunk in voice.synthesize(text, steady)]
    return _at_our_rate(np.asarray(np.concatenate(pieces), np.float32), voice.config.sample_rate)


@cache
def _piper_voice(model: str) -> Any:
    from piper import PiperVoice

    return PiperVoice.load(Path(model))


def _at_our_rate(samples: Sound, rate: int) -> Sound:
    step = Fraction(RATE, rate)
    return np.asarray(resample_poly(samples, step.numerator, step.denominator), np.float32)


def _trimmed(sound: Sound) -> Sound:
    loud = np.flatnonzero(np.abs(sound) > 0.01)
    margin = RATE // 50
    return sound[max(0, loud[0] - margin) : loud[-1] + margin] if len(loud) else sound
