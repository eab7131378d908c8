"""A comparison and its journal brought together: `folded` lays the decisions over it, `drafted` takes them off again.

Pure. A comparison file that lags behind its journal, by however many lines, gives the same draft and so the same
comparison: each line names what was, what became, and where in the draft it stands.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from narrate2report.errors import BrokenRecord
from narrate2report.records.comparison import Comparison, FlawChange
from narrate2report.records.comparison_journal import FlawAltered, JudgingLine


def folded(draft: Comparison, lines: Sequence[JudgingLine]) -> Comparison:
    """The comparison as compared, with these lines laid over it.

    What came out of another change stands behind that one, in the order in which it came.
    """
    stands = {change.id: change for change in draft.changes}
    places = places_of(draft, lines)
    for altered in _altered(lines):
        stands.pop(id_of(altered), None)
        if altered.after is not None:
            stands[altered.after.id] = altered.after
    order = {name: number for number, name in enumerate(places)}
    changes = sorted(stands.values(), key=lambda change: (places[change.id], order[change.id]))
    return draft.model_copy(update={"changes": tuple(changes)})


def drafted(on_disk: Comparison, lines: Sequence[JudgingLine]) -> Comparison:
    """The comparison as it was before these lines, whichever of them the file on disk holds already.

    Raises BrokenRecord where a line has no place in it.
    """
    was: dict[str, FlawAltered] = {}
    for altered in _altered(lines):
        was.setdefault(id_of(altered), altered)
    restored = {altered.place: altered.before for altered in was.values() if altered.before is not None}
    untouched = (change for change in on_disk.changes if change.id not in was)
    total = len(restored) + sum(change.id not in was for change in on_disk.changes)
    if any(place >= total for place in restored):
        raise BrokenRecord("the journal names a place that the comparison does not have")
    changes: list[FlawChange] = [restored.get(place) or next(untouched) for place in range(total)]
    return on_disk.model_copy(update={"changes": tuple(changes)})


def places_of(draft: Comparison, lines: Sequence[JudgingLine]) -> dict[str, int]:
    """Where each change stands that ever was one, by id: its place in the draft, or that of the one it came out of."""
    places = {change.id: place for place, change in enumerate(draft.changes)}
    for altered in _altered(lines):
        places.setdefault(id_of(altered), altered.place)
    return places


def id_of(altered: FlawAltered) -> str:
    """Which change this is about. Raises BrokenRecord where it is about none, or about two."""
    names = {change.id for change in (altered.before, altered.after) if change is not None}
    if len(names) != 1:
        raise BrokenRecord("a line of the journal that is about no one change")
    return names.pop()


def _altered(lines: Sequence[JudgingLine]) -> Iterator[FlawAltered]:
    return (altered for line in lines for altered in line.changes)
