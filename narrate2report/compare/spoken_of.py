"""Whether the other record spoke of a flaw's component, so that its silence about the flaw tells something.

Spoken of is a component through praise, a check, another flaw, its being handed over or what it is. It is not by
general praise of the room, by praise of what it is a part of, or by work to do; and who did not test a thing has
said nothing of how it works.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from narrate2report.compare.flaws import Flaw
from narrate2report.compare.scope import GENERAL
from narrate2report.compare.terms import FAILS, Terms
from narrate2report.records.expected import WHOLE_UNIT
from narrate2report.records.findings import Entry

Silence = Literal["spoken of", "not tested", "part", "room", "nothing"]
"""What there is of a component: something, no test, its whole alone, praise of the room alone, nothing."""


@dataclass(frozen=True)
class Baseline:
    """What the other record holds of a flaw's component, with the entries that show it."""

    how: Silence
    entries: tuple[Entry, ...]

    @property
    def is_only_use(self) -> bool:
        """Whether it was used or handed over and no more: nobody said in which state it was."""
        return bool(self.entries) and all(entry.kind in ("check", "handover") for entry in self.entries)


@dataclass(frozen=True)
class Record:
    """One record as it is asked about components."""

    entries: tuple[Entry, ...]
    keys: Callable[[Entry], tuple[str, ...]]
    """Under which keys an entry is looked up, shared with those of the other record."""
    terms: Terms

    @cached_property
    def _by_key(self) -> dict[str, list[Entry]]:
        found: dict[str, list[Entry]] = defaultdict(list)
        for entry in self.entries:
            for key in self.keys(entry):
                found[key].append(entry)
        return found

    def baseline(self, flaw: Flaw, keys: Sequence[str], is_in_scope: Callable[[Entry], bool]) -> Baseline:
        """What this record holds of the component of a flaw of the other one.

        `keys` are those of the flaw, `is_in_scope` says whether an entry here concerns the same room.
        """
        wanted = keys if flaw.entry.room != WHOLE_UNIT else tuple(self._by_key)
        near = [entry for key in (*wanted, WHOLE_UNIT) for entry in self._by_key.get(key, ())]
        near = [entry for entry in dict.fromkeys(near) if is_in_scope(entry)]
        about = [entry for entry in near if self._is_about(entry, flaw)]
        if flaw.entry.component == GENERAL:
            about = [entry for entry in about if self._tells_of(entry, flaw)]
        untested = [entry for entry in about if entry.outcome == "not_tested"]
        stating = [entry for entry in about if _states(entry)]
        if untested and self._is_of_function(flaw) and not any(self._shows_function(entry) for entry in stating):
            return Baseline("not tested", tuple(untested))
        if stating:
            return Baseline("spoken of", tuple(stating))
        if untested:
            return Baseline("not tested", tuple(untested))
        return self._less(near, flaw)

    def _less(self, near: Iterable[Entry], flaw: Flaw) -> Baseline:
        """What is no baseline though it may look like one."""
        sound = [entry for entry in near if _states(entry) and not entry.is_adverse]
        wholes = self.terms.components[flaw.entry.component].part_of if self._knows(flaw) else ()
        if parts := [entry for entry in sound if entry.component in wholes]:
            return Baseline("part", tuple(parts))
        if general := [entry for entry in sound if entry.component == GENERAL]:
            return Baseline("room", tuple(general))
        return Baseline("nothing", ())

    def _knows(self, flaw: Flaw) -> bool:
        return flaw.entry.component in self.terms.components

    def _is_about(self, entry: Entry, flaw: Flaw) -> bool:
        """Whether an entry is about the flaw's component: by its id, or by its name among the words said."""
        component = flaw.entry.component
        if self.terms.is_one_thing(entry.component, component):
            return True
        if not self.terms.is_near(entry.component, component):
            return False
        if any(self.terms.names(piece.quote.lower(), component) for piece in entry.evidence):
            return True
        # `Tiles are sound`, then `one of the floor tiles is cracked`: the surface goes by either name.
        surfaces = {self.terms.group_of(component), self.terms.group_of(entry.component)} == {"surfaces"}
        return surfaces and self.terms.names(flaw.quote, entry.component)

    def _tells_of(self, entry: Entry, flaw: Flaw) -> bool:
        """Of a room at large: whether an entry tells of this kind of flaw. `Looks good` says nothing of its smell."""
        if entry.kind != "condition":
            return entry.kind == "check"
        condition = entry.condition or ""
        if entry.assertion == "absent" or entry.is_adverse:
            return self.terms.tie(condition, flaw.kind) is not None
        return condition == "clean" and self.terms.class_of(flaw.kind) == "soil" and flaw.kind != "odor"

    def _is_of_function(self, flaw: Flaw) -> bool:
        return flaw.kind == FAILS or self.terms.class_of(flaw.kind) == "fault"

    def _shows_function(self, entry: Entry) -> bool:
        """Whether it was seen at work: a test that gave something, or a fault that was or was not there."""
        return entry.outcome in ("works", "fails") or self.terms.class_of(entry.condition) == "fault"


def _states(entry: Entry) -> bool:
    """Whether it says something of the component: work to do and advice do not, and neither does no test."""
    if entry.kind == "check":
        return entry.outcome in ("works", "fails")
    return entry.kind in ("condition", "handover", "description")
