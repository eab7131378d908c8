"""Safety devices with what the record knows of each: what was not spoken of first, then the worst outcome.

A device that was named but not operated is `not tested`, however well it was spoken of. No row is a verdict by a code.
"""

from __future__ import annotations

from collections.abc import Iterator

from narrate2report.publish.report_entries import Telling, mark
from narrate2report.publish.report_links import moments
from narrate2report.publish.report_values import Mark, Safety
from narrate2report.records.findings import Entry
from narrate2report.records.silence import ALARMS, TELLS, rooms_silent_about
from narrate2report.wording import capital

DEVICES = (
    *ALARMS,
    "gfci_outlet",
    "fire_extinguisher",
    "sprinkler_head",
    "emergency_exit",
    "window_guard",
    "anti_tip_bracket",
)
_GAS = "gas_smell"
_ORDER: tuple[Mark, ...] = ("silent", "fails", "attention", "possible", "untested", "sound", "works")


def told_safety(telling: Telling) -> tuple[Safety, ...]:
    """A row a device and room; the rooms in which one was expected and not spoken of share a row."""
    rows = [*_silent(telling), *_devices(telling), *_gas(telling)]
    return tuple(sorted(rows, key=lambda row: _ORDER.index(row.mark)))


def _silent(telling: Telling) -> Iterator[Safety]:
    entries = telling.entries()
    for device in DEVICES:
        rooms = rooms_silent_about(device, entries, telling.findings.coverage)
        if rooms is not None:
            yield _silent_row(telling, telling.part(device), ", ".join(map(telling.language.room, rooms)))


def _devices(telling: Telling) -> Iterator[Safety]:
    grouped: dict[tuple[str, str], list[Entry]] = {}
    for entry in telling.entries():
        if entry.component in DEVICES and entry.kind in TELLS:
            grouped.setdefault((entry.component, entry.room), []).append(entry)
    for (device, room), entries in grouped.items():
        checks = [entry for entry in entries if entry.kind == "check"]
        deciding = min(checks or entries, key=_rank)
        worst = min(entries, key=_rank)
        if mark(worst) in {"attention", "possible"} and mark(deciding) != "fails":
            deciding = worst
        yield _outcome(telling, telling.part(device), room, deciding)


def _rank(entry: Entry) -> int:
    """The worst first; that one is there, and no more, counts as little as praise."""
    shown = mark(entry)
    return _ORDER.index("sound" if shown == "fact" else shown)


def _outcome(telling: Telling, name: str, room: str, entry: Entry) -> Safety:
    shown = mark(entry)
    words, says = telling.language, telling.says(entry)[0]
    state = words.marks[shown]
    if shown in {"sound", "fact"}:
        shown, state = "untested", words.tell("praised", state=words.marks["untested"], words=says)
    elif entry.kind == "condition":
        state = f"{state}: {says}"
    return Safety(
        name,
        words.room(room),
        shown,
        state,
        moments(entry.evidence, telling.findings, telling.links),
        entry.is_open,
    )


def _gas(telling: Telling) -> Iterator[Safety]:
    smells = [entry for entry in telling.entries() if entry.condition == _GAS]
    name = capital(telling.language.condition(_GAS))
    if not smells:
        yield _silent_row(telling, name)
    for entry in smells:
        shown = mark(entry)
        told = moments(entry.evidence, telling.findings, telling.links)
        state = f"{telling.language.marks[shown]}: {telling.says(entry)[0]}"
        yield Safety(name, telling.language.room(entry.room), shown, state, told, entry.is_open)


def _silent_row(telling: Telling, name: str, rooms: str = "") -> Safety:
    words = telling.language
    return Safety(name, rooms or words.told["anywhere"], "silent", words.marks["silent"])
