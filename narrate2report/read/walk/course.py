"""The likeliest course of a walk through its rooms, decided once all has been heard.

A rule sees one sentence. Whether it led into another room shows in what was told from there on: after "and then the
bath, I did that one yesterday" come the hallway's doors, after "kitchen is where they all end up" the stove. So each
room that a sentence may lead into (`leads`) is weighed by how it is worded, each thing that is told by the rooms in
which such things are found (`belonging`), and of all courses through the walk the likeliest is taken (Viterbi 1967).

What the signs of a lead weigh was learned by tests/benchmarks/learn_leads.py, a logistic regression with a Gaussian
prior (Chen and Rosenfeld 1999), and stands in leads.csv.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import exp, log1p
from pathlib import Path
from typing import Final

from narrate2report.read.lexis.learned import Learned, Weights
from narrate2report.read.walk.belonging import Belonging
from narrate2report.read.walk.leads import Lead
from narrate2report.read.walk.place import kind_of

WEIGHTS: Final = Path(__file__).with_name("leads.csv")

ENTERED: Final = "entered"
"""The question that leads.csv answers."""

TRUST: Final = 0.4
"""What a thing told counts, of what it would count if things were told independently of each other."""

AGAIN: Final = 6
"""For how many sentences a thing that is told of once more says nothing new of the room."""

CERTAIN: Final = 50.0
"""In nats: a walk that the rules take to the home as a whole is there."""


@dataclass(frozen=True)
class Step:
    """What one sentence does for the course: the rooms it may lead into, and the things it tells of."""

    leads: tuple[Lead, ...] = ()
    things: tuple[str, ...] = ()

    @property
    def tells_where(self) -> bool:
        """Whether its things tell where one is: not in `the tiles match those in the bathroom`."""
        return not self.leads or any(lead.by_rule for lead in self.leads)


@dataclass(frozen=True)
class Way:
    """Where the walk goes with a sentence: into `room`, or nowhere; `because`, where no rule says so."""

    room: str | None
    because: str | None = None


class Courses:
    """What was learned of leads, given or in a table, and where things are told."""

    def __init__(self, weights: Weights | Path = WEIGHTS, belonging: Belonging | None = None) -> None:
        self._learned = Learned(weights)
        self._belonging = belonging or Belonging()

    def likeliest(self, steps: Sequence[Step], start: str | None) -> Mapping[int, Way]:
        """By number of a sentence, where it leads on the likeliest course from the room `start`. Of a sentence that
        leads nowhere by rule, said in another room than the rules walked, nothing is told."""
        likely: dict[str | None, float] = {start: 0.0}
        came_from: list[dict[str | None, str | None]] = []
        for number, step in enumerate(steps):
            odds = [(lead, self._odds(lead)) for lead in step.leads]
            reached: dict[str | None, tuple[float, str | None]] = {}
            for room, so_far in likely.items():
                for there, cost in _ways_on(room, odds):
                    if there not in reached or so_far - cost > reached[there][0]:
                        reached[there] = so_far - cost, room
            lately = {thing for one in steps[max(0, number - AGAIN) : number] for thing in one.things}
            told = [thing for thing in step.things if thing not in lately] if step.tells_where else []
            likely = {room: so_far + self._found(told, room) for room, (so_far, _) in reached.items()}
            came_from.append({room: before for room, (_, before) in reached.items()})
        return _ways(steps, [start, *_path(likely, came_from)])

    def _odds(self, lead: Lead) -> float:
        """The logarithm of the odds that a sentence leads there, as it is worded."""
        if lead.by_rule and lead.kind == "whole_unit":
            return CERTAIN
        return self._learned.total(ENTERED, lead.signs) / 100

    def _found(self, things: Iterable[str], room: str | None) -> float:
        return TRUST * sum(self._belonging.tells_for(thing, kind_of(room)) for thing in things)


def _ways_on(room: str | None, odds: Sequence[tuple[Lead, float]]) -> Iterable[tuple[str | None, float]]:
    """Where a sentence may lead from a room, and what each costs in nats: what it says must be meant so."""
    numbers = [lead.room for lead, _ in odds if lead.by_rule and lead.kind == kind_of(room)]
    elsewhere = [(lead, odd) for lead, odd in odds if lead.kind != kind_of(room)]
    yield numbers[0] if numbers else room, sum(log1p(exp(odd)) for _, odd in elsewhere)
    for lead, odd in elsewhere:
        yield lead.room, log1p(exp(-odd))


def _path(
    likely: Mapping[str | None, float], came_from: Sequence[Mapping[str | None, str | None]]
) -> Sequence[str | None]:
    """The room of each sentence on the course that ends likeliest."""
    room = max(likely, key=lambda one: likely[one])
    path = []
    for earlier in reversed(came_from):
        path.append(room)
        room = earlier[room]
    return path[::-1]


def _ways(steps: Sequence[Step], path: Sequence[str | None]) -> Mapping[int, Way]:
    """The ways of all sentences but those that lead nowhere by rule, said in another room than the rules walked;
    `path` has the room before each sentence and after the last."""
    ways, walked = {}, path[0]
    for number, step in enumerate(steps):
        before, room = path[number : number + 2]
        ruled = next((lead.room for lead in step.leads if lead.by_rule), None)
        walked = ruled or walked
        if step.leads:
            entered = room if room != before or room == ruled else None
            ways[number] = Way(entered, None if entered == ruled else _reason(entered))
        elif room == walked:
            ways[number] = Way(None)
    return ways


def _reason(room: str | None) -> str:
    if room is None:
        return "led into no other room: what was told next is hardly found there"
    return f"led into '{room}': what was told next is found there"
