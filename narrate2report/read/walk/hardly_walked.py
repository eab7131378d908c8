"""Rooms that the walk was hardly in: a word took it there, and what was told next is not found in such a room.

A word of a recording may be misheard ("three cigarette burns" as "freezer your burns"), or named in passing; the room
it leads to is then given everything up to the next room. Only a look at what followed tells.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Final

from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.walk.belonging import Belonging
from narrate2report.read.walk.implied_rooms import goes_back
from narrate2report.read.walk.place import Place

WITHIN: Final = 6
"""How many sentences from where a room was entered are looked at."""

AGAINST: Final[Mapping[bool, float]] = {False: 2.2, True: 10.0}
"""How much must speak for the room before, in nats, where the room was not named and where it was. In the written
narrations of tests/narrations the first refuses one room, which nobody was in, and the second none: it is for words
that were misheard."""


def hardly_walked(place: Place, sentences: Sequence[Spoken], belonging: Belonging) -> frozenset[int]:
    """The numbers of the sentences that led into rooms in which hardly anything that followed is found."""
    refused = set()
    ends = [first for _, first in place.visits[2:]] + [len(sentences)]
    for ((before, _), (room, first)), end in zip(pairwise(place.visits), ends, strict=False):
        kind, earlier, named = _kind(room), _kind(before), first in place.named
        if "whole_unit" in {kind, earlier} or kind == earlier or (goes_back(sentences[first]) and not named):
            continue
        told = {
            one.component
            for spoken in sentences[first : min(end, first + WITHIN)]
            for one in spoken.named
            if one.relation != "place"
        }
        if belonging.speaks_for(told, kind, earlier) < -AGAINST[named]:
            refused.add(first)
    return frozenset(refused)


def _kind(room: str) -> str:
    return room.split(".")[0]
