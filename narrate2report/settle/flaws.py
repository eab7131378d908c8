"""The changes of a comparison with the entries that show them, sorted by what may come of them in money."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from narrate2report.errors import CannotSettle
from narrate2report.records.comparison import Comparison, FlawChange
from narrate2report.records.findings import Entry, Findings
from narrate2report.wording import named

COULD_BE_CHARGED = frozenset({"new", "worse"})
"""Outcomes of which both records are proof: only these make a charge, and only where a person judged them so."""

WHY_NEVER = {
    "unchanged": "It was there before: both records show it.",
    "better": "It was there before, and is less than it was.",
    "gone": "It was there before and is not there any more.",
    "not_mentioned": "It was there before, and the later record does not speak of the component.",
}
WHY_NOT_WORSE = {
    "ordinary_wear": "Judged ordinary wear, which is the owner's cost.",
    "owners_matter": "Judged the owner's matter.",
}
NO_BASELINE = (
    "NOT CHARGEABLE ON THIS EVIDENCE ALONE: the earlier record says nothing of this component, so these two records "
    "do not show that it came later. What else shows it must come from elsewhere."
)
OPEN = "No person has judged it yet."


@dataclass(frozen=True)
class Flaw:
    """One change with the entries of both records that show it."""

    change: FlawChange
    before: tuple[Entry, ...]
    after: tuple[Entry, ...]

    @property
    def shown(self) -> Entry:
        """The entry that tells of it best: the later one where there is one."""
        return (self.after or self.before)[0]

    @property
    def conditions(self) -> frozenset[str]:
        """The conditions of its entries."""
        entries = (*self.before, *self.after)
        return frozenset(entry.condition for entry in entries if entry.condition)

    @property
    def kinds(self) -> frozenset[str]:
        """What the unit file may call it: the change's id, the conditions of its entries, `not_working` of a check."""
        entries = (*self.before, *self.after)
        failed = {"not_working" for entry in entries if entry.outcome == "fails"}
        return frozenset({self.change.id, *failed, *self.conditions})

    def says(self) -> str:
        """What the later record says, and what the earlier one said of the same flaw where it said it otherwise."""
        earlier, later = ("; ".join(named(entry) for entry in entries) for entries in (self.before, self.after))
        if not (earlier and later) or earlier == later:
            return later or earlier
        return f"{later} (before: {earlier})"


@dataclass(frozen=True)
class Sorted:
    """All changes: those to charge, those that lack a baseline, those still open, and those that cost nothing."""

    to_charge: tuple[Flaw, ...]
    without_baseline: tuple[Flaw, ...]
    open: tuple[Flaw, ...]
    free: tuple[tuple[Flaw, str], ...]


def flaws_of(comparison: Comparison, before: Findings, after: Findings) -> tuple[Flaw, ...]:
    """Every change with its entries. Raises CannotSettle where one of them is not, or not any more, in its record."""
    earlier, later = _by_id(before), _by_id(after)
    return tuple(
        Flaw(
            change,
            _found(change, change.before, earlier, comparison.before.stands_in),
            _found(change, change.after, later, comparison.after.stands_in),
        )
        for change in comparison.changes
    )


def sort_flaws(flaws: Iterable[Flaw]) -> Sorted:
    """What may be charged and what not. What is unchanged, better, gone or not mentioned is never charged."""
    to_charge, bare, undecided = [], [], []
    free: list[tuple[Flaw, str]] = []
    for flaw in flaws:
        verdict = flaw.change.judgement.verdict if flaw.change.judgement else "open"
        if flaw.change.outcome in WHY_NEVER:
            free.append((flaw, WHY_NEVER[flaw.change.outcome]))
        elif verdict in WHY_NOT_WORSE:
            free.append((flaw, WHY_NOT_WORSE[verdict]))
        elif flaw.change.outcome not in COULD_BE_CHARGED:
            bare.append(flaw)
        elif verdict == "open":
            undecided.append(flaw)
        else:
            to_charge.append(flaw)
    return Sorted(tuple(to_charge), tuple(bare), tuple(undecided), tuple(free))


def _by_id(findings: Findings) -> Mapping[str, Entry]:
    return {entry.id: entry for entry in findings.entries}


def _found(change: FlawChange, ids: tuple[str, ...], entries: Mapping[str, Entry], file: str) -> tuple[Entry, ...]:
    for name in ids:
        if name not in entries:
            raise CannotSettle(f"change {change.id} names entry {name}, which is not in {file}; compare the two again")
        if not entries[name].stands:
            raise CannotSettle(
                f"change {change.id} rests on entry {name} of {file}, which was {_left(entries[name])} since; "
                "compare the two again"
            )
    if not change.before and not change.after:
        raise CannotSettle(f"change {change.id} names no entry of either record; compare the two again")
    return tuple(entries[name] for name in ids)


def _left(entry: Entry) -> str:
    return f"merged into {entry.merged_into}" if entry.merged_into else "dropped in the review"
