"""A findings file as something to look at: rooms in walk order, what was said of what, state, time."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from rich.console import Group, RenderableType
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from narrate2report.records.findings import Entry, Findings
from narrate2report.records.moments import clock
from narrate2report.records.silence import rooms_never_walked, silent_alarms
from narrate2report.wording import (
    REASONS,
    WALKS,
    called_out,
    counted,
    listed,
    moment,
    plain,
    room_name,
    said,
    unit_name,
)

_TIME_WIDTH = 24
"""Columns that times and file names may claim; longer ones fold."""
_COMPONENT_WIDTH = 22


def summary(findings: Findings) -> RenderableType:
    """The whole record in walk order, then what was left out and why."""
    return Group(_heading(findings), _entries(findings), Text(), *_remainder(findings))


def by_room(findings: Findings) -> list[tuple[str, list[Entry]]]:
    """Rooms in the order walked, each with its entries in the order said.

    A room without entries is left out; rooms that nobody walked into, and the unit as a whole, stand last.
    """
    places = {recording.file: index for index, recording in enumerate(findings.recordings)}

    def said_at(entry: Entry) -> tuple[int, float]:
        first = entry.evidence[0]
        return places.get(first.recording, len(places)), first.start

    grouped: dict[str, list[Entry]] = {}
    for entry in sorted(findings.entries, key=said_at):
        grouped.setdefault(entry.room, []).append(entry)
    walked = list(dict.fromkeys(visit.room for visit in findings.rooms if visit.room in grouped))
    order = walked + [room for room in grouped if room not in walked]
    return [(room, grouped[room]) for room in order]


def first_to_look_at(findings: Findings) -> Entry | None:
    """The first flaw of the walk, else the first entry, else none."""
    entries = [entry for _, entries in by_room(findings) for entry in entries]
    return next((entry for entry in entries if entry.is_adverse), entries[0] if entries else None)


def numbers(findings: Findings) -> dict[str, object]:
    """The same summary for machines: counts and names, all of them plain JSON."""
    return {
        "entries": len(findings.entries),
        "adverse": sum(entry.is_adverse for entry in findings.entries),
        "kinds": _counts(entry.kind for entry in findings.entries),
        "states": _counts(entry.state for entry in findings.entries),
        "rooms": [room for room, _ in by_room(findings)],
        "unused": _counts(sentence.reason for sentence in findings.unused),
        "alarms_not_spoken_of": alarms_in_numbers(findings),
        "never_walked": list(rooms_never_walked(findings)),
        "not_noted": sum(row.status == "not_noted" for row in findings.coverage),
        "clashes": list(findings.walkthrough.clashes),
        "warnings": list(findings.transcript.warnings),
    }


def alarms_in_numbers(findings: Findings) -> list[dict[str, object]]:
    """The alarms that nobody spoke of, for machines; without rooms, nobody did anywhere."""
    return [{"component": alarm, "rooms": list(rooms)} for alarm, rooms in silent_alarms(findings).items()]


def _counts(names: Iterable[str]) -> dict[str, int]:
    return dict(sorted(Counter(names).items()))


def _heading(findings: Findings) -> RenderableType:
    walk = findings.walkthrough
    facts = [WALKS.get(source.value, source.value) for source in walk.kind[:1]]
    facts += [unit_name(source.value) for source in walk.unit[:1]]
    facts += [source.value for sources in (walk.date, walk.inspector) for source in sources[:1]]
    lines = [Text("Walkthrough: " + (" · ".join(facts) or "unit, date and inspector not said"), style="bold")]
    for recording in findings.recordings:
        length = f", {clock(recording.duration_s)}" if recording.duration_s is not None else ""
        lines.append(Text(f"{recording.file}{length}, SHA-256 {recording.sha256[:12]}…", style="dim"))
    return Padding(Group(*lines), (0, 0, 1, 0))


def _entries(findings: Findings) -> RenderableType:
    """A table a room, with the same columns in each."""
    if not findings.entries:
        return Text("No entry: nothing of the talk was read as being about the unit.")
    times = {entry.id: _times(entry, findings) for entry in findings.entries}
    widest_time = max(len(line) for text in times.values() for line in text.split("\n"))
    widest_name = min(max(len(plain(entry.component)) for entry in findings.entries), _COMPONENT_WIDTH)
    parts: list[RenderableType] = []
    for room, entries in by_room(findings):
        table = Table(box=None, show_header=False, padding=(0, 1), expand=True)
        table.add_column(justify="right", min_width=min(widest_time, _TIME_WIDTH), overflow="fold")
        table.add_column(width=widest_name)
        table.add_column(ratio=1)
        table.add_column(style="dim", no_wrap=True)
        table.add_column(style="dim", no_wrap=True)
        for entry in entries:
            words = Text(said(entry), style="bold" if entry.is_adverse else "")
            table.add_row(Text(times[entry.id]), plain(entry.component), words, entry.state, entry.id)
        parts += [Text(room_name(room), style="bold underline"), table, Text()]
    return Group(*parts[:-1])


def _times(entry: Entry, findings: Findings) -> str:
    """The moments of an entry, one below the other, so that a repetition makes the column no wider."""
    return "\n".join(moment(piece.recording, piece.start, len(findings.recordings)) for piece in entry.evidence)


def _remainder(findings: Findings) -> list[Text]:
    flaws = sum(entry.is_adverse for entry in findings.entries)
    entries = counted(len(findings.entries), "entry", "entries")
    lines = [
        *(Text(line, style="bold") for line in called_out(findings)),
        Text(f"{entries}, {flaws} of them about something wrong."),
    ]
    if findings.entries and all(entry.state == "proposed" for entry in findings.entries):
        lines.append(Text("Each is a proposal: no person has decided on it yet."))
    if findings.unused:
        reasons = _counts(sentence.reason for sentence in findings.unused)
        told = ", ".join(f"{reasons[name]} {words}" for name, words in REASONS.items() if name in reasons)
        lines.append(Text(f"{counted(len(findings.unused), 'sentence')} gave no entry: {told}."))
    if unclear := [sentence for sentence in findings.unused if sentence.reason == "unclear"]:
        places = ", ".join(moment(one.recording, one.start, len(findings.recordings)) for one in unclear)
        lines.append(Text(f"Unclear, for you to check: {places}.", style="bold"))
    missed = rooms_never_walked(findings)  # told of above as a whole
    for room in dict.fromkeys(row.room for row in findings.coverage if row.room not in missed):
        silent = [row.component for row in findings.coverage if (row.room, row.status) == (room, "not_noted")]
        if silent:
            lines.append(Text(f"Not spoken of in {room_name(room)}: {listed(silent)}.", style="dim"))
    lines += [Text(f"Sources disagree on {clash}.", style="bold") for clash in findings.walkthrough.clashes]
    lines += [Text(f"Mind: {warning}", style="bold") for warning in findings.transcript.warnings]
    return lines
