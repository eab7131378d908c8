"""Deciding about a comparison: no flaw is lost or counted twice, nobody's decision is lost, nothing is decided for a
person."""

from __future__ import annotations

import tempfile
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from narrate2report.errors import BadInput, BrokenRecord, CannotDecide, NarrateError
from narrate2report.records.beside import journal_beside
from narrate2report.records.compared import read_comparison
from narrate2report.records.comparison import SIDES, Comparison, FlawChange, Verdict
from narrate2report.records.comparison_fold import drafted, folded, id_of
from narrate2report.records.comparison_journal import JudgingLine
from narrate2report.records.files import read_record, record_json, write_record
from narrate2report.records.findings import Findings
from narrate2report.records.schema import published
from narrate2report.review import judging_requests as ask
from narrate2report.review.deciding import Stale
from narrate2report.review.judging_desk import JudgingDesk
from narrate2report.review.requests import Redo, Undo
from tests.review.compared import NOW, WHO, draft, opened, record_of, requests, written
from tests.review.keeping import keeping

LINE = Draft202012Validator(published("judging-line.schema.json"))

kept = keeping(record_of, WHO)


@contextmanager
def desk_on_a_comparison() -> Iterator[JudgingDesk]:
    with tempfile.TemporaryDirectory() as folder:
        yield opened(written(Path(folder)))


@pytest.fixture
def desk(tmp_path: Path) -> JudgingDesk:
    return opened(written(tmp_path))


def change(desk: JudgingDesk, name: str) -> FlawChange:
    return desk.standing.change(name)


def assert_sound(desk: JudgingDesk) -> None:
    """What is true of a comparison whatever was decided about it."""
    for side in SIDES:
        stands = Counter(entry for one in desk.comparison.changes for entry in one.of(side))
        assert {entry: stands[entry] for entry in desk.adverse[side]} == dict.fromkeys(desk.adverse[side], 1)
        assert set(stands) == {entry for one in draft().changes for entry in one.of(side)}
    names = [one.id for one in desk.comparison.changes]
    assert len(set(names)) == len(names)
    for one in desk.comparison.changes:
        assert one.outcome in desk.standing.fitting({side: one.of(side) for side in SIDES})
        assert one.confirmed == (one.decided is not None)
        assert one.judgement is None or one.confirmed or one.judgement.verdict == "open"


@settings(max_examples=150)
@given(st.data())
def test_whatever_is_decided_every_flaw_stands_in_exactly_one_change(data: st.DataObject) -> None:
    with desk_on_a_comparison() as desk:
        for _ in range(data.draw(st.integers(1, 12))):
            kept(desk, data.draw(requests(desk)))
            assert_sound(desk)
            assert folded(draft(), desk.lines) == desk.comparison
            assert drafted(desk.comparison, desk.lines) == draft()
        assert opened(desk.path).comparison == desk.comparison == read_comparison(desk.path)
        for line in desk.lines:
            LINE.validate(record_json(line))


@settings(max_examples=60)
@given(st.data())
def test_a_file_that_lags_behind_its_journal_gives_the_same_comparison(data: st.DataObject) -> None:
    """The decisions are put into the file when a review ends, which may be at any decision."""
    with desk_on_a_comparison() as desk:
        for _ in range(data.draw(st.integers(1, 8))):
            kept(desk, data.draw(requests(desk)))
            if data.draw(st.booleans()):
                desk.put_down()
                assert read_record(desk.path, Comparison) == desk.comparison
        assert opened(desk.path).comparison == desk.comparison == read_comparison(desk.path)
        assert drafted(read_record(desk.path, Comparison), desk.lines) == draft()


@settings(max_examples=60)
@given(st.data())
def test_all_taken_back_is_the_draft_and_all_set_again_is_where_it_stood(data: st.DataObject) -> None:
    with desk_on_a_comparison() as desk:
        for _ in range(data.draw(st.integers(1, 10))):
            kept(desk, data.draw(requests(desk)))
        stood = desk.comparison
        taken_back = 0
        while kept(desk, Undo()):
            taken_back += 1
        assert desk.comparison == draft()
        for _ in range(taken_back):
            assert kept(desk, Redo())
        assert desk.comparison == stood


@settings(max_examples=60)
@given(st.data())
def test_two_windows_lose_nothing_and_neither_decides_about_what_it_has_not_seen(data: st.DataObject) -> None:
    with desk_on_a_comparison() as desk:
        desks = (desk, opened(desk.path))
        seen = [0, 0]
        lines: list[JudgingLine] = []
        for _ in range(data.draw(st.integers(1, 10))):
            number = data.draw(st.sampled_from([0, 1]))
            mine = desks[number]
            unseen = {id_of(altered) for line in lines[seen[number] :] for altered in line.changes}
            wanted = data.draw(requests(mine))
            try:
                line = mine.decide(wanted, WHO, seen[number]).line
            except NarrateError:
                pass
            else:
                assert not unseen & {*getattr(wanted, "changes", ()), getattr(wanted, "change", None)}
                lines = list(mine.lines)
                assert lines[-1] == line
            if data.draw(st.booleans()):
                mine.look()
                seen[number] = len(mine.lines)
        for one in desks:
            one.look()
            assert list(one.lines) == lines
        assert desks[0].comparison == desks[1].comparison == opened(desk.path).comparison
        assert_sound(desk)


