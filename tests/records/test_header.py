"""Facts of a walk from several mouths: all are kept, and a clash is shown."""

from __future__ import annotations

import pytest

from narrate2report.errors import BadInput
from narrate2report.records.findings import Header, Sourced
from narrate2report.records.header import GivenFacts, clashes, with_given


def spoken(value: str) -> Sourced:
    return Sourced(value=value, source="spoken at 0:06")


def test_what_was_given_stands_beside_what_was_spoken() -> None:
    header = Header(unit=(spoken("2d"),), inspector=(spoken("Ida Pell"),))
    walk = with_given(header, GivenFacts(unit="2B", residents=("Jo Marr", "Al Marr")))
    assert walk.unit == (Sourced(value="2B", source="given"), spoken("2d"))
    assert walk.inspector == header.inspector
    assert [resident.value for resident in walk.residents] == ["Jo Marr", "Al Marr"]
    assert walk.clashes == ("unit: 2B (given), 2d (spoken at 0:06)",)


@pytest.mark.parametrize(
    ("given", "heard"),
    [
        ("2B", "2b"),
        ("Unit 2-B", "two b"),
        ("Flat 12", "twelve"),
        ("21", "twenty-one"),
        ("Unit 42 C", "forty two c"),
        ("2026-03-06", "--03-06"),
        ("--03-06", "2026-03-06"),
        ("Ida Pell", "ida pell"),
    ],
)
def test_two_ways_to_say_the_same_are_no_clash(given: str, heard: str) -> None:
    assert clashes({"fact": (spoken(given), spoken(heard))}) == ()


@pytest.mark.parametrize(
    ("given", "heard"),
    [
        ("2B", "2D"),
        ("2", "2B"),
        ("12", "twenty"),
        ("201", "twenty-one"),
        ("2026-03-06", "--03-07"),
        ("2026-03-06", "2025-03-06"),
        ("A", "B"),
    ],
)
def test_two_different_facts_are_a_clash(given: str, heard: str) -> None:
    assert len(clashes({"fact": (spoken(given), spoken(heard))})) == 1


def test_nothing_given_changes_nothing() -> None:
    header = Header(unit=(spoken("2d"),), kind=(spoken("move_in"),))
    assert with_given(header, GivenFacts()) == header


@pytest.mark.parametrize("day", ["31.3.2026", "2026-02-30", "20260331", "", "2026-3-1", "today"])
def test_a_day_that_is_none_is_refused(day: str) -> None:
    with pytest.raises(BadInput, match="--date"):
        GivenFacts(date=day)
