"""Safety devices with what the record knows of each: what was not spoken of first, then the worst outcome.

A device that was named but not operated is `not tested`, however well it was spoken of. No row is a verdict by a code.
"""

from __future__ import annotations

from collections.abc import Iterator

from narrate2report.publish.report_entries import Telling, capital, mark, words_for
from narrate2report.publish.report_links import moments
from narrate2report.publish.report_values import Mark, Safety
from narrate2report.publish.report_words import MARKS
from narrate2report.records.findings import Entry
from narrate2report.wording import plain, room_name

EXPECTED = ("smoke_alarm", "co_alarm")
"""Looked for in every dwelling: where a record is silent about them, the report says so."""
DEVICES = (
    *EXPECTED,
    "gfci_outlet",
    "fire_extinguisher",
    "sprinkler_head",
    "emergency_exit",
    "window_guard",
    "anti_tip_bracket",
)
_GAS = "gas_smell"
_ORDER: tuple[Mark, ...] = ("silent", "fails", "attention", "possible", "untested", "sound", "works")
ANYWHERE = "Anywhere"


def told_safety(telling: Telling) -> tuple[Safety, ...]:
    """A row a device and room; the rooms in which one was expected and not spoken of share a row."""
    rows = [*_silent(telling), *_devices(telling), *_gas(telling)]
    return tuple(sorted(rows, key=lambda row: _ORDER.index(row.mark)))


def _silent(telling: Telling) -> Iterator[Safety]:
    for device in DEVICES:
        spoken = {entry.room for entry in telling.entries() if entry.component == device}
        rooms = [
            room_name(row.room)
            for row in telling.findings.coverage
            if (row.component, row.status) == (device, "not_noted") and row.room not in spoken
        ]
        if rooms or (device in EXPECTED and not spoken):
            yield _row(capital(plain(device)), ", ".join(rooms) or ANYWHERE, "silent")


def _devices(telling: Telling) -> Iterator[Safety]:
    grouped: dict[tuple[str, str], list[Entry]] = {}
    for entry in telling.entries():
        if entry.component in DEVICES and entry.kind in {"condition", "check"}:
            grouped.setdefault((entry.component, entry.room), []).append(entry)
    for (device, room), entries in grouped.items():
        checks = [entry for entry in entries if entry.kind == "check"]
        deciding = min(checks or entries, key=lambda one: _ORDER.index(mark(one)))
        worst = min(entries, key=lambda one: _ORDER.index(mark(one)))
        if mark(worst) in {"attention", "possible"} and mark(deciding) != "fails":
            deciding = worst
        yield _outcome(telling, capital(plain(device)), room, deciding)


def _outcome(telling: Telling, name: str, room: str, entry: Entry) -> Safety:
    shown = mark(entry)
    state = MARKS[shown]
    if shown == "sound":
        shown, state = "untested", f"{MARKS['untested']}; said: {words_for(entry)}"
    elif entry.kind == "condition":
        state = f"{state}: {words_for(entry)}"
    return Safety(
        name,
        room_name(room),
        shown,
        state,
        moments(entry.evidence, telling.findings, telling.links),
        entry.is_open,
    )


def _gas(telling: Telling) -> Iterator[Safety]:
    smells = [entry for entry in telling.entries() if entry.condition == _GAS]
    if not smells:
        yield _row(capital(plain(_GAS)), ANYWHERE, "silent")
    for entry in smells:
        shown = mark(entry)
        told = moments(entry.evidence, telling.findings, telling.links)
        state = f"{MARKS[shown]}: {words_for(entry)}"
        yield Safety(capital(plain(_GAS)), room_name(entry.room), shown, state, told, entry.is_open)


def _row(name: str, room: str, shown: Mark) -> Safety:
    return Safety(name, room, shown, MARKS[shown])
