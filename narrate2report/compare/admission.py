"""Whether two records can be compared: what is refused, and what is allowed with a loud mark."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from datetime import date
from difflib import get_close_matches

from narrate2report.compare.terms import Terms
from narrate2report.errors import BadInput
from narrate2report.records.findings import Findings, Sourced
from narrate2report.records.header import disagree, first_told, tells_less
from narrate2report.wording import WALKS, counted

_ORDER = {"move_in": 0, "periodic": 1, "move_out": 2}


def admit(before: tuple[str, Findings], after: tuple[str, Findings], terms: Terms) -> tuple[str, ...]:
    """What a person must mind before relying on a comparison of two records, each given with its file's name.

    Raises BadInput for two records that are one, that are of different units, that stand in the wrong order, or that
    name something that no vocabulary knows.
    """
    for name, findings in (before, after):
        _check_names(name, findings, terms)
        _check_ids(name, findings)
    (earlier_name, earlier), (later_name, later) = before, after
    _check_two(earlier_name, earlier, later_name, later)
    unit_marks = _unit_marks(earlier_name, earlier, later_name, later)
    _check_order(earlier_name, earlier, later_name, later)
    marks = [mark for side in (before, after) for mark in _marks(*side)]
    return (*marks, *unit_marks, *_order_marks(earlier_name, earlier, later_name, later))


def _check_two(one: str, before: Findings, other: str, after: Findings) -> None:
    recorded = [tuple(recording.sha256 for recording in walk.recordings) for walk in (before, after)]
    if before == after or (recorded[0] and recorded[0] == recorded[1] and before.entries == after.entries):
        raise BadInput(f"{one} and {other} are the same walk; name the earlier record and then the later one")


def _unit_marks(one: str, before: Findings, other: str, after: Findings) -> tuple[str, ...]:
    """What hinders telling that both walks are of one unit.

    Raises BadInput where they are of two. Where one says less than the other ("unit two", "unit two B"), it is for a
    person to say: a letter is left out when talking, and is soon missed when listening.
    """
    units = [walk.walkthrough.unit for walk in (before, after)]
    pairs = [(first.value, second.value) for first in units[0] for second in units[1]]
    if not pairs or not all(disagree(*pair) for pair in pairs):
        return ()
    told = f"{one} is of {units[0][0].value}, {other} of {units[1][0].value}"
    if any(tells_less(*pair) for pair in pairs):
        return (f"{told}: make sure that it is the same unit",)
    raise BadInput(f"two different units: {told}; only two walks of one unit can be compared")


def _check_order(one: str, before: Findings, other: str, after: Findings) -> None:
    """Dates decide; where one is missing, which walk it was."""
    days = [_day(walk.walkthrough.date) for walk in (before, after)]
    if days[0] and days[1]:
        if days[0] > days[1]:
            told = f"{one} is of {days[0].isoformat()}, {other} of {days[1].isoformat()}"
            raise BadInput(f"the order is swapped: {told}; name the earlier record first")
        return
    kinds, ranks = _kinds(before, after)
    if ranks[0] is not None and ranks[1] is not None and ranks[0] > ranks[1]:
        told = f"{one} is a {WALKS[kinds[0]]} walk, {other} a {WALKS[kinds[1]]} walk"
        raise BadInput(f"the order is swapped: {told}; name the earlier record first")


def _order_marks(one: str, before: Findings, other: str, after: Findings) -> Iterator[str]:
    """What hinders telling which walk was first. One day for both leaves it to the kinds, and so do no days."""
    for name, walk in ((one, before), (other, after)):
        if walk.walkthrough.date and _day(walk.walkthrough.date) is None:
            yield f"the date of {name} is no day ({walk.walkthrough.date[0].value!a})"
    days = [_day(walk.walkthrough.date) for walk in (before, after)]
    ranks = _kinds(before, after)[1]
    is_told = ranks[0] is not None and ranks[1] is not None and ranks[0] < ranks[1]
    if days[0] is not None and days[0] == days[1]:
        yield f"both walks are of {days[0].isoformat()}: make sure that {one} is the earlier one"
    elif None in days and not is_told:
        yield f"nothing shows which walk was first, so that was not checked: make sure that {one} is the earlier one"


def _kinds(before: Findings, after: Findings) -> tuple[list[str], list[int | None]]:
    """Which walks they were, and the place of each in the order of a tenancy."""
    kinds = [first_told(walk.walkthrough.kind) or "" for walk in (before, after)]
    return kinds, [_ORDER.get(kind) for kind in kinds]


def _day(told: tuple[Sourced, ...]) -> date | None:
    try:
        return date.fromisoformat(told[0].value) if told else None
    except ValueError:
        return None


def _check_ids(name: str, findings: Findings) -> None:
    """A change names entries by their ids, so that an id may stand for one alone."""
    counted_ids = Counter(entry.id for entry in findings.entries)
    twice = next((one for one, times in counted_ids.items() if times > 1), None)
    if twice is not None:
        raise BadInput(f"{name}: the entry {twice} stands in it twice, so nothing can be said of it; draft it anew")


def _check_names(name: str, findings: Findings, terms: Terms) -> None:
    for entry in findings.entries:
        for what, told, known in (
            ("room", entry.room.partition(".")[0], terms.rooms),
            ("component", entry.component, terms.components),
            ("condition", entry.condition, terms.classes),
        ):
            if told is not None and told not in known:
                close = get_close_matches(told, list(known), n=1)
                meant = f"; did you mean {close[0]}?" if close else "."
                raise BadInput(
                    f"{name}: entry {entry.id} names the {what} {told!r}, which is not known{meant}"
                    " Correct the entry, or name the folder of your own words with --vocab"
                )


def _marks(name: str, findings: Findings) -> Iterator[str]:
    if findings.seal is None:
        yield f"{name} is not sealed: it may have been changed since the walk, so nothing here is proof yet"
        undecided = sum(entry.state == "proposed" for entry in findings.entries)
        if undecided:
            yield f"{name} is a draft: {counted(undecided, 'entry', 'entries')} no person has decided about"
    if not findings.walkthrough.unit:
        yield f"{name} does not say which unit was walked: make sure that it is the same one"
    for clash in findings.walkthrough.clashes:
        yield f"in {name} sources disagree on {clash}"
