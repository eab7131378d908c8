"""Listening against plain faster-whisper on the same sound, model and threads, in the same call; and its memory.

    python tests/benchmarks/listen.py FOLDER --speak SPEAK.PY --scorer SCORE.PY [--narrations d5_terse ...]
        [--voices flite:slt ...] [--conditions clean ...] [--keep SOUNDS] [--memory 10 60] [--json FILE]

FOLDER holds NAME.txt with NAME.gold.json. Each narration is spoken by SPEAK.PY (which writes NAME.wav and the true
times of its lines) in each voice and condition, then heard twice, each time by a program of its own: by `listen`,
and by faster-whisper as it comes (beam 5, word times, its voice detection on, no conditioning on earlier text).
Entries from sound are what `draft` makes of the recording itself, with what it repairs by the sound.

Told for each voice and condition: seconds of both, their ratio and that of the processor time (steadier where others
work beside it), word error rate of both (jiwer, in lower case and without marks), observations F1 from sound and from
text, and how far line starts are off. With --memory, the spoken narrations are strung together to so many minutes, and
the peak memory of hearing that is told for each length.
"""

from __future__ import annotations

import argparse
import json
import re
import resource
import shutil
import subprocess
import sys
import time
import wave
from collections.abc import Sequence
from itertools import count
from pathlib import Path
from statistics import median
from typing import Any

import jiwer
import numpy as np

CONDITIONS = {"clean": (), "echo": ("--room",), "noise": ("--snr", "15")}
STAMP = re.compile(r"^\[[\d:.]+\]\s*")


def main() -> int:
    if sys.argv[1:2] == ["--hear"]:
        return hear(sys.argv[2], Path(sys.argv[3]), Path(sys.argv[4]))
    options = _options()
    options.keep.mkdir(parents=True, exist_ok=True)
    names = options.narrations or sorted(path.stem for path in options.folder.glob("*.txt"))
    rows = []
    for voice in options.voices:
        for condition in options.conditions:
            clean = [spoken(options, name, voice, "clean") for name in names]
            row = compare([spoken(options, name, voice, condition) for name in names], clean, options)
            rows.append({"voice": voice, "condition": condition, "narrations": names, **row})
            print(json.dumps(rows[-1]), flush=True)
    memory = [peak(options, minutes) for minutes in options.memory]
    for one in memory:
        print(json.dumps(one), flush=True)
    if options.json:
        options.json.write_text(json.dumps({"rows": rows, "memory": memory}, indent=1), encoding="utf-8")
    return 0


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("folder", type=Path)
    parser.add_argument("--speak", type=Path, required=True)
    parser.add_argument("--scorer", type=Path, required=True)
    parser.add_argument("--narrations", nargs="*")
    parser.add_argument("--voices", nargs="*", default=["flite:slt", "flite:rms", "espeak:en-us"])
    parser.add_argument("--conditions", nargs="*", choices=CONDITIONS, default=list(CONDITIONS))
    parser.add_argument("--memory", nargs="*", type=int, default=[], metavar="MINUTES")
    parser.add_argument("--keep", type=Path, default=Path("build/spoken"), help="where spoken narrations are kept")
    parser.add_argument("--json", type=Path, help="write all figures there too")
    return parser.parse_args()


def spoken(options: argparse.Namespace, name: str, voice: str, condition: str) -> Path:
    """The narration as sound, made once, with its gold and the true times of its lines beside it."""
    folder = options.keep / f"{re.sub(r'[:/]+', '-', voice)}-{condition}"
    folder.mkdir(parents=True, exist_ok=True)
    sound: Path = folder / f"{name}.wav"
    if not sound.exists():
        text = options.folder / f"{name}.txt"
        command = [sys.executable, options.speak, text, sound, "--voice", voice, *CONDITIONS[condition]]
        subprocess.run(command, check=True)
        for ending in (".txt", ".gold.json"):
            shutil.copy(options.folder / f"{name}{ending}", folder)
    return sound


