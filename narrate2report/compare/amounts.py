"""Whether a flaw that both records tell of is plainly more, less, or the same: by count, size, kind, gravity, spread.

What is only said once (a size, a count) tells nothing of growth. The weightiest sign decides, and all are told.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from narrate2report.compare.flaws import Flaw
from narrate2report.compare.phrases import has_words, says
from narrate2report.compare.terms import Terms, Tie
from narrate2report.wording import plain

PLAINLY = 1.25
"""Of two sizes as people tell them ("about three inches"), one is plainly larger from a quarter more on."""
EQUAL = 1.15
"""Up to here two told sizes agree: `two inches` and `5 cm` are 1.6 % apart, `4 in` and `10 cm` as well."""

_GRAVITY = {"slight": 1, "moderate": 2, "severe": 3}
_UNSAID_GRAVITY = 2


@dataclass(frozen=True)
class Sign:
    """One sign that a flaw is more (1), less (-1) or as it was (0), in words."""

    way: int
    why: str


def signs(before: Sequence[Flaw], after: Sequence[Flaw], tie: Tie, terms: Terms) -> tuple[Sign, ...]:
    """All signs of growth between flaws that are one, the weightiest first."""
    one, other = before[0], after[0]
    return (
        *_mended(tie, one, other),
        *_counts(before, after),
        *_sizes(one, other),
        *_turned(tie, one, other),
        *_gravity(one, other),
        *_spread(one, other, terms),
    )


def way(found: Sequence[Sign]) -> int:
    """More (1), less (-1) or the same (0): the weightiest sign that says either."""
    return next((sign.way for sign in found if sign.way), 0)


def is_equal_size(one: Flaw, other: Flaw) -> bool:
    """Whether both sizes were told and agree."""
    ratio = _ratio(one, other)
    return ratio is not None and 1 / EQUAL <= ratio <= EQUAL


def is_many(flaw: Flaw) -> bool:
    """Whether it was told of a component at large: without a place, and not of one or so many (`walls are scuffed`)."""
    return not flaw.place.told and flaw.entry.size is None and flaw.count is None


def _ratio(before: Flaw, after: Flaw) -> float | None:
    return after.size_cm / before.size_cm if before.size_cm and after.size_cm else None


def _mended(tie: Tie, before: Flaw, after: Flaw) -> Iterator[Sign]:
    if tie.how == "mended":
        yield Sign(-1, f"The {plain(before.kind)} was repaired and the repair can be seen.")
    elif before.kind == "patched" and after.kind != "patched":
        yield Sign(1, f"It was repaired when the earlier walk was made, and is a {plain(after.kind)} now.")


def _counts(before: Sequence[Flaw], after: Sequence[Flaw]) -> Iterator[Sign]:
    one, other = _total(before), _total(after)
    if one is None or other is None or one == other:
        return
    yield Sign(1 if other > one else -1, f"There were {one} and there are {other} now.")


def _total(flaws: Sequence[Flaw]) -> int | None:
    counts = [flaw.count for flaw in flaws]
    return None if None in counts else sum(count for count in counts if count is not None)


def _sizes(before: Flaw, after: Flaw) -> Iterator[Sign]:
    ratio = _ratio(before, after)
    if ratio is None:
        return
    told = f"{_told_size(before)} then, {_told_size(after)} now"
    if ratio >= PLAINLY:
        yield Sign(1, f"It is plainly larger: {told}.")
    elif ratio <= 1 / PLAINLY:
        yield Sign(-1, f"It is plainly smaller: {told}.")
    else:
        yield Sign(0, f"Its size is about the same: {told}.")


def _told_size(flaw: Flaw) -> str:
    if flaw.entry.size is not None:
        return flaw.entry.size.text
    return f"about {flaw.size_cm:g} cm"


def _turned(tie: Tie, before: Flaw, after: Flaw) -> Iterator[Sign]:
    told = f"{plain(before.kind)} then, {plain(after.kind)} now"
    if tie.how == "grown" and before.kind != "patched":
        yield Sign(1, f"It has turned into something graver: {told}.")
    elif tie.how == "shrunk":
        yield Sign(-1, f"It is something lesser now: {told}.")


def _gravity(before: Flaw, after: Flaw) -> Iterator[Sign]:
    """A grave word stands against silence; that a later speaker leaves one out says nothing."""
    one, other = before.entry.severity, after.entry.severity
    if other is None or "possible" in (before.entry.assertion, after.entry.assertion):
        return
    gap = _GRAVITY[other] - (_GRAVITY[one] if one else _UNSAID_GRAVITY)
    if gap > 0:
        yield Sign(1, f"It is graver: {other} now, {one or 'no such word'} then.")
    elif gap < 0 and one is not None:
        yield Sign(-1, f"It is less grave: {other} now, {one} then.")


def _spread(before: Flaw, after: Flaw, terms: Terms) -> Iterator[Sign]:
    cues = terms.likeness.cues
    if says(after.quote, cues.grown) and not says(before.quote, cues.grown):
        yield Sign(1, "The later speaker says that it has grown.")
    elif says(after.quote, cues.shrunk) and not says(before.quote, cues.shrunk):
        yield Sign(-1, "The later speaker says that it is less.")
    elif has_words(after.quote, cues.as_before):
        yield Sign(0, "The later speaker says that it is as it was.")
    elif says(after.quote, cues.everywhere) and not says(before.quote, cues.everywhere):
        yield Sign(1, "It is all over now, as the later speaker says.")
