"""Judging changes without a browser: each answer is kept before it is told, and the program decides nothing."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from narrate2report.records.beside import journal_beside
from narrate2report.records.comparison import Comparison, FlawChange
from narrate2report.records.files import read_record, write_record
from narrate2report.records.findings import Findings
from narrate2report.review import judging_requests as ask
from tests.journeys.keyboard import Person, interrupted
from tests.review.compared import MARKUP, draft, opened, written


@pytest.fixture
def place(tmp_path: Path) -> Path:
    return written(tmp_path)


@pytest.fixture
def person(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Person:
    return Person(monkeypatch, capsys, columns=200)


def changes(place: Path) -> dict[str, FlawChange]:
    return {change.id: change for change in read_record(place, Comparison).changes}


def test_a_change_is_shown_with_both_quotes_their_links_and_what_was_published(place: Path, person: Person) -> None:
    told = person.answers(place, "c3", "q")
    for part in (
        "1 of 7 (c1), to confirm, to judge",
        "Kitchen · countertop · worse",
        "“The counter is chipped.”",
        "open in.mp4 at 0:04",
        "in.mp4#t=4.00,7.00",
        "“The chip in the counter is larger.”",
        "out.mp4#t=4.00,7.00",
        "said so of worse",
        "carpet: ordinary wear: faded or thinned by walking; damage: holes, burns or extensive stains [HUD",
        "confidence high",
        "move-in 2026-03-06 (in.findings.json) is not sealed",
        "7 of 7 changes to confirm, 3 to judge",
    ):
        assert part in told, part
    assert not journal_beside(place).exists()


def test_what_was_written_down_is_read_and_not_opened(place: Path, person: Person) -> None:
    record = place.with_name("in.findings.json")
    findings = read_record(record, Findings)
    notes = [recording.model_copy(update={"media": False}) for recording in findings.recordings]
    write_record(record, findings.model_copy(update={"recordings": tuple(notes)}))
    told = person.answers(place, "q")
    assert "read in.mp4 at 0:04" in told
    assert "open out.mp4 at 0:04" in told


def test_from_the_first_change_to_nothing_left(place: Path, person: Person) -> None:
    told = person.answers(place, "2 twice as long", "e gone", "a", "a", "1", "0 ask the owner", "a", "n")
    found = changes(place)
    judged = {name: change.judgement for name, change in found.items() if change.judgement}
    assert {name: (one.verdict, one.why, one.by) for name, one in judged.items()} == {
        "c1": ("beyond_ordinary_wear", "twice as long", "Ida Pell"),
        "c5": ("ordinary_wear", None, "Ida Pell"),
        "c6": ("open", "ask the owner", "Ida Pell"),
    }
    assert found["c2"].outcome == "gone"
    assert [name for name, change in found.items() if not change.confirmed] == ["c6"], "left open is not agreed to"
    assert "Kept: beyond ordinary wear" in told


def test_pairing_otherwise_joining_splitting_and_taking_back(place: Path, person: Person) -> None:
    told = person.answers(place, "c7", "t", "t 1 worse", "u", "m c5", "c3", "s", "s 3", "u", "q")
    assert "move-out 2027-03-01" in told
    found = changes(place)
    assert (found["c7"].before, found["c7"].after) == (("b5", "b4"), ("a3",))
    assert "c5" not in found
    assert found["c3"] == next(change for change in draft().changes if change.id == "c3")
    assert told.count("Kept: ") == 5


def test_a_plain_pair_comes_apart_by_one_letter(place: Path, person: Person) -> None:
    person.answers(place, "s", "q")
    found = list(changes(place).values())
    assert [(one.before, one.after, one.outcome) for one in found[:2]] == [
        (("b0",), (), "not_mentioned"),
        ((), ("a0",), "no_baseline"),
    ]


def test_what_needs_no_judgement_is_agreed_to_together_once_it_was_listed(place: Path, person: Person) -> None:
    told = person.answers(place, "c3", "A", "y", "q")
    assert "Agree to these 2 together?" in told
    assert [name for name, change in changes(place).items() if change.confirmed] == ["c3", "c7"]


@pytest.mark.parametrize(
    ("typed", "why"),
    [
        ("e brandnew", "is no outcome"),
        ("e new", "does not fit these entries"),
        ("t 99", "there is no number 99"),
        ("t ²", "there is no number ²"),
        ("m c404", "no change 'c404'"),
        ("s 1 2", "each of the two needs a flaw"),
        ("s x", "there is no number x"),
        ("u", "there is no decision to take back"),
        ("2 \u202ereversed", "holds characters that are no text"),
        ("zz", "is no answer"),
    ],
)
def test_what_cannot_be_is_said_and_nothing_is_written(place: Path, person: Person, typed: str, why: str) -> None:
    assert why in person.answers(place, typed, "q")
    assert not journal_beside(place).exists()
    assert read_record(place, Comparison) == draft()


def test_markup_that_was_spoken_is_shown_as_words(place: Path, person: Person) -> None:
    assert MARKUP in person.answers(place, "c5", "q")


def test_published_guidance_is_shown_whole_with_sources_and_decides_nothing(place: Path, person: Person) -> None:
    told = person.answers(place, "c6", "g", "q")
    parts = "They are no law, and decide nothing", "blinds: ordinary wear: heat-blistered", "Tex. Prop. Code 92.001(4)"
    for part in parts:
        assert part in told
    assert read_record(place, Comparison) == draft()


def test_what_another_window_decides_meanwhile_is_told_and_not_decided_over(
    place: Path, person: Person, monkeypatch: pytest.MonkeyPatch
) -> None:
    def asked_and_interrupted(*_: object, **__: object) -> str:
        if answers[0] == "2":
            opened(place).decide(ask.Judge(changes=("c1",), verdict="ordinary_wear"), "Jo Marr", 0)
        return answers.pop(0)

    answers = ["2", "q"]
    monkeypatch.setattr("rich.console.Console.input", asked_and_interrupted)
    told = person.answers(place)
    assert "decided in another window meanwhile (by Jo Marr)" in told
    assert "ordinary wear says Jo Marr" in told
    judgement = changes(place)["c1"].judgement
    assert judgement is not None
    assert judgement.verdict == "ordinary_wear"


@pytest.mark.skipif(not hasattr(os, "killpg"), reason="Ctrl-C is sent otherwise on this system")
def test_ctrl_c_ends_it_with_every_decision_kept(place: Path) -> None:
    out = interrupted(place, "1", "ordinary wear")
    assert "6 of 7 changes to confirm" in out
    assert changes(place)["c1"].confirmed
