"""The room of a thing that is told of from another one: `smoke alarms, two in the hall`, `the light in the bath`."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.phrase_tree import COMPONENT_ROLES, Mention
from narrate2report.read.speech.spoken import Named, Spoken
from narrate2report.read.walk.place import STOOD_ON, Place, kind_of
from narrate2report.read.walk.room_numbers import numbered

LEADING_THERE = frozenset(
    "in on the a our your this one two three four both is are was 's up over out down , -".split()
)
"""What may stand between a thing and the room it is in: `alarms, two in the hall`, `the detector is in the hall`."""

STAIRS = "stairs"
NO_ROOM = frozenset({"whole_unit", "exterior"})
HALLS = frozenset({"entry", "hallway"})
"""Two names of what may be one: `in the hall`, said in the entry."""

OF_STAIRS = frozenset({"stair", "railing"})
WITHOUT_STAIRS = frozenset(
    "hallway living_room dining_room kitchen bedroom bathroom half_bath laundry closet office".split()
)
"""Rooms that a flight of stairs begins or ends at: `the banister is solid`, said in the hall."""


ANSWERED = 1
"""For how many sentences a trial of such a thing waits for its answer."""


def in_their_rooms(spoken: Spoken, place: Place, drafts: Sequence[Draft], number: int) -> list[Draft]:
    """The statements of sentence `number`, each in the room that its component is said to be in.

    A trial of what is told of from elsewhere may be answered by the next sentence.
    """
    rooms = note_what_is_elsewhere(spoken, place, spoken.named, number)
    kinds = {"condition", "check", "follow_up", "advice", "description"}
    if not rooms and not spoken.named and place.told_of is not None and number - place.told_of[2] <= ANSWERED:
        component, room, _ = place.told_of
        rooms, kinds = {component: room}, {"check"}
    return [
        replace(draft, room=rooms[draft.component]).with_reason(f"said to be in '{rooms[draft.component]}'")
        if draft.component in rooms and draft.kind in kinds
        else draft
        for draft in drafts
    ]


def note_what_is_elsewhere(spoken: Spoken, place: Place, named: Sequence[Named], number: int) -> Mapping[str, str]:
    """By component the room it is said to be in, where that is another than the one walked; noted in `place`."""
    rooms = _told_rooms(spoken, place, named)
    for component, room in rooms.items():
        place.told_of = component, room, number
    return rooms


def _told_rooms(spoken: Spoken, place: Place, named: Sequence[Named]) -> Mapping[str, str]:
    told = {}
    of_stairs = {one.component: STAIRS for one in named if one.component in OF_STAIRS}
    if of_stairs and place.base in WITHOUT_STAIRS and not _is_outside(spoken):
        told = of_stairs
    for mention in spoken.terms("room"):
        room = _as_walked(numbered(spoken, mention, mention.of("room")[0].id)[0], place)
        base = kind_of(room)
        if base in {*NO_ROOM, place.base} or {base, place.base} == HALLS or _heads_noun(spoken, mention):
            continue
        one = _thing_there(spoken, named, mention, {"in", "on"} if base in {*STOOD_ON, STAIRS} else {"in"})
        if one is not None:
            told[one.component] = room
    return told


def _is_outside(spoken: Spoken) -> bool:
    """`the balcony railings`: whether a place out of doors is named."""
    return any(kind_of(sense.id) in STOOD_ON for one in spoken.terms("room") for sense in one.of("room"))


def _thing_there(
    spoken: Spoken, named: Sequence[Named], mention: Mention, prepositions: Collection[str]
) -> Named | None:
    """The component that is said to be in the room of `mention`, or on it out of doors, right before it."""
    for one in reversed(named):
        between = spoken.norms(one.end, mention.start)
        if one.end <= mention.start and set(between) <= LEADING_THERE and set(between[-3:]) & set(prepositions):
            return one
    return None


def _heads_noun(spoken: Spoken, mention: Mention) -> bool:
    """`in the hall closet`, `in the bathroom window`: a thing that is called by its room."""
    return any(other.start == mention.end and other.of(*COMPONENT_ROLES, "room") for other in spoken.found.terms)


def _as_walked(room: str, place: Place) -> str:
    """The room as it was called when it was walked, if it has a number there."""
    walked = [name for name, _ in place.visits if kind_of(name) == room]
    return walked[-1] if walked else room
