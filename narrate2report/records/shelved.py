"""A walk as it stands on a shelf of many, and what a search over all of them finds."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Standing = Literal["to_draft", "to_review", "reviewed", "sealed", "settled", "broken"]
"""What has to be done next, or that nothing has; `broken` is a record that cannot be read."""


@dataclass(frozen=True)
class Shelved:
    """One walk. A recording that nobody has drafted yet is one too."""

    path: str
    """Its findings file, or its recording, below the shelf's folder, with `/` between."""
    standing: Standing
    unit: str | None = None
    kind: str | None = None
    date: str | None = None
    """ISO 8601, as far as it is known."""
    entries: int = 0
    open: int = 0
    """Decisions that a person still has to take: entries, and parts not spoken of."""
    due: str | None = None
    """The next day by which something must be done, ISO 8601."""
    due_for: str | None = None
    fault: str | None = None
    """Why it is broken."""


@dataclass(frozen=True)
class Hit:
    """An entry, or a sentence that gave none, in which the words were found."""

    path: str
    unit: str | None
    date: str | None
    told: str
    """`Bathroom, caulk: loose`; for a sentence, why it gave no entry."""
    quote: str
    start: float
    link: str
