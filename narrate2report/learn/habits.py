"""What reviewers did again and again, by the drafts that they began with and what they left: counted, not judged."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from typing import Literal, NamedTuple

from narrate2report.records.findings import WITHDRAWN, Entry, Findings
from narrate2report.records.proposal import Habit
from narrate2report.wording import plain

COMPARED = ("kind", "room", "component", "condition", "assertion", "outcome", "action")
FEWEST_WALKS = 2

Did = Literal["added", "changed", "dropped"]


class _Deed(NamedTuple):
    did: Did
    told: str
    quote: str


def find_habits(reviews: Iterable[tuple[Findings, Findings]]) -> tuple[Habit, ...]:
    """What was done in several walks, the most frequent first. Each review is a draft and what became of it."""
    quotes: dict[tuple[Did, str], list[str]] = defaultdict(list)
    walks: dict[tuple[Did, str], set[int]] = defaultdict(set)
    for number, (draft, decided) in enumerate(reviews):
        for deed in _deeds(draft, decided):
            quotes[deed.did, deed.told].append(deed.quote)
            walks[deed.did, deed.told].add(number)
    habits = [
        Habit(did, told, len(said), len(walks[did, told]), said[0])
        for (did, told), said in quotes.items()
        if len(walks[did, told]) >= FEWEST_WALKS
    ]
    return tuple(sorted(habits, key=lambda habit: (-habit.walks, -habit.times, habit.did, habit.told)))


def _deeds(draft: Findings, decided: Findings) -> Iterator[_Deed]:
    before = {entry.id: entry for entry in draft.entries}
    for entry in decided.entries:
        quote, first = entry.evidence[0].quote, before.get(entry.id)
        if first is None:
            if entry.stands and entry.split_from is None:
                yield _Deed("added", _statement(entry), quote)
        elif is_left_out(entry):
            yield _Deed("dropped", _statement(first), quote)
        elif entry.stands:
            yield from (_Deed("changed", told, quote) for told in _changes(first, entry))


def is_left_out(entry: Entry) -> bool:
    """Whether a person said that it was read wrong, rather than taken back or said twice."""
    why = (entry.decided.why if entry.decided else None) or ""
    return not entry.stands and entry.merged_into is None and not why.startswith(WITHDRAWN)


def _changes(before: Entry, after: Entry) -> Iterator[str]:
    for name in COMPARED:
        was, became = _field(before, name), _field(after, name)
        if was != became and was and became:
            yield f"{name} {was} → {became}"


def _field(entry: Entry, name: str) -> str:
    value = getattr(entry, name) or ""
    return plain(value.partition(".")[0])


def _statement(entry: Entry) -> str:
    """`countertop chip`, `oven works`: what it says, wherever it is."""
    told = (entry.condition, entry.outcome, entry.action, entry.attribute.name if entry.attribute else None)
    absent = "no " if entry.assertion == "absent" else ""
    says = next((one for one in told if one), entry.kind)
    return f"{plain(entry.component)}: {absent}{plain(says)}"
