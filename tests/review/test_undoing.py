"""Taking back, step by step: each step takes back the newest decision that stands, whatever it was."""

from __future__ import annotations

from pathlib import Path

import pytest

from narrate2report.errors import CannotDecide
from narrate2report.review import requests as ask
from narrate2report.review.desk import Desk
from tests.review.hand_made import WHO, draft, opened, written


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return opened(written(tmp_path))


def decide(desk: Desk, *wanted: ask.Request) -> None:
    for one in wanted:
        desk.decide(one, WHO, len(desk.lines))


def states(desk: Desk) -> str:
    """`a` accepted, `d` dropped, `.` to decide: the first three entries."""
    letters = {"proposed": ".", "accepted": "a", "dropped": "d", "changed": "c"}
    return "".join(letters[entry.state] for entry in desk.findings.entries[:3])


ACCEPT: list[ask.Decide] = [ask.Accept(entries=(name,)) for name in ("e1", "e2", "e3")]


def test_each_undo_takes_back_one_more_and_each_redo_sets_one_again(desk: Desk) -> None:
    decide(desk, *ACCEPT)
    seen = []
    steps: list[ask.Request] = [ask.Undo(), ask.Undo(), ask.Undo(), ask.Redo(), ask.Redo(), ask.Redo()]
    for step in steps:
        decide(desk, step)
        seen.append(states(desk))
    assert seen == ["aa.", "a..", "...", "a..", "aa.", "aaa"]


def test_what_was_decided_after_an_undo_ends_what_could_be_set_again(desk: Desk) -> None:
    decide(desk, *ACCEPT[:2], ask.Undo(), ask.Drop(entries=("e2",)))
    with pytest.raises(CannotDecide, match="nothing was taken back"):
        decide(desk, ask.Redo())
    decide(desk, ask.Undo())
    assert states(desk) == "a.."
    decide(desk, ask.Undo())
    assert states(desk) == "..."


def test_an_undo_goes_on_after_the_review_was_closed_and_opened_again(desk: Desk) -> None:
    decide(desk, *ACCEPT)
    desk.put_down()
    again = opened(desk.path)
    decide(again, ask.Undo(), ask.Undo())
    assert states(opened(desk.path)) == "a.."
    decide(opened(desk.path), ask.Redo())
    assert states(opened(desk.path)) == "aa."


def test_entries_decided_together_are_taken_back_together(desk: Desk) -> None:
    decide(desk, ask.Accept(entries=("e1", "e2", "e3")), ask.Undo())
    assert states(desk) == "..."


@pytest.mark.parametrize(
    "wanted",
    [
        ask.Add(sentences=("s0003", "s0008"), facts=ask.Facts(component="floor", condition="burn")),
        ask.Merge(entries=("e4", "e5")),
        ask.Split(entry="e1"),
        ask.TakeStill(entry="e1"),
        ask.Acknowledge(gaps=(ask.Gap(room="kitchen", component="floor"),), looked="not_looked_at"),
        ask.Withdraw(entry="e1", why="a crumb"),
    ],
    ids=lambda wanted: wanted.action,
)
def test_one_undo_takes_back_all_that_one_decision_did(desk: Desk, wanted: ask.Request) -> None:
    decide(desk, wanted)
    stood = desk.findings
    decide(desk, ask.Undo())
    assert desk.findings == draft()
    decide(desk, ask.Redo())
    assert desk.findings == stood


def test_nothing_is_struck_out_of_the_journal(desk: Desk) -> None:
    decide(desk, *ACCEPT[:1], ask.Undo(), ask.Redo(), ask.Undo())
    assert [line.action for line in desk.lines] == ["begin", "accept", "undo", "redo", "undo"]
    assert [line.takes_back for line in desk.lines] == [None, None, 2, 3, 4]
