"""What a reader is warned of: which entries call for a caution, and where it comes from. Its words are the language's.

Marks of the sources: P, the rule or an official text was seen; S, a secondary page that states it; M, from
memory and not verified. No caution is a verdict on this unit.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from narrate2report.publish.language import Language
from narrate2report.records.findings import Entry

Calls = Callable[[Entry], bool]

_SMELL = r"\b(?:smell\w*|smelt|odou?rs?|leak\w*)\b"
_NEAR = r"\W+(?:\w+\W+){0,2}"
_GAS = re.compile(rf"{_SMELL}{_NEAR}gas\b|\bgas{_NEAR}{_SMELL}", re.IGNORECASE)
_ALARMS = frozenset({"smoke_alarm", "co_alarm"})
_SILENCED = frozenset({"missing", "not_working", "dead_battery", "expired", "broken", "blocked"})
_PAINTED = frozenset(
    {"paint", "wall", "ceiling", "trim", "baseboard", "door", "door_frame", "window", "window_sill", "stair", "railing"}
)
_ELECTRIC = frozenset({"outlet", "gfci_outlet", "switch", "light_fixture", "cover_plate", "breaker_panel"})
_OLD_MATERIAL = frozenset({"floor", "ceiling", "tile", "siding", "pipe", "furnace", "roof"})
_HIGH = frozenset(
    {"roof", "gutter", "ceiling", "ceiling_fan", "light_bulb", "light_fixture", "smoke_alarm", "co_alarm"}
)
_WORKED_ON = frozenset({"advice", "follow_up"})
_UNDERFOOT = frozenset({"floor", "stair", "deck", "railing", "threshold"})
_GIVING_WAY = frozenset({"rot", "loose", "broken", "unsafe", "sagging", "missing", "water_damage"})
_WINDOW = frozenset({"window_screen", "window_guard"})
_BROKEN_UP = frozenset({"broken", "crack", "hole", "peeling", "delamination", "worn", "water_damage", "debris"})


@dataclass(frozen=True)
class Caution:
    """Which words to print, their source, and which entries call for them (none: they are always printed)."""

    key: str
    source: str
    calls: Calls | None = None
    first_page: bool = False


def _speaks_of_gas(entry: Entry) -> bool:
    """A smell found, or spoken of in the words that an entry rests on, such as the advice what to do then."""
    if entry.assertion == "absent":
        return False
    return entry.condition == "gas_smell" or any(_GAS.search(piece.quote) for piece in entry.evidence)


def _alarm_wanting(entry: Entry) -> bool:
    """A scuffed alarm still sounds; one that is missing or dead does not."""
    return entry.component in _ALARMS and entry.is_adverse and (entry.kind == "check" or entry.condition in _SILENCED)


def _of(*components: str) -> Calls:
    """Whatever is said of these components, save that they are not there."""
    return lambda entry: entry.component in components and entry.assertion != "absent"


def _high_up(entry: Entry) -> bool:
    """Work or care high up; a roof or gutter at fault calls for it too, since somebody will want to look."""
    if entry.kind in _WORKED_ON:
        return entry.component in _HIGH
    return entry.is_adverse and (
        entry.component in {"roof", "gutter"} or entry.condition in {"burned_out", "dead_battery"}
    )


def _window(entry: Entry) -> bool:
    return entry.component in _WINDOW and (entry.is_adverse or entry.kind in _WORKED_ON)


def _underfoot(entry: Entry) -> bool:
    return entry.is_adverse and entry.component in _UNDERFOOT and entry.condition in _GIVING_WAY


def _mold(entry: Entry) -> bool:
    return entry.condition in {"mold", "damp", "leak", "water_damage"} and entry.is_adverse


def _paint(entry: Entry) -> bool:
    return entry.is_adverse and (
        entry.condition == "peeling" or (entry.component in _PAINTED and entry.condition in {"chip", "crack"})
    )


def _asbestos(entry: Entry) -> bool:
    return entry.is_adverse and entry.component in _OLD_MATERIAL and entry.condition in _BROKEN_UP


def _electric(entry: Entry) -> bool:
    return entry.is_adverse and (entry.component in _ELECTRIC or entry.condition == "exposed_wiring")


CAUTIONS: tuple[Caution, ...] = (
    Caution("one_day", "section 11: cautions the report should show"),
    Caution(
        "no_inspection",
        "section 11; e.g. South Dakota administrative rules ch. 20:74:06 define what a home inspection is (S)",
    ),
    Caution("no_advice", "section 11"),
    Caution("alarms", "public fire-service pages restating NFPA 72 (S)"),
    Caution("co_alarm", "pages restating UL 2034 (S)", _of("co_alarm")),
    Caution("gas", "project rule 10.2, drawn from public safety pages", _speaks_of_gas, first_page=True),
    Caution(
        "alarm",
        "public fire-service pages restating NFPA 72 (S); life-threatening by federal inspection standards (S)",
        _alarm_wanting,
        first_page=True,
    ),
    Caution("mold", "EPA guide on mold in commercial buildings, as restated (S)", _mold),
    Caution("lead", "40 CFR part 745 subparts E and F (P opening of F, S for E)", _paint),
    Caution("asbestos", "reprinted advice of the EPA (S)", _asbestos),
    Caution("electric", "project rule 10.1", _electric),
    Caution("gfci", "section 3: a public electrical-safety body (S)", _of("gfci_outlet")),
    Caution("ladder", "project rule 10.6", _high_up),
    Caution("tip_over", "section 5: general how-to pages, UL 858 (S)", _of("range", "oven", "anti_tip_bracket")),
    Caution("window_guard", "section 6: ASTM F2090 as restated (S); screens and escape windows (M)", _window),
    Caution("water_heater", "section 7: project rule; scald (M)", _of("water_heater")),
    Caution("soft_floor", "project rules 10.6 and 10.9", _underfoot),
)


def cautions_for(entries: Sequence[Entry], words: Language) -> tuple[str, ...]:
    """The general cautions and those that an entry calls for, in a fixed order."""
    return tuple(words.cautions[one.key] for one in CAUTIONS if one.calls is None or any(map(one.calls, entries)))


def urgent_for(entries: Sequence[Entry], words: Language) -> tuple[str, ...]:
    """The cautions that stand on the first page, because an entry calls for them."""
    called = (one for one in CAUTIONS if one.first_page and one.calls and any(map(one.calls, entries)))
    return tuple(words.cautions[one.key] for one in called)