def compare(sounds: Sequence[Path], clean: Sequence[Path], options: argparse.Namespace) -> dict[str, Any]:
    """Both ways of hearing over the same recordings, and the entries from them.

    `clean` are the same words of the same voice at the same times without echo or noise.
    """
    ours = [in_a_child("ours", sound) for sound in sounds]
    plain = [in_a_child("plain", sound) for sound in sounds]
    references = [lines_of(sound.with_suffix(".txt")) for sound in sounds]
    said = [" ".join(word for line in lines for word in line) for lines in references]
    late = sorted(
        gap
        for sound, lines, heard in zip(clean, references, ours, strict=True)
        for gap in start_errors(lines, onsets(sound), heard["words"])
    )
    seconds, cpu = [[sum(one[of] for one in heard) for heard in (ours, plain)] for of in ("seconds", "cpu_s")]
    return {
        "minutes": round(sum(length_s(sound) for sound in sounds) / 60, 1),
        "seconds": round(seconds[0], 1),
        "plain_seconds": round(seconds[1], 1),
        "time_ratio": round(seconds[0] / seconds[1], 3),
        "cpu_ratio": round(cpu[0] / cpu[1], 3),
        "wer": round(jiwer.wer(said, [joined(one["words"]) for one in ours]), 4),
        "plain_wer": round(jiwer.wer(said, [joined(one["words"]) for one in plain]), 4),
        "f1_from_sound": f1([(sound, sound) for sound in sounds], options.scorer),
        "f1_from_text": f1([(sound, sound.with_suffix(".txt")) for sound in sounds], options.scorer, from_text=True),
        "starts": len(late),
        "start_median_s": round(median(late), 3),
        "start_median_off_s": round(median(abs(gap) for gap in late), 3),
        "starts_within_half_s": round(sum(abs(gap) <= 0.5 for gap in late) / len(late), 4),
        "start_earliest_latest_s": [round(late[0], 2), round(late[-1], 2)],
        "peak_mb": max(one["peak_mb"] for one in ours),
        "plain_peak_mb": max(one["peak_mb"] for one in plain),
    }


def in_a_child(how: str, sound: Path) -> dict[str, Any]:
    """Hear a recording in a program of its own: its words, seconds and peak memory."""
    out = sound.with_suffix(f".{how}.json")
    subprocess.run([sys.executable, __file__, "--hear", how, sound, out], check=True)
    heard: dict[str, Any] = json.loads(out.read_text(encoding="utf-8"))
    return heard


def hear(how: str, sound: Path, out: Path) -> int:
    """In the child: hear a recording from file to words, the loading of the model included."""
    words = hear_plain if how == "plain" else hear_ours
    began = time.perf_counter()
    heard = words(sound)
    seconds = time.perf_counter() - began
    used = resource.getrusage(resource.RUSAGE_SELF)
    facts = {"seconds": seconds, "cpu_s": used.ru_utime + used.ru_stime, "peak_mb": round(used.ru_maxrss / 1024)}
    out.write_text(json.dumps({"words": heard, **facts}), encoding="utf-8")
    return 0


def hear_ours(sound: Path) -> list[tuple[str, float]]:
    from narrate2report.intake.gather import Clips, gather
    from narrate2report.listen.listening import listen
    from narrate2report.records.files import write_record

    given = gather([sound])
    assert isinstance(given, Clips)
    transcript = listen(given.clips, keep=None)
    write_record(sound.with_suffix(".transcript.json"), transcript)
    return [(word.text, word.start) for stretch in transcript.stretches for word in stretch.words]


def hear_plain(sound: Path) -> list[tuple[str, float]]:
    from faster_whisper import WhisperModel

    from narrate2report.listen.device import cards
    from narrate2report.listen.loading import usable_cores
    from narrate2report.listen.models import find_model

    device, weights = ("cuda", "float16") if cards() else ("cpu", "int8")
    model = WhisperModel(
        str(find_model().ready_folder()), device=device, compute_type=weights, cpu_threads=usable_cores()
    )
    segments, _ = model.transcribe(
        str(sound), language="en", beam_size=5, word_timestamps=True, vad_filter=True, condition_on_previous_text=False
    )
    return [(word.word.strip(), word.start) for segment in segments for word in segment.words or ()]


