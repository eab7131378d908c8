"""Flaws that a person judged beyond ordinary wear, and the unit file's remedies for them, to lines of the settlement.

One line is one remedy: flaws of one component that the same remedy puts right are charged once. Where a component has
several remedies, they are alternatives, and of those that suffice the one with the smallest charge is taken: a stain
that cleaning takes out is charged as cleaning, not as a share of a new carpet.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from narrate2report.errors import CannotSettle
from narrate2report.records.comparison import Comparison
from narrate2report.records.settlement import Alternative, Charge
from narrate2report.records.unit import Remedy, Thing, Unit
from narrate2report.settle.charge_cautions import charge_cautions
from narrate2report.settle.flaws import Flaw
from narrate2report.settle.pricing import Priced, Terms, cost_of, price
from narrate2report.wording import plain, room_name

EVERYWHERE = "whole_unit"
"""A block of the unit file for this room stands for its component in every room that has no block of its own, each by
itself: its remedies are charged once a room."""

Line = tuple[Thing, tuple[Remedy, ...], tuple[Flaw, ...]]


def charges_of(flaws: Sequence[Flaw], unit: Unit, comparison: Comparison, terms: Terms) -> tuple[Charge, ...]:
    """One charge a remedy, in the order of the changes. Raises CannotSettle, naming it, where a cost is missing."""
    lines = _lines(flaws, unit, _room_names(comparison))
    return tuple(_charge(f"charge-{number}", *line, terms) for number, line in enumerate(lines, start=1))


def check_flaw_names(unit: Unit, comparison: Comparison, conditions: Iterable[str]) -> None:
    """Raise CannotSettle for a remedy that names a flaw which is neither a condition nor a change that was compared."""
    known = {*conditions, *(change.id for change in comparison.changes)}
    for thing in unit.components:
        for remedy in thing.remedies:
            for name in remedy.flaws:
                if name not in known:
                    raise CannotSettle(
                        f"{thing.name}, {remedy.what}: flaw {name} is no condition of the vocabulary and no change "
                        "of this comparison"
                    )


def _lines(flaws: Sequence[Flaw], unit: Unit, rooms: Mapping[str, str]) -> list[Line]:
    things = {(thing.room, thing.component): thing for thing in unit.components}
    lines: dict[tuple[str, str, tuple[int, ...]], Line] = {}
    missing = []
    for flaw in flaws:
        thing = _thing(flaw, things, rooms)
        numbers = _fitting(flaw, thing)
        if thing is None or not numbers:
            missing.append(f"{room_name(flaw.shown.room)} {plain(flaw.shown.component)} (change {flaw.change.id})")
            continue
        room = flaw.shown.room if thing.room == EVERYWHERE else thing.room
        key = (room, thing.component, numbers)
        _, _, others = lines.get(key, (thing, (), ()))
        lines[key] = (thing, tuple(thing.remedies[number] for number in numbers), (*others, flaw))
    if missing:
        raise CannotSettle(f"no cost is given for: {'; '.join(missing)}; add a remedy to components in the unit file")
    _check_overlaps(lines)
    for thing, remedies, others in lines.values():
        _check_supplies(thing, remedies, others)
    return list(lines.values())


def _thing(flaw: Flaw, things: Mapping[tuple[str, str], Thing], rooms: Mapping[str, str]) -> Thing | None:
    names = [entry.room for entry in (*flaw.after, *flaw.before)]
    for room in (*names, *(rooms[name] for name in names if name in rooms), EVERYWHERE):
        found = things.get((room, flaw.shown.component))
        if found is not None:
            return found
    return None


def _fitting(flaw: Flaw, thing: Thing | None) -> tuple[int, ...]:
    """The numbers of the remedies that are for this flaw."""
    remedies = thing.remedies if thing else ()
    return tuple(number for number, one in enumerate(remedies) if not one.flaws or flaw.kinds & set(one.flaws))


def _check_overlaps(lines: Mapping[tuple[str, str, tuple[int, ...]], Line]) -> None:
    """A remedy may stand in one line only, or its cost could be charged twice."""
    seen: dict[tuple[str, str, int], str] = {}
    for (room, component, numbers), (thing, _, flaws) in lines.items():
        changes = " and ".join(flaw.change.id for flaw in flaws)
        for number in numbers:
            first = seen.setdefault((room, component, number), changes)
            if first != changes:
                raise CannotSettle(
                    f"{thing.name}, {thing.remedies[number].what}: would be charged for {first} and again for "
                    f"{changes}; let the remedies of one component name the same flaws or none in common"
                )


def _check_supplies(thing: Thing, remedies: Sequence[Remedy], flaws: Sequence[Flaw]) -> None:
    """What is there and broken is replaced, and so prorated: only what is missing is supplied in full."""
    for remedy in remedies:
        there = [flaw for flaw in flaws if "missing" not in flaw.conditions]
        if remedy.work == "supply" and there:
            raise CannotSettle(
                f"{thing.name}, {remedy.what}: work supply is only for what is missing, and change "
                f"{there[0].change.id} says: {there[0].says()}; use work replace, or name the flaws of each remedy"
            )


def _charge(name: str, thing: Thing, remedies: Sequence[Remedy], flaws: Sequence[Flaw], terms: Terms) -> Charge:
    chosen, others = _chosen(thing, remedies, terms)
    judgements = [flaw.change.judgement for flaw in flaws]
    return Charge(
        id=name,
        room=flaws[0].shown.room,
        component=thing.component,
        called=thing.called,
        changes=tuple(flaw.change.id for flaw in flaws),
        outcomes=tuple(flaw.change.outcome for flaw in flaws),
        before=tuple(entry.id for flaw in flaws for entry in flaw.before),
        after=tuple(entry.id for flaw in flaws for entry in flaw.after),
        says="; ".join(flaw.says() for flaw in flaws),
        judgements=tuple(judgement for judgement in judgements if judgement is not None),
        work=chosen.remedy.work,
        what=chosen.remedy.what,
        cost=chosen.cost,
        proration=chosen.proration,
        portion_percent=chosen.remedy.portion_percent,
        portion_why=chosen.remedy.portion_why,
        amount=chosen.amount,
        working=chosen.working,
        alternatives=others,
        cautions=charge_cautions(chosen.remedy, thing, flaws),
    )


def _chosen(thing: Thing, remedies: Sequence[Remedy], terms: Terms) -> tuple[Priced, tuple[Alternative, ...]]:
    """The remedy with the smallest charge of those that suffice, and why the others were not taken.

    Where the share of one cannot be worked out, the others are charged; where that is so of all, its reason is raised.
    """
    priced: list[Priced] = []
    unknown: dict[int, CannotSettle] = {}
    for number, remedy in enumerate(remedies):
        try:
            priced.append(price(thing, remedy, terms))
        except CannotSettle as error:
            unknown[number] = error
    sufficing = [one for one in priced if one.remedy.suffices]
    if not sufficing:
        raise next(
            iter(unknown.values()), CannotSettle(f"{thing.name}: none of its remedies suffices; write one that does")
        )
    chosen = min(sufficing, key=lambda one: one.amount)
    others = [_alternative(one) for one in priced if one is not chosen]
    others += [_unpriced(remedies[number], error, terms) for number, error in unknown.items()]
    return chosen, tuple(others)


def _unpriced(remedy: Remedy, error: CannotSettle, terms: Terms) -> Alternative:
    cost = cost_of(remedy, terms.currency).total
    return Alternative(
        work=remedy.work, what=remedy.what, cost=cost, would_be=None, why_not=f"Its share cannot be worked out: {error}"
    )


def _alternative(one: Priced) -> Alternative:
    why = (
        "It suffices too; the smaller charge is taken."
        if one.remedy.suffices
        else f"Does not suffice: {one.remedy.why}"
    )
    return Alternative(
        work=one.remedy.work, what=one.remedy.what, cost=one.cost.total, would_be=one.amount, why_not=why
    )


def _room_names(comparison: Comparison) -> dict[str, str]:
    """What the other record calls a room, where a person said that two are the same."""
    return {room.after: room.before for room in comparison.rooms} | {
        room.before: room.after for room in comparison.rooms
    }
