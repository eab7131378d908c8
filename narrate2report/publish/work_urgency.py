"""How urgent a flaw or a work is: one rule, stated in `WorkWords.rule`, safety first.

What counts as a matter of safety is what the report puts on its first page, its list of safety devices, and the
hazards that public safety pages name (electricity, falls). No rank is a verdict by a code.
"""

from __future__ import annotations

from collections.abc import Iterable

from narrate2report.publish.entry_words import urgent_for
from narrate2report.publish.report_safety import DEVICES
from narrate2report.publish.work_words import Urgency
from narrate2report.records.findings import Entry

RANKS: tuple[Urgency, ...] = ("safety", "soon", "in_turn")

_HAZARDS = frozenset({"gas_smell", "exposed_wiring", "unsafe", "trip_hazard", "sharp_edge"})
_HOLDS_PEOPLE = frozenset({"railing", "stair", "deck", "grab_bar"})
_GIVES_WAY = frozenset({"loose", "missing", "broken", "rot", "sagging", "crack"})
_WATER = frozenset({"leak", "damp", "mold", "water_damage"})
_ELECTRIC = frozenset({"outlet", "switch", "light_fixture", "cover_plate", "breaker_panel"})
_HARMLESS = frozenset({"scuff", "scratch", "dust", "dirty", "mark", "discoloration", "paint_drip", "burned_out"})
"""A scuffed cover plate or a bulb that burned out calls no electrician."""


def urgency_of(entries: Iterable[Entry]) -> Urgency:
    """The rank of one part by all that was said to be wrong with it or to be done about it."""
    return min(map(_rank, entries), key=RANKS.index, default="in_turn")


def _rank(entry: Entry) -> Urgency:
    if urgent_for([entry]) or entry.condition in _HAZARDS or entry.component in DEVICES:
        return "safety"
    if entry.component in _HOLDS_PEOPLE and entry.condition in _GIVES_WAY:
        return "safety"
    if entry.condition in _WATER or entry.severity == "severe" or entry.condition == "not_working":
        return "soon"
    if entry.component in _ELECTRIC and entry.is_adverse and entry.condition not in _HARMLESS:
        return "soon"
    return "soon" if entry.kind == "check" else "in_turn"