def test_nothing_is_judged_before_a_person_does(desk: JudgingDesk) -> None:
    assert all(one.is_open and one.judgement is None for one in desk.comparison.changes)


@pytest.mark.parametrize("verdict", ["ordinary_wear", "beyond_ordinary_wear", "owners_matter", "open"])
def test_a_judgement_carries_who_when_and_why(desk: JudgingDesk, verdict: Verdict) -> None:
    assert kept(desk, ask.Judge(changes=("c1",), verdict=verdict, why="twice as long"))
    found = change(desk, "c1")
    assert found.judgement is not None
    assert found.judgement.model_dump() == {"verdict": verdict, "by": WHO, "at": NOW, "why": "twice as long"}
    assert found.confirmed is (verdict != "open"), "who judges a change has agreed to it; who leaves it open has not"
    assert found.is_open is (verdict == "open")


def test_what_came_before_this_tenancy_is_done_once_it_is_confirmed(desk: JudgingDesk) -> None:
    desk.decide(ask.Confirm(changes=("c1", "c2", "c3", "c4", "c5", "c6", "c7")), WHO, 0)
    assert [one.id for one in desk.comparison.changes if one.is_open] == ["c1", "c5", "c6"]
    (decided,) = {one.decided.by for one in desk.comparison.changes if one.decided}
    assert decided == WHO


def test_an_outcome_is_corrected_and_what_was_judged_of_the_old_one_goes(desk: JudgingDesk) -> None:
    kept(desk, ask.Judge(changes=("c1",), verdict="beyond_ordinary_wear"))
    assert kept(desk, ask.SetOutcome(change="c1", outcome="unchanged"))
    found = change(desk, "c1")
    assert (found.outcome, found.confirmed, found.judgement) == ("unchanged", True, None)
    assert found.because[-1] == "worse before; set to unchanged by Ida Pell"


@pytest.mark.parametrize(
    ("name", "outcome"),
    [("c1", "new"), ("c1", "gone"), ("c2", "unchanged"), ("c2", "better"), ("c5", "worse"), ("c6", "not_mentioned")],
)
def test_an_outcome_that_the_entries_cannot_have_is_refused_with_those_that_fit(
    desk: JudgingDesk, name: str, outcome: str
) -> None:
    with pytest.raises(CannotDecide, match="does not fit these entries; what fits: "):
        desk.decide(ask.SetOutcome.model_validate({"change": name, "outcome": outcome}), WHO, 0)


def test_pairing_two_that_stood_alone_makes_one_of_them(desk: JudgingDesk) -> None:
    assert kept(desk, ask.Pair(change="c7", side="after", entry="a4"))
    found = change(desk, "c7")
    assert (found.before, found.after, found.outcome) == (("b5",), ("a4",), "unchanged")
    assert not found.confirmed, "nobody has said what became of it"
    assert [one.id for one in desk.comparison.changes] == ["c1", "c2", "c3", "c4", "c5", "c7"]


def test_pairing_otherwise_puts_what_stood_there_into_a_change_of_its_own(desk: JudgingDesk) -> None:
    assert kept(desk, ask.Pair(change="c1", side="after", entry="a1", outcome="worse"))
    first, alone, _, third, *_ = desk.comparison.changes
    assert (first.before, first.after, first.outcome, first.confirmed) == (("b0",), ("a1",), "worse", True)
    assert (alone.before, alone.after, alone.outcome, alone.confirmed) == ((), ("a0",), "no_baseline", False)
    assert (third.id, third.before, third.after) == ("c3", ("b2",), ("a2",))


def test_evidence_goes_along_with_the_flaw_that_it_stands_beside(desk: JudgingDesk) -> None:
    """The walls were freshly painted: that says something of the hole, wherever the hole is put."""
    assert kept(desk, ask.Pair(change="c2", side="after", entry="a3"))
    assert set(change(desk, "c2").before) == {"b1", "b4"}


def test_a_change_is_taken_apart_and_what_nobody_said_claims_least(desk: JudgingDesk) -> None:
    kept(desk, ask.Judge(changes=("c3",), verdict="ordinary_wear"))
    assert kept(desk, ask.Split(change="c3", after=("a2",)))
    found, own = change(desk, "c3"), desk.comparison.changes[3]
    assert (found.before, found.after, found.outcome) == (("b2",), ("a1",), "unchanged")
    assert (own.after, own.outcome) == (("a2",), "no_baseline")
    assert not found.confirmed
    assert not own.confirmed
    assert found.judgement is own.judgement is None


