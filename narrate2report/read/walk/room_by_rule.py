"""Which room the rules take a sentence to lead into, named or not."""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.speech.modes import Stance
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.walk.implied_rooms import implied_room
from narrate2report.read.walk.place import Place
from narrate2report.read.walk.rooms import find_room


def room_by_rule(spoken: Spoken, place: Place, stances: Sequence[Stance], vocabulary: Vocabulary) -> str | None:
    """The room that a sentence leads into, if the rules see it."""
    return find_room(spoken, place, stances, vocabulary) or implied_room(spoken, place, stances, vocabulary)
