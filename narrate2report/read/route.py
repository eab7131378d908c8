"""Which sentences of a narration lead into which rooms, found before anything is made of what they tell.

First the rules walk through all of it, then the likeliest course is taken among all that may have been meant.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from narrate2report.read.across.searches import as_sought, opens_search
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.meant.stance import read_stances
from narrate2report.read.speech.modes import Stance
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.naming import name_components
from narrate2report.read.walk.course import Courses, Step, Way
from narrate2report.read.walk.implied_rooms import goes_back
from narrate2report.read.walk.leads import calls_a_room, leads_of
from narrate2report.read.walk.place import Place, kind_of
from narrate2report.read.walk.room_by_rule import room_by_rule
from narrate2report.read.walk.told_room import note_what_is_elsewhere

Meant = tuple[Stance, ...]
"""How each word of a sentence is meant."""


@dataclass(frozen=True)
class Route:
    """Where a walk goes: by number of the sentence; where there is no way, the rules are to be asked."""

    ways: Mapping[int, Way]
    meant: Sequence[Meant]
    """How the words of each sentence are meant."""


def find_route(sentences: Sequence[Spoken], start: str | None, vocabulary: Vocabulary, courses: Courses) -> Route:
    """The likeliest route of a walk that begins in the room `start`, or in none yet."""
    meant = list(as_meant(sentences))
    return Route(courses.likeliest(list(steps(sentences, meant, start, vocabulary)), start), meant)


def as_meant(sentences: Sequence[Spoken]) -> Iterator[Meant]:
    """How the words of each sentence are meant; a bare list after the announcement of a search is looked for."""
    searching = False
    for spoken in sentences:
        yield as_sought(spoken, read_stances(spoken), searching=searching)
        searching = opens_search(spoken)


def steps(
    sentences: Sequence[Spoken], meant: Sequence[Meant], start: str | None, vocabulary: Vocabulary
) -> Iterator[Step]:
    """What each sentence does for the course, as the rules walk it."""
    place = Place()
    if start is not None:
        place.enter(start, 0)
    for number, (spoken, stances) in enumerate(zip(sentences, meant, strict=True)):
        if spoken.sentence.doubt:
            yield Step()
            continue
        before, been = place.base, {kind_of(room) for room, _ in place.visits}
        entered = room_by_rule(spoken, place, stances, vocabulary)
        if entered is not None:
            place.enter(entered, number)
        named = name_components(spoken, place, number, vocabulary)
        told = [one for one in named if one.relation != "place" or goes_back(spoken)]
        for one in told:
            place.speak_of(one.component, number)
        note_what_is_elsewhere(spoken, place, named, number)
        leads = leads_of(spoken, stances, named, before, entered, been)
        yield Step(leads, tuple(dict.fromkeys(one.component for one in told if not calls_a_room(spoken, one))))
