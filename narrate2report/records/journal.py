"""The journal of a review: one line a decision, only ever added to.

A line holds each part of the record that it touched as it was before and as it became. So the record is the draft
with the lines laid over it in order, whichever of them the findings file holds already, and taking a line back is
a line like any other. What every journal's lines share stands first; those of a walk follow.
"""

from __future__ import annotations

from typing import Annotated, Final, Literal

from pydantic import Field

from narrate2report.records.base import Sha256, Value
from narrate2report.records.findings import Coverage, Entry, Unused

JOURNAL_SCHEMA: Final = "narrate2report/journal/1"

Action = Literal[
    "begin",
    "accept",
    "change",
    "drop",
    "withdraw",
    "reopen",
    "add",
    "merge",
    "split",
    "still",
    "acknowledge",
    "undo",
    "redo",
]


class Altered(Value):
    """A part of a record before and after a decision; null where it was not there."""

    before: Value | None
    after: Value | None


class Line(Value):
    """One decision of a person: what, who, when (RFC 3339, UTC), and what it changed."""

    number: int = Field(ge=1)
    at: str
    by: str
    action: str
    changes: tuple[Altered, ...] = ()
    takes_back: int | None = Field(default=None, description="the line that an undo or redo takes back")
    previous: Sha256 = Field(description="of the line before; for the first, of the draft's canonical form")


class EntryChange(Altered):
    """An entry before and after; null where it was not there."""

    of: Literal["entry"] = "entry"
    before: Entry | None
    after: Entry | None


class UnusedChange(Altered):
    """A sentence among those that gave no entry, before and after."""

    of: Literal["unused"] = "unused"
    before: Unused | None
    after: Unused | None


class CoverageChange(Altered):
    """A line of the coverage before and after."""

    of: Literal["coverage"] = "coverage"
    before: Coverage
    after: Coverage


Change = Annotated[EntryChange | UnusedChange | CoverageChange, Field(discriminator="of")]


class JournalLine(Line):
    """One decision about a walk: what, who, when (RFC 3339, UTC), and what it changed."""

    schema_: Literal["narrate2report/journal/1"] = Field(default=JOURNAL_SCHEMA, alias="schema")
    action: Action
    changes: tuple[Change, ...] = ()
