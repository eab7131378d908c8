"""What may be learnt from reviews, in plain text: proposals with their evidence, then what was put right most."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from narrate2report.publish.word_layer import evidence
from narrate2report.records.proposal import Habit, Proposal
from narrate2report.wording import counted

MOST_HABITS = 12


@dataclass(frozen=True)
class Learnt:
    """What came of reading the sealed walks of a folder again."""

    walks: int
    unsealed: int
    faults: tuple[str, ...]
    proposals: tuple[Proposal, ...]
    habits: tuple[Habit, ...]


def learnt_page(learnt: Learnt) -> str:
    """All of it for people."""
    return "\n".join(_lines(learnt))


def learnt_values(learnt: Learnt) -> dict[str, Any]:
    """All of it for machines, as plain JSON."""
    return asdict(learnt) | {
        "proposals": [
            {
                "file": f"{one.addition.place.file}.yaml",
                "keys": list(one.addition.place.keys),
                "phrase": one.addition.phrase,
                "sentences": one.said,
                "so": one.so,
                "precision": round(one.precision, 3),
                "walks": one.walks,
                "mends": one.mends,
                "makes": one.makes,
                "quote": one.quote,
            }
            for one in learnt.proposals
        ],
    }


def _lines(learnt: Learnt) -> Iterator[str]:
    yield f"{counted(learnt.walks, 'sealed walk')} read again" + (
        f"; {counted(learnt.unsealed, 'walk')} passed over, not sealed yet." if learnt.unsealed else "."
    )
    yield from (f"passed over: {fault}" for fault in learnt.faults)
    yield ""
    if learnt.proposals:
        yield f"{counted(len(learnt.proposals), 'word')} to think about:"
        yield from _proposals(learnt.proposals)
    else:
        yield "No word to propose: one must have led to mistakes that were put right in two walks at least."
    if learnt.habits:
        yield ""
        yield "Put right again and again, whatever the words:"
        yield from _habits(learnt.habits)


def _proposals(proposals: Sequence[Proposal]) -> Iterator[str]:
    heads = [f"{one.addition.place.told}: {one.addition.phrase}" for one in proposals]
    width = max(map(len, heads))
    for head, proposal in zip(heads, proposals, strict=True):
        yield f"  {head:<{width}}  {evidence(proposal)}"


def _habits(habits: Sequence[Habit]) -> Iterator[str]:
    shown = habits[:MOST_HABITS]
    width = max(len(habit.told) for habit in shown)
    for habit in shown:
        times = f"{habit.times} times in {counted(habit.walks, 'walk')}"
        yield f"  {habit.did:<7}  {habit.told:<{width}}  {times}"
    if len(habits) > MOST_HABITS:
        yield f"  and {len(habits) - MOST_HABITS} more (--json tells all)"
