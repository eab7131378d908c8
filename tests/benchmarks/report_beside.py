"""The report of many entries beside a general PDF library that lays out the same rows as plain tables.

`report_beside.py [ENTRIES]`: seconds and the most memory of each, in a process of its own, and the ratio. The other
library, ReportLab, is needed for this benchmark alone; put it on PYTHONPATH. What it makes is neither tagged nor
archival and has no links inside, no attachments and no second pass, so it is a lower bound and no rival.
"""

from __future__ import annotations

import importlib
import io
import multiprocessing
import resource
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from narrate2report.publish.report_links import Links
from narrate2report.publish.report_pdf import pdf_of
from narrate2report.publish.report_values import Report
from narrate2report.publish.report_whole import Around, report_of, telling_of
from tests.benchmarks.report_speed import walk


def told(entries: int) -> Report:
    """The office's copy of a walk of so many flaws."""
    with tempfile.TemporaryDirectory() as folder:
        record, _ = walk(entries, b"", Path(folder))
    around = Around(Links({"walk.mp4": "walk.mp4"}))
    return report_of(telling_of(record, "office", around), "walk", "reviewed", around)


def ours(report: Report) -> bytes:
    """The report as it is."""
    return pdf_of(report, {}, datetime(2026, 3, 6, tzinfo=UTC))


def beside(report: Report) -> bytes:
    """The same findings as tables of paragraphs, a table a room, and the response list."""
    platypus: Any = importlib.import_module("reportlab.platypus")
    styles: Any = importlib.import_module("reportlab.lib.styles").getSampleStyleSheet()
    body, head = styles["BodyText"], styles["Heading2"]
    story: list[Any] = []
    for room in report.rooms:
        story.append(platypus.Paragraph(room.name, head))
        rows = [
            [
                platypus.Paragraph(text, body)
                for text in (str(one.number), part.name, one.says, one.state, " ".join(one.quotes), _time(one.moments))
            ]
            for part in room.parts
            for one in part.findings
        ]
        story.append(platypus.Table(rows, colWidths=[30, 70, 60, 80, 190, 40]))
    answers = [
        [str(one.number), platypus.Paragraph(f"{one.room}, {one.part}: {one.says}", body), ""]
        for one in report.attention
    ]
    story.append(platypus.Table(answers, colWidths=[30, 240, 200]))
    made = io.BytesIO()
    platypus.SimpleDocTemplate(made).build(story)
    return made.getvalue()


def _time(moments: Any) -> str:
    return ", ".join(f'<a href="{one.link}">{one.label}</a>' for one in moments)


def _measured(make: Callable[[Report], bytes], entries: int, answer: Any) -> None:
    report = told(entries)
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    began = time.perf_counter()
    size = len(make(report))
    seconds = time.perf_counter() - began
    answer.put((seconds, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024, before, size / 1e6))


def measured(make: Callable[[Report], bytes], entries: int) -> tuple[float, float]:
    """Seconds and megabytes, printed; each in a fresh process, so that the peaks do not mix."""
    spawn = multiprocessing.get_context("spawn")
    answer: Any = spawn.Queue()
    process = spawn.Process(target=_measured, args=(make, entries, answer))
    process.start()
    seconds, peak, before, size = answer.get()
    process.join()
    print(f"{make.__name__}: {seconds:.1f} s, at most {peak:.0f} MB ({before:.0f} MB before), {size:.1f} MB of PDF")
    return float(seconds), float(peak)


def main() -> None:
    """Print both and the ratios."""
    entries = int(sys.argv[1]) if len(sys.argv) > 1 else 2000
    seconds, peak = measured(ours, entries)
    other_seconds, other_peak = measured(beside, entries)
    print(
        f"{entries} entries: {seconds / other_seconds:.2f} times its seconds, {peak / other_peak:.2f} times its memory"
    )


if __name__ == "__main__":
    main()
