"""A comparison as something to look at: what became of each flaw, by room, with both quotes and both links."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import get_args

from rich.console import Group, RenderableType
from rich.padding import Padding
from rich.text import Text

from narrate2report.records.comparison import Became, Compared, Comparison, FlawChange, SameRoom
from narrate2report.records.findings import Entry, Findings
from narrate2report.records.moments import clock
from narrate2report.wording import BECAME, WALKS, counted, plain, room_name, said, unit_name

_ORDER: tuple[Became, ...] = ("new", "worse", "no_baseline", "unchanged", "better", "gone", "not_mentioned")
"""How outcomes are counted up: what may come to a charge first."""

_STYLES: Mapping[Became, str] = {"new": "bold red", "worse": "bold red", "no_baseline": "bold yellow"}
_NONE = "none"


@dataclass(frozen=True)
class Compare:
    """A comparison with the two records that it is of, and what must be minded."""

    comparison: Comparison
    before: Findings
    after: Findings
    marks: tuple[str, ...]

    @cached_property
    def entries(self) -> tuple[dict[str, Entry], dict[str, Entry]]:
        """The entries of the earlier and of the later record by id."""
        return {one.id: one for one in self.before.entries}, {one.id: one for one in self.after.entries}

    def leading(self, change: FlawChange) -> Entry:
        """The entry that a change is listed under: the later one, where there is one."""
        earlier, later = self.entries
        return later[change.after[0]] if change.after else earlier[change.before[0]]


def numbers(told: Compare) -> dict[str, object]:
    """The comparison for machines: counts and names, all of them plain JSON."""
    counts = Counter(change.outcome for change in told.comparison.changes)
    return {
        "changes": len(told.comparison.changes),
        "outcomes": {outcome: counts[outcome] for outcome in get_args(Became)},
        "sealed": {"before": told.comparison.before.seal is not None, "after": told.comparison.after.seal is not None},
        "addenda": {
            "before": [one.model_dump() for one in told.comparison.before.addenda],
            "after": [one.model_dump() for one in told.comparison.after.addenda],
        },
        "rooms": [room.model_dump() for room in told.comparison.rooms],
        "unclear_rooms": [room.model_dump() for room in told.comparison.unclear_rooms],
        "marks": list(told.marks),
    }


def changes_page(told: Compare) -> RenderableType:
    """The whole comparison: what must be minded, counts, rooms, then every change by room, then what is asked."""
    comparison = told.comparison
    return Group(
        Text(f"Earlier: {_walk(comparison.before)}", style="bold"),
        Text(f"Later:   {_walk(comparison.after)}", style="bold"),
        *(Text(f"MIND: {mark}.", style="bold red") for mark in told.marks),
        Text(_counts(comparison)),
        *(Text(_renamed(room), style="dim") for room in comparison.rooms),
        Text(),
        *_rooms(told),
        *_asked(comparison),
    )


def _walk(walk: Compared) -> str:
    facts = [WALKS.get(walk.kind, walk.kind)] if walk.kind else []
    facts += [unit_name(walk.unit)] if walk.unit else []
    facts += [walk.date] if walk.date else []
    sealed = f"seal {walk.seal[:12]}…" if walk.seal else "NOT SEALED"
    added = [f"with {one.file}, seal {one.seal[:12]}…" for one in walk.addenda]
    return " · ".join([*facts, walk.file, sealed, *added])


def _counts(comparison: Comparison) -> str:
    if not comparison.changes:
        return "Neither record tells of a flaw."
    counts = Counter(change.outcome for change in comparison.changes)
    listed = ", ".join(f"{counts[outcome]} {BECAME[outcome]}" for outcome in _ORDER if counts[outcome])
    return f"{counted(len(comparison.changes), 'flaw')}: {listed}."


def _renamed(room: SameRoom) -> str:
    then, now = room_name(room.before), room_name(room.after)
    return f"{then} ({room.before}) then is {now} ({room.after}) now: {room.because}."


def _rooms(told: Compare) -> Iterator[RenderableType]:
    grouped: dict[str, list[FlawChange]] = {}
    renamed = {room.before: room.after for room in told.comparison.rooms}
    for change in told.comparison.changes:
        room = told.leading(change).room
        grouped.setdefault(room if change.after else renamed.get(room, room), []).append(change)
    order = list(dict.fromkeys(visit.room for visit in (*told.after.rooms, *told.before.rooms)))
    for room in sorted(grouped, key=lambda name: (order.index(name) if name in order else len(order), name)):
        yield Text(room_name(room), style="bold underline")
        for change in grouped[room]:
            yield Padding(_change(change, told), (0, 0, 1, 2))


def _change(change: FlawChange, told: Compare) -> RenderableType:
    earlier, later = told.entries
    head = Text(f"{plain(told.leading(change).component)}: ")
    head.append(BECAME[change.outcome], style=_STYLES.get(change.outcome, "bold"))
    head.append(f"  {change.id}", style="dim")
    lines = [head]
    for name, ids, entries in (("then", change.before, earlier), ("now ", change.after, later)):
        lines += [_told(name, entries[one]) for one in ids] or [Text(f"  {name}  {_NONE}", style="dim")]
    lines += [Text(f"  why   {' '.join(change.because)}", style="dim")]
    return Group(*lines)


def _told(name: str, entry: Entry) -> Text:
    first = entry.evidence[0]
    line = Text(f"  {name}  {said(entry)}: “{first.quote}” ")
    line.append(f"{clock(first.start)}  {first.link}", style="dim")
    return line


def _asked(comparison: Comparison) -> Iterator[RenderableType]:
    """Rooms of which a person is asked, with lines that can be copied into a file for --rooms."""
    if not comparison.unclear_rooms:
        return
    yield Text("Which room is it? These were left apart. Write the right lines into a file and give it with --rooms:")
    for room in comparison.unclear_rooms:
        for candidate in room.candidates:
            yield Text(f"  {candidate}: {room.after}")
