"""Shares with their intervals, and what they are counted from."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrate2report.evaluate.marks import decided_marks, marks_of
from narrate2report.evaluate.matching import match
from narrate2report.evaluate.rates import Walk, evaluation, share
from narrate2report.records.findings import Entry, Evidence, Findings
from tests.drafted import Drafted

LINES = [(0.0, 5.0), (5.0, 10.0), (10.0, 15.0)]


def entry(at: float, component: str, condition: str, room: str = "kitchen", number: int = 1) -> Entry:
    return Entry(
        id=f"e{number}",
        kind="condition",
        room=room,
        component=component,
        condition=condition,
        assertion="present",
        evidence=(Evidence.of("walk.mp4", at, at + 2, "as said", "s1"),),
        confidence=0.8,
        because=("said",),
    )


def mark(
    line: int | list[int], component: str | list[str], condition: str | list[str], **more: object
) -> dict[str, object]:
    told = {"room": "kitchen", "component": component, "condition": condition, "assertion": "present"}
    return {"line": line, "kind": "condition", **told, **more}


@pytest.mark.parametrize(
    ("part", "whole", "low", "high"),
    # Newcombe (1998), "Two-sided confidence intervals for the single proportion", table I, score method.
    [(81, 263, 0.2553, 0.3662), (15, 148, 0.0624, 0.1605), (0, 20, 0.0, 0.1611), (1, 29, 0.0061, 0.1718)],
)
def test_the_interval_is_the_published_one(part: int, whole: int, low: float, high: float) -> None:
    told = share(part, whole)
    assert told.low == pytest.approx(low, abs=0.0001)
    assert told.high == pytest.approx(high, abs=0.0001)


@given(st.integers(1, 500).flatmap(lambda whole: st.tuples(st.integers(0, whole), st.just(whole))))
def test_a_share_lies_in_its_interval(counted: tuple[int, int]) -> None:
    told = share(*counted)
    assert told.value is not None
    assert told.low is not None
    assert told.high is not None
    assert 0 <= told.low <= told.value + 1e-4
    assert told.value - 1e-4 <= told.high <= 1


def test_a_precise_entry_is_not_left_over_for_a_vague_one() -> None:
    marks = marks_of([mark(1, ["sink", "faucet"], "leak"), mark(1, "sink", "leak")], LINES, 0.0)
    read = [entry(1, "sink", "leak", number=1), entry(1, "faucet", "leak", number=2)]
    for order in (read, read[::-1]):
        matched = match(marks, order)
        assert not matched.missed
        assert not matched.extra


def test_what_is_optional_is_neither_asked_for_nor_held_against_anyone() -> None:
    marks = marks_of([mark(1, "sink", "leak", optional=True)], LINES, 0.0)
    assert match(marks, []).missed == ()
    assert match(marks, [entry(1, "sink", "leak")]).extra == ()
    told = evaluation([Walk("walk", match(marks, [entry(1, "sink", "leak")]), 3)])
    assert told.observations.found == 0


def test_one_of_those_that_say_the_same_is_enough() -> None:
    marks = marks_of([mark(1, "sink", "leak", same_as=1), mark(1, "faucet", "drip")], LINES, 0.0)
    assert match(marks, [entry(1, "sink", "leak")]).missed == ()
    assert match(marks, [entry(1, "faucet", "drip")]).missed == ()


def test_an_entry_of_other_words_or_another_room_is_none_of_the_mark() -> None:
    marks = marks_of([mark(1, "sink", "leak")], LINES, 0.0)
    for wrong in (entry(7, "sink", "leak"), entry(1, "sink", "leak", room="bathroom"), entry(1, "sink", "rust")):
        matched = match(marks, [wrong])
        assert [one.told for one in matched.missed] == ["condition kitchen sink leak present"]
        assert matched.extra == (wrong,)
    assert match(marks, [entry(1, "sink", "leak", room="kitchen.2")]).missed == ()


def test_a_flaw_where_none_was_told_is_a_false_alarm_and_one_beside_another_is_not() -> None:
    marks = marks_of([mark(1, "sink", "leak"), mark(2, "oven", "clean")], LINES, 0.0)
    beside, alarm = entry(1, "drain", "clogged", number=2), entry(6, "oven", "stain", number=3)
    matched = match(marks, [entry(1, "sink", "leak"), beside, alarm])
    assert set(matched.extra) == {beside, alarm}
    assert matched.false_alarms == (alarm,)


def test_a_walk_decided_by_a_person_is_read_right_by_itself(move_in: Drafted) -> None:
    findings = move_in.findings
    gold = decided_marks(findings)
    told = evaluation([Walk("walk", match(gold.marks, findings.entries), gold.stretches)])
    assert told.observations.f1 == 1.0
    assert told.wrong == ()
    assert sum(rates.found for rates in told.kinds) == len(findings.entries)


def test_what_a_person_dropped_and_added_is_told(move_in: Drafted) -> None:
    drafted = move_in.findings
    dropped, *others = drafted.entries
    gold = decided_marks(_with(drafted, [dropped.model_copy(update={"state": "dropped"}), *others]))
    assert match(gold.marks, drafted.entries).extra == (dropped,)
    gold = decided_marks(drafted)
    assert len(match(gold.marks, others).missed) == 1


def _with(findings: Findings, entries: list[Entry]) -> Findings:
    return findings.model_copy(update={"entries": tuple(entries)})
