"""Tasks as a whole sentence tells them: work to come, and care that the resident is asked to take.

The rules for them know one way of saying each, and there are more ways than rules; nor is every order an advice to
the resident. So all of a sentence is weighed: whether it tells of a task at all, whatever the rules drafted; of which
component, among all it may be of (`concerned`); and what is done where no rule says so. The weights are those of
log-linear models with a Gaussian prior (Chen and Rosenfeld 1999), learned by tests/benchmarks/learn_tasks.py from
narrations that were marked by hand; they stand in tasks.csv. Where the rules drafted several tasks, each keeps what
they say of it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from typing import Final, get_args

from narrate2report.read.credible.called_talk import called_talk
from narrate2report.read.credible.concerned import concerned
from narrate2report.read.credible.signs import TASKS, Observed
from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.learned import ALWAYS, Learned, Sign, Weights
from narrate2report.read.things.focus import Focus
from narrate2report.read.work.worked_on import party_of
from narrate2report.records.findings import Action, Kind

WEIGHTS: Final = Path(__file__).with_name("tasks.csv")

ACTIONS: Final[tuple[Action, ...]] = get_args(Action)

CONFIDENCE: Final = 0.5
"""Of a task that no rule drafted."""

CLEARLY: Final = 50
"""By how much, in hundredths, more must speak for a task that no rule drafted than against it."""

FAR_MORE: Final = 160
"""By how much, in hundredths, more must speak for another component than for the one that the rules found."""

NAMES: Final[Mapping[str, str]] = {"follow_up": "work to come", "advice": "care asked of the resident"}


class Tasks:
    """Weighs what is said of tasks."""

    def __init__(self, weights: Weights | Path = WEIGHTS) -> None:
        self._learned = Learned(weights)

    def settle(
        self, observed: Observed, focus: Focus, *, owner_speaks: bool
    ) -> tuple[tuple[Draft, ...], tuple[str, ...]]:
        """The tasks that the sentence tells, and in words why others that were drafted are left out."""
        kept: list[Draft] = []
        reasons: list[str] = []
        for kind in TASKS:
            drafted = [draft for draft in observed.drafts if draft.kind == kind]
            told, signs = f"{kind} told", observed.of_task(kind)
            if self._learned.total(told, signs) <= (0 if drafted else CLEARLY):
                talk = self._learned.loudest(told, signs, against=True) if drafted else ""
                reasons += [called_talk(draft, talk) for draft in drafted]
            elif len(drafted) > 1:
                kept += drafted
            elif drafted:
                kept.append(self._of(drafted[0], observed, focus))
            else:
                task = self._of(undrafted(observed, kind, self._learned.loudest(told, signs)), observed, focus)
                if kind == "follow_up":
                    task = self._work(task, observed, focus, owner_speaks=owner_speaks)
                kept.append(task)
        return tuple(kept), tuple(reasons)

    def _of(self, task: Draft, observed: Observed, focus: Focus) -> Draft:
        """A task of the component that most speaks for: far more than for the one that the rules found."""
        spoken_for = {
            component: self._learned.total(f"{task.kind} of", signs)
            for component, signs in concerned(observed, task.kind, focus).items()
        }
        component = max(spoken_for, key=lambda one: (spoken_for[one], one))
        if task.component and spoken_for[component] <= spoken_for[task.component] + FAR_MORE:
            return task
        return replace(task, component=component).with_reason(f"most speaks for the {component.replace('_', ' ')}")

    def _work(self, task: Draft, observed: Observed, focus: Focus, *, owner_speaks: bool) -> Draft:
        """Work that no rule drafted, with what is most likely done and who does it."""
        ways = {
            action: self._learned.total("action", done(observed, task.component, action, focus)) for action in ACTIONS
        }
        action = max(ways, key=lambda one: (ways[one], one))
        clause = observed.scene.spoken.clause_of(task.at)
        party = party_of(observed.scene.spoken, clause, owner_speaks=owner_speaks)
        told = f"most likely to {action.replace('_', ' ')} it"
        return replace(task, action=action, party=party).with_reason(told)


def undrafted(observed: Observed, kind: Kind, words: str) -> Draft:
    """A task that no rule drafted, of nothing as yet."""
    scene = observed.scene
    at = next((term.start for term in scene.spoken.terms("action")), 0)
    return Draft(kind, scene.room, "", at, (f"worded as {NAMES[kind]}{words}",), confidence=CONFIDENCE)


def done(observed: Observed, component: str, action: Action, focus: Focus) -> set[Sign]:
    """What shows that work on a component is this action: the words, the component, its flaws."""
    signs = {f"{action}: {sign}" for sign in _of_work(observed, component, focus)}
    if any(sense.id == action for term in observed.scene.spoken.terms("action") for sense in term.of("action")):
        signs.add("word of it")
    return signs


def _of_work(observed: Observed, component: str, focus: Focus) -> Iterator[Sign]:
    yield from (ALWAYS, f"thing {component}")
    yield from (f"w {word}" for word in observed.words)
    yield from (f"b {one} {other}" for one, other in pairwise(observed.words))
    yield from (f"flaw {flaw}" for flaw in focus.suffers(component, observed.scene.number))
