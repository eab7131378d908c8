"""A request and the comparison as it stands give what one decision alters. Pure: nothing is read or written here.

No entry is ever lost or doubled: an adverse one moves from one change into another, and what else stands beside it as
evidence goes along where nothing adverse would be left. What a person has not said of a change that was taken apart is
the outcome that claims least, and it is to be confirmed anew.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import count

from narrate2report.errors import CannotDecide
from narrate2report.records.comparison import SIDES, TO_JUDGE, Became, Comparison, FlawChange, Judgement, Side
from narrate2report.records.comparison_journal import FlawAltered
from narrate2report.review import judging_requests as ask
from narrate2report.review.hand import Hand
from narrate2report.wording import BECAME

Ids = tuple[str, ...]
Entries = dict[Side, Ids]
"""The entries of a change, by record."""


@dataclass(frozen=True)
class Standing:
    """A comparison as it stands, where each change that ever was one belongs, and which entries are adverse."""

    comparison: Comparison
    places: Mapping[str, int]
    adverse: Mapping[Side, frozenset[str]]

    def change(self, wanted: str) -> FlawChange:
        """The change of this id. Raises CannotDecide where there is none."""
        found = next((change for change in self.comparison.changes if change.id == wanted), None)
        if found is None:
            raise CannotDecide(f"no change {wanted!r} in this comparison; open the page anew to see what there is")
        return found

    def holder(self, side: Side, entry: str) -> FlawChange:
        """The change in which an entry stands as what it is about. Raises CannotDecide where there is none."""
        if entry in self.adverse[side]:
            for change in self.comparison.changes:
                if entry in change.of(side):
                    return change
        raise CannotDecide(f"no flaw {entry!r} in the record of {side}; open the page anew to see what there is")

    def flaws(self, entries: Mapping[Side, Ids], side: Side) -> Ids:
        """Which of these entries are adverse."""
        return tuple(entry for entry in entries[side] if entry in self.adverse[side])

    def fitting(self, entries: Mapping[Side, Ids]) -> tuple[Became, ...]:
        """What can have become of these entries, what claims least first."""
        before, after = (bool(self.flaws(entries, side)) for side in SIDES)
        if before and after:
            return "unchanged", "worse", "better"
        if before:
            return ("not_mentioned", "gone", "better") if entries["after"] else ("not_mentioned", "gone")
        return ("no_baseline", "new") if after else ()


@dataclass(frozen=True)
class Tally:
    """How many changes wait for a person."""

    to_confirm: int
    to_judge: int
    left_open: int


def tally(comparison: Comparison) -> Tally:
    """How much of a comparison is still to decide."""
    changes = comparison.changes
    return Tally(
        to_confirm=sum(not change.confirmed for change in changes),
        to_judge=sum(change.outcome in TO_JUDGE and change.judgement is None for change in changes),
        left_open=sum(change.judgement is not None and change.judgement.verdict == "open" for change in changes),
    )


def judge(standing: Standing, wanted: ask.Decide, hand: Hand) -> tuple[FlawAltered, ...]:
    """What a request alters. Raises CannotDecide where the comparison does not allow it or nothing would change."""
    match wanted:
        case ask.Confirm():
            pairs = [(change, _confirmed(change, hand)) for change in _some(standing, wanted.changes)]
        case ask.SetOutcome():
            pairs = [_set(standing, standing.change(wanted.change), wanted.outcome, hand)]
        case ask.Judge():
            pairs = [(change, _judged(change, wanted, hand)) for change in _some(standing, wanted.changes)]
        case ask.Reopen():
            undecided = {"confirmed": False, "decided": None, "judgement": None}
            pairs = [(change, _with(change, **undecided)) for change in _some(standing, wanted.changes)]
        case ask.Pair():
            return _paired(standing, wanted, hand)
        case ask.Join():
            return _joined(standing, wanted, hand)
        case ask.Split():
            return _split(standing, wanted, hand)
    return _altered(standing, pairs)


def entries_of(change: FlawChange) -> Entries:
    """The entries of a change, by record."""
    return {side: change.of(side) for side in SIDES}


def _some(standing: Standing, wanted: Sequence[str]) -> list[FlawChange]:
    return [standing.change(name) for name in dict.fromkeys(wanted)]


def _confirmed(change: FlawChange, hand: Hand) -> FlawChange:
    return change if change.confirmed else _with(change, confirmed=True, decided=hand.decision())


def _set(standing: Standing, change: FlawChange, outcome: Became, hand: Hand) -> tuple[FlawChange, FlawChange]:
    """Another outcome is another thing to judge, so what was said of the old one goes."""
    if change.outcome == outcome:
        return change, _confirmed(change, hand)
    _check_fits(standing, entries_of(change), outcome)
    told = (*change.because, f"{BECAME[change.outcome]} before; set to {BECAME[outcome]} by {hand.by}")
    return change, _with(change, outcome=outcome, because=told, confirmed=True, decided=hand.decision(), judgement=None)


def _judged(change: FlawChange, wanted: ask.Judge, hand: Hand) -> FlawChange:
    """Whoever judges a change has agreed to it; who leaves it open has not."""
    judgement = Judgement(verdict=wanted.verdict, by=hand.by, at=hand.at, why=wanted.why or None)
    known = change.judgement
    if known is not None and (known.verdict, known.why) == (judgement.verdict, judgement.why):
        judgement = known
    agreed = change if wanted.verdict == "open" else _confirmed(change, hand)
    return _with(agreed, judgement=judgement)


def _paired(standing: Standing, wanted: ask.Pair, hand: Hand) -> tuple[FlawAltered, ...]:
    """The entry comes into the change; those of its record that were there go into a change of their own."""
    change, giver = standing.change(wanted.change), standing.holder(wanted.side, wanted.entry)
    if giver.id == change.id:
        raise CannotDecide("that entry stands in this change already")
    other: Side = "after" if wanted.side == "before" else "before"
    if not standing.flaws(entries_of(change), other):
        raise CannotDecide(f"this change has no flaw of the record of {other} to pair it with; join the two instead")
    left, brought = _without(standing, giver, wanted.side, wanted.entry)
    put_out = standing.flaws(entries_of(change), wanted.side)
    kept = {side: tuple(entry for entry in change.of(side) if side == other or entry not in put_out) for side in SIDES}
    now = _remade(standing, change, _and(kept, brought), wanted.outcome, f"paired by {hand.by}", hand)
    pairs: list[tuple[FlawChange | None, FlawChange | None]] = [(change, now), (giver, left)]
    if put_out:
        own: Entries = {"before": (), "after": ()}
        own[wanted.side] = put_out
        pairs.append((None, _new(standing, change, own, hand)))
    return _altered(standing, pairs, change.id)


def _joined(standing: Standing, wanted: ask.Join, hand: Hand) -> tuple[FlawAltered, ...]:
    first, *others = _some(standing, wanted.changes)
    if not others:
        raise CannotDecide("a change is joined with another one, not with itself")
    entries = entries_of(first)
    for other in others:
        entries = _and(entries, entries_of(other))
    now = _remade(standing, first, entries, wanted.outcome, f"joined with others by {hand.by}", hand)
    return _altered(standing, [(first, now), *((other, None) for other in others)])


def _split(standing: Standing, wanted: ask.Split, hand: Hand) -> tuple[FlawAltered, ...]:
    change = standing.change(wanted.change)
    own: Entries = {side: tuple(dict.fromkeys(getattr(wanted, side))) for side in SIDES}
    for side in SIDES:
        if strange := [entry for entry in own[side] if entry not in change.of(side)]:
            raise CannotDecide(f"the entry {strange[0]!r} does not stand in this change")
    rest = {side: tuple(entry for entry in change.of(side) if entry not in own[side]) for side in SIDES}
    if not standing.fitting(own) or not standing.fitting(rest):
        raise CannotDecide("each of the two needs a flaw: choose at least one, and leave at least one")
    now = _remade(standing, change, rest, None, f"taken apart by {hand.by}", hand)
    return _altered(standing, [(change, now), (None, _new(standing, change, own, hand))], change.id)


def _without(standing: Standing, giver: FlawChange, side: Side, entry: str) -> tuple[FlawChange | None, Entries]:
    """What is left of a change without an entry, and what goes: all of it, where nothing adverse would be left."""
    rest = {one: tuple(name for name in giver.of(one) if (one, name) != (side, entry)) for one in SIDES}
    if not standing.fitting(rest):
        return None, entries_of(giver)
    gone: Entries = {"before": (), "after": ()}
    gone[side] = (entry,)
    return _remade(standing, giver, rest, None, "one of its entries was paired otherwise", None), gone


def _remade(
    standing: Standing, change: FlawChange, entries: Entries, outcome: Became | None, why: str, hand: Hand | None
) -> FlawChange:
    """The change with other entries: confirmed where the person said its outcome, judged by nobody yet."""
    if outcome is not None:
        _check_fits(standing, entries, outcome)
    fitting = standing.fitting(entries)
    if not fitting:
        raise CannotDecide("none of these entries is a flaw by now; compare the two records again")
    became = outcome or (change.outcome if change.outcome in fitting else fitting[0])
    said = hand.decision() if hand and outcome else None
    return _with(
        change,
        outcome=became,
        **entries,
        because=(*change.because, why),
        confirmed=said is not None,
        decided=said,
        judgement=None,
    )


def _new(standing: Standing, origin: FlawChange, entries: Entries, hand: Hand) -> FlawChange:
    names = (f"{origin.id}.{hand.number}" + (f".{more}" if more else "") for more in count())
    name = next(name for name in names if name not in standing.places)
    told = (f"taken out of another change by {hand.by}",)
    return FlawChange(id=name, outcome=standing.fitting(entries)[0], **entries, because=told)


def _and(entries: Entries, others: Entries) -> Entries:
    return {side: tuple(dict.fromkeys((*entries[side], *others[side]))) for side in SIDES}


def _check_fits(standing: Standing, entries: Entries, outcome: Became) -> None:
    fitting = standing.fitting(entries)
    if outcome not in fitting:
        words = ", ".join(BECAME[one] for one in fitting)
        raise CannotDecide(f"“{BECAME[outcome]}” does not fit these entries; what fits: {words or 'nothing'}")


def _with(change: FlawChange, **fields: object) -> FlawChange:
    return FlawChange.model_validate({**change.model_dump(), **fields})


def _altered(
    standing: Standing, pairs: Sequence[tuple[FlawChange | None, FlawChange | None]], origin: str = ""
) -> tuple[FlawAltered, ...]:
    """What differs, each with its place; what is new stands where `origin` does."""
    altered = tuple(
        FlawAltered(before=before, after=after, place=standing.places[before.id if before else origin])
        for before, after in pairs
        if before != after
    )
    if not altered:
        raise CannotDecide("that is how it stands already; nothing was changed")
    return altered
