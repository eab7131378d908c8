"""The work list as CSV (RFC 4180): UTF-8, lines ended by CR LF, every field in quotes, the first line the names.

Spreadsheets take a field that begins with `=`, `+`, `-`, `@` for a formula, in quotes or not; such a field gets an
apostrophe before it, the customary way to defuse it. No field holds a tab or the end of a line.
"""

from __future__ import annotations

import csv
import io

from narrate2report.publish.work_list import WorkList
from narrate2report.publish.work_words import WORDS

FORMULA = ("=", "+", "-", "@", "＝", "＋", "－", "＠")
"""What begins a formula; the wide forms too, which some spreadsheets take for the narrow ones."""

NAMES = tuple(WORDS.columns)


def csv_of(listed: WorkList) -> bytes:
    """The whole file."""
    text = io.StringIO(newline="")
    writer = csv.writer(text, quoting=csv.QUOTE_ALL, lineterminator="\r\n")
    writer.writerow(WORDS.columns.values())
    for number, task in enumerate(listed.tasks, start=1):
        told = {"number": str(number), **task.in_columns(listed.heading)}
        writer.writerow([defused(told[name]) for name in NAMES])
    return text.getvalue().encode("utf-8")


def defused(words: str) -> str:
    """The words, with an apostrophe before what a spreadsheet would take for a formula.

    Words that begin with apostrophes and such a mark get one more, so that taking one off gives back what was said.
    """
    return f"'{words}" if words.lstrip("'").startswith(FORMULA) else words
