"""How a record is worded in what is made beside the report: as the report words it for the office.

The one place where work list, calendar, chapters and annotations meet the report's wording and its cautions.
"""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.publish.report_cautions import GAS
from narrate2report.publish.report_cautions import cautions_for as cautions_for
from narrate2report.publish.report_cautions import urgent_for as urgent_for
from narrate2report.publish.report_entries import Telling, capital, words_for
from narrate2report.publish.report_method import title
from narrate2report.publish.report_values import Standing
from narrate2report.publish.report_words import LANGUAGE as LANGUAGE
from narrate2report.publish.report_words import PAGE, STANDINGS
from narrate2report.records.findings import Entry, Findings
from narrate2report.wording import plain, room_name, unit_name

UNREVIEWED = PAGE["unreviewed"]


def entries_of(findings: Findings) -> list[Entry]:
    """All entries in walk order; what was dropped is not among them."""
    return Telling(findings, "office").entries()


def statement(entry: Entry) -> str:
    """What an entry says of its part: `chip, along the front`."""
    return words_for(entry)


def room_of(entry: Entry) -> str:
    """`Hall bathroom`."""
    return room_name(entry.room)


def room_called(room: str) -> str:
    """The same for a room's id."""
    return room_name(room)


def part_of(entry: Entry) -> str:
    """`range knob`, as inside a sentence."""
    return plain(entry.component)


def capitalised(words: str) -> str:
    """With a capital first letter."""
    return capital(words)


def is_gas(entries: Sequence[Entry]) -> bool:
    """Whether one of them speaks of a smell of gas."""
    return GAS.calls is not None and any(map(GAS.calls, entries))


def standing_word(standing: Standing) -> str:
    """`DRAFT – not fully reviewed`, `Sealed`."""
    return STANDINGS[standing]


def record_title(findings: Findings) -> str:
    """`Move-in condition report, unit 2B`."""
    return title(findings)


def unit_of(findings: Findings) -> str:
    """`Unit 2B`, or nothing where none was said."""
    return ", ".join(capital(unit_name(one.value)) for one in findings.walkthrough.unit[:1])
