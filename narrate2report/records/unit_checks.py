"""Whether the values of a unit file fit together: days in their order, ages, sums with what they need beside them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from narrate2report.records.money import LARGEST
from narrate2report.records.nearest import close_to, nearest
from narrate2report.records.unit import Dates, InterestTerms, Remedy, Thing, Unit
from narrate2report.records.unit_file import UnitFile
from narrate2report.records.yaml_lines import Location

Fault = tuple[Location, str]


@dataclass(frozen=True)
class KnownNames:
    """The ids of the vocabulary in use."""

    rooms: frozenset[str]
    components: frozenset[str]


def check_unit(file: UnitFile, known: KnownNames) -> None:
    """Raise BadUnit with file and line of the first thing in a unit file that does not fit the rest."""
    for at, problem in _faults(file.unit, known):
        raise file.lines.mistake(at, problem)


def first_fault(unit: Unit, known: KnownNames) -> str | None:
    """The first thing that does not fit, for a unit that is in no file yet."""
    return next((problem for _, problem in _faults(unit, known)), None)


def name_fault(what: str, name: str, known: KnownNames) -> str | None:
    """What is wrong with the name of a `room`, such as `bedroom.2`, or of a `component`."""
    names = known.rooms if what == "room" else known.components
    base = name.partition(".")[0] if what == "room" else name
    if base in names:
        return None
    if what == "room":
        wanted = nearest(base, names)
    else:
        wanted = close_to(base, names) or "an id of the vocabulary, see: narrate2report guide vocabulary"
    return f"{name} is no known {what}; use {wanted}"


def last_day(dates: Dates) -> date | None:
    """The day to which ages are counted: possession returned, else moved out, else the end of the lease."""
    return dates.possession_returned or dates.vacated or dates.lease_end


def _faults(unit: Unit, known: KnownNames) -> Iterator[Fault]:
    yield from _days(unit.dates)
    yield from _received(unit)
    if unit.deposit.interest is not None:
        yield from _interest(unit.deposit.interest, unit.deposit.held)
    seen: dict[tuple[str, str], int] = {}
    for number, thing in enumerate(unit.components):
        at: Location = ("components", number)
        yield from _names(thing.room, thing.component, at, known)
        first = seen.setdefault((thing.room, thing.component), number)
        if first != number:
            yield at, f"{thing.name} stands here twice; put all its remedies into one block"
        yield from _thing(thing, unit.dates, at)
    for room, components in unit.rooms.items():
        if problem := name_fault("room", room, known):
            yield ("rooms", room), problem
        for place, component in enumerate(components):
            yield from _names(room, component, ("rooms", room, place), known)


def _days(dates: Dates) -> Iterator[Fault]:
    for name in type(dates).model_fields:
        day: date | None = getattr(dates, name)
        if day is not None and day < dates.lease_start:
            yield ("dates", name), f"{name} {day} lies before the lease, which starts on {dates.lease_start}"


def _received(unit: Unit) -> Iterator[Fault]:
    received, returned = unit.deposit.received, unit.dates.possession_returned
    if received is None:
        return
    if returned and received > returned:
        yield ("deposit", "received"), f"deposit: received {received} lies after possession was returned on {returned}"
    terms = unit.deposit.interest
    if terms and terms.since and terms.since < received:
        at: Location = ("deposit", "interest", "since")
        yield at, f"interest: since {terms.since} lies before the deposit was received on {received}"


def _interest(terms: InterestTerms, held: Decimal) -> Iterator[Fault]:
    at: Location = ("deposit", "interest")
    if (terms.amount is None) == (terms.rate_percent is None):
        yield at, "interest: write either its amount, or rate_percent with since"
    if terms.rate_percent is not None and terms.since is None:
        yield at, "interest: a rate needs the day from which it counts; write since"
    if terms.since and terms.until and terms.until < terms.since:
        yield (*at, "until"), f"interest: until {terms.until} lies before since {terms.since}"
    if terms.principal is not None and terms.principal > held:
        told = (
            f"interest: principal {terms.principal} is more than the {held} that is held; correct one of the two, or "
        )
        yield (*at, "principal"), f"{told}write the amount of the interest with its basis"


def _names(room: str, component: str, at: Location, known: KnownNames) -> Iterator[Fault]:
    for what, name in (("room", room), ("component", component)):
        if problem := name_fault(what, name, known):
            yield at, problem


def _thing(thing: Thing, dates: Dates, at: Location) -> Iterator[Fault]:
    name = thing.name
    end = last_day(dates)
    if thing.installed and thing.age_years is not None:
        yield at, f"{name}: both installed and age_years; keep the one that can be shown"
    if thing.installed and end and thing.installed > end:
        yield (*at, "installed"), f"{name}: installed {thing.installed}, after {end}: its age would be negative"
    if thing.useful_life_years is not None and thing.life_as is not None:
        yield at, f"{name}: both useful_life_years and life_as; keep one"
    if thing.share_by == "stay" and not any(remedy.work == "repaint" for remedy in thing.remedies):
        yield (*at, "share_by"), f"{name}: share_by stay is a schedule for repainting; no remedy here repaints"
    named = [bool(remedy.flaws) for remedy in thing.remedies]
    if any(named) and not all(named):
        yield at, f"{name}: name the flaws of every remedy or of none, or one flaw could be charged twice"
    for number, remedy in enumerate(thing.remedies):
        for problem in _remedy(remedy):
            yield (*at, "remedies", number), f"{name}, {remedy.what}: {problem}"


def _remedy(remedy: Remedy) -> Iterator[str]:
    if (remedy.amount or 0) + (remedy.hours or 0) * (remedy.rate or 0) > LARGEST:
        yield f"its cost comes to more than {LARGEST:,}, which is too large to be meant"
    if (remedy.hours is None) != (remedy.rate is None):
        yield "own labour needs both hours and rate"
    if remedy.basis == "own_labour" and remedy.hours is None:
        yield "basis own_labour needs hours and rate"
    if remedy.basis != "own_labour" and remedy.amount is None:
        yield f"its cost is missing; write the amount of the {remedy.basis}"
    if not remedy.suffices and remedy.why is None:
        yield "suffices: no needs a reason; write why"
    if not remedy.prorate and remedy.why is None:
        yield "prorate: no needs a reason; write why"
    if remedy.portion_percent is not None and remedy.portion_why is None:
        yield "a portion needs a reason; write portion_why"
