"""Rooms that nobody names: a toilet is not in a kitchen, a walk starts at the front door, a closet has no window."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.speech.modes import Mode, Stance
from narrate2report.read.speech.spoken import Spoken, relation_of
from narrate2report.read.walk.place import LEFT_UNSAID, OUT_OF_DOORS, Place, kind_of

SMALL_ROOMS = frozenset({"storage", "office", "attic", "stairs", "closet", "balcony", "breakfast_area"})
"""Rooms in which neither a kitchen's nor a bathroom's fixtures are found."""

BATHING = frozenset({"bathtub", "shower", "shower_head", "shower_door", "shower_curtain"})
"""What no half bath has."""

OPEN_AIR = frozenset({"exterior", "yard", "patio", "parking"})

FIRST = 2
"""How many words may stand before what a sentence begins with."""

WAY_IN = frozenset({"door", "lock", "doorbell", "peephole", "intercom", "threshold", "door_frame"})


def glanced_room(spoken: Spoken) -> str | None:
    """`The one in the hall, though, nothing.`: the room of a thing that is told of from elsewhere."""
    for mention in spoken.found.terms:
        room = next((sense.id for sense in mention.of("room")), None)
        before = spoken.norms(max(0, mention.start - 4), mention.start)
        likened = {"like", "as", "than", "unlike"} & set(spoken.norms(0, mention.start))
        if room and before[-2:] == ["in", "the"] and "one" in before and mention.start <= 6 and not likened:
            return room
    return None


def implied_room(spoken: Spoken, place: Place, stances: Sequence[Stance], vocabulary: Vocabulary) -> str | None:
    """A room that was entered without a word: a toilet is not in a kitchen, and a walk starts at the front door."""
    base = place.base
    if place.came_from and _is_back_out(spoken, place, stances, vocabulary):
        return place.came_from
    if base in {"patio", "storage"} and _is_in_the_garden(spoken, place, stances, vocabulary):
        return next(room for room, _ in reversed(place.visits[:-1]) if room)
    if (outside := _opens_outside(spoken, base)) is not None:
        return outside
    if place.told_of is not None and base not in OUT_OF_DOORS and _is_out_here(spoken, place.told_of[1]):
        return place.told_of[1]
    if base in OPEN_AIR and _opens_with_garage(spoken, vocabulary):
        return "garage"
    if base in {*OPEN_AIR, "porch"} and _comes_to_way_in(spoken, place, stances):
        return "entry"
    if goes_back(spoken):
        if spoken.found.implied_rooms:
            return spoken.found.implied_rooms[0]
        if (again := _gone_back_to(spoken, place, vocabulary)) is not None:
            return again
    if base in {"", "whole_unit"}:
        for room in spoken.found.implied_rooms:
            return room
        if place.room is None and _speaks_of_way_in(spoken, stances):
            return "entry"
    for mention in spoken.terms("component"):
        if any(sense.beside == base for sense in mention.of("in")):
            continue
        for sense in mention.of("component"):
            owners = [room for room, term in vocabulary.rooms.items() if sense.id in term.known_by]
            if not owners or (base in vocabulary.rooms and sense.id in vocabulary.rooms[base].owns):
                continue
            if relation_of(spoken, mention.start) != "topic" or _is_elsewhere(spoken, mention):
                continue
            if stances[mention.start].mode is not Mode.ASSERTED:
                continue
            if base in LEFT_UNSAID | SMALL_ROOMS:
                return owners[0]
            if base == "half_bath" and sense.id in BATHING:
                return "bathroom"  # called the toilet room, and there is a tub in it
    return None


def goes_back(spoken: Spoken) -> bool:
    """`back to the dishwasher`: whether the walk returns to a thing that was walked past."""
    return ("back", "to") in pairwise(spoken.norms())


def _is_out_here(spoken: Spoken, room: str) -> bool:
    """`the chairs out here`, after the decking on the balcony was told of from indoors: one has gone out there."""
    return kind_of(room) in OUT_OF_DOORS and ("out", "here") in pairwise(spoken.norms())


def _opens_with_garage(spoken: Spoken, vocabulary: Vocabulary) -> bool:
    """`Garage door... going up`, said in the yard: what only a garage has, named first."""
    owned = set(vocabulary.rooms["garage"].owns)
    return any(
        mention.start <= 1 and any(sense.id in owned for sense in mention.of("component"))
        for mention in spoken.terms("component")
    )


def _comes_to_way_in(spoken: Spoken, place: Place, stances: Sequence[Stance]) -> bool:
    """`Front door, scratched`, after what is outside, where nobody has been in yet: there the way in begins."""
    been_in = any(kind_of(room) not in {*OUT_OF_DOORS, "whole_unit", "stairs"} for room, _ in place.visits if room)
    door = next(iter(spoken.terms("component")), None)
    return (
        not been_in
        and "entry" in spoken.found.implied_rooms
        and door is not None
        and door.start <= FIRST
        and stances[door.start].mode is Mode.ASSERTED
        and relation_of(spoken, door.start) == "topic"
    )


def _gone_back_to(spoken: Spoken, place: Place, vocabulary: Vocabulary) -> str | None:
    """`back to that dishwasher`: where the one that was walked past stands, if only one room has it."""
    for mention in spoken.terms("component"):
        if spoken.norms(mention.start - 3, mention.start)[:2] != ["back", "to"]:
            continue
        meant = {sense.id for sense in mention.of("component")}
        owners = {room for room, term in vocabulary.rooms.items() if meant & set(term.owns)}
        walked = [room for room, _ in place.visits if kind_of(room) in owners]
        if walked and place.base not in owners:
            return walked[-1]
    return None


OUTSIDE = {"balcony": "balcony", "patio": "patio", "porch": "porch", "deck": "patio", "terrace": "patio"}
NO_WAY_OUT = frozenset(
    {"utility", "bathroom", "half_bath", "laundry", "closet", "stairs", "hallway", "storage", "office"}
)
"""Rooms from which a balcony is hardly reached: its door is spoken of on the way."""


def _opens_outside(spoken: Spoken, base: str) -> str | None:
    """`balcony railing's solid`, `balcony door, ...` from a laundry: a sentence that opens with a part of a place
    outdoors is told there."""
    lead = next((token for token in spoken.tokens[:2] if token.norm in OUTSIDE), None)
    if lead is None or OUTSIDE[lead.norm] == base or spoken.norms(0, 1) not in ([lead.norm], ["the"], ["and"], ["now"]):
        return None
    at = spoken.tokens.index(lead)
    for mention in spoken.terms("component", "near", "in"):
        if not mention.start <= at + 1 < mention.end or mention.start > at + 1:
            continue
        ids = {sense.id for sense in mention.of("component", "near", "in")}
        if "railing" in ids or (base in NO_WAY_OUT and ids & {"door", "sliding_door"}):
            return OUTSIDE[lead.norm]
    return None


def _is_back_out(spoken: Spoken, place: Place, stances: Sequence[Stance], vocabulary: Vocabulary) -> bool:
    """`The windows open`: out of a closet again, for it has none."""
    closet, room = vocabulary.rooms["closet"], vocabulary.rooms.get(kind_of(place.came_from))
    return any(
        sense.id not in (*closet.owns, *closet.expects)
        and room is not None
        and sense.id in (*room.owns, *room.expects)
        and stances[mention.start].mode is Mode.ASSERTED
        and relation_of(spoken, mention.start) == "topic"
        for mention in spoken.found.terms
        for sense in mention.of("component")
    )


def _is_in_the_garden(spoken: Spoken, place: Place, stances: Sequence[Stance], vocabulary: Vocabulary) -> bool:
    """`the gate's dropped`, after the deck or the shed of a garden that is walked: out on the grass again."""
    earlier = next((room for room, _ in reversed(place.visits[:-1]) if room), "")
    yard = vocabulary.rooms["yard"]
    return kind_of(earlier) in {"yard", "exterior"} and any(
        sense.id in yard.owns
        and stances[mention.start].mode is Mode.ASSERTED
        and relation_of(spoken, mention.start) == "topic"
        for mention in spoken.terms("component")
        for sense in mention.of("component")
    )


def _is_elsewhere(spoken: Spoken, mention: Mention) -> bool:
    """`the upstairs tub overflowed`, `the tub is upstairs`: on another floor than this, or another home's."""
    after = spoken.norms(mention.end, spoken.clause_of(mention.start).end)
    before = spoken.norms(max(0, mention.start - 3), mention.start)
    floors = {"upstairs", "downstairs"}
    return bool((floors | {"neighbor", "neighbour", "neighbors", "neighbours"}) & set(before)) or bool(
        (floors | {"above"}) & set(after)
    )


def _speaks_of_way_in(spoken: Spoken, stances: Sequence[Stance]) -> bool:
    """A walk that starts with the door, the lock or the bell starts at the entry."""
    return any(
        sense.id in WAY_IN
        and stances[mention.start].mode is Mode.ASSERTED
        and relation_of(spoken, mention.start) == "topic"
        for mention in spoken.terms("component", "else")
        for sense in mention.of("component", "else")
    )
