"""A request and the record as it stands give the changes of one decision. Pure: nothing is read or written here.

A change holds what was and what becomes, so taking it back needs no rule of its own.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeVar

from narrate2report.errors import CannotDecide
from narrate2report.records.findings import WITHDRAWN, Acknowledged, Coverage, Entry, Findings, Still
from narrate2report.records.journal import Change as Changed
from narrate2report.records.journal import CoverageChange, EntryChange, UnusedChange
from narrate2report.review import requests as ask
from narrate2report.review.added import added_entry, new_id
from narrate2report.review.facts import with_facts
from narrate2report.review.hand import Hand
from narrate2report.review.spine import Sentence, began_at, spans_said
from narrate2report.wording import named

Part = TypeVar("Part")

STATEMENT = ("kind", "room", "component", "condition", "assertion", "outcome", "action", "direction", "attribute")
"""What two entries must have in common to say the same; place, size and number only tell more of it."""


def statement(entry: Entry) -> str:
    """The same text for all entries that say the same."""
    return repr([getattr(entry, name) for name in STATEMENT])


def keeper_before(findings: Findings, entry: Entry) -> Entry | None:
    """The entry that another one is merged into: the nearest before it that says the same, or else the one before."""
    place = next(number for number, one in enumerate(findings.entries) if one.id == entry.id)
    earlier = findings.entries[:place][::-1]
    says = statement(entry)
    same = (one for one in earlier if one.stands and statement(one) == says)
    return next(same, earlier[0] if earlier else None)


@dataclass(frozen=True)
class Standing:
    """The record as it stands, its sentences in order, and each entry, by id, as it first came into the record."""

    findings: Findings
    spine: Sequence[Sentence]
    first: Mapping[str, Entry]


def decide(standing: Standing, wanted: ask.Decide, hand: Hand, still: Still | None = None) -> tuple[Changed, ...]:
    """What a request changes. `still` is the picture that was taken for it.

    Raises CannotDecide where the record does not allow it or nothing would change.
    """
    findings = standing.findings
    match wanted:
        case ask.Accept():
            changes = _accept(standing, wanted.entries, hand)
        case ask.Drop():
            changes = _drop(findings, wanted.entries, hand, wanted.why)
        case ask.Withdraw():
            changes = _drop(findings, (wanted.entry,), hand, f"{WITHDRAWN} {wanted.why}")
        case ask.Reopen():
            undecided = {"state": "proposed", "decided": None}
            changes = [_changed(entry, **undecided) for entry in _own(findings, wanted.entries)]
        case ask.Change():
            changes = [_change(standing, wanted, hand)]
        case ask.Add():
            changes = _add(standing, wanted, hand)
        case ask.Merge():
            changes = _merge(findings, wanted, hand)
        case ask.Split():
            changes = _split(_entry(findings, wanted.entry), hand)
        case ask.TakeStill():
            changes = _take(_entry(findings, wanted.entry), still)
        case ask.RemoveStill():
            changes = _remove(_entry(findings, wanted.entry), wanted.sha256)
        case ask.Acknowledge():
            changes = _acknowledge(findings, wanted, hand)
    changes = [change for change in changes if change.before != change.after]
    if not changes:
        raise CannotDecide("that is how it stands already; nothing was changed")
    return tuple(changes)


def _entries(findings: Findings, wanted: Iterable[str]) -> list[Entry]:
    known = {entry.id: entry for entry in findings.entries}
    missing = [entry for entry in wanted if entry not in known]
    if missing:
        raise CannotDecide(f"no entry {missing[0]!r} in this record; open the page anew to see what there is")
    return [known[entry] for entry in dict.fromkeys(wanted)]


def _entry(findings: Findings, wanted: str) -> Entry:
    return _entries(findings, [wanted])[0]


def _own(findings: Findings, wanted: Iterable[str]) -> list[Entry]:
    """The entries, each of which stands for its own words: what was merged away would say them a second time."""
    entries = _entries(findings, wanted)
    for entry in entries:
        if entry.merged_into is not None:
            keeper = named(_entry(findings, entry.merged_into))
            raise CannotDecide(f"this was merged into {keeper}; undo that, or split the one that took it over")
    return entries


def _changed(entry: Entry, **fields: object) -> Changed:
    return EntryChange(before=entry, after=entry.model_copy(update=fields))


def _accept(standing: Standing, wanted: Sequence[str], hand: Hand) -> list[Changed]:
    """Accepted is what stands as it was read; what a person has changed is `changed`, whatever came in between."""
    accepted = {"decided": hand.decision()}
    return [
        _changed(entry, state="accepted" if _as_first_read(standing, entry) else "changed", **accepted)
        for entry in _own(standing.findings, wanted)
        if entry.state not in ("accepted", "changed")
    ]


def _as_first_read(standing: Standing, entry: Entry) -> bool:
    first = standing.first[entry.id]
    bookkeeping = {name: getattr(first, name) for name in ("state", "decided", "merged_into", "stills")}
    return entry.model_copy(update=bookkeeping) == first


def _drop(findings: Findings, wanted: Sequence[str], hand: Hand, why: str | None) -> list[Changed]:
    """Leave out; what is left out already may still be given its reason."""
    return [
        _changed(entry, state="dropped", decided=hand.decision(why))
        for entry in _own(findings, wanted)
        if entry.stands or (why and (entry.decided is None or entry.decided.why != why))
    ]


def _change(standing: Standing, wanted: ask.Change, hand: Hand) -> Changed:
    (entry,) = _own(standing.findings, (wanted.entry,))
    where_said = spans_said(standing.spine, standing.first[entry.id], entry)
    after = with_facts(standing.findings, entry, wanted.facts, where_said)
    if after == entry:
        raise CannotDecide("that is how it stands already; nothing was changed")
    return EntryChange(before=entry, after=after.model_copy(update={"state": "changed", "decided": hand.decision()}))


def _add(standing: Standing, wanted: ask.Add, hand: Hand) -> list[Changed]:
    findings = standing.findings
    entry, used = added_entry(findings, standing.spine, wanted, hand.number)
    entry = entry.model_copy(update={"state": "accepted", "decided": hand.decision()})
    gone = [UnusedChange(before=unused, after=None) for unused in findings.unused if unused.id in used]
    return [EntryChange(before=None, after=entry), *gone]


def _merge(findings: Findings, wanted: ask.Merge, hand: Hand) -> list[Changed]:
    """The first stays and takes over what the others rest on: evidence, repairs of mishearings, pictures.

    They must say the same, or what the others say would be gone without anyone having left it out.
    """
    first, *others = _own(findings, wanted.entries)
    if not others:
        raise CannotDecide("an entry cannot be merged with itself; choose another one")
    if any(not entry.stands for entry in (first, *others)):
        raise CannotDecide("one of them was left out and does not come back by a merge; decide it again first")
    for other in others:
        _check_same(first, other)
    every = sorted((first, *others), key=lambda entry: began_at(findings, entry))
    after = first.model_copy(
        update={
            "evidence": _joined(entry.evidence for entry in every),
            "heard": _joined(entry.heard for entry in every),
            "stills": _joined(entry.stills for entry in every),
            "state": "changed",
            "decided": hand.decision(),
        }
    )
    gone = {"state": "dropped", "decided": hand.decision(f"merged into {first.id}"), "merged_into": first.id}
    return [EntryChange(before=first, after=after), *(_changed(other, **gone) for other in others)]


def _check_same(first: Entry, other: Entry) -> None:
    if differing := next((name for name in STATEMENT if getattr(first, name) != getattr(other, name)), None):
        one, two = (named(entry) for entry in (first, other))
        raise CannotDecide(
            f"these say different things ({differing}): {one} and {two}; change or leave out one of them first"
        )


def _joined(groups: Iterable[Iterable[Part]]) -> tuple[Part, ...]:
    found: list[Part] = []
    for group in groups:
        found.extend(one for one in group if one not in found)
    return tuple(found)


def _split(entry: Entry, hand: Hand) -> list[Changed]:
    """A second entry on the same words, proposed, so that the person says what it is."""
    identity = new_id("split", entry.id, hand.number)
    second = {"id": identity, "split_from": entry.id, "state": "proposed", "decided": None, "merged_into": None}
    return [EntryChange(before=None, after=entry.model_copy(update=second))]


def _take(entry: Entry, still: Still | None) -> list[Changed]:
    if still is None:
        raise CannotDecide("no picture was taken; nothing was changed")
    if still in entry.stills:
        raise CannotDecide("that picture is there already; step to another one")
    stills = sorted((*entry.stills, still), key=lambda one: (one.recording, one.time))
    return [_changed(entry, stills=tuple(stills))]


def _remove(entry: Entry, sha256: str) -> list[Changed]:
    if all(still.sha256 != sha256 for still in entry.stills):
        raise CannotDecide("that picture is not there any more; nothing was changed")
    return [_changed(entry, stills=tuple(still for still in entry.stills if still.sha256 != sha256))]


def _acknowledge(findings: Findings, wanted: ask.Acknowledge, hand: Hand) -> list[Changed]:
    known = {(line.room, line.component): line for line in findings.coverage}
    gaps = [known.get((gap.room, gap.component)) for gap in dict.fromkeys(wanted.gaps)]
    return [_acknowledged(gap, wanted, hand) for gap in gaps]


def _acknowledged(line: Coverage | None, wanted: ask.Acknowledge, hand: Hand) -> Changed:
    if line is None or line.status != "not_noted":
        raise CannotDecide("that component is no gap of this record; open the page anew to see what there is")
    if wanted.looked == "looked_at_since" and not wanted.note:
        raise CannotDecide("say in a note what was seen when you looked")
    said = Acknowledged(looked=wanted.looked, note=wanted.note or None, by=hand.by, at=hand.at)
    before = line.acknowledged
    if before is not None and (before.looked, before.note) == (said.looked, said.note):
        said = before
    return CoverageChange(before=line, after=line.model_copy(update={"acknowledged": said}))
