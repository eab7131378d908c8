"""How long a report of many entries and pictures takes, and how much memory: `report_speed.py [ENTRIES] [PICTURE]`.

A picture, where one is given (JPEG or PNG), stands at every third entry under a file of its own. Ends with 1 where the
report holds more memory than it may.
"""

from __future__ import annotations

import hashlib
import resource
import sys
import tempfile
import time
from datetime import UTC, datetime
from pathlib import Path

from narrate2report.intake.smaller import smaller_jpeg
from narrate2report.publish.report_links import Links
from narrate2report.publish.report_pdf import longest_side, pdf_of
from narrate2report.publish.report_whole import Around, report_of, telling_of
from narrate2report.records.findings import Decision, Entry, Findings, Still
from tests.publish.walk import entry, evidence, findings

COMPONENTS = ("wall", "floor", "ceiling", "door", "window", "sink", "outlet", "baseboard")
EVERY = 3
MOST_MB = 600
"""Of memory, for 2,000 entries with 600 pictures or more: larger than any walk that a person films in a day."""


def walk(entries: int, picture: bytes, folder: Path) -> tuple[Findings, dict[str, Path]]:
    """As many flaws in rooms of forty, with their pictures on disk."""
    files: dict[str, Path] = {}
    made = [_entry(number, picture if number % EVERY == 0 else b"", folder, files) for number in range(entries)]
    return findings(*made), files


def _entry(number: int, picture: bytes, folder: Path, files: dict[str, Path]) -> Entry:
    stills: tuple[Still, ...] = ()
    if picture:
        content = picture + number.to_bytes(4, "big")  # what follows the end of a picture is not read
        sha256 = hashlib.sha256(content).hexdigest()
        files[sha256] = folder / f"{sha256}.jpg"
        files[sha256].write_bytes(content)
        stills = (Still(file=f"s/{sha256}.jpg", recording="walk.mp4", time=number, sha256=sha256),)
    return entry(
        id=f"e{number}",
        room=f"bedroom.{number // 40 + 1}",
        component=COMPONENTS[number % len(COMPONENTS)],
        evidence=(evidence(number, f"Here is chip number {number}, about as long as my thumb."),),
        state="accepted",
        decided=Decision(by="Ida Pell", at="2026-03-06T12:00:00Z"),
        stills=stills,
    )


def main() -> int:
    """Print seconds, pages' bytes and the most memory that was held."""
    entries = int(sys.argv[1]) if len(sys.argv) > 1 else 2000
    picture = Path(sys.argv[2]).read_bytes() if len(sys.argv) > 2 else b""
    with tempfile.TemporaryDirectory() as name:
        record, files = walk(entries, picture, Path(name))
        began = time.perf_counter()
        for number, file in enumerate(files.values()):
            fitted = smaller_jpeg(file, longest_side(len(files))) or file.read_bytes()
            file.write_bytes(fitted + number.to_bytes(4, "big"))  # equal pictures would be stored once
        shrunk = time.perf_counter()
        around = Around(Links({"walk.mp4": "walk.mp4"}))
        report = report_of(telling_of(record, "office", around), "walk", "reviewed", around)
        told = time.perf_counter()
        content = pdf_of(report, files, datetime(2026, 3, 6, tzinfo=UTC))
        ended = time.perf_counter()
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"{entries} entries, {len(files)} pictures made smaller in {shrunk - began:.1f} s,")
    print(f"values {told - shrunk:.2f} s, PDF {ended - told:.1f} s,")
    print(f"{len(content) / 1e6:.1f} MB of PDF, at most {peak:.0f} MB of memory ({MOST_MB} MB allowed)")
    return 1 if peak > MOST_MB else 0


if __name__ == "__main__":
    sys.exit(main())
