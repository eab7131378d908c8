"""Which useful life a thing is prorated with: the unit file's own, one's own table's, else the built-in table's.

The built-in table holds several sources, which differ. Of those that were seen, the one with the shortest life is
taken, and of a range its shorter end: in doubt the charge is the smaller one, and the line tells what others say.
A tax recovery period or a statute's age limit is no life to prorate with, and is only told.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from narrate2report.errors import CannotSettle
from narrate2report.records.life import FROM_MEMORY, LifeRow
from narrate2report.records.nearest import nearest
from narrate2report.records.settlement import LifeUsed
from narrate2report.records.unit import Thing, Work
from narrate2report.wording import plain

NO_SOURCE = "no source"
PAINTED = ("paint_flat", "paint")
"""The groups under which paint stands in a table; the first is the one on walls and ceilings."""


@dataclass(frozen=True)
class Lives:
    """The tables: one's own rows, the built-in ones, and which groups a component may belong to."""

    own: Sequence[LifeRow]
    built_in: Sequence[LifeRow]
    groups: Mapping[str, tuple[str, ...]]


def life_of(thing: Thing, work: Work, lives: Lives) -> LifeUsed:
    """The useful life to prorate a thing with. Raises CannotSettle, naming the thing, where it is not known."""
    if thing.useful_life_years is not None:
        mark = None if thing.life_source else NO_SOURCE
        name = thing.called or plain(thing.component)
        return LifeUsed(
            years=thing.useful_life_years, name=name, source=thing.life_source, mark=mark, whose="unit_file"
        )
    own = {row.group: row for row in lives.own}
    for name in _own_names(thing, work, lives):
        if name in own:
            row = own[name]
            mark = None if row.source else NO_SOURCE
            return LifeUsed(years=row.years, name=row.name, source=row.source, mark=mark, whose="own_table")
    return _built_in(_groups(thing, work, lives), lives)


def _own_names(thing: Thing, work: Work, lives: Lives) -> tuple[str, ...]:
    if thing.life_as is not None:
        return (thing.life_as,)
    if work == "repaint":
        return PAINTED
    groups = lives.groups.get(thing.component, ())
    return (thing.component, *(groups if len(groups) == 1 else ()))


def _groups(thing: Thing, work: Work, lives: Lives) -> tuple[str, ...]:
    """The groups of the built-in table whose rows speak of this thing."""
    if thing.life_as is not None:
        return (_named_group(thing, thing.life_as, lives),)
    if work == "repaint":
        return PAINTED
    groups = lives.groups.get(thing.component, ())
    if len(groups) > 1:
        kinds = f"{', '.join(groups[:-1])} or {groups[-1]}"
        raise CannotSettle(f"{thing.name}: how long it lasts depends on what it is; write life_as: {kinds}")
    if not groups:
        raise CannotSettle(
            f"{thing.name}: no useful life is known; write useful_life_years with life_source, "
            "or put it into a table of your own (--lives)"
        )
    return groups


def _named_group(thing: Thing, name: str, lives: Lives) -> str:
    known = {row.group for row in lives.built_in if row.use == "share"}
    if name not in known:
        close = nearest(name, sorted(known | {row.group for row in lives.own}))
        raise CannotSettle(f"{thing.name}: life_as {name} is in no table of useful lives; use {close}")
    return name


def _built_in(groups: tuple[str, ...], lives: Lives) -> LifeUsed:
    rows = [row for row in lives.built_in if row.group in groups]
    usable = [row for row in rows if row.use == "share"]
    seen = [row for row in usable if not row.from_memory] or usable
    used = min(seen, key=lambda row: row.years)
    name = f"{used.name}, given as {used.years} to {used.high} years" if used.high else used.name
    return LifeUsed(
        years=used.years,
        name=name,
        source=f"{used.source}; {used.purpose}" if used.purpose else used.source,
        mark=FROM_MEMORY if used.from_memory else None,
        whose="built_in_table",
        others=tuple(_others(rows, used)),
    )


def _others(rows: Iterable[LifeRow], used: LifeRow) -> Iterable[str]:
    for row in rows:
        if row is not used:
            yield f"{row.told()}{f'; {row.purpose}' if row.use == 'shown_only' else ''}"
