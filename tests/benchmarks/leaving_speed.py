"""How what leaves the office grows with the record, and muxing with the recording: run by hand, prints ratios.

`python tests/benchmarks/leaving_speed.py` makes each form of a record of 2,000 and of 4,000 entries (a ratio of 2 is
linear), and a film with chapters of one and of eight minutes, in a process each, whose memory should be the same
(Linux).
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

from narrate2report.intake.chaptered_copy import Additions, make_chaptered_copy
from narrate2report.publish.annotations import annotations_of
from narrate2report.publish.calendar import calendar_of
from narrate2report.publish.chapters import chapters_of, webvtt_chapters
from narrate2report.publish.report_links import Links
from narrate2report.publish.standing import heading_of
from narrate2report.publish.work_list import Stills, work_list
from narrate2report.publish.work_list_csv import csv_of
from narrate2report.publish.work_list_xlsx import xlsx_of
from narrate2report.records.canonical import readable_bytes
from narrate2report.records.findings import Findings
from narrate2report.records.timed_text import TimedText
from tests.intake.films import write_film
from tests.intake.recordings import beeps
from tests.publish.walk import entry, evidence, findings

AT = datetime(2026, 3, 6, tzinfo=UTC)
PARTS = ("wall", "floor", "sink", "door")


def record_of(entries: int) -> Findings:
    """Rooms of 50 flaws each, one every two seconds."""
    made = [
        entry(id=f"e{n}", room=f"bedroom.{n // 50 + 1}", component=PARTS[n % 4], evidence=(evidence(2.0 * n),))
        for n in range(entries)
    ]
    rooms = [
        {"room": f"bedroom.{n + 1}", "recording": "walk.mp4", "start": 100.0 * n, "end": 100.0 * n + 90}
        for n in range(entries // 50)
    ]
    return findings(*made, rooms=rooms)


def seconds(make: Callable[[], object]) -> float:
    """The quickest of three."""
    taken = []
    for _ in range(3):
        begun = time.perf_counter()
        make()
        taken.append(time.perf_counter() - begun)
    return min(taken)


def forms_of(record: Findings) -> dict[str, float]:
    """Seconds for each form."""
    heading = heading_of(record, "draft", AT)
    listed = work_list(record, heading, Links({"walk.mp4": "walk.mp4"}), Stills())
    return {
        "work list": seconds(lambda: work_list(record, heading, Links(), Stills())),
        "xlsx": seconds(lambda: xlsx_of(listed)),
        "csv": seconds(lambda: csv_of(listed)),
        "ics": seconds(lambda: calendar_of(heading, listed.tasks)),
        "chapters": seconds(lambda: webvtt_chapters(chapters_of(record, heading, "walk.mp4"), heading)),
        "annotations": seconds(lambda: readable_bytes(annotations_of(record, heading, {}))),
    }


def mux(film: str) -> None:
    """Make one copy and print the memory that this process has needed at most, in MiB."""
    rows = [TimedText(float(n), n + 1.0, f"Chapter {n}") for n in range(50)]
    make_chaptered_copy(Path(film), Path(film).with_suffix(".copy.mp4"), Additions("a", "b", rows, rows))
    # Not what the system counts for the process, which begins with the memory of the one that started it.
    peak = next(line for line in Path("/proc/self/status").read_text().splitlines() if line.startswith("VmHWM"))
    print(int(peak.split()[1]) / 1024)


def main() -> None:
    """Print both comparisons."""
    small, large = forms_of(record_of(2_000)), forms_of(record_of(4_000))
    for name, taken in large.items():
        print(f"{name:12} {small[name]:6.2f} s {taken:6.2f} s  ratio {taken / small[name]:.1f}")
    with tempfile.TemporaryDirectory() as folder:
        peaks = []
        for minutes in (1, 8):
            path = Path(folder) / f"{minutes}.mp4"
            times = [n / 10 for n in range(600 * minutes)]
            write_film(path, times_s=times, sound=("aac", beeps(16_000, length_s=60.0 * minutes), 16_000, 0.0))
            told = subprocess.run(
                [sys.executable, __file__, str(path)], check=True, capture_output=True, text=True
            ).stdout
            peaks.append(float(told.split()[-1]))
            print(f"{minutes} min, {path.stat().st_size / 1e6:.1f} MB: {peaks[-1]:.0f} MiB at most")
        print(f"memory ratio {peaks[1] / peaks[0]:.2f}")


if __name__ == "__main__":
    mux(sys.argv[1]) if len(sys.argv) > 1 else main()
