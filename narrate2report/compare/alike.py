"""How far an earlier flaw and a later one may be the same, of 1, with the reasons.

The grade is the product of four: the room, the component, the kind of flaw, the place on the component; what else
agrees or speaks against it moves it a little. Each of them is told in the reasons, so that a person can disagree.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from narrate2report.compare.amounts import is_equal_size
from narrate2report.compare.flaws import Flaw
from narrate2report.compare.places import PlaceTie
from narrate2report.compare.terms import NEAR, Terms, Tie
from narrate2report.wording import plain

ENOUGH = 0.5
"""From here on two flaws may be paired."""

SAME_SIZE = 0.04
SAME_COUNT = 0.05
POINTS_BACK = 0.04
"""Either alone leaves flaws at two plainly different places two; both together do not."""
ACROSS = 0.9
"""How far the place of a flaw is that of one which runs through all of the same thing."""
ADDS = -0.25
UNNAMED = 0.6
"""How far neighbours are one where neither is named when the other is meant: only the same flaw at the same place."""
ORDER = 1e-7
"""A hair, so that flaws that are alike in all else are paired in the order said."""


@dataclass(frozen=True)
class Likeness:
    """Why two flaws may be one, and how far, of 1."""

    grade: float
    tie: Tie
    component: float
    place: PlaceTie


def likeness(before: Flaw, after: Flaw, room: float, terms: Terms) -> Likeness | None:
    """How far two flaws are alike, where they can be one at all; `room` says how far their rooms are one, of 1."""
    component = _component_grade(before, after, terms)
    tie = terms.tie(before.kind, after.kind) if component and room else None
    if tie is None or _are_other_objects(before, after):
        return None
    place = _place_tie(before, after, terms)
    if tie.here and place.how != "same":
        return None
    grade = room * component * tie.grade * place.grade
    if place.how != "contrary":
        grade += sum(_moves(before, after))
    grade -= ORDER * abs(before.number - after.number)
    return Likeness(grade, tie, component, place) if grade >= ENOUGH else None


def _component_grade(before: Flaw, after: Flaw, terms: Terms) -> float:
    """Of a part and its whole, or of neighbours, one must be named where the other is meant: else they are two."""
    one, other = before.entry.component, after.entry.component
    grade = terms.component_grade(one, other)
    if grade != NEAR or terms.names(before.quote, other) or terms.names(after.quote, one):
        return grade
    return UNNAMED


def _place_tie(before: Flaw, after: Flaw, terms: Terms) -> PlaceTie:
    """What runs through all of a thing passes the place that the other record names: `cracked from top to bottom`."""
    place = terms.gazetteer.tie(before.place, after.place)
    if place.how == "unsaid" and (before.is_across or after.is_across):
        return PlaceTie("same", ACROSS)
    return place


def _are_other_objects(before: Flaw, after: Flaw) -> bool:
    return bool(before.objects and after.objects) and not before.objects & after.objects


def _moves(before: Flaw, after: Flaw) -> Iterator[float]:
    if is_equal_size(before, after):
        yield SAME_SIZE
    if before.count is not None and before.count > 1 and before.count == after.count:
        yield SAME_COUNT
    if after.points_back:
        yield POINTS_BACK
    if after.adds:
        yield ADDS


def told(before: Flaw, after: Flaw, found: Likeness) -> Iterator[str]:
    """The likeness in plain words."""
    yield f"{_component(before, after)}; {_kind(before, after, found.tie)}; {_where(before, after, found.place)}."


def _component(before: Flaw, after: Flaw) -> str:
    one, other = plain(before.entry.component), plain(after.entry.component)
    if one == other:
        return f"Both speak of the {one}"
    return f"The {one} then and the {other} now are easily named for each other"


def _kind(before: Flaw, after: Flaw, tie: Tie) -> str:
    one, other = (_kind_name(flaw) for flaw in (before, after))
    if tie.how == "same":
        return f"the same kind of flaw ({one})"
    if tie.how in ("grown", "shrunk", "mended"):
        return f"one may turn into the other ({one}, {other})"
    return f"other words for what may be one flaw ({one}, {other})"


def _kind_name(flaw: Flaw) -> str:
    return "does not work" if flaw.entry.kind == "check" else plain(flaw.kind)


def _where(before: Flaw, after: Flaw, place: PlaceTie) -> str:
    one, other = before.entry.where, after.entry.where
    if not one or not other:
        return "its place was told only once" if one or other else "where on it was not said"
    if one.lower() == other.lower():
        return f"at the same place ({one})"
    if place.how == "same":
        return f"at the same place in other words ({one}; {other})"
    return f"the place may be the same ({one}; {other})"
