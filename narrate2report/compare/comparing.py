"""Two records to a comparison, from top to bottom: entries, flaws, rooms, pairs, groups, outcomes.

It leaves to others whether the two belong together (`admission`) and where files lie.
"""

from __future__ import annotations

from collections.abc import Mapping

from narrate2report.compare.flaws import counting, flaws_of
from narrate2report.compare.gathering import gathered
from narrate2report.compare.outcomes import Outcomes
from narrate2report.compare.pairing import best_pairs, candidates
from narrate2report.compare.rooms import Spoken, match_rooms
from narrate2report.compare.scope import Scope
from narrate2report.compare.spoken_of import Record
from narrate2report.compare.terms import Terms
from narrate2report.records.comparison import Compared, Comparison
from narrate2report.records.findings import Findings


def compare(
    before: tuple[Compared, Findings], after: tuple[Compared, Findings], given_rooms: Mapping[str, str], terms: Terms
) -> Comparison:
    """What became of every flaw between two records, each with how it is to be named in the comparison.

    `given_rooms` are rooms that a person has said are the same, by their names in the earlier record.
    The same records give the same comparison, in whatever order their entries stand.
    """
    (named_before, earlier), (named_after, later) = before, after
    said_before, said_after = counting(earlier), counting(later)
    flaws_before, flaws_after = flaws_of(said_before, terms), flaws_of(said_after, terms)
    rooms = match_rooms(
        Spoken.of((visit.room for visit in earlier.rooms), said_before, flaws_before),
        Spoken.of((visit.room for visit in later.rooms), said_after, flaws_after),
        given_rooms,
        terms,
    )
    scope = Scope.of(rooms.same, said_before, said_after, terms)
    edges = candidates(flaws_before, flaws_after, scope)
    pairs = best_pairs(flaws_before, flaws_after, edges)
    outcomes = Outcomes(
        Record(said_before, scope.keys_before, terms), Record(said_after, scope.keys_after, terms), scope
    )
    return Comparison(
        before=named_before,
        after=named_after,
        rooms=rooms.renamed,
        unclear_rooms=rooms.unclear,
        changes=tuple(outcomes.change(group) for group in gathered(flaws_before, flaws_after, pairs, edges)),
    )