def f1(pairs: Sequence[tuple[Path, Path]], scorer: Path, *, from_text: bool = False) -> float:
    """Observations F1 of what is drafted from each source, over all recordings together."""
    from narrate2report.cli import main as narrate2report

    arguments: list[str | Path] = []
    for sound, source in pairs:
        folder = sound.parent / ("text" if from_text else "sound")
        folder.mkdir(exist_ok=True)
        out, gold = folder / f"{sound.stem}.findings.json", folder / f"{sound.stem}.gold.json"
        out.unlink(missing_ok=True)
        assert narrate2report(["draft", str(source), "--out", str(out), "--quiet"]) == 0
        # The scorer takes a line's window from the true times where they lie beside the gold, else from the text.
        shutil.copy(sound.with_suffix(".gold.json"), gold)
        shutil.copy(sound.with_suffix(".txt" if from_text else ".times.json"), folder)
        arguments += [gold, out]
    told = subprocess.run([sys.executable, scorer, *arguments, "--json"], check=True, capture_output=True, text=True)
    return round(float(json.loads(told.stdout)["observations"]["f1"]), 4)


def peak(options: argparse.Namespace, minutes: int) -> dict[str, Any]:
    """Peak memory of hearing so many minutes, no two of them alike: what comes again is a little fainter each time."""
    long = options.keep / f"{minutes}min.wav"
    parts = [part for part in sorted(options.keep.glob("*/*.wav")) if "text" not in part.parts]
    left = minutes * 60 * 16_000
    turns = ((part, 0.9**turn) for turn in count() for part in parts)
    with wave.open(str(long), "wb") as whole:
        whole.setnchannels(1)
        whole.setsampwidth(2)
        whole.setframerate(16_000)
        while left:
            part, loudness = next(turns)
            with wave.open(str(part), "rb") as piece:
                frames = np.frombuffer(piece.readframes(min(left, piece.getnframes())), np.int16)
            whole.writeframes((frames * loudness).astype(np.int16).tobytes())
            left -= len(frames)
    heard = in_a_child("ours", long)
    return {
        "minutes": round(length_s(long) / 60, 1),
        "peak_mb": heard["peak_mb"],
        "seconds": round(heard["seconds"], 1),
    }


def length_s(sound: Path) -> float:
    with wave.open(str(sound), "rb") as file:
        return file.getnframes() / file.getframerate()


def plain_words(text: str) -> list[str]:
    """Lower case, no marks: what both sides of a word error rate are compared as."""
    return re.sub(r"[^a-z0-9' ]+", " ", text.lower()).split()


def joined(words: Sequence[tuple[str, float]]) -> str:
    return " ".join(plain for text, _ in words for plain in plain_words(text))


def lines_of(narration: Path) -> list[list[str]]:
    lines = [STAMP.sub("", line.strip()) for line in narration.read_text(encoding="utf-8").splitlines()]
    return [plain_words(line) for line in lines if line]


def onsets(clean: Path) -> list[float]:
    """Where each line is first heard: voices begin a line with up to 0.2 s of silence, which counts as line."""
    with wave.open(str(clean), "rb") as file:
        sound = np.frombuffer(file.readframes(file.getnframes()), np.int16).astype(np.float64)
    found: list[float] = []
    for start, end in json.loads(clean.with_suffix(".times.json").read_text(encoding="utf-8")):
        line = sound[round(start * 16_000) : round(end * 16_000)]
        steps = np.sqrt((line[: len(line) // 160 * 160].reshape(-1, 160) ** 2).mean(axis=1))
        found.append(start + float(np.argmax(steps > 0.01 * steps.max())) / 100)
    return found


def start_errors(
    lines: Sequence[Sequence[str]], starts: Sequence[float], words: Sequence[tuple[str, float]]
) -> list[float]:
    """How late each line's first word starts (seconds, negative for early), where that word was understood."""
    heard = [(plain, start) for text, start in words for plain in plain_words(text)]
    firsts, count = {}, 0
    for number, line in enumerate(lines):
        firsts[count] = number
        count += len(line)
    aligned = jiwer.process_words(
        " ".join(word for line in lines for word in line), " ".join(word for word, _ in heard)
    )
    return [
        float(heard[chunk.hyp_start_idx + step][1]) - starts[firsts[chunk.ref_start_idx + step]]
        for chunk in aligned.alignments[0]
        if chunk.type == "equal"
        for step in range(chunk.ref_end_idx - chunk.ref_start_idx)
        if chunk.ref_start_idx + step in firsts
    ]


if __name__ == "__main__":
    sys.exit(main())
