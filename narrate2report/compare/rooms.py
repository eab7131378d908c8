"""Which room of the later record is which of the earlier one: by what they are, not by what they are called.

A person's word comes first, then equal names, then names that say the same (`bedroom.primary`, `bedroom.main`), then
the only ones of a kind that are left, then what was said in them. Where that does not decide, nothing is taken to be
the same: the person is asked.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from scipy.optimize import linear_sum_assignment

from narrate2report.compare.alike import likeness
from narrate2report.compare.flaws import Flaw
from narrate2report.compare.phrases import has_words
from narrate2report.compare.terms import Terms
from narrate2report.records.comparison import SameRoom, UnclearRoom
from narrate2report.records.findings import Entry
from narrate2report.wording import room_name

ENOUGH = 0.8
"""How much what was said must speak for two rooms being one."""
SOME = 0.05
"""How much of it must agree where two rooms of different kinds are the only ones left."""
AHEAD = 0.5
"""By how much it must speak more for it than for any other."""

_FLAW = 1.0
_NAMED = 1.0
_WHAT_IT_IS = 0.6
_SAME_THINGS = 0.4
_OTHER_KIND = 0.1
NOT_THERE = "none"
"""What a person writes for a room that the other record does not have."""


@dataclass(frozen=True)
class Spoken:
    """One record by its rooms: what was said in each, and its flaws."""

    entries: Mapping[str, Sequence[Entry]]
    flaws: Mapping[str, Sequence[Flaw]]

    @classmethod
    def of(cls, rooms: Iterable[str], entries: Iterable[Entry], flaws: Iterable[Flaw]) -> Spoken:
        """By room; `rooms` are those that were walked, said in or not."""
        said: dict[str, list[Entry]] = {room: [] for room in rooms}
        seen: dict[str, list[Flaw]] = {}
        for entry in entries:
            said.setdefault(entry.room, []).append(entry)
        for flaw in flaws:
            seen.setdefault(flaw.entry.room, []).append(flaw)
        return cls(said, seen)


@dataclass(frozen=True)
class RoomsMatched:
    """The rooms that are one, by their names in the earlier record; those that were so matched though named
    otherwise; and what is left for a person to say."""

    same: Mapping[str, str]
    renamed: tuple[SameRoom, ...]
    unclear: tuple[UnclearRoom, ...]


def match_rooms(before: Spoken, after: Spoken, given: Mapping[str, str], terms: Terms) -> RoomsMatched:
    """Bring the rooms of two records together. `given` is what a person said: earlier name to later, or NOT_THERE."""
    told = [SameRoom(before=one, after=other, because="said by a person", given=True) for one, other in given.items()]
    renamed = [same for same in told if NOT_THERE not in (same.before, same.after)]
    left = [room for room in before.entries if room not in given]
    over = [room for room in after.entries if room not in given.values()]
    same = {match.before: match.after for match in renamed}
    for room in [room for room in left if room in over]:
        same[room] = room
    unmatched = _Unmatched([room for room in left if room not in same], [room for room in over if room not in left])
    for found in (
        *_said_the_same(unmatched, terms),
        *_only_ones(unmatched, before, after, terms),
        *_by_what_was_said(unmatched, before, after, terms),
        *_only_ones(unmatched, before, after, terms),
    ):
        same[found.before] = found.after
        renamed.append(found)
    return RoomsMatched(same, tuple(sorted(renamed, key=lambda one: one.before)), _questions(unmatched, terms))


@dataclass
class _Unmatched:
    """Rooms that have found no partner yet."""

    before: list[str]
    after: list[str]

    def take(self, before: str, after: str, because: str) -> SameRoom:
        self.before.remove(before)
        self.after.remove(after)
        return SameRoom(before=before, after=after, because=because)


def _said_the_same(unmatched: _Unmatched, terms: Terms) -> Iterator[SameRoom]:
    for before in list(unmatched.before):
        base, suffix = _parts(before, terms)
        fitting = [room for room in unmatched.after if suffix and _parts(room, terms) == (base, suffix)]
        if len(fitting) == 1:
            yield unmatched.take(before, fitting[0], "both names say the same")


def _only_ones(unmatched: _Unmatched, before: Spoken, after: Spoken, terms: Terms) -> Iterator[SameRoom]:
    """A room that can be only one of the other record, which can be only this one: the same kind first.

    Where the kinds differ, some of what was said must agree as well.
    """
    for kinds, why in ((_is_one_kind, "the only {} left in both records"), (_may_be, "the only rooms left that fit")):
        for room in list(unmatched.before):
            fitting = [one for one in unmatched.after if kinds(room, one, terms)]
            if len(fitting) != 1 or [one for one in unmatched.before if kinds(one, fitting[0], terms)] != [room]:
                continue
            if kinds is _is_one_kind or _agreement(room, fitting[0], before, after, terms) >= SOME:
                yield unmatched.take(room, fitting[0], why.format(room_name(room.partition(".")[0]).lower()))


def _by_what_was_said(unmatched: _Unmatched, before: Spoken, after: Spoken, terms: Terms) -> Iterator[SameRoom]:
    rows, columns = list(unmatched.before), list(unmatched.after)
    if not rows or not columns:
        return
    worth = np.array([[_agreement(one, other, before, after, terms) for other in columns] for one in rows])
    for row, column in zip(*linear_sum_assignment(worth, maximize=True), strict=True):
        rivals = [*np.delete(worth[row], column), *np.delete(worth[:, column], row)]
        if worth[row, column] >= max(ENOUGH, max(rivals, default=0.0) + AHEAD):
            yield unmatched.take(rows[row], columns[column], "what was said in both agrees best")


def _agreement(one: str, other: str, before: Spoken, after: Spoken, terms: Terms) -> float:
    """How much what was said speaks for two rooms being one: flaws that both tell, what things are, names."""
    if not _may_be(one, other, terms):
        return 0.0
    grade = 0.0 if _is_one_kind(one, other, terms) else -_OTHER_KIND
    left = list(after.flaws.get(other, ()))
    for flaw in before.flaws.get(one, ()):
        graded = [(found.grade, later) for later in left if (found := likeness(flaw, later, 1.0, terms))]
        if graded:
            best, later = max(graded, key=lambda told: (told[0], -told[1].number))
            left.remove(later)
            grade += _FLAW * best * (0.5 if not (flaw.place.told and later.place.told) else 1.0)
    earlier, later_said = before.entries[one], after.entries[other]
    grade += _WHAT_IT_IS * len(_described(earlier) & _described(later_said))
    grade += _SAME_THINGS * _shared({entry.component for entry in earlier}, {entry.component for entry in later_said})
    return grade + _NAMED * (_names(one, later_said) + _names(other, earlier))


def _described(entries: Iterable[Entry]) -> set[tuple[str, str, str]]:
    found = ((entry.component, entry.attribute) for entry in entries)
    return {(component, told.name, told.value.lower()) for component, told in found if told is not None}


def _shared(one: set[str], other: set[str]) -> float:
    return len(one & other) / len(one | other) if one | other else 0.0


def _names(room: str, entries: Iterable[Entry]) -> bool:
    """Whether what was said elsewhere holds the room's own name: `looks out on the back` for `bedroom.back`."""
    words = [word for word in room.partition(".")[2].split("_") if word and not word.isdigit()]
    return bool(words) and any(has_words(piece.quote.lower(), words) for one in entries for piece in one.evidence)


