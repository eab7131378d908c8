"""A unit file, what is usual and the last record, put together as a prompt card."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from narrate2report.plan.again import Old, handed_of, last_walk, old_of, walked_of
from narrate2report.plan.known import ALARMS, Known
from narrate2report.records.card import Card, CardPart, CardRoom, Handed, WalkKind
from narrate2report.records.expected import WHOLE_UNIT, Expected, Rooms, expected_of, usual_in
from narrate2report.records.findings import Findings, Sourced
from narrate2report.records.header import clashes
from narrate2report.records.unit import Unit

COMMON_ROOMS = ("entry", "living_room", "kitchen", "bathroom", "bedroom")
"""What hardly any dwelling is without: the card's rooms where nothing else is known of a unit."""


@dataclass(frozen=True)
class Wish:
    """The walk that a card is for: of which unit, of which kind, and the last walk that it looks back to."""

    unit: Unit
    kind: WalkKind
    last: Findings | None = None
    last_reviewed: bool = False


def make_card(wish: Wish, known: Known) -> Card:
    """The card of a walk."""
    unit, last = wish.unit, wish.last
    planned = Expected(_rooms(unit, last, known))
    old = old_of(last) if last else ()
    return Card(
        unit=unit.unit,
        kind=wish.kind,
        rooms=_with_alarms(_with_old(planned, old, _calls(unit), known), known),
        address=unit.address,
        residents=unit.people.residents,
        handed=_handed(wish, known),
        last=last_walk(last, reviewed=wish.last_reviewed) if last else None,
        rooms_are_planned=bool(unit.rooms),
        clashes=_clashes(unit, last) if last else (),
    )


def _rooms(unit: Unit, last: Findings | None, known: Known) -> Rooms:
    """By the unit file; else those of the last walk; else those that it has components of; else common ones."""
    if unit.rooms:
        return expected_of(unit, known.usual).rooms
    things = [thing.room for thing in unit.components if thing.room != WHOLE_UNIT]
    names = (walked_of(last) if last else ()) or tuple(dict.fromkeys(things)) or COMMON_ROOMS
    return {room: usual_in(room, known.usual) for room in names if room != WHOLE_UNIT}


def _clashes(unit: Unit, last: Findings) -> tuple[str, ...]:
    """Whether the last record is of another unit: shown, for a person to say which is right."""
    return clashes({"unit": (Sourced(value=unit.unit, source="unit file"), *last.walkthrough.unit)})


def _calls(unit: Unit) -> Mapping[tuple[str, str], str]:
    """What the unit file calls its components."""
    return {(thing.room, thing.component): thing.called for thing in unit.components if thing.called}


def _with_old(
    planned: Expected, old: Sequence[Old], calls: Mapping[tuple[str, str], str], known: Known
) -> tuple[CardRoom, ...]:
    """The planned rooms with the old flaws in them; a flaw in no planned room brings its room along."""
    found: dict[str, dict[str, list[Old]]] = {
        room: {component: [] for component in components} for room, components in planned.rooms.items()
    }
    for one in old:
        room = planned.meant_by(one.room) or one.room
        again = one.again if room == one.room else replace(one.again, room=one.room)
        found.setdefault(room, {}).setdefault(one.component, []).append(replace(one, again=again))
    return tuple(_room(room, parts, calls, known) for room, parts in found.items())


def _room(room: str, parts: Mapping[str, list[Old]], calls: Mapping[tuple[str, str], str], known: Known) -> CardRoom:
    return CardRoom(
        room,
        tuple(
            CardPart(
                component,
                known.trial(component),
                calls.get((room, component)),
                tuple(one.again for one in old),
            )
            for component, old in parts.items()
            if old or component not in known.handed
        ),
    )


def _with_alarms(rooms: Iterable[CardRoom], known: Known) -> tuple[CardRoom, ...]:
    """Smoke and carbon monoxide alarms are on every card; the unit as a whole comes last."""
    every = {room.room: room for room in rooms}
    whole = every.pop(WHOLE_UNIT, CardRoom(WHOLE_UNIT, ()))
    asked = {part.component for room in (*every.values(), whole) for part in room.parts}
    alarms = tuple(CardPart(alarm, known.trial(alarm)) for alarm in ALARMS if alarm not in asked)
    whole = replace(whole, parts=(*alarms, *whole.parts))
    walked = tuple(room for room in every.values() if room.parts)
    return (*walked, whole) if whole.parts else walked


def _handed(wish: Wish, known: Known) -> tuple[Handed, ...]:
    """At a visit in between nothing changes hands; at the end, what was given at the beginning is counted."""
    if wish.kind == "periodic":
        return ()
    given = handed_of(wish.last) if wish.last and wish.kind == "move_out" else ()
    return given or tuple(Handed(component) for component in known.handed)
