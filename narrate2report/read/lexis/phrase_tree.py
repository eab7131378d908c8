"""Phrases as a tree of words, with what each of them means, and the longest of them in a sentence."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import NamedTuple

COMPONENT_ROLES = ("component", "near", "in", "else")
"""Roles of words that name a component."""


@dataclass(frozen=True)
class Sense:
    """One meaning of a phrase: `role` says which list of the vocabulary it stands in."""

    role: str
    id: str
    form: str = ""
    beside: str = ""
    """Component or room whose neighbourhood this meaning needs; empty where it needs none."""


class _InRoles(dict[tuple[str, ...], tuple[Sense, ...]]):
    """Meanings by roles; each selection is made when it is first asked for."""

    def __init__(self, senses: Senses) -> None:
        super().__init__()
        self._senses = senses

    def __missing__(self, roles: tuple[str, ...]) -> tuple[Sense, ...]:
        self[roles] = found = tuple(sense for sense in self._senses if sense.role in roles)
        return found


class Senses(tuple[Sense, ...]):
    """All meanings of one phrase. Every mention of the phrase shares them, and what was once asked of them."""

    @cached_property
    def ids(self) -> frozenset[str]:
        """The ids of the meanings, whatever their roles."""
        return frozenset(sense.id for sense in self)

    @cached_property
    def in_roles(self) -> _InRoles:
        """The meanings in any roles that are asked for."""
        return _InRoles(self)


class Mention(NamedTuple):
    """A vocabulary phrase found in a sentence, tokens `start` to `end` (exclusive), with all its meanings."""

    start: int
    end: int
    senses: Senses = Senses()

    def of(self, *roles: str) -> tuple[Sense, ...]:
        """The meanings in the given roles."""
        return self.senses.in_roles[roles]


@dataclass
class _Node:
    children: dict[str, _Node] = field(default_factory=dict)
    senses: Senses = field(default_factory=Senses)


class PhraseTree:
    """Phrases by their words; finds the longest at each place, left to right."""

    def __init__(self) -> None:
        self._root = _Node()

    def add(self, words: Sequence[str], sense: Sense) -> None:
        """Teach one phrase one meaning."""
        node = self._root
        for word in words:
            known = node.children.get(word)
            if known is None:
                known = node.children[word] = _Node()
            node = known
        if words and sense not in node.senses:
            node.senses = Senses((*node.senses, sense))

    def matches_at(self, norms: Sequence[str], start: int) -> list[Mention]:
        """The phrases that begin at `start`, shortest first."""
        found: list[Mention] = []
        node = self._root.children.get(norms[start])
        end = start + 1
        while node is not None:
            if node.senses:
                found.append(Mention(start, end, node.senses))
            node = node.children.get(norms[end]) if end < len(norms) else None
            end += 1
        return found

    def all_matches(self, norms: Sequence[str]) -> Iterator[Mention]:
        """Every phrase at every place, shorter ones within longer ones too."""
        for start in range(len(norms)):
            yield from self.matches_at(norms, start)

    def matches(self, norms: Sequence[str], *, overlapping: bool = False) -> Iterator[Mention]:
        """The longest match at each place; unless overlapping, matching goes on after its end."""
        free = 0
        for start, norm in enumerate(norms):
            if start >= free and norm in self._root.children and (found := self.matches_at(norms, start)):
                yield found[-1]
                free = start if overlapping else found[-1].end
