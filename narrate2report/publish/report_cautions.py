"""What a reader is warned of, each caution with where it comes from. Local codes and licensed people decide.

Marks of the sources: P, the rule or an official text was seen; S, a secondary page that states it; M, from
memory and not verified. No caution is a verdict on this unit.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from narrate2report.publish.summary import is_adverse
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
_BROKEN_UP = frozenset({"broken", "crack", "hole", "peeling", "delamination", "worn", "water_damage", "debris"})


@dataclass(frozen=True)
class Caution:
    """Words to print, their source, and which entries call for them (none: they are always printed)."""

    text: str
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
    return entry.component in _ALARMS and is_adverse(entry) and (entry.kind == "check" or entry.condition in _SILENCED)


def _co_alarm(entry: Entry) -> bool:
    return entry.component == "co_alarm"


def _mold(entry: Entry) -> bool:
    return entry.condition in {"mold", "damp", "leak", "water_damage"} and is_adverse(entry)


def _paint(entry: Entry) -> bool:
    return is_adverse(entry) and (
        entry.condition == "peeling" or (entry.component in _PAINTED and entry.condition in {"chip", "crack"})
    )


def _asbestos(entry: Entry) -> bool:
    return is_adverse(entry) and entry.component in _OLD_MATERIAL and entry.condition in _BROKEN_UP


def _electric(entry: Entry) -> bool:
    return is_adverse(entry) and (entry.component in _ELECTRIC or entry.condition == "exposed_wiring")


GAS = Caution(
    "If you smell gas: touch no switch, light nothing, use no phone inside. Leave at once, take everyone with you, and "
    "call the gas utility or the emergency number from outside. Do not go back in until they say so.",
    "project rule 10.2, drawn from public safety pages",
    _speaks_of_gas,
    first_page=True,
)
ALARM = Caution(
    "An alarm is said to be missing, out of date or not to work. Have it replaced before anyone sleeps here.",
    "public fire-service pages restating NFPA 72 (S); federal inspection standards count it as life-threatening (S)",
    _alarm_wanting,
    first_page=True,
)
CAUTIONS: tuple[Caution, ...] = (
    Caution(
        "This report tells what was filmed and said on one date. What is not named is not recorded, which does not "
        "mean that it was in good order; defects may be hidden.",
        "section 11: cautions the report should show",
    ),
    Caution(
        "It is not a home inspection under any licensing law, and no finding on building, electrical, fire or housing "
        "codes. Nothing was tested for lead, asbestos, mold, radon, pests or gas.",
        "section 11; e.g. South Dakota administrative rules ch. 20:74:06 define what a home inspection is (S)",
    ),
    Caution(
        "It is not legal advice. Deposit and notice rules differ from place to place and change; ask locally or ask a "
        "lawyer.",
        "section 11",
    ),
    Caution(
        "Alarms: an alarm that sounded in the recording worked at that moment only. Press the test button of every "
        "smoke and carbon monoxide alarm once a month. Smoke alarms are replaced ten years after the date of "
        "manufacture on their label, or earlier where the label says so.",
        "public fire-service pages restating NFPA 72 (S)",
    ),
    Caution(
        "Carbon monoxide: the test button checks the sounder, not the gas sensor; replace the alarm by the date on it. "
        "If it sounds, everyone goes outside and calls the fire service.",
        "pages restating UL 2034 (S)",
        _co_alarm,
    ),
    GAS,
    ALARM,
    Caution(
        "Mold and damp: find and stop the water, and dry wet materials within 48 hours. What is called mold here is a "
        "discoloration that was seen; no sample was taken. Large or returning areas are for trained people.",
        "EPA guide on mold in commercial buildings, as restated (S)",
        _mold,
    ),
    Caution(
        "Lead: paint in housing built before 1978 may hold lead. Do not sand, scrape or dry-sweep damaged paint; paid "
        "work on it needs certified people. This report cannot tell whether there is lead.",
        "40 CFR part 745 subparts E and F (P opening of F, S for E)",
        _paint,
    ),
    Caution(
        "Asbestos: older flooring, ceilings, siding and pipe covering may hold it, and it cannot be told by eye. Leave "
        "damaged material alone, do not sweep or drill it; sampling and repair are for accredited people.",
        "reprinted advice of the EPA (S)",
        _asbestos,
    ),
    Caution(
        "Electricity: do not open a panel or a cover plate or touch bare wire; keep away and call an electrician.",
        "project rule 10.1",
        _electric,
    ),
)


def cautions_for(entries: Sequence[Entry]) -> tuple[str, ...]:
    """The general cautions and those that an entry calls for, in a fixed order."""
    return tuple(one.text for one in CAUTIONS if one.calls is None or any(map(one.calls, entries)))


def urgent_for(entries: Sequence[Entry]) -> tuple[str, ...]:
    """The cautions that stand on the first page, because an entry calls for them."""
    return tuple(one.text for one in CAUTIONS if one.first_page and one.calls and any(map(one.calls, entries)))
