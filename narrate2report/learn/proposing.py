"""Candidates to proposals: each is tried on the reviewed walks, and kept where the reading of them gets better.

Several are tried at once, as long as no two of them stand in one sentence; what a sentence loses or gains is put down
to the candidate in it, or to the last one before it, since reading only ever goes forward.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from narrate2report.learn.candidates import FEWEST_WALKS, At, Candidate, find_candidates
from narrate2report.learn.reviewed import Mistakes, Reread, ReviewedWalk
from narrate2report.records.proposal import Proposal

MOST_ROUNDS = 8
"""How often the walks are read again at the most; what was not tried by then was asked for by few."""


LEAST_MENDED = 2 / 3
"""Of all the mistakes that come or go with a word, so many must go: two for one."""


@dataclass(frozen=True)
class Effect:
    """What one candidate does to the reading of the reviewed walks."""

    mends: int = 0
    makes: int = 0
    walks: int = 0
    """In how many of them it leaves fewer mistakes than there were."""
    mended: frozenset[At] = frozenset()

    @property
    def is_good(self) -> bool:
        """Fewer mistakes in several walks, and hardly any new ones."""
        return self.walks >= FEWEST_WALKS and self.is_harmless

    @property
    def is_harmless(self) -> bool:
        """Hardly any new mistakes for those that are gone."""
        return self.mends >= LEAST_MENDED * (self.mends + self.makes)


def propose(
    walks: Sequence[ReviewedWalk], reread: Reread, tell: Callable[[int, int], None] | None = None
) -> tuple[Proposal, ...]:
    """The proposals, by their place in the vocabulary. `tell` hears how many candidates are tried, and of how many."""
    waiting = find_candidates(walks)
    of = len(waiting)
    kept: dict[Candidate, Effect] = {}
    for _ in range(MOST_ROUNDS):
        if not waiting:
            break
        trial = _apart(waiting)
        effects = _effects(walks, trial, reread)
        kept |= {one: effect for one, effect in effects.items() if effect.is_good}
        mended = {at for effect in kept.values() for at in effect.mended}
        waiting = [
            one
            for one in waiting
            if one not in effects
            and _is_still_asked(one, mended)
            and not any(_says_alike(one, other) for other in kept)
        ]
        if tell is not None:
            tell(of - len(waiting), of)
    if len(kept) > 1:  # each was tried among others that are not kept; now those that are, together
        together = _effects(walks, list(kept), reread)
        kept = {one: effect for one, effect in kept.items() if together[one].is_harmless}
    made = [_proposal(walks, one, effect) for one, effect in kept.items()]
    return tuple(sorted(made, key=lambda one: (one.addition.place, -one.mends, one.addition.phrase)))


def _apart(candidates: Iterable[Candidate]) -> list[Candidate]:
    """As many of the best as share no sentence."""
    taken: set[At] = set()
    chosen = []
    for one in candidates:
        if taken.isdisjoint(one.said_at):
            taken.update(one.said_at)
            chosen.append(one)
    return chosen


def _is_still_asked(candidate: Candidate, mended: set[At]) -> bool:
    """Whether what it would mend is not mended already, in as many walks as it takes."""
    left = {walk for walk, index in candidate.asked_at if (walk, index) not in mended}
    return len(left) >= FEWEST_WALKS


def _says_alike(candidate: Candidate, other: Candidate) -> bool:
    """Whether the same words are in the same file already, or these words within theirs mean the same."""
    one, kept = candidate.addition, other.addition
    if one.place.file != kept.place.file:
        return False
    same_block = one.place.keys[:1] == kept.place.keys[:1]
    return one.phrase == kept.phrase or (same_block and f" {kept.phrase} " in f" {one.phrase} ")


def _effects(walks: Sequence[ReviewedWalk], trial: Sequence[Candidate], reread: Reread) -> dict[Candidate, Effect]:
    names = {walks[number].name for one in trial for number, _ in one.said_at}
    after = reread([one.addition for one in trial], names)
    changes: dict[Candidate, dict[At, int]] = defaultdict(dict)
    for number, walk in enumerate(walks):
        if walk.name in after:
            owners = sorted(
                (index, rank) for rank, one in enumerate(trial) for at, index in one.said_at if at == number
            )
            for index, change in _changed(walk.mistakes, after[walk.name]):
                place = bisect_right(owners, (index, len(trial))) - 1
                if place >= 0:
                    changes[trial[owners[place][1]]][number, index] = change
    return {one: _effect(changes[one]) for one in trial}


def _changed(before: Mistakes, after: Mistakes) -> Iterable[tuple[int, int]]:
    for index, (was, became) in enumerate(zip(before, after, strict=True)):
        if was != became:
            yield index, became - was


def _effect(changes: Mapping[At, int]) -> Effect:
    by_walk: dict[int, int] = defaultdict(int)
    for (walk, _), change in changes.items():
        by_walk[walk] += change
    return Effect(
        mends=-sum(change for change in changes.values() if change < 0),
        makes=sum(change for change in changes.values() if change > 0),
        walks=sum(change < 0 for change in by_walk.values()),
        mended=frozenset(at for at, change in changes.items() if change < 0),
    )


def _proposal(walks: Sequence[ReviewedWalk], candidate: Candidate, effect: Effect) -> Proposal:
    number, index = next((at for at in candidate.asked_at if at in effect.mended), candidate.asked_at[0])
    return Proposal(
        candidate.addition,
        said=len(candidate.said_at),
        so=candidate.so,
        walks=len({walk for walk, _ in candidate.asked_at}),
        mends=effect.mends,
        makes=effect.makes,
        quote=walks[number].said[index].text,
    )
