"""Who decides, and when: what every decision carries."""

from __future__ import annotations

from dataclasses import dataclass

from narrate2report.records.findings import Decision


@dataclass(frozen=True)
class Hand:
    """Who decides, when (RFC 3339, UTC), and as which line of the journal."""

    by: str
    at: str
    number: int

    def decision(self, why: str | None = None) -> Decision:
        """How it stands in a record."""
        return Decision(by=self.by, at=self.at, why=why or None)
