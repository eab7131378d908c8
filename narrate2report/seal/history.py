"""Whether the journal leads from the draft that it began with to the record as it stands."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from narrate2report.errors import BrokenRecord
from narrate2report.records.findings import Findings
from narrate2report.records.fold import unfolded
from narrate2report.records.journal import JournalLine
from narrate2report.records.journal_file import check_lines, draft_sha256
from narrate2report.seal.mismatch import Mismatch


def broken_history(findings: Findings, raw: bytes, name: str) -> tuple[Mismatch, ...]:
    """What is wrong with the journal `name`, whose bytes these are, and with the way it leads to the record."""
    return tuple(_broken(findings, raw, name))


def draft_of(findings: Findings, raw: bytes) -> Findings:
    """What the record was before the first decision of its journal. Raises BrokenRecord where they do not fit."""
    return _before(findings, check_lines(raw, JournalLine)[0])


def _before(findings: Findings, lines: Sequence[JournalLine]) -> Findings:
    return unfolded(findings.model_copy(update={"seal": None}), lines)


def _broken(findings: Findings, raw: bytes, name: str) -> Iterator[Mismatch]:
    lines, faults = check_lines(raw, JournalLine)
    for fault in faults:
        yield Mismatch("journal", f"{name}, line {fault.line}", fault.what, fault.expected, fault.found)
    if not lines:
        yield Mismatch("journal", name, "its lines", "at least the first", "none")
        return
    try:
        draft = _before(findings, lines)
    except BrokenRecord as error:
        yield Mismatch("journal", name, "the record it leads to", "the one that is sealed", str(error))
        return
    sha256 = draft_sha256(draft)
    if lines[0].previous != sha256:
        yield Mismatch("journal", name, "the draft that it began with", lines[0].previous, sha256)
