"""The same recordings drafted here and on a Dask cluster of this machine: how fast, and what the cluster costs.

    python tests/benchmarks/batch_speed.py [--clips 4] [--seconds 180] [--workers 2]

Clips are cut from the sample walks. Told for each way: seconds on the wall, recordings and hours of recording a worker
and hour, processor time (of all processes, so that it means something on a busy machine too) as core-hours for an hour
of recording; and of the cluster, both as ratios to the local run with as many processes of one thread.
"""

from __future__ import annotations

import argparse
import json
import os
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import numpy as np
import psutil

from narrate2report.intake.sound import sound_blocks
from narrate2report.records.clip import RATE
from tests.drafted import SAMPLES
from tests.intake.recordings import Kind, write_recording

PROGRAM = [sys.executable, "-m"]


def main() -> None:
    options = _options()
    with tempfile.TemporaryDirectory() as place:
        walks = Path(place) / "walks"
        walks.mkdir()
        make(walks, options.clips, options.seconds)
        hours = options.clips * options.seconds / 3600
        told = {
            "one with all threads": local(walks, hours, options.clips, jobs=1),
            "several with one thread": local(walks, hours, options.clips, jobs=options.workers),
            "cluster": on_cluster(walks, hours, options.clips, options.workers),
        }
    for way, figures in told.items():
        print(json.dumps({"way": way, **figures}))
    here, there = told["several with one thread"], told["cluster"]
    print(json.dumps({f"cluster to local, {name}": round(there[name] / here[name], 3) for name in ("wall_s", "cpu_s")}))


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--clips", type=int, default=4)
    parser.add_argument("--seconds", type=int, default=180)
    parser.add_argument("--workers", type=int, default=2)
    return parser.parse_args()


def make(folder: Path, clips: int, seconds: int) -> None:
    """Clips that begin at different moments, so that no two are the same recording."""
    walks = [np.concatenate(list(sound_blocks(SAMPLES / f"{name}.mp4"))) for name in ("move-in", "move-out")]
    whole = np.concatenate(walks)
    for number in range(clips):
        first = number * max(0, len(whole) - seconds * RATE) // max(1, clips - 1)
        cut = np.resize(whole[first:], seconds * RATE)
        write_recording(folder / f"walk-{number:02}.m4a", Kind(".m4a", "aac", rate=RATE), cut)


def local(walks: Path, hours: float, clips: int, jobs: int) -> dict[str, float]:
    return _measured(walks, hours, clips, jobs, ["--jobs", str(jobs)], _own_cpu)


def on_cluster(walks: Path, hours: float, clips: int, workers: int) -> dict[str, float]:
    with _cluster(walks.parent, workers) as (address, running):

        def cpu() -> float:
            return _own_cpu() + sum(sum(process.cpu_times()[:2]) for process in running)

        return _measured(walks, hours, clips, workers, ["--scheduler", address], cpu)


def _measured(
    walks: Path, hours: float, clips: int, workers: int, how: list[str], cpu: Callable[[], float]
) -> dict[str, float]:
    for made in [*walks.glob("*.json"), *walks.glob(".*.jsonl")]:
        made.unlink()
    began, spent = time.perf_counter(), cpu()
    subprocess.run([*PROGRAM, "narrate2report", "batch", str(walks), "--quiet", *how], check=True)
    wall_s, cpu_s = time.perf_counter() - began, cpu() - spent
    return {
        "workers": workers,
        "wall_s": round(wall_s, 1),
        "cpu_s": round(cpu_s, 1),
        "recordings_per_worker_hour": round(clips / workers / wall_s * 3600, 1),
        "recorded_hours_per_worker_hour": round(hours / workers / wall_s * 3600, 2),
        "core_hours_per_recorded_hour": round(cpu_s / 3600 / hours, 3),
    }


def _own_cpu() -> float:
    """Processor time of all that was started from here and has ended."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


@contextmanager
def _cluster(place: Path, workers: int) -> Iterator[tuple[str, list[psutil.Process]]]:
    file = place / "scheduler.json"
    where = ["--scheduler-file", str(file), "--no-dashboard", "--host", "127.0.0.1"]
    started = [subprocess.Popen([*PROGRAM, "dask", "scheduler", "--port", "0", *where], stderr=subprocess.DEVNULL)]
    try:
        while not (file.exists() and file.read_bytes()):
            time.sleep(0.1)
        worker = [*PROGRAM, "dask", "worker", "--nthreads", "1", "--no-nanny", "--memory-limit", "0", *where]
        environment = {**os.environ, "OMP_NUM_THREADS": "1"}
        started += [subprocess.Popen(worker, stderr=subprocess.DEVNULL, env=environment) for _ in range(workers)]
        from distributed import Client

        address = str(json.loads(file.read_bytes())["address"])
        with Client(address, set_as_default=False) as client:
            client.wait_for_workers(workers)
        yield address, [psutil.Process(process.pid) for process in started]
    finally:
        for process in reversed(started):
            process.terminate()
            process.wait()


if __name__ == "__main__":
    main()
