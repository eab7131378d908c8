"""Pairs and what is left over to groups: one for each flaw, on one side or both.

Mostly a group is a pair or a single flaw. A flaw that is left over joins a pair where it is part of the same
statement (`scratches and scuffs by the door`, later `scuffs by the door`), or where its partner was told of the
component at large (`the walls are scuffed`, later of one wall and of another).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
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
    paired_before = {pair.before.number: pair for pair in pairs}
    paired_after = {pair.after.number: pair for pair in pairs}
    left_before = [flaw for flaw in before if flaw.number not in paired_before]
    left_after = [flaw for flaw in after if flaw.number not in paired_after]
    earlier, later = _Joined(), _Joined()
    by_before, by_after = _by_side(edges)

    for flaw in left_after:
        rivals = [(edges[row, flaw.number].grade, row) for row in by_after[flaw.number] if row in paired_before]
        for _, row in sorted(rivals, key=lambda rival: (-rival[0], rival[1])):
            pair = paired_before[row]
            if _belongs(flaw, pair.after, pair.before, edges[row, flaw.number]):
                later.add(pair, flaw)
                break
    for flaw in left_before:
        rivals = [(edges[flaw.number, at].grade, at) for at in by_before[flaw.number] if at in paired_after]
        for _, at in sorted(rivals, key=lambda rival: (-rival[0], rival[1])):
            pair = paired_after[at]
            if _belongs(flaw, pair.before, pair.after, edges[flaw.number, at]):
                earlier.add(pair, flaw)
                break
    return (
        *(Group((p.before, *earlier.of(p)), (p.after, *later.of(p)), p.likeness) for p in pairs),
        *(Group((flaw,), ()) for flaw in left_before if not earlier.holds(flaw)),
        *(Group((), (flaw,)) for flaw in left_after if not later.holds(flaw)),
    )


class _Joined:
    """Left-over flaws by the pair that they join."""

    def __init__(self) -> None:
        self._of: dict[int, list[Flaw]] = defaultdict(list)
        self._held: set[int] = set()

    def add(self, pair: Pair, flaw: Flaw) -> None:
        self._of[pair.before.number].append(flaw)
        self._held.add(flaw.number)

    def of(self, pair: Pair) -> Iterable[Flaw]:
        return self._of.get(pair.before.number, ())

    def holds(self, flaw: Flaw) -> bool:
        return flaw.number in self._held


def _by_side(edges: Edges) -> tuple[dict[int, list[int]], dict[int, list[int]]]:
    by_before: dict[int, list[int]] = defaultdict(list)
    by_after: dict[int, list[int]] = defaultdict(list)
    for row, at in edges:
        by_before[row].append(at)
        by_after[at].append(row)
    return by_before, by_after


def _belongs(flaw: Flaw, beside: Flaw, partner: Flaw, found: Likeness) -> bool:
    """Whether a left-over flaw is of the change of `beside`, which is paired with `partner` of the other record."""
    if flaw.entry.component != beside.entry.component or flaw.adds:
        return False
    if _sentences(flaw) & _sentences(beside) and flaw.entry.where == beside.entry.where:
        return found.tie.how in ("same", "alike")
    same_kind = found.tie.how == "same" and flaw.kind == beside.kind
    return same_kind and found.grade >= COVERED and is_many(partner)


def _sentences(flaw: Flaw) -> set[tuple[str, float]]:
    return {(piece.recording, piece.start) for entry in flaw.entries for piece in entry.evidence}
