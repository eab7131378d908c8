"""How often reading is right, with how sure that is: shares with their 95 % intervals."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from scipy.stats import binomtest

from narrate2report.evaluate.matching import Matched
from narrate2report.records.evaluation import Evaluation, Rates, Share, Wrong
from narrate2report.wording import named

OBSERVED = frozenset({"condition", "check"})
"""What was seen or tried, as against what is handed over, advised, planned or described."""

SURENESS = 0.95


@dataclass(frozen=True)
class Walk:
    """A walk as read beside a walk as marked, told in so many lines."""

    file: str
    matched: Matched
    lines: int


def evaluation(walks: Sequence[Walk]) -> Evaluation:
    """The rates over several walks."""
    kinds = sorted({kind for walk in walks for kind in _kinds(walk.matched)})
    adverse = sum(mark.is_adverse and not mark.optional for walk in walks for mark, _ in walk.matched.found)
    unread = sum(mark.is_adverse for walk in walks for mark in walk.matched.missed)
    return Evaluation(
        kinds=tuple(_rates(kind, walks, {kind}) for kind in kinds),
        observations=_rates("observations", walks, OBSERVED),
        adverse_recall=share(adverse, adverse + unread),
        false_alarms=sum(len(walk.matched.false_alarms) for walk in walks),
        lines=sum(walk.lines for walk in walks),
        wrong=tuple(wrong for walk in walks for wrong in sorted(_wrong(walk), key=lambda one: (one.start, one.told))),
    )


def share(part: int, whole: int) -> Share:
    """A share with its 95 % interval after Wilson (1927), which also holds for few and for all.

    It takes each entry for itself; entries of one sentence go wrong together, so that the true interval is a
    little wider.
    """
    if not whole:
        return Share(part=0, whole=0, value=None, low=None, high=None)
    low, high = binomtest(part, whole).proportion_ci(SURENESS, method="wilson")
    return Share(part=part, whole=whole, value=round(part / whole, 4), low=round(low, 4), high=round(high, 4))


def _kinds(walk: Matched) -> Iterator[str]:
    yield from (mark.kind for mark, _ in walk.found)
    yield from (mark.kind for mark in walk.missed)
    yield from (entry.kind for entry in walk.extra)


def _rates(of: str, walks: Sequence[Walk], kinds: Iterable[str]) -> Rates:
    chosen = frozenset(kinds)
    found = sum(mark.kind in chosen and not mark.optional for walk in walks for mark, _ in walk.matched.found)
    missed = sum(mark.kind in chosen for walk in walks for mark in walk.matched.missed)
    extra = sum(entry.kind in chosen for walk in walks for entry in walk.matched.extra)
    whole = 2 * found + missed + extra
    return Rates(
        of=of,
        found=found,
        missed=missed,
        extra=extra,
        precision=share(found, found + extra),
        recall=share(found, found + missed),
        f1=round(2 * found / whole, 4) if whole else None,
    )


def _wrong(walk: Walk) -> Iterator[Wrong]:
    for mark in walk.matched.missed:
        yield Wrong(what="missed", file=walk.file, start=max(0.0, mark.where[0].start), told=mark.told)
    for entry in walk.matched.extra:
        yield Wrong(
            what="not there",
            file=walk.file,
            start=entry.evidence[0].start,
            told=f"{entry.kind} {named(entry)} ({entry.id})",
        )
