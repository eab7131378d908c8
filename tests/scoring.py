"""Entries against hand-marked gold: which were found, which were missed, which should not be there.

What a gold entry is, and what is right, is said by `evaluate` (narrate2report/evaluate/marks.py).
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from narrate2report.evaluate.marks import marks_of
from narrate2report.evaluate.matching import match
from narrate2report.evaluate.rates import OBSERVED
from narrate2report.records.findings import Entry

SLACK_S = 1.0
"""Speech recognised this much beside a line is still of that line."""

Line = tuple[float, float]
"""Start and end of a narration's line, in seconds."""


@dataclass(frozen=True)
class Score:
    """What a comparison of entries with gold found."""

    hits: int
    """Observations (conditions and checks) that were asked for and found."""
    missed: tuple[dict[str, Any], ...]
    """Gold observations that were not found."""
    extra: tuple[dict[str, Any], ...]
    """Observations that no gold entry asks for or excuses."""
    early_s: float
    """The most by which a matched entry starts before the line it was said in, in seconds."""

    @property
    def f1(self) -> float:
        """Harmonic mean of precision and recall over observations."""
        over = len(self.missed) + len(self.extra)
        return 2 * self.hits / (2 * self.hits + over) if self.hits else 0.0

    @property
    def missed_adverse(self) -> tuple[dict[str, Any], ...]:
        """Those of the missed that speak of something wrong."""
        return tuple(entry for entry in self.missed if is_adverse(entry))


def score(gold: Sequence[dict[str, Any]], entries: Sequence[dict[str, Any]], lines: Sequence[Line]) -> Score:
    """Match entries to gold as `evaluate` does, and count what is over on either side."""
    marks = marks_of(gold, lines, SLACK_S)
    matched = match(marks, [Entry.model_validate(entry) for entry in entries])
    marked = {id(mark): one for mark, one in zip(marks, gold, strict=True)}
    early = [
        mark.where[0].start + SLACK_S - min(piece.start for piece in entry.evidence) for mark, entry in matched.found
    ]
    return Score(
        hits=sum(mark.kind in OBSERVED and not mark.optional for mark, _ in matched.found),
        missed=tuple(marked[id(mark)] for mark in matched.missed if mark.kind in OBSERVED),
        extra=tuple(entry.model_dump(mode="json") for entry in matched.extra if entry.kind in OBSERVED),
        early_s=max(early, default=0.0),
    )


def is_adverse(gold: dict[str, Any]) -> bool:
    """Whether a gold entry speaks of something wrong, in each of the ways in which it may be read."""
    (mark,) = marks_of([gold | {"line": 1}], [(0.0, 1.0)], 0.0)
    return mark.is_adverse


def load_gold(path: Path) -> list[dict[str, Any]]:
    """The entries of a gold file."""
    entries: list[dict[str, Any]] = json.loads(path.read_text(encoding="utf-8"))["entries"]
    return entries


def load_lines(path: Path) -> list[Line]:
    """The times of a narration's lines: a list of [start, end] in seconds."""
    return [(float(start), float(end)) for start, end in json.loads(path.read_text(encoding="utf-8"))]


@dataclass(frozen=True)
class ChangeScore:
    """What a comparison of two walks found, against changes that were marked by hand."""

    links: int
    """Pairs of an earlier and a later entry that were asked for and found."""
    links_missed: tuple[tuple[str, str], ...]
    links_extra: tuple[tuple[str, str], ...]
    right: int
    """Changes with the right entries on both sides and an accepted outcome."""
    missed: tuple[dict[str, Any], ...]
    """Gold changes that were not found so."""
    extra: tuple[dict[str, Any], ...]
    """Changes that no gold change asks for or excuses."""

    @property
    def pairing_f1(self) -> float:
        """Harmonic mean of precision and recall over links."""
        return _f1(self.links, len(self.links_missed) + len(self.links_extra))

    @property
    def outcome_f1(self) -> float:
        """Harmonic mean of precision and recall over whole changes."""
        return _f1(self.right, len(self.missed) + len(self.extra))

    @property
    def falsely_new(self) -> tuple[dict[str, Any], ...]:
        """Those of the extra changes that say `new`."""
        return tuple(change for change in self.extra if change["outcome"] == "new")


def score_changes(gold: Sequence[dict[str, Any]], changes: Sequence[Mapping[str, Any]]) -> ChangeScore:
    """Count right, missed and extra changes and links. Entries that no gold change names are left out."""
    known = [{one for change in gold for one in change[side]} for side in ("before", "after")]
    told = [dict(change) | _known_ids(change, known) for change in changes]
    told = [change for change in told if change["before"] or change["after"]]
    wanted = {link for change in gold if not change.get("optional") for link in _links(change)}
    excused = {link for change in gold for link in _links(change)}
    found = {link for change in told for link in _links(change)}
    by_ids = {_key(change): change for change in told}
    hit = [change for change in gold if _accepts(change, by_ids.get(_key(change)))]
    right = {_key(change) for change in hit}
    free = {one for change in gold if change.get("optional") for side in ("before", "after") for one in change[side]}
    return ChangeScore(
        links=len(wanted & found),
        links_missed=tuple(sorted(wanted - found)),
        links_extra=tuple(sorted(found - excused)),
        right=sum(not change.get("optional") for change in hit),
        missed=tuple(change for change in gold if _key(change) not in right and not change.get("optional")),
        extra=tuple(
            change for change in told if _key(change) not in right and not {*change["before"], *change["after"]} <= free
        ),
    )


def _known_ids(change: Mapping[str, Any], known: Sequence[set[str]]) -> dict[str, list[str]]:
    sides = ("before", "after")
    return {side: [one for one in change[side] if one in ids] for side, ids in zip(sides, known, strict=True)}


def _links(change: dict[str, Any]) -> set[tuple[str, str]]:
    return {(before, after) for before in change["before"] for after in change["after"]}


def _key(change: dict[str, Any]) -> tuple[frozenset[str], frozenset[str]]:
    return frozenset(change["before"]), frozenset(change["after"])


def _accepts(gold: dict[str, Any], told: dict[str, Any] | None) -> bool:
    return told is not None and told["outcome"] in {gold["outcome"], *gold.get("alternatives", ())}


def _f1(hits: int, over: int) -> float:
    return 2 * hits / (2 * hits + over) if hits or over else 1.0
