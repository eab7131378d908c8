"""An entry in a person's words: `nail hole ×2, there before`, `works`, `advice: "keep this fan on"`.

Every page that shows an entry words it here, so that the same fact reads the same everywhere.
"""

from __future__ import annotations

from collections.abc import Iterable

from narrate2report.records.findings import Entry
from narrate2report.records.moments import clock

CHECKED = {"works": "works", "fails": "does not work", "not_tested": "not tested"}
HANDED = {"given": "given to the resident", "returned": "returned by the resident"}
LOOKED = {
    "not_looked_at": "not looked at",
    "looked_at_since": "looked at since",
    "left_not_noted": "left as not noted",
}
REASONS = {
    "talk": "talk",
    "moving": "moving on",
    "checking_for": "only being looked for",
    "hypothetical": "only imagined or warned of",
    "policy": "a rule, nothing seen",
    "unclear": "unclear",
}
WALKS = {"move_in": "move-in", "move_out": "move-out", "periodic": "periodic visit"}

_INITIALS = frozenset({"ac", "co", "gfci", "tv"})
_BARE_UNIT = 5
"""A unit of so few letters and digits is a number (`2b`, `1204c`) and no name."""


def plain(identifier: str) -> str:
    """`window_sill` as `window sill`, `co_alarm` as `CO alarm`."""
    return " ".join(word.upper() if word in _INITIALS else word for word in identifier.split("_"))


def room_name(room: str) -> str:
    """`bathroom.hall` as `Hall bathroom`, `bedroom.2` as `Bedroom 2`."""
    base, _, suffix = room.partition(".")
    name = f"{plain(suffix)} {plain(base)}" if suffix and not suffix[0].isdigit() else f"{plain(base)} {suffix}".strip()
    return name[:1].upper() + name[1:]


def unit_name(unit: str) -> str:
    """`2b` as `unit 2B`; what holds words of its own, such as `flat 3`, stays as it is."""
    return f"unit {unit.upper()}" if len(unit) <= _BARE_UNIT and " " not in unit else unit


def said(entry: Entry) -> str:
    """What the entry states of its component, with the speaker's details after it."""
    return ", ".join([_statement(entry), *_details(entry)])


def named(entry: Entry) -> str:
    """`Kitchen, countertop: chip`: an entry where it stands among those of other rooms."""
    return f"{room_name(entry.room)}, {plain(entry.component)}: {said(entry)}"


def moment(recording: str, start: float, recordings: int) -> str:
    """`1:15`, or `part2.mp4 1:15` where the walk has several recordings."""
    return clock(start) if recordings < 2 else f"{recording} {clock(start)}"


def counted(number: int, noun: str, plural: str | None = None) -> str:
    """`1 entry`, `3 entries`."""
    return f"{number} {noun if number == 1 else plural or noun + 's'}"


def listed(names: Iterable[str]) -> str:
    """`sink, oven, fan`: ids in plain words, in the order given."""
    return ", ".join(plain(name) for name in names)


def _statement(entry: Entry) -> str:
    times = f" ×{entry.quantity}" if entry.quantity not in (None, 1) else ""
    match entry.kind:
        case "condition":
            return _condition(entry) + times
        case "check":
            return CHECKED[entry.outcome or "not_tested"] + times
        case "handover":
            count = f"{entry.quantity} " if entry.quantity is not None else ""
            return count + HANDED[entry.direction or "given"]
        case "follow_up":
            by = f" (by the {entry.party})" if entry.party else ""
            return f"to do: {plain(entry.action or 'inspect')}{by}{times}"
        case "description":
            return f"{entry.attribute.name}: {entry.attribute.value}" if entry.attribute else "described"
        case "advice":
            return f"advice: “{entry.evidence[0].quote}”"


def _condition(entry: Entry) -> str:
    name = plain(entry.condition or "")
    if entry.assertion == "absent":
        return f"no {name}"
    if entry.assertion == "possible":
        return f"{name}, not certain"
    return name


def _details(entry: Entry) -> list[str]:
    size = entry.size.text if entry.size else None
    if size and entry.where and size in entry.where:
        # The place as it was spoken holds the size already: `along the front about half an inch`.
        size = None
    where = None if _only_names(entry.where, entry.component) else entry.where
    details = [text for text in (entry.severity, size, where) if text]
    if entry.pre_existing:
        details.append("there before")
    return details


def _only_names(where: str | None, component: str) -> bool:
    """`on the ceiling` said of the ceiling tells nothing more."""
    words = (where or "").lower().split()
    return words[:1] in (["on"], ["in"]) and " ".join(words[1:]) == f"the {plain(component).lower()}"
