"""How long it takes to find a still and to make a review copy, and how memory grows with the length of a recording.

    PYTHONPATH=. python tests/benchmarks/stills_and_copies.py [RECORDING]

Without a recording the move-in sample is measured, and a film of 1920 by 1080 at 30 pictures a second that is written
for it, once and four times as long; each of these copies in a process of its own, for its greatest memory.
"""

from __future__ import annotations

import argparse
import multiprocessing
import re
import resource
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from pathlib import Path
from typing import ParamSpec, TypeVar

import numpy as np

from narrate2report.intake.frames import frame_at, neighbour, sharpest
from narrate2report.intake.probe import probe
from narrate2report.intake.review_copy import make_copy
from narrate2report.intake.still_file import as_jpeg
from tests.intake.films import write_film
from tests.intake.recordings import beeps

SAMPLE = Path(__file__).parents[2] / "samples" / "move-in.mp4"
TRIALS = 15
SHORT_S = 15
Given = ParamSpec("Given")
Made = TypeVar("Made")


def main() -> None:
    """Measure one recording, or the sample and two films."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("recording", type=Path, nargs="?")
    given = parser.parse_args().recording
    with tempfile.TemporaryDirectory() as folder:
        measure(given or SAMPLE, Path(folder))
        if given is None:
            for seconds in (SHORT_S, 4 * SHORT_S):
                measure(_alone(_film, Path(folder) / f"hevc-{seconds}s.mov", seconds), Path(folder))


def measure(path: Path, folder: Path) -> None:
    """Print the times of one recording."""
    length_s = probe(path).duration_s or 0.0
    starts = np.random.default_rng(1).uniform(0, max(0.1, length_s - 6), TRIALS).tolist()
    print(f"{path.name}: {length_s:.0f} s")
    _print("still at a time", [_timed(partial(frame_at, path, at)) for at in starts])
    _print("one picture back", [_timed(partial(neighbour, path, at, -1)) for at in starts])
    _print("sharpest of 5 s", [_timed(partial(sharpest, path, at, at + 5)) for at in starts])
    still = frame_at(path, starts[0])
    _print("as JPEG", [_timed(partial(as_jpeg, still)) for _ in range(TRIALS)])
    took_s, peak = _alone(_copy, path, folder / "copy.mp4")
    print(f"  review copy        {length_s / took_s:6.1f} x real time, {peak / 1e6:.0f} MB at most")


def _alone(work: Callable[Given, Made], *args: Given.args, **named: Given.kwargs) -> Made:
    """Work in a process of its own, so that its memory is its own."""
    with ProcessPoolExecutor(1, multiprocessing.get_context("spawn")) as process:
        return process.submit(work, *args, **named).result()


def _copy(path: Path, out: Path) -> tuple[float, float]:
    took_s = _timed(lambda: make_copy(path, out, _ignore))
    return took_s, _greatest_memory()


def _greatest_memory() -> float:
    """Bytes; on Linux from its own page, since `getrusage` hands a parent's greatest memory down to its child."""
    own = Path("/proc/self/status")
    if own.exists():
        return float(re.findall(r"VmHWM:\s+(\d+) kB", own.read_text(encoding="utf-8"))[0]) * 1024
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * (1.0 if sys.platform == "darwin" else 1024.0)


def _ignore(part: float) -> None:
    """Progress that nobody waits for."""


def _film(path: Path, seconds: int) -> Path:
    times = [number / 30 for number in range(seconds * 30)]
    sound = ("aac", beeps(48_000, length_s=seconds), 48_000, 0.0)
    return write_film(path, "libx265", times, size=(1080, 1920), turned=90, sound=sound)


def _timed(work: Callable[[], object]) -> float:
    before = time.perf_counter()
    work()
    return time.perf_counter() - before


def _print(what: str, times_s: list[float]) -> None:
    print(f"  {what:18} {statistics.median(times_s) * 1000:6.0f} ms, at most {max(times_s) * 1000:.0f} ms")


if __name__ == "__main__":
    main()
