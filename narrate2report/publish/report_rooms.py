"""Room by room in walk order: what was found of each component, what is in order, what was not spoken of."""

from __future__ import annotations

from dataclasses import replace

from narrate2report.publish.report_entries import Telling, is_brief
from narrate2report.publish.report_safety import DEVICES
from narrate2report.publish.report_values import Brief, Part, Room, Silent
from narrate2report.records.findings import Coverage, Entry

IN_ROOMS = frozenset({"condition", "check", "description"})
"""The kinds told in the rooms; things handed over, advice and work have sections of their own."""


def told_rooms(telling: Telling) -> tuple[Room, ...]:
    """Every room with something said or expected, its findings numbered through the report."""
    by_name = {room: [one for one in entries if one.kind in IN_ROOMS] for room, entries in telling.rooms()}
    silent = {row.room for row in telling.findings.coverage if row.status == "not_noted"}
    walked = [visit.room for visit in telling.findings.rooms]
    names = [room for room in dict.fromkeys([*walked, *by_name, *silent]) if by_name.get(room) or room in silent]
    rooms = [_room(telling, room, by_name.get(room, [])) for room in names]
    return _numbered(rooms)


def silent_of(telling: Telling, room: str) -> tuple[Silent, ...]:
    """What was not spoken of in a room, gathered by what a person said of that."""
    found: dict[tuple[str, str], list[str]] = {}
    for row in telling.findings.coverage:
        if row.room == room and row.status == "not_noted":
            found.setdefault(_looked(row, telling), []).append(telling.language.component(row.component))
    return tuple(Silent(looked, tuple(names), note) for (looked, note), names in found.items())


def _looked(row: Coverage, telling: Telling) -> tuple[str, str]:
    """What a person said of a silent component, and their remark where this reader may see it."""
    if row.acknowledged is None:
        return telling.language.looked["nobody"], ""
    return telling.language.looked[
        row.acknowledged.looked
    ], "" if telling.reader == "resident" else row.acknowledged.note or ""


def _room(telling: Telling, room: str, entries: list[Entry]) -> Room:
    grouped: dict[str, list[Entry]] = {}
    for entry in entries:
        grouped.setdefault(entry.component, []).append(entry)
    full = {name: group for name, group in grouped.items() if not _is_one_line(group)}
    return Room(
        name=telling.language.room(room),
        parts=tuple(_part(telling, name, group) for name, group in full.items()),
        sound=tuple(_brief(telling, name, group) for name, group in grouped.items() if name not in full),
        silent=silent_of(telling, room),
    )


def _brief(telling: Telling, component: str, entries: list[Entry]) -> Brief:
    """A line; a safety device that was praised and not operated says so, lest praise is taken for a test."""
    told = telling.brief(entries)
    if component in DEVICES and all(one.kind != "check" for one in entries):
        return replace(told, says=f"{told.says}, {telling.language.marks['untested'].lower()}")
    return told


def _is_one_line(entries: list[Entry]) -> bool:
    return all(is_brief(one) or (one.kind == "description" and not one.stills and not one.note) for one in entries)


def _part(telling: Telling, component: str, entries: list[Entry]) -> Part:
    sound = [one for one in entries if is_brief(one)]
    what = [one for one in entries if one.kind == "description" and one.attribute and not one.stills and not one.note]
    short = {one.id for one in (*sound, *what)}
    full = [one for one in entries if one.id not in short]
    return Part(
        name=telling.part(component),
        what=tuple(_attribute(telling, one) for one in what),
        findings=tuple(telling.finding(one) for one in full),
        sound=(telling.brief(sound),) if sound else (),
    )


def _attribute(telling: Telling, entry: Entry) -> str:
    says, spoken = telling.says(entry)
    return f"{says}: “{spoken}”" if spoken else says


def _numbered(rooms: list[Room]) -> tuple[Room, ...]:
    number = 0
    told = []
    for room in rooms:
        parts = []
        for part in room.parts:
            findings = []
            for one in part.findings:
                number += 1
                findings.append(replace(one, number=number))
            parts.append(replace(part, findings=tuple(findings)))
        told.append(replace(room, parts=tuple(parts)))
    return tuple(told)
