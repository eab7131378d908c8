"""Words of place to values, and how far two places may be one: `over by the slider`, `next to the sliding door`.

A place is a set of sides (left, top, inside, ...) and of things that it is near to. Two speakers seldom choose the
same words, so what no vocabulary knows is kept as it was said: it still may agree.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from narrate2report.records.likeness import PlaceLikeness
from narrate2report.wording import plain

_WORD = re.compile(r"[a-z0-9]+(?:[-'’][a-z0-9]+)*")
_FILLING = re.compile(
    r"(?<!the )(?<!your )\b(?:right|over|back|up|down|out)\s+"
    r"(?=(?:at|by|near|next|beside|in|on|there|here|where|against|along|around|behind|above|under|below|inside)\b)"
)
"""`Right by the sink` is not to the right of it, `over by the window` not above it."""
_LONGEST = 4
"""Words of the longest phrase that is looked for."""

Where = Literal["same", "unsaid", "unsure", "other", "contrary"]
_SHARED_SIDE = 0.48
GRADES: Mapping[Where, float] = {"same": 1.0, "unsaid": 0.8, "unsure": 0.55, "other": 0.45, "contrary": 0.2}
"""How far each relation of two places leaves them one, of 1."""


@dataclass(frozen=True)
class Place:
    """Where on a component something is; `told` where the speaker named it as a place."""

    sides: frozenset[str] = frozenset()
    things: frozenset[str] = frozenset()
    told: bool = False
    unknown: frozenset[str] = frozenset()
    """Those of the things that no vocabulary knows: they may be other words for anything."""
    which: frozenset[tuple[str, str]] = frozenset()
    """Which one of a thing was named: the bathroom's door."""

    def without(self, things: frozenset[str]) -> Place:
        """The same place, without the component itself, which tells nothing of where on it."""
        return Place(self.sides, self.things - things, self.told, self.unknown - things, self.which)


@dataclass(frozen=True)
class PlaceTie:
    """How two places relate, and how far they may be one, of 1."""

    how: Where
    grade: float


class Gazetteer:
    """Reads words of place. Phrases are matched longest first, plurals as their singular."""

    def __init__(
        self,
        phrases: Mapping[tuple[str, ...], tuple[str, str]],
        contrary: Iterable[frozenset[str]],
        empty: frozenset[str],
    ) -> None:
        self._phrases = phrases
        self._contrary = tuple(contrary)
        self._empty = empty
        self.read = lru_cache(maxsize=None)(self._read)
        self.tie = lru_cache(maxsize=1 << 20)(self._tie)

    @classmethod
    def of(
        cls, likeness: PlaceLikeness, components: Mapping[str, Iterable[str]], rooms: Mapping[str, Iterable[str]]
    ) -> Gazetteer:
        """From the words of likeness.yaml, then those of components, then those of rooms."""
        phrases: dict[tuple[str, ...], tuple[str, str]] = {}
        objects = {name: words for name, words in likeness.objects.items() if name not in likeness.things}
        for kind, lists in (
            ("side", likeness.sides),
            ("thing", likeness.things),
            ("thing", objects),
            ("thing", components),
            ("thing", rooms),
        ):
            for name, words in lists.items():
                for phrase in words:
                    said = tuple(_words(phrase))
                    # `front door` is a door and a side of the home: which door it is must not be lost.
                    if kind == "side" or len(said) == 1 or phrases.get(said[:1], ("",))[0] != "side":
                        phrases.setdefault(said, (kind, name))
        contrary = (frozenset(names) for names in likeness.contrary.values())
        return cls(phrases, contrary, frozenset(_singular(word) for word in likeness.empty))

    def _read(self, text: str, told: bool = True) -> Place:
        """The place that some words tell. Where they are no words of place (`told` false), only known things count."""
        words = _words(text)
        sides, things, unknown, which = set(), set(), set(), set()
        at = 0
        while at < len(words):
            length, kind, name = self._longest(words, at)
            if kind == "side":
                sides.add(name)
            elif kind == "thing":
                things.add(name)
                whose = self._phrases.get(tuple(words[at : at + length - 1]))
                if whose and self._phrases.get((words[at + length - 1],)) == (kind, name):
                    which.add((name, whose[1]))
            elif told and words[at] not in self._empty and not words[at].isdigit():
                unknown.add(words[at])
            at += length
        return Place(
            frozenset(sides if told else ()), frozenset(things | unknown), told, frozenset(unknown), frozenset(which)
        )

    def things_of(self, component: str) -> frozenset[str]:
        """What the component itself is called in a place."""
        return self.read(plain(component), False).things | {component}

    def _longest(self, words: list[str], at: int) -> tuple[int, str, str]:
        for length in range(min(_LONGEST, len(words) - at), 0, -1):
            found = self._phrases.get(tuple(words[at : at + length]))
            if found:
                return length, *found
        return 1, "", ""

    def _tie(self, one: Place, other: Place) -> PlaceTie:
        """How far two places may be one."""
        if not (one.told and other.told):
            agree = one.things & other.things
            return _tie("same", 0.95) if agree and (one.told or other.told) else _tie("unsaid")
        if self.are_contrary(one.sides, other.sides):
            return _tie("contrary")
        shared = len(one.sides & other.sides)
        if one.things & other.things:
            return _tie("other") if _are_two(one, other) else _tie("same")
        if one.things and other.things:
            if shared > 1:
                return _tie("same", 0.85)
            if one.unknown or other.unknown:
                return _tie("unsure")
            return _tie("other", _SHARED_SIDE if shared else None)
        return _tie("same") if shared else _tie("unsaid")

    def are_contrary(self, one: frozenset[str], other: frozenset[str]) -> bool:
        """Whether two sets of sides exclude each other: left and right, not left and the left corner at the right."""
        return any((one & pair) and (other & pair) and not one & other & pair for pair in self._contrary)


def _are_two(one: Place, other: Place) -> bool:
    """Whether all that they share is a thing of which each names another one: the bathroom door, the kitchen door."""
    named, told = dict(one.which), dict(other.which)
    return all(thing in named and thing in told and named[thing] != told[thing] for thing in one.things & other.things)


def _tie(how: Where, grade: float | None = None) -> PlaceTie:
    return PlaceTie(how, GRADES[how] if grade is None else grade)


def _words(text: str) -> list[str]:
    return [_singular(word) for word in _WORD.findall(_FILLING.sub("", text.lower()))]


def _singular(word: str) -> str:
    """`windows` as `window`, `glass` as it is: enough for two speakers' words to meet."""
    word = word.removesuffix("'s").removesuffix("’s")
    if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us", "is")):
        return word[:-1]
    return word
