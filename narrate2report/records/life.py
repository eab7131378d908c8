"""How long a thing lasts: rows of a table of useful lives, the one that travels with the program or one's own."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from narrate2report.records.base import Value

FROM_MEMORY = "from memory, unverified"
"""How the table marks a figure whose source was not seen when the table was made."""


class LifeRow(Value):
    """One source's word on how long a thing lasts, in years; `high` where it gives a range."""

    name: str
    group: str
    years: Decimal
    high: Decimal | None = None
    source: str | None
    purpose: str = ""
    verified: str = ""
    note: str = ""
    use: Literal["share", "shown_only"] = "share"

    @property
    def from_memory(self) -> bool:
        """Whether its source was not seen when the table was made."""
        return self.verified.startswith("from memory")

    def told(self) -> str:
        """`carpet: 8 to 10 years (a survey)`."""
        span = f"{self.years} to {self.high}" if self.high else f"{self.years}"
        mark = f"; {FROM_MEMORY}" if self.from_memory else ""
        return f"{self.name}: {span} years ({self.source or 'no source'}{mark})"


@dataclass(frozen=True)
class Step:
    """A step of a published schedule: in a stay of at least `since` and under `below` months, this share is due."""

    since: int
    below: int | None
    share: Fraction
    source: str
    note: str
