"""What was said of the components one would expect in each room: silence is never good news.

Without a plan that is asked of each room walked, by what the vocabulary has for usual there. A plan's rooms and
components take their place, and a room of the plan that was never walked counts too.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.records.expected import WHOLE_UNIT, Expected, usual_in
from narrate2report.records.findings import Coverage, CoverageStatus, Entry

SPEAKS = frozenset({"condition", "check", "description"})
HANDED = frozenset({"handover"})
"""A key that is handed over was spoken of, though nothing was said of its condition."""

UNPLANNED = Expected()


def cover(
    entries: Sequence[Entry], walked: Iterable[str], vocabulary: Vocabulary, plan: Expected = UNPLANNED
) -> tuple[Coverage, ...]:
    """One line for each expected component: rooms walked, in walk order, then the planned ones never walked."""
    sound = _spoken_of(entries, vocabulary)
    anywhere = _anywhere(sound)
    # What was said of a planned room from the next one was said of it.
    seen = [*walked, *(room for room, _ in sound if plan.meant_by(room))]
    return tuple(
        Coverage(room=room, component=component, status=_status(_found(room, component, sound, anywhere, plan)))
        for room, components in _rooms(tuple(dict.fromkeys(seen)), vocabulary, plan)
        for component in dict.fromkeys(components)
    )


def _rooms(walked: tuple[str, ...], vocabulary: Vocabulary, plan: Expected) -> Iterator[tuple[str, tuple[str, ...]]]:
    usual = {name: term.expects for name, term in vocabulary.rooms.items()}
    for room in walked:
        planned = plan.meant_by(room)
        yield room, usual_in(room, usual) if planned is None else plan.rooms[planned]
    for room in plan.never_walked(walked):
        yield room, plan.rooms[room]
    if WHOLE_UNIT in plan.rooms and WHOLE_UNIT not in walked:
        yield WHOLE_UNIT, plan.rooms[WHOLE_UNIT]


def _spoken_of(entries: Sequence[Entry], vocabulary: Vocabulary) -> dict[tuple[str, str], bool]:
    """What was spoken of, by room and component, and whether all of it was good."""
    sound: dict[tuple[str, str], bool] = {}
    for entry in entries:
        of = entry.room, entry.component
        if entry.kind in SPEAKS:
            sound[of] = sound.get(of, True) and _is_sound(entry, vocabulary)
        elif entry.kind in HANDED:
            sound[of] = False
    return sound


def _anywhere(sound: Mapping[tuple[str, str], bool]) -> dict[str, bool]:
    found: dict[str, bool] = {}
    for (_, component), good in sound.items():
        found[component] = found.get(component, True) and good
    return found


def _found(
    room: str,
    component: str,
    sound: Mapping[tuple[str, str], bool],
    anywhere: Mapping[str, bool],
    plan: Expected,
) -> bool | None:
    """Whether what was said of it was good; None where nothing was said.

    What a plan wants of the unit as a whole may have been said in any room.
    """
    if room == WHOLE_UNIT and WHOLE_UNIT in plan.rooms:
        return anywhere.get(component)
    return sound.get((room, component))


def _status(sound: bool | None) -> CoverageStatus:
    if sound is None:
        return "not_noted"
    return "described_sound" if sound else "noted"


def _is_sound(entry: Entry, vocabulary: Vocabulary) -> bool:
    if entry.kind == "check":
        return entry.outcome == "works"
    if entry.condition is None:
        return False
    return vocabulary.is_sound(entry.condition) or entry.assertion == "absent"
