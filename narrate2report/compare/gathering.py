"""Pairs and what is left over to groups: one for each flaw, on one side or both.

Mostly a group is a pair or a single flaw. A flaw that is left over joins a pair where it is part of the same
statement (`scratches and scuffs by the door`, later `scuffs by the door`), or where its partner was told of the
component at large (`the walls are scuffed`, later of one wall and of another) or counted it in (`two stains`).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from narrate2report.compare.alike import Likeness
from narrate2report.compare.amounts import is_many
from narrate2report.compare.flaws import Flaw
from narrate2report.compare.pairing import Edges, Pair

COVERED = 0.7
"""How alike a left-over flaw and the one told at large must be."""


@dataclass(frozen=True)
class Group:
    """One flaw: what tells of it before and after, the pair first; the likeness where there is a pair."""

    before: tuple[Flaw, ...]
    after: tuple[Flaw, ...]
    likeness: Likeness | None = None


def gathered(before: Sequence[Flaw], after: Sequence[Flaw], pairs: Sequence[Pair], edges: Edges) -> tuple[Group, ...]:
    """Every flaw of either side in exactly one group: pairs in the order of the earlier walk, then the others."""
    of_before = {pair.before.number: pair for pair in pairs}
    of_after = {pair.after.number: pair for pair in pairs}
    left_before = [flaw for flaw in before if flaw.number not in of_before]
    left_after = [flaw for flaw in after if flaw.number not in of_after]
    by_before: dict[int, list[_Choice]] = defaultdict(list)
    by_after: dict[int, list[_Choice]] = defaultdict(list)
    for (row, column), found in edges.items():
        if row in of_before:
            by_after[column].append(_Choice(of_before[row], of_before[row].after, of_before[row].before, found))
        if column in of_after:
            by_before[row].append(_Choice(of_after[column], of_after[column].before, of_after[column].after, found))
    earlier, later = _Joined(), _Joined()
    for flaw in left_after:
        later.join(flaw, by_after[flaw.number])
    for flaw in left_before:
        earlier.join(flaw, by_before[flaw.number])
    return (
        *(Group((p.before, *earlier.of(p)), (p.after, *later.of(p)), p.likeness) for p in pairs),
        *(Group((flaw,), ()) for flaw in left_before if not earlier.holds(flaw)),
        *(Group((), (flaw,)) for flaw in left_after if not later.holds(flaw)),
    )


@dataclass(frozen=True)
class _Choice:
    """A pair that a left-over flaw may join: its flaw of the same record, the partner, and how alike that one is."""

    pair: Pair
    beside: Flaw
    partner: Flaw
    found: Likeness


class _Joined:
    """Left-over flaws of one record by the pair that they join."""

    def __init__(self) -> None:
        self._of: dict[int, list[Flaw]] = defaultdict(list)
        self._held: set[int] = set()

    def join(self, flaw: Flaw, choices: Sequence[_Choice]) -> None:
        """Put a flaw to the pair that it is most alike to among those whose change it belongs to, if any."""
        for choice in sorted(choices, key=lambda choice: (-choice.found.grade, choice.pair.before.number)):
            if _belongs(flaw, (choice.beside, *self.of(choice.pair)), choice.partner, choice.found):
                self._of[choice.pair.before.number].append(flaw)
                self._held.add(flaw.number)
                return

    def of(self, pair: Pair) -> Sequence[Flaw]:
        """The flaws that have joined a pair."""
        return self._of.get(pair.before.number, ())

    def holds(self, flaw: Flaw) -> bool:
        """Whether a flaw has joined any."""
        return flaw.number in self._held


def _belongs(flaw: Flaw, beside: Sequence[Flaw], partner: Flaw, found: Likeness) -> bool:
    """Whether a left-over flaw is of the change of those `beside` it, whose partner the other record tells of."""
    first = beside[0]
    if flaw.entry.component != first.entry.component or flaw.adds:
        return False
    if _sentences(flaw) & _sentences(first) and flaw.entry.where == first.entry.where:
        return found.tie.how in ("same", "alike")
    if found.tie.how != "same" or found.grade < COVERED:
        return False
    return is_many(partner) or (found.place.how == "same" and _is_counted(flaw, beside, partner))


def _is_counted(flaw: Flaw, beside: Sequence[Flaw], partner: Flaw) -> bool:
    """Whether the other record counted it in: two stains by the bed, later told one by one."""
    counts = [one.count for one in (flaw, *beside)]
    told = [count for count in counts if count is not None]
    return partner.count is not None and len(told) == len(counts) and sum(told) <= partner.count


def _sentences(flaw: Flaw) -> set[tuple[str, float]]:
    return {(piece.recording, piece.start) for entry in flaw.entries for piece in entry.evidence}
