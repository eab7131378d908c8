"""What a person can choose from while reviewing: the vocabulary's rooms, components and conditions by name."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from narrate2report.records.findings import Coverage, Entry, Findings
from narrate2report.wording import plain, room_name


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

    def with_those_of(self, findings: Findings) -> Choices:
        """These, and what the record names that they do not hold: `bedroom.2`, or a word of another vocabulary.

        So every fact of an entry stands among what can be chosen for it.
        """
        named: list[Entry | Coverage] = [*findings.entries, *findings.coverage]
        rooms = [*(visit.room for visit in findings.rooms), *(one.room for one in named)]
        return replace(
            self,
            rooms=_and(self.rooms, rooms, room_name),
            components=_and(self.components, (one.component for one in named), plain),
            conditions=_and(self.conditions, (entry.condition for entry in findings.entries), plain),
        )

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


def _and(known: tuple[Choice, ...], named: Iterable[str | None], label: Callable[[str], str]) -> tuple[Choice, ...]:
    """What is known, and behind it each other thing that is named, once, in the order in which it first is."""
    ids = {choice.id for choice in known}
    return (*known, *(Choice(name, label(name)) for name in dict.fromkeys(named) if name and name not in ids))
