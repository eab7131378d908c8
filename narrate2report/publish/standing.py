"""What every file that is made of a record says of it in its head: which record, and how far it has come.

A draft is marked as a draft in each form, and what was made of a sealed record names the seal.
"""

from __future__ import annotations

import uuid
from dataclasses import dataclass
from datetime import datetime

from narrate2report.publish.report_entries import capital
from narrate2report.publish.report_method import title
from narrate2report.publish.report_values import Standing
from narrate2report.publish.report_words import STANDINGS
from narrate2report.records.findings import Findings
from narrate2report.records.plain import one_line
from narrate2report.wording import unit_name

_NAMES = uuid.UUID("7d0c3a52-51a4-5c39-9c0e-2f6b1d8a4e70")
"""The space of names in which this program makes its UUIDs (RFC 9562, version 5)."""


@dataclass(frozen=True)
class Heading:
    """`about` names the record, `unit` is empty where none was said, `mark` tells how far it has come, `made_at` is the newest time that it knows.

    `identity` holds the SHA-256 of its recordings, the same in a draft and when sealed.
    """

    about: str
    unit: str
    mark: str
    is_draft: bool
    made_at: datetime
    identity: str

    def uuid(self, *names: str) -> str:
        """A name for a part of the record that is the same each time and on every machine."""
        return str(uuid.uuid5(_NAMES, "/".join([self.identity, *names])))


def heading_of(findings: Findings, standing: Standing, made_at: datetime) -> Heading:
    """The head of whatever is made of a record."""
    units = [capital(unit_name(one.value)) for one in findings.walkthrough.unit[:1]]
    days = [one.value for one in findings.walkthrough.date[:1]]
    words = STANDINGS[standing]
    return Heading(
        about=one_line(", ".join([title(findings), *days])),
        unit=one_line(", ".join(units)),
        mark=words if findings.seal is None else f"{words}, SHA-256 {findings.seal.sha256}",
        is_draft=standing == "draft",
        made_at=made_at,
        identity="/".join(one.sha256 for one in findings.recordings),
    )
