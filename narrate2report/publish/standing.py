"""What every file that is made of a record says of it in its head: which record, and how far it has come.

A draft is marked as a draft in each form, and what was made of a sealed record names the seal.
"""

from __future__ import annotations

import uuid
from dataclasses import dataclass
from datetime import datetime

from narrate2report.publish.entry_words import record_title, standing_word, unit_of
from narrate2report.publish.report_values import Standing
from narrate2report.records.findings import Findings
from narrate2report.records.plain import one_line

_NAMES = uuid.UUID("7d0c3a52-51a4-5c39-9c0e-2f6b1d8a4e70")
"""The space of names in which this program makes its UUIDs (RFC 9562, version 5)."""


@dataclass(frozen=True)
class Heading:
    """`about` names the record, `unit` is empty where none was said, `made_at` is the newest time that it knows.

    `seal` is the SHA-256 of a sealed record; `identity` holds those of its recordings, the same in a draft and when
    sealed.
    """

    about: str
    unit: str
    standing: Standing
    seal: str | None
    made_at: datetime
    identity: str

    @property
    def is_draft(self) -> bool:
        """Whether something in it is undecided."""
        return self.standing == "draft"

    @property
    def word(self) -> str:
        """`DRAFT – not fully reviewed`, `Sealed`."""
        return standing_word(self.standing)

    @property
    def mark(self) -> str:
        """The same, with the digits of the seal."""
        return self.word if self.seal is None else f"{self.word}, SHA-256 {self.seal}"

    def uuid(self, *names: str) -> str:
        """A name for a part of the record that is the same each time and on every machine."""
        return str(uuid.uuid5(_NAMES, "/".join([self.identity, *names])))


def heading_of(findings: Findings, standing: Standing, made_at: datetime) -> Heading:
    """The head of whatever is made of a record."""
    days = [one.value for one in findings.walkthrough.date[:1]]
    return Heading(
        about=one_line(", ".join([record_title(findings), *days])),
        unit=one_line(unit_of(findings)),
        standing=standing,
        seal=None if findings.seal is None else findings.seal.sha256,
        made_at=made_at,
        identity="/".join(one.sha256 for one in findings.recordings),
    )
