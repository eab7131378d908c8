"""What counts as the same between two walks, as values: `vocab/likeness.yaml` once it has been read and checked.

Lists are named, so that a firm's own file can add to one of them. Reading does not use it: it says nothing of what a
sentence means, only of which two statements may be about one thing.
"""

from __future__ import annotations

from narrate2report.records.base import Value

Words = tuple[str, ...]
Named = dict[str, Words]


class ConditionLikeness(Value):
    """Which conditions may be one flaw in other words, and which turn into which (ids of conditions.yaml)."""

    alike: Named = {}
    akin: Named = {}
    grows: Named = {}
    grows_here: Named = {}
    mended: Words = ()
    fails: Words = ()


class ComponentLikeness(Value):
    """Which components are one thing, and which are easily named for each other (ids of components.yaml)."""

    same: Named = {}
    near: Named = {}
    once: Words = ()
    many: Words = ()


class RoomLikeness(Value):
    """Which kinds of room are easily named for each other, and which suffixes agree or cannot be the same room."""

    near: Named = {}
    outside: Words = ()
    alike: Named = {}
    contrary: Named = {}


class PlaceLikeness(Value):
    """Words of place that mean one thing, directions that exclude each other, and kinds of furniture."""

    sides: Named = {}
    contrary: Named = {}
    things: Named = {}
    objects: Named = {}
    empty: Words = ()


class ChangeCues(Value):
    """Words by which a speaker points back to a known flaw, adds one, or says that it has grown or shrunk."""

    known: Words = ()
    further: Words = ()
    as_before: Words = ()
    grown: Words = ()
    shrunk: Words = ()
    across: Words = ()
    everywhere: Words = ()


class Likeness(Value):
    """The whole of likeness.yaml."""

    conditions: ConditionLikeness = ConditionLikeness()
    components: ComponentLikeness = ComponentLikeness()
    rooms: RoomLikeness = RoomLikeness()
    places: PlaceLikeness = PlaceLikeness()
    sizes: dict[str, float] = {}
    """Things whose size people borrow, in centimetres."""
    cues: ChangeCues = ChangeCues()
