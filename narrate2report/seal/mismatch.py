"""One thing that does not match: in which layer, where, what was expected and what was found."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Layer = Literal["record", "seal", "signature", "files", "journal", "evidence", "decisions", "addendum"]
"""The layers in the order they are checked, from the bytes of the file to what it rests on."""

PRESENT, MISSING = "present", "missing"


@dataclass(frozen=True)
class Mismatch:
    """Reads as one line; `where` is a file, an entry or a line."""

    layer: Layer
    where: str
    what: str
    expected: str
    found: str

    @property
    def is_absence(self) -> bool:
        """Whether a file that the seal covers does not lie there, as against being another one."""
        return self.layer == "files" and self.found == MISSING

    def __str__(self) -> str:
        return f"{self.layer}: {self.where}: {self.what}: expected {self.expected}, found {self.found}"
