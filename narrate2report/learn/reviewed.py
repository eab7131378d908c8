"""Reviewed walks as learning sees them: sentences with their words, what is right of them, what is read of them today.

How a walk was found, checked and read again is left to whoever asks.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from narrate2report.records.findings import Entry
from narrate2report.records.proposal import Addition


@dataclass(frozen=True)
class Token:
    """A word or mark of a sentence."""

    norm: str
    """Its normal form, in small letters."""
    base: str
    """The singular of a plural noun, the infinitive of a verb form; else as `norm`."""
    tag: str
    """Its part of speech (Penn Treebank)."""
    known: frozenset[str] = frozenset()
    """The ids of what the vocabulary takes it for."""
    bound: bool = False
    """Whether it is part of a longer word that is known, as the `ceiling` of a `ceiling fan`."""


@dataclass(frozen=True)
class Said:
    """One sentence of a reviewed walk."""

    text: str
    tokens: tuple[Token, ...]
    read: tuple[Entry, ...] = ()
    """What today's words make of it."""
    right: tuple[Entry, ...] = ()
    """What a person left of it."""
    taught: tuple[Entry, ...] = ()
    """Those of `right` that a person added or changed, and that today's words do not give."""
    dropped: tuple[Entry, ...] = ()
    """Those of `read` that are in no way right: nothing else stands in their place."""


Mistakes: TypeAlias = tuple[int, ...]
"""For each sentence of a walk how many entries are missing or should not be there."""


@dataclass(frozen=True)
class ReviewedWalk:
    """A walk of which a person decided everything."""

    name: str
    said: tuple[Said, ...]
    mistakes: Mistakes
    """Those of today's words."""


Reread: TypeAlias = Callable[[Sequence[Addition], Collection[str]], Mapping[str, Mistakes]]
"""Reads the walks of these names once more, with these additions, and counts the mistakes."""
