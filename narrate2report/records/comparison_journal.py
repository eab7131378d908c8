"""The journal of judging: what a person decided about the changes of a comparison, one line a decision."""

from __future__ import annotations

from typing import Final, Literal

from pydantic import Field

from narrate2report.records.comparison import FlawChange
from narrate2report.records.journal import Altered, Line

JUDGING_SCHEMA: Final = "narrate2report/judging/1"

Judging = Literal["begin", "confirm", "outcome", "pair", "join", "split", "judge", "reopen", "undo", "redo"]


class FlawAltered(Altered):
    """A change of the comparison before and after a decision; null where it was not there."""

    before: FlawChange | None
    after: FlawChange | None
    place: int = Field(ge=0, description="its place in the comparison as drafted, or that of the one it came out of")


class JudgingLine(Line):
    """One decision about a comparison: what, who, when (RFC 3339, UTC), and what it changed."""

    schema_: Literal["narrate2report/judging/1"] = Field(default=JUDGING_SCHEMA, alias="schema")
    action: Judging
    changes: tuple[FlawAltered, ...] = ()
