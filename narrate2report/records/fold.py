"""The record and its journal brought together: `folded` lays the decisions over it, `unfolded` takes them off again.

Pure. Laying the same lines over a record twice changes nothing, so a findings file that lags behind its journal,
by however many lines, gives the same record as the draft does.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from typing import TypeVar

from narrate2report.errors import BrokenRecord
from narrate2report.records.findings import Coverage, Entry, Findings, Unused
from narrate2report.records.journal import Change, JournalLine

Name = tuple[str, ...]
"""What a change is about: `("entry", id)`, `("unused", id)` or `("coverage", room, component)`."""

Part = Entry | Unused | Coverage
Kind = TypeVar("Kind", Entry, Unused, Coverage)


def folded(findings: Findings, lines: Sequence[JournalLine]) -> Findings:
    """The record with these lines laid over it, whichever of them it holds already.

    What was there keeps its place; what the lines add stands where it was said (`Order`).
    Raises BrokenRecord where a line speaks of a part of the coverage that the record does not have.
    """
    became: dict[Name, Part | None] = {}
    added: set[Name] = set()
    for change in _changes(lines):
        name = name_of(change)
        if name not in became and change.before is None:
            added.add(name)
        became[name] = change.after
    return _with(findings, became, added)


def unfolded(findings: Findings, lines: Sequence[JournalLine]) -> Findings:
    """The record as it was before these lines: `unfolded(folded(draft, lines), lines)` is the draft.

    A draft's entries are dropped, never removed, so each is still in its place; its unused sentences are numbered
    and return to theirs. Raises BrokenRecord, naming the line, where the record does not hold what a line left.
    """
    parts: tuple[Part, ...] = (*findings.entries, *findings.unused, *findings.coverage)
    stands = {_name(part): part for part in parts}
    was: dict[Name, Part | None] = {}
    for line in reversed(lines):
        for change in reversed(line.changes):
            name = name_of(change)
            if was.get(name, stands.get(name)) != change.after:
                raise BrokenRecord(f"line {line.number} of the journal: left {_told(name)} otherwise than it stands")
            was[name] = change.before
    return _with(findings, was, ())


def name_of(change: Change) -> Name:
    """What a change is about. Raises BrokenRecord where it has neither a before nor an after, or two names."""
    names = {_name(part) for part in (change.before, change.after) if part is not None}
    if len(names) != 1:
        raise BrokenRecord("a change of the journal that is about no one part of the record")
    return names.pop()


def _name(part: Part) -> Name:
    match part:
        case Coverage():
            return "coverage", part.room, part.component
        case Entry():
            return "entry", part.id
        case Unused():
            return "unused", part.id


def _told(name: Name) -> str:
    kind, *rest = name
    words = {"entry": "entry", "unused": "sentence", "coverage": "what is said of"}
    return f"{words[kind]} {' '.join(rest)}"


def _changes(lines: Iterable[JournalLine]) -> Iterable[Change]:
    return (change for line in lines for change in line.changes)


Order = Callable[[Kind], tuple[object, ...]]
"""Where a part belongs in the record. No two parts share a place, so nothing depends on what came first."""


def _with(findings: Findings, values: Mapping[Name, Part | None], anew: Collection[Name]) -> Findings:
    """The record with these values; None takes a part out. Those `anew` are placed even where they stand already."""
    places = findings.numbers()

    def as_said(entry: Entry) -> tuple[object, ...]:
        first = entry.evidence[0]
        return places.get(first.recording, len(places)), first.start, entry.split_from is not None, entry.id

    def as_numbered(unused: Unused) -> tuple[object, ...]:
        return len(unused.id), unused.id

    known = {_name(row) for row in findings.coverage}
    if missing := [name for name in values if name[0] == "coverage" and name not in known]:
        raise BrokenRecord(f"the journal speaks of {' '.join(missing[0][1:])}, of which the record's coverage does not")
    return findings.model_copy(
        update={
            "entries": _arranged(findings.entries, values, anew, as_said, Entry),
            "unused": _arranged(findings.unused, values, anew, as_numbered, Unused),
            "coverage": tuple(values.get(_name(row), row) for row in findings.coverage),
        }
    )


def _arranged(
    parts: Sequence[Kind],
    values: Mapping[Name, Part | None],
    anew: Collection[Name],
    order: Order[Kind],
    kind: type[Kind],
) -> tuple[Kind, ...]:
    """The parts with their values, in their places, and those that were not among them where they belong."""
    kept: list[Kind] = []
    there: set[Name] = set()
    for part in parts:
        name = _name(part)
        value = values.get(name, part)
        if name not in anew and isinstance(value, kind):
            kept.append(value)
            there.add(name)
    coming = [value for name, value in values.items() if name not in there and isinstance(value, kind)]
    places = [order(part) for part in kept] if coming else []
    for part in sorted(coming, key=order):
        place = order(part)
        at = next((at for at, other in enumerate(places) if other > place), len(places))
        kept.insert(at, part)
        places.insert(at, place)
    return tuple(kept)
