"""Entries against hand-marked gold: which were found, which were missed, which should not be there.

A gold entry names the narration's line (or lines) it was said in, its kind and the fields that must be right;
a field may list several values that are all accepted. `optional` ones are neither asked for nor punished, and
of those that are `same_as` each other one is enough.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

FIELDS = {
    "condition": ("room", "component", "condition", "assertion"),
    "check": ("room", "component", "outcome"),
    "handover": ("component", "quantity"),
    "advice": ("component",),
    "follow_up": ("component", "action"),
    "description": ("component", "name"),
}
OBSERVED = ("condition", "check")
SOUND = {"good", "clean", "new", "present", "freshly_painted", "repaired"}

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
    """Match entries to gold one to one, as many as can be, and count what is over on either side."""
    slack = 1.0
    owner = _matched(gold, entries, lines, slack)
    found = set(owner.values())
    excused = {twin for index in found for twin in _twins(gold, index)}
    wanted = [index for index, one in enumerate(gold) if one["kind"] in OBSERVED and not one.get("optional")]
    early = [
        lines[min(_lines(gold[index])) - 1][0] - min(piece["start"] for piece in entries[at]["evidence"])
        for at, index in owner.items()
    ]
    return Score(
        hits=sum(index in found for index in wanted),
        missed=tuple(gold[index] for index in wanted if index not in found | excused),
        extra=tuple(entry for at, entry in enumerate(entries) if entry["kind"] in OBSERVED and at not in owner),
        early_s=max(early, default=0.0),
    )


def is_adverse(gold: dict[str, Any]) -> bool:
    """Whether a gold entry speaks of something wrong, in each of the ways in which it may be read."""
    if gold["kind"] == "check":
        return _choices(gold["outcome"]) == {"fails"}
    return "absent" not in _choices(gold["assertion"]) and not _choices(gold["condition"]) & SOUND


def load_gold(path: Path) -> list[dict[str, Any]]:
    """The entries of a gold file."""
    entries: list[dict[str, Any]] = json.loads(path.read_text(encoding="utf-8"))["entries"]
    return entries


def load_lines(path: Path) -> list[Line]:
    """The times of a narration's lines: a list of [start, end] in seconds."""
    return [(float(start), float(end)) for start, end in json.loads(path.read_text(encoding="utf-8"))]


def _matched(
    gold: Sequence[dict[str, Any]], entries: Sequence[dict[str, Any]], lines: Sequence[Line], slack: float
) -> dict[int, int]:
    """The largest one-to-one matching (Kuhn 1955): index of an entry to index of its gold."""
    fits = {
        index: [at for at, entry in enumerate(entries) if _fits(one, entry, lines, slack)]
        for index, one in enumerate(gold)
    }
    owner: dict[int, int] = {}

    def place(index: int, tried: set[int]) -> bool:
        for at in fits[index]:
            if at not in tried:
                tried.add(at)
                if at not in owner or place(owner[at], tried):
                    owner[at] = index
                    return True
        return False

    for index in sorted(fits, key=lambda index: (bool(gold[index].get("optional")), len(fits[index]))):
        place(index, set())
    return owner


def _fits(gold: dict[str, Any], entry: dict[str, Any], lines: Sequence[Line], slack: float) -> bool:
    if gold["kind"] != entry["kind"]:
        return False
    told = entry | {"name": (entry.get("attribute") or {}).get("name")}
    for field in FIELDS[gold["kind"]]:
        if field not in gold:
            continue
        choices = _choices(gold[field])
        if field == "room":
            choices, value = (
                {str(room).partition(".")[0] for room in choices},
                entry["room"].partition(".")[0],
            )
        else:
            value = told[field]
        if value not in choices and not (field == "quantity" and None in choices):
            return False
    return any(
        piece["start"] < lines[line - 1][1] + slack and piece["end"] > lines[line - 1][0] - slack
        for piece in entry["evidence"]
        for line in _lines(gold)
    )


def _twins(gold: Sequence[dict[str, Any]], index: int) -> set[int]:
    """Entries that state the same fact as this one, whichever of them says so."""
    named = gold[index].get("same_as")
    twins = set(named) if isinstance(named, list) else set() if named is None else {named}
    for other, one in enumerate(gold):
        says = one.get("same_as")
        if index in (says if isinstance(says, list) else [says]):
            twins.add(other)
    return twins


def _choices(value: Any) -> set[Any]:
    return set(value) if isinstance(value, list) else {value}


def _lines(gold: dict[str, Any]) -> set[int]:
    return _choices(gold["line"])


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