@pytest.mark.parametrize(
    "wanted",
    [
        ask.Split(change="c1"),
        ask.Split(change="c2", before=("b1",)),
        ask.Split(change="c5", before=("b4",)),
        ask.Split(change="c1", after=("a4",)),
        ask.Join(changes=("c1", "c1")),
        ask.Pair(change="c1", side="after", entry="a0"),
        ask.Pair(change="c1", side="before", entry="b4"),
        ask.Pair(change="c2", side="before", entry="b5"),
        ask.Confirm(changes=("c404",)),
        Undo(),
        Redo(),
    ],
    ids=str,
)
def test_what_makes_no_sense_is_refused_in_one_line_and_writes_nothing(desk: JudgingDesk, wanted: ask.Request) -> None:
    assert not kept(desk, wanted)
    assert not journal_beside(desk.path).exists()


def test_joined_changes_are_one_and_come_back_in_their_places(desk: JudgingDesk) -> None:
    assert kept(desk, ask.Join(changes=("c7", "c5"), outcome="worse"))
    assert (change(desk, "c7").before, change(desk, "c7").after) == (("b5", "b4"), ("a3",))
    desk.put_down()
    again = opened(desk.path)
    assert kept(again, Undo())
    assert again.comparison == draft()


def test_the_second_window_is_told_who_decided_about_the_same_change(desk: JudgingDesk) -> None:
    other = opened(desk.path)
    desk.decide(ask.Judge(changes=("c1",), verdict="ordinary_wear"), WHO, 0)
    with pytest.raises(Stale, match=r"another window meanwhile \(by Ida Pell\)"):
        other.decide(ask.Judge(changes=("c1",), verdict="beyond_ordinary_wear"), "Jo Marr", 0)
    found = change(other, "c1").judgement
    assert found is not None
    assert found.verdict == "ordinary_wear"


def test_an_entry_that_another_window_has_paired_meanwhile_is_not_taken_away_unseen(desk: JudgingDesk) -> None:
    other = opened(desk.path)
    desk.decide(ask.Pair(change="c7", side="after", entry="a4"), WHO, 0)
    with pytest.raises(Stale):
        other.decide(ask.Pair(change="c2", side="after", entry="a4"), "Jo Marr", 0)
    assert change(other, "c7").after == ("a4",)


def test_a_comparison_made_anew_beneath_an_open_review_is_told(desk: JudgingDesk) -> None:
    write_record(desk.path, draft().model_copy(update={"changes": draft().changes[:2]}))
    with pytest.raises(BrokenRecord, match="compared anew"):
        desk.decide(ask.Confirm(changes=("c1",)), WHO, 0)
    assert not journal_beside(desk.path).exists()


def test_a_journal_of_another_comparison_is_refused(desk: JudgingDesk) -> None:
    desk.decide(ask.Confirm(changes=("c1",)), WHO, 0)
    write_record(desk.path, draft().model_copy(update={"changes": draft().changes[:-1]}))
    with pytest.raises(BrokenRecord, match="belongs to another comparison"):
        opened(desk.path)


def test_a_record_that_lacks_what_the_comparison_names_is_told(desk: JudgingDesk) -> None:
    lone = FlawChange(id="c1", outcome="new", after=("a77",), because=("so",))
    write_record(desk.path, draft().model_copy(update={"changes": (lone,)}))
    with pytest.raises(BrokenRecord, match=r"names the entry 'a77', which out\.findings\.json does not hold"):
        opened(desk.path)


def test_a_change_about_nothing_is_told(desk: JudgingDesk) -> None:
    lone = FlawChange(id="c1", outcome="new", because=("so",))
    write_record(desk.path, draft().model_copy(update={"changes": (lone,)}))
    with pytest.raises(BrokenRecord, match="is about no entry"):
        opened(desk.path)


def test_what_was_left_out_of_a_record_since_is_no_flaw_any_more_and_that_is_said(desk: JudgingDesk) -> None:
    findings = desk.records["before"].path
    record = read_record(findings, Findings)
    entries = tuple(one.model_copy(update={"state": "dropped"}) for one in record.entries)
    write_record(findings, record.model_copy(update={"entries": entries}))
    again = opened(desk.path)
    with pytest.raises(CannotDecide, match="compare the two records again"):
        again.decide(ask.Join(changes=("c2", "c7")), WHO, 0)
    assert kept(again, ask.Confirm(changes=("c2",)))


@pytest.mark.parametrize("file", ["../in.findings.json", "/etc/hostname", "none.findings.json"])
def test_a_record_that_is_not_there_or_lies_elsewhere_is_told(desk: JudgingDesk, file: str) -> None:
    elsewhere = draft().before.model_copy(update={"file": file})
    write_record(desk.path, draft().model_copy(update={"before": elsewhere}))
    with pytest.raises((BrokenRecord, BadInput), match=r"outside its own folder|cannot be read"):
        opened(desk.path)
