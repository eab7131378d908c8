"""Many sentences read in one go, each as if it stood alone: what a table of sayings is read with."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass
from typing import Generic, TypeVar

from narrate2report.records.findings import Entry
from tests.read.told import LINE_S, Narrator

Name = TypeVar("Name", bound=Hashable)


@dataclass(frozen=True)
class Spoken:
    """A room to walk into, and what is said there."""

    room: str
    said: str


class Walk(Generic[Name]):
    """Sentences with a name each; before each the room is left and entered anew, so that none leans on another."""

    def __init__(self, entries: Narrator, sentences: Mapping[Name, Spoken]) -> None:
        lines: list[str] = []
        self._line: dict[Name, int] = {}
        for name, spoken in sentences.items():
            away = "garage" if spoken.room != "garage" else "kitchen"
            lines += [f"Okay, into the {away}.", f"Okay, into the {spoken.room}."]
            self._line[name] = len(lines)
            lines.append(spoken.said)
        self._told = entries(*lines)

    def given(self, name: Name) -> list[Entry]:
        """The entries that one sentence gave."""
        start = LINE_S * self._line[name]
        return [entry for entry in self._told.entries if start <= entry.evidence[0].start < start + LINE_S]
