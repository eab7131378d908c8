"""What a person has still to decide, and the kind of record that can be sealed: one in which nothing is open."""

from __future__ import annotations

from dataclasses import dataclass

from narrate2report.records.findings import Coverage, Entry, Findings
from narrate2report.wording import moment, named, plain, room_name


@dataclass(frozen=True)
class Open:
    """A draft: entries that nobody has decided, and what was not spoken of and nobody has acknowledged."""

    findings: Findings
    entries: tuple[Entry, ...]
    gaps: tuple[Coverage, ...]

    def named_entries(self) -> list[str]:
        """`Kitchen, countertop: chip (1:15)`, in the order of the record."""
        return [_named(entry, self.findings) for entry in self.entries]

    def named_gaps(self) -> list[str]:
        """`Kitchen, sink`, in the order of the record."""
        return [f"{room_name(gap.room)}, {plain(gap.component)}" for gap in self.gaps]


@dataclass(frozen=True)
class Decided:
    """A record in which every entry is decided by a person and every gap acknowledged. `decided` makes them.

    Making one of a draft is a mistake of ours: a ValueError.
    """

    findings: Findings

    def __post_init__(self) -> None:
        if _open_entries(self.findings) or _open_gaps(self.findings):
            raise ValueError("a record with something undecided is a draft")


def decided(findings: Findings) -> Decided | Open:
    """The record as one that can be sealed, or else what is still open in it."""
    entries, gaps = _open_entries(findings), _open_gaps(findings)
    return Open(findings, entries, gaps) if entries or gaps else Decided(findings)


def _open_entries(findings: Findings) -> tuple[Entry, ...]:
    return tuple(entry for entry in findings.entries if entry.is_open)


def _open_gaps(findings: Findings) -> tuple[Coverage, ...]:
    return tuple(row for row in findings.coverage if row.is_open)


def _named(entry: Entry, findings: Findings) -> str:
    first = entry.evidence[0]
    at = moment(first.recording, first.start, len(findings.recordings))
    return f"{named(entry)} ({at})"
