"""Reviewing without a browser: answers one a line, each kept before it is told, and nothing decided by accident."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from narrate2report.records.beside import journal_beside
from narrate2report.records.files import read_record
from narrate2report.records.findings import Entry, Findings
from narrate2report.records.journal import JournalLine
from narrate2report.records.walk import read_walk
from narrate2report.review import desk as desk_module
from narrate2report.review import requests as ask
from narrate2report.review.deciding import Kept
from narrate2report.wording import said
from tests.journeys.keyboard import Person, interrupted
from tests.review.hand_made import draft, opened, written


@pytest.fixture
def place(tmp_path: Path) -> Path:
    return written(tmp_path)


@pytest.fixture
def person(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Person:
    return Person(monkeypatch, capsys, columns=160)


def states(place: Path) -> list[str]:
    return [entry.state for entry in read_record(place, Findings).entries]


def entry(place: Path, name: str) -> Entry:
    return next(one for one in read_record(place, Findings).entries if one.id == name)


def test_the_entry_at_hand_is_shown_with_all_one_needs_to_decide(place: Path, person: Person) -> None:
    told = person.answers(place, "q")
    for part in (
        "1 of 6, to decide",
        "Kitchen · countertop · chip",
        "“The counter is chipped.”",
        "open one.mp4 at 0:04",
        "one.mp4#t=4.00,7.00",
        "'chip' said of the countertop",
        "6 of 6 entries to decide, 2 not spoken of (c)",
    ):
        assert part in told
    assert not journal_beside(place).exists()


def test_from_the_first_entry_to_nothing_left(place: Path, person: Person) -> None:
    told = person.answers(
        place, "a", "x not so", "g", "y", "a", "w it was the other one", "a", "c", "n", "1 s clean, dry"
    )
    assert states(place) == ["accepted", "dropped", "accepted", "accepted", "dropped", "accepted"]
    assert [entry.decided.by for entry in read_record(place, Findings).entries if entry.decided] == ["Ida Pell"] * 6
    gaps = [row.acknowledged for row in read_record(place, Findings).coverage if row.status == "not_noted"]
    assert [(gap.looked, gap.note) for gap in gaps if gap] == [
        ("not_looked_at", None),
        ("looked_at_since", "clean, dry"),
    ]
    assert "every entry is decided, no open gaps" in told
    assert f"seal {place}" in told


def test_what_is_plainly_in_order_is_accepted_together_only_after_it_was_seen(place: Path, person: Person) -> None:
    told = person.answers(place, "g", "", "q")
    assert "Kitchen, oven: works" in told
    assert "“It heats.”" in told
    assert set(states(place)) == {"proposed"}


def test_heard_and_read_stand_beside_each_other(tmp_path: Path, person: Person) -> None:
    walk = draft()
    heard = {"heard": "cock", "read": "caulk", "why": "sounds like it", "sureness": 0.9}
    first = Entry.model_validate(walk.entries[0].model_dump() | {"heard": [heard]})
    place = tmp_path / "walk.findings.json"
    place.write_text(walk.model_copy(update={"entries": (first,)}).model_dump_json(by_alias=True), encoding="utf-8")
    assert "“cock” read as “caulk” (sounds like it)" in person.answers(place)


def test_a_change_is_asked_field_by_field_and_enter_keeps(place: Path, person: Person) -> None:
    answers = [
        "e",
        "",
        "",
        "sink",
        "stained",
        "",
        "by the stove",
        "an inch",
        "sli",
        "2",
        "yes",
        "seen twice",
        "0:03.5",
        "",
    ]
    told = person.answers(place, *answers)
    after = entry(place, "e1")
    assert said(after) == "stain ×2, slight, an inch, by the stove, there before"
    assert (after.room, after.component, after.note, after.state) == ("kitchen", "sink", "seen twice", "changed")
    assert after.evidence[0].link == "one.mp4#t=3.50,7.00"
    assert "Says [what was seen]: " in told
    assert "Where on it []: " in told


def test_one_field_is_changed_alone_and_a_point_keeps_the_rest(place: Path, person: Person) -> None:
    person.answers(place, "e where left of the sink", "e", "", "", "washbasin", ".", "e1", "e where -")
    assert entry(place, "e2").component == "sink"
    assert entry(place, "e1").where is None
    assert entry(place, "e1").state == "changed"


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("e component zzz", "no known component; type a word of the vocabulary"),
        ("e component s", "could be: "),
        ("e condition -", "a condition needs its condition"),
        ("e start soon", "is no time"),
        ("e quantity few", "is no number"),
        ("e wherever", "is no field"),
        ("e severity terrible", "type one of: slight, moderate, severe"),
        ("m", "there is no entry before this one"),
        ("o", "that is how it stands already"),
        ("t", "does not lie beside the findings file"),
        ("t no", "it has no picture"),
        ("i 404", "there is no sentence 404"),
        ("u", "no decision to take back"),
        ("accept", "is no answer"),
        ("w\n", "a reason is part of the record"),
        (f"x {'why ' * 600}", "at most 2000 characters"),
        ("c\n1 s", "say behind s what was seen"),
        ("c\n9 n", "there is no number 9"),
        ("c\nmaybe", "answer n, s or l"),
    ],
)
def test_what_cannot_be_is_said_in_a_line_and_nothing_is_kept(
    place: Path, person: Person, typed: str, told: str
) -> None:
    assert told in person.answers(place, *typed.split("\n"))
    assert read_walk(place) == draft()
    assert not journal_beside(place).exists()


def test_a_sentence_that_gave_nothing_becomes_an_entry(place: Path, person: Person) -> None:
    told = person.answers(place, "i", "i 3", "", "", "floor", "burn", ".")
    assert "“What was said as number 3.”  (talk)" in told
    assert "number 8" not in told.partition("i 3")[0]
    record = read_record(place, Findings)
    (made,) = [one for one in record.entries if one.component == "floor"]
    assert (made.room, said(made), made.state) == ("kitchen", "burn", "accepted")
    assert [sentence.id for sentence in record.unused] == ["s0008", "s0009"]


def test_what_was_not_understood_can_be_listened_to_and_made_an_entry(tmp_path: Path, person: Person) -> None:
    walk = draft().model_dump(by_alias=True)
    walk["transcript"]["gaps"] = [{"recording": "two.mp4", "start": 40, "end": 44}]
    place = tmp_path / "walk.findings.json"
    place.write_text(Findings.model_validate(walk).model_dump_json(by_alias=True), encoding="utf-8")
    told = person.answers(place, "i all", "i 10", "", "", "mirror", "crack", ".")
    assert "someone speaks for 4 s and was not understood; listen to two.mp4" in told
    (made,) = [one for one in read_record(place, Findings).entries if one.component == "mirror"]
    assert (made.room, said(made), made.evidence[0].link) == ("bathroom", "crack", "two.mp4#t=40.00,44.00")


def test_merging_splitting_undoing_go_to_the_entry_that_they_are_about(place: Path, person: Person) -> None:
    told = person.answers(place, "e5", "m", "s", "e condition crack", "u", "u", "u", "r")
    assert [entry.id for entry in read_record(place, Findings).entries] == [entry.id for entry in draft().entries]
    assert (entry(place, "e4").state, entry(place, "e5").merged_into) == ("changed", "e4")
    assert told.count("Kept: taken back") == 3


def test_gaps_keep_their_numbers_while_a_room_is_shown(tmp_path: Path, person: Person) -> None:
    rows = [{"room": "kitchen", "component": part, "status": "not_noted"} for part in ("floor", "wall", "ceiling")]
    place = tmp_path / "walk.findings.json"
    walk = Findings.model_validate(draft().model_dump(by_alias=True) | {"coverage": rows})
    place.write_text(walk.model_dump_json(by_alias=True), encoding="utf-8")
    person.answers(place, "c", "1 n", "2 s sound", "b", "c all", "1 l", "b")
    settled = {row.component: row.acknowledged for row in read_record(place, Findings).coverage}
    assert [said and said.looked for said in settled.values()] == ["left_not_noted", "looked_at_since", None]


def test_alarms_that_nobody_spoke_of_stand_before_all_other_gaps(tmp_path: Path, person: Person) -> None:
    rows = [("kitchen", "floor"), ("bedroom", "smoke_alarm")]
    silent = [{"room": room, "component": part, "status": "not_noted"} for room, part in rows]
    place = tmp_path / "walk.findings.json"
    walk = Findings.model_validate(draft().model_dump(by_alias=True) | {"coverage": silent})
    place.write_text(walk.model_dump_json(by_alias=True), encoding="utf-8")
    told = person.answers(place, "c", "b")
    alarms = [told.index(f"{alarm} alarm not spoken of {where}") for alarm, where in (("Smoke", "in"), ("CO", "any"))]
    assert max(alarms) < told.index("Silence is never taken for good")


def test_who_decides_is_asked_and_never_a_sign(place: Path, person: Person) -> None:
    told = person.answers(place, "", "?", "Jo Marr", "a", by=None)
    assert told.count("Your name goes beside each decision") == 2
    decided = entry(place, "e1").decided
    assert decided is not None
    assert decided.by == "Jo Marr"


def test_who_spoke_is_proposed(tmp_path: Path, person: Person) -> None:
    walk = draft().model_dump(by_alias=True)
    walk["walkthrough"]["inspector"] = [{"value": "Ida Pell", "source": "spoken at 0:01"}]
    place = tmp_path / "walk.findings.json"
    place.write_text(Findings.model_validate(walk).model_dump_json(by_alias=True), encoding="utf-8")
    assert "Who decides [Ida Pell]: " in person.answers(place, "", "a", by=None)
    decided = entry(place, "e1").decided
    assert decided is not None
    assert decided.by == "Ida Pell"


def test_no_name_and_no_more_answers_end_cleanly_with_nothing_decided(place: Path, person: Person) -> None:
    assert "6 of 6 entries to decide" in person.answers(place, by=None)
    assert not journal_beside(place).exists()


def test_what_another_window_decides_meanwhile_is_told_and_not_decided_over(
    place: Path, person: Person, monkeypatch: pytest.MonkeyPatch
) -> None:
    decide = desk_module.Desk.decide
    interfering = [True]

    def interrupted(desk: desk_module.Desk, wanted: ask.Request, by: str, seen: int) -> Kept[JournalLine]:
        if interfering and interfering.pop():
            decide(opened(place), ask.Drop(entries=("e1",)), "Jo Marr", 0)
        return decide(desk, wanted, by, seen)

    monkeypatch.setattr(desk_module.Desk, "decide", interrupted)
    told = person.answers(place, "a", "q")
    assert "decided in another window meanwhile (by Jo Marr)" in told
    assert "dropped by Jo Marr" in told
    assert entry(place, "e1").state == "dropped"


@pytest.mark.skipif(not hasattr(os, "killpg"), reason="Ctrl-C is sent otherwise on this system")
def test_ctrl_c_ends_it_with_every_decision_kept(place: Path) -> None:
    out = interrupted(place, "a", "accepted")
    assert "5 of 6 entries to decide" in out
    assert states(place)[0] == "accepted"
