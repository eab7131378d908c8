"""What a person can choose from while reviewing: the vocabulary's rooms, components and conditions by name."""

from __future__ import annotations

from dataclasses import dataclass

from narrate2report.records.findings import Entry


@dataclass(frozen=True)
class Choice:
    """One thing to choose: its id, what it is called, and what else is said for it."""

    id: str
    label: str
    also: tuple[str, ...] = ()


@dataclass(frozen=True)
class Choices:
    """The rooms, components and conditions of the vocabulary, and which conditions are nothing to complain of."""

    rooms: tuple[Choice, ...] = ()
    components: tuple[Choice, ...] = ()
    conditions: tuple[Choice, ...] = ()
    sound: frozenset[str] = frozenset()

    def is_plain_and_sound(self, entry: Entry) -> bool:
        """Whether an entry says only that something is in order, with nothing repaired or added to it.

        Such entries may be decided together once they have been seen.
        """
        if entry.heard or entry.note:
            return False
        if entry.kind == "check":
            return entry.outcome == "works"
        if entry.kind == "condition":
            return entry.assertion == "absent" or (entry.assertion == "present" and entry.condition in self.sound)
        return False
