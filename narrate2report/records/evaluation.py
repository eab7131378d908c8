"""How well walks were read: shares with their intervals, by kind of entry; what was missed and what is not there."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from narrate2report.records.base import Seconds, Value


class Share(Value):
    """Part of a whole, with its 95 % interval; all None where there was nothing to share."""

    part: int = Field(ge=0)
    whole: int = Field(ge=0)
    value: float | None
    low: float | None
    high: float | None


class Rates(Value):
    """How entries of some kinds were read."""

    of: str = Field(description="a kind of entry, or `observations`: conditions and checks together")
    found: int
    missed: int
    extra: int
    precision: Share = Field(description="of what was read, what is right")
    recall: Share = Field(description="of what was said, what was read")
    f1: float | None = Field(description="the harmonic mean of both")


class Wrong(Value):
    """One thing that was missed, or that was read and is not there."""

    what: Literal["missed", "not there"]
    file: str
    start: Seconds
    told: str


class Evaluation(Value):
    """All rates over one or several walks."""

    kinds: tuple[Rates, ...]
    observations: Rates
    adverse_recall: Share = Field(description="of the flaws and failed checks, what was read")
    false_alarms: int = Field(description="flaws drafted where none was told")
    lines: int = Field(description="in how many lines or sentences the walks were told")
    wrong: tuple[Wrong, ...]