def _questions(unmatched: _Unmatched, terms: Terms) -> tuple[UnclearRoom, ...]:
    asked = ((room, [one for one in unmatched.before if _may_be(one, room, terms)]) for room in unmatched.after)
    return tuple(UnclearRoom(after=room, candidates=tuple(fitting)) for room, fitting in asked if fitting)


def _parts(room: str, terms: Terms) -> tuple[str, frozenset[str]]:
    """The kind of a room, and the words of its suffix as those that say the same are called."""
    base, _, suffix = room.partition(".")
    alike = terms.likeness.rooms.alike
    names = {word: name for name, words in alike.items() for word in words}
    return base, frozenset(names.get(word, word) for word in suffix.split("_") if word)


def _is_one_kind(before: str, after: str, terms: Terms) -> bool:
    return before.partition(".")[0] == after.partition(".")[0] and not _excluded(before, after, terms)


def _may_be(before: str, after: str, terms: Terms) -> bool:
    """Whether two rooms may be one: of one kind or of kinds that are named for each other, and not told apart."""
    bases = {before.partition(".")[0], after.partition(".")[0]}
    near = len(bases) == 1 or any(bases <= set(kinds) for kinds in terms.likeness.rooms.near.values())
    return near and not _excluded(before, after, terms)


def _excluded(before: str, after: str, terms: Terms) -> bool:
    """Whether the suffixes tell two rooms apart: `bedroom.front` and `bedroom.back`, `bedroom.2` and `bedroom.3`."""
    one, other = _parts(before, terms)[1], _parts(after, terms)[1]
    if one & other:
        return False
    numbers = [next((word for word in words if word.isdigit()), None) for words in (one, other)]
    if None not in numbers and numbers[0] != numbers[1]:
        return True
    return any(one & set(names) and other & set(names) for names in terms.likeness.rooms.contrary.values())
