"""What the last walk of a unit left: its flaws, what it did not try, work that was to be done, what it handed over."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from narrate2report.records.card import Again, AgainSort, Handed, LastWalk, WalkKind
from narrate2report.records.findings import Entry, Findings
from narrate2report.wording import Phrases, joined, moment, pieces

_PHRASES = Phrases(work="{action}{by}")
"""As everywhere, save that work stands without a heading of its own: the card has one."""
_KINDS: dict[str, WalkKind] = {"move_in": "move_in", "move_out": "move_out", "periodic": "periodic"}


@dataclass(frozen=True)
class Old:
    """Something to be looked at again, with where it was."""

    room: str
    component: str
    again: Again


def old_of(last: Findings) -> tuple[Old, ...]:
    """Everything of the last walk to be looked at again, in walk order. What a person left out is not among it."""
    return tuple(
        Old(entry.room, entry.component, Again(entry.id, sort, joined(pieces(entry, _PHRASES)), _moment(entry, last)))
        for entry in _kept(last)
        if (sort := _sort(entry)) is not None
    )


def handed_of(last: Findings) -> tuple[Handed, ...]:
    """What was given to the resident on the last walk, and how many, as far as that was said."""
    return tuple(
        Handed(entry.component, entry.quantity, _moment(entry, last))
        for entry in _kept(last)
        if entry.kind == "handover" and entry.direction != "returned"
    )


def walked_of(last: Findings) -> tuple[str, ...]:
    """The rooms of the last walk, each once, in the order in which they were entered."""
    return tuple(dict.fromkeys(visit.room for visit in last.rooms))


def last_walk(last: Findings, *, reviewed: bool) -> LastWalk:
    """Which walk that was. A fact whose sources disagree is left out: the card settles no clash."""
    header = last.walkthrough
    kind = header.kind[0].value if len({one.value for one in header.kind}) == 1 else ""
    day = header.date[0].value if len({one.value for one in header.date}) == 1 else None
    return LastWalk(_KINDS.get(kind), day, reviewed)


def _kept(last: Findings) -> Iterator[Entry]:
    yield from (entry for entry in last.entries if entry.stands)


def _sort(entry: Entry) -> AgainSort | None:
    if entry.is_adverse:
        return "flaw"
    if entry.kind == "check" and entry.outcome == "not_tested":
        return "untested"
    return "work" if entry.kind == "follow_up" else None


def _moment(entry: Entry, last: Findings) -> str:
    first = entry.evidence[0]
    return moment(first.recording, first.start, len(last.recordings))
