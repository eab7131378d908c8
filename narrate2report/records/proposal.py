"""What may be learnt from reviews: words that a person is asked to add, and what was put right again and again."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, order=True)
class Place:
    """A list of a vocabulary layer: `components` with `("countertop", "say")`; `idioms` is a list by itself."""

    file: str
    """The name of the file without its ending."""
    keys: tuple[str, ...] = ()

    @property
    def told(self) -> str:
        """The place for people: `components.countertop.say`."""
        return ".".join((self.file, *self.keys))


@dataclass(frozen=True)
class Addition:
    """A word or phrase in its place."""

    place: Place
    phrase: str


@dataclass(frozen=True)
class Proposal:
    """An addition with what speaks for it in reviewed walks. Nothing is changed by it until a person accepts it."""

    addition: Addition
    said: int
    """Reviewed sentences in which the words stand."""
    so: int
    """How many of those have an entry that says what the words would mean."""
    walks: int
    """Walks in which these words led to a mistake that a person put right."""
    mends: int
    """Mistakes of today's reading in the reviewed walks that are gone with it."""
    makes: int
    """Mistakes that come with it."""
    quote: str
    """One of the sentences."""

    @property
    def precision(self) -> float:
        """The share of the sentences with these words in which they mean this, 0 to 1."""
        return self.so / self.said if self.said else 0.0


@dataclass(frozen=True)
class Habit:
    """What reviewers did more than once, whether or not words could be made of it."""

    did: Literal["added", "changed", "dropped"]
    told: str
    """What was added or left out (`condition countertop chip present`), or what became what (`faucet → sprayer`)."""
    times: int
    walks: int
    quote: str
