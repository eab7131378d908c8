"""A unit file as a plan of a walk: read, checked against the words in use, with the rooms it expects."""

from __future__ import annotations

from pathlib import Path

from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.records.expected import Expected, Rooms, expected_of
from narrate2report.records.unit_checks import KnownNames, check_unit
from narrate2report.records.unit_file import UnitFile, read_unit


def read_plan(path: Path, vocabulary: Vocabulary) -> UnitFile:
    """A unit file whose names are all known. Raises BadUnit with file and line of the first mistake."""
    file = read_unit(path)
    check_unit(file, known_names(vocabulary))
    return file


def known_names(vocabulary: Vocabulary) -> KnownNames:
    """The rooms and components that a unit file may name."""
    return KnownNames(frozenset(vocabulary.rooms), frozenset(vocabulary.components))


def expected_rooms(file: UnitFile, vocabulary: Vocabulary) -> Expected:
    """The rooms that a walk is measured against. Raises BadUnit where the unit file names none."""
    if not file.unit.rooms:
        raise file.lines.mistake(("rooms",), "names no rooms to measure a walk against; write them below 'rooms:'")
    return expected_of(file.unit, usual_rooms(vocabulary))


def usual_rooms(vocabulary: Vocabulary) -> Rooms:
    """What the vocabulary has for usual in each kind of room."""
    return {name: term.expects for name, term in vocabulary.rooms.items()}
