"""How a record is worded in what is made beside the report: as the report words it for the office, in English.

The one place where work list, calendar, chapters and annotations meet the report's wording and its cautions.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from narrate2report.publish import report_cautions, report_method
from narrate2report.publish.language import language
from narrate2report.publish.report_entries import Telling
from narrate2report.publish.report_values import Standing
from narrate2report.records.findings import Entry, Findings
from narrate2report.wording import capital

LANGUAGE: Final = "en"


def unreviewed() -> str:
    """`NOT REVIEWED`."""
    return language().page["unreviewed"]


def entries_of(findings: Findings) -> list[Entry]:
    """All entries in walk order; what was dropped is not among them."""
    return Telling(findings, "office").entries()


def statement(entry: Entry) -> str:
    """What an entry says of its part: `chip, along the front`."""
    return language().says(entry, LANGUAGE)[0]


def room_of(entry: Entry) -> str:
    """`Hall bathroom`."""
    return language().room(entry.room)


def room_called(room: str) -> str:
    """The same for a room's id."""
    return language().room(room)


def part_of(entry: Entry) -> str:
    """`range knob`, as inside a sentence."""
    return language().component(entry.component)


def cautions_for(entries: Sequence[Entry]) -> tuple[str, ...]:
    """The general cautions and those that an entry calls for."""
    return report_cautions.cautions_for(entries, language())


def urgent_for(entries: Sequence[Entry]) -> tuple[str, ...]:
    """The cautions of the report's first page that an entry calls for."""
    return report_cautions.urgent_for(entries, language())


def is_gas(entries: Sequence[Entry]) -> bool:
    """Whether one of them speaks of a smell of gas."""
    return language().cautions["gas"] in urgent_for(entries)


def why_missing(key: str) -> str:
    """Why a picture cannot be shown, by its key."""
    return language().why_missing(key)


def standing_word(standing: Standing) -> str:
    """`DRAFT – not fully reviewed`, `Sealed`."""
    return language().standings[standing]


def record_title(findings: Findings) -> str:
    """`Move-in condition report, unit 2B`."""
    return report_method.title(findings, language())


def unit_of(findings: Findings) -> str:
    """`Unit 2B`, or nothing where none was said."""
    return ", ".join(capital(language().unit(one.value)) for one in findings.walkthrough.unit[:1])
