"""A walk under review: what is decided stands, in this window, in the other one and after opening it again."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from narrate2report.errors import BadInput, BrokenRecord, CannotDecide, NarrateError
from narrate2report.records.beside import journal_beside
from narrate2report.records.files import read_record, write_record
from narrate2report.records.findings import Entry, Findings, Seal
from narrate2report.records.fold import folded, unfolded
from narrate2report.records.journal import Change, JournalLine
from narrate2report.review import requests as ask
from narrate2report.review.deciding import Sealed, Stale
from narrate2report.review.desk import Desk
from narrate2report.review.spine import sentences
from tests.review.hand_made import WHO, draft, opened, record_of, requests, written
from tests.review.keeping import keeping

SEAL = Seal(sha256="0" * 64, sealed_at="2026-03-06T10:00:00Z", sealed_by=WHO, statement="As I saw it.", files=())

kept = keeping(record_of, WHO)


@contextmanager
def desk_on_a_walk() -> Iterator[Desk]:
    with tempfile.TemporaryDirectory() as folder:
        yield opened(written(Path(folder)))


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return opened(written(tmp_path))


def state_of(desk: Desk, entry: str) -> str:
    return next(one.state for one in desk.findings.entries if one.id == entry)


def of(change: Change) -> tuple[str, ...]:
    """The entry that a change is about."""
    part = change.before or change.after
    return (part.id,) if isinstance(part, Entry) else ()


def assert_sound(findings: Findings) -> None:
    """What is true of a record whatever was decided about it."""
    evidence = {sentence for entry in findings.entries for piece in entry.evidence for sentence in piece.sentences}
    unused = {sentence.id for sentence in findings.unused}
    assert evidence | unused == {sentence.id for sentence in sentences(draft())}
    assert evidence & unused == set()
    for entry in findings.entries:
        assert (entry.state == "proposed") == (entry.decided is None)
        assert entry.merged_into is None or entry.state == "dropped"
    assert len({entry.id for entry in findings.entries}) == len(findings.entries)


@settings(max_examples=80)
@given(st.data())
def test_whatever_is_decided_every_sentence_stays_and_the_journal_tells_the_record(data: st.DataObject) -> None:
    with desk_on_a_walk() as desk:
        for _ in range(data.draw(st.integers(1, 12))):
            kept(desk, data.draw(requests(desk)))
            assert folded(draft(), desk.lines) == desk.findings
            assert unfolded(desk.findings, desk.lines) == draft()
            assert_sound(desk.findings)
        assert opened(desk.path).findings == desk.findings
        desk.put_down()
        assert read_record(desk.path, Findings) == desk.findings == opened(desk.path).findings


@settings(max_examples=60)
@given(st.data())
def test_all_taken_back_is_the_draft_and_all_set_again_is_where_it_stood(data: st.DataObject) -> None:
    with desk_on_a_walk() as desk:
        for _ in range(data.draw(st.integers(1, 10))):
            kept(desk, data.draw(requests(desk)))
        stood = desk.findings
        taken_back = 0
        while kept(desk, ask.Undo()):
            taken_back += 1
        assert desk.findings == draft()
        for _ in range(taken_back):
            assert kept(desk, ask.Redo())
        assert desk.findings == stood
        assert opened(desk.path).findings == stood


@settings(max_examples=60)
@given(st.data())
def test_two_windows_lose_nothing_and_neither_decides_about_what_it_has_not_seen(data: st.DataObject) -> None:
    with desk_on_a_walk() as desk:
        desks = (desk, opened(desk.path))
        seen = [0, 0]
        written_lines: list[JournalLine] = []
        for _ in range(data.draw(st.integers(1, 10))):
            number = data.draw(st.sampled_from([0, 1]))
            mine = desks[number]
            unseen = {name for line in written_lines[seen[number] :] for change in line.changes for name in of(change)}
            wanted = data.draw(requests(mine))
            try:
                line = mine.decide(wanted, WHO, seen[number]).line
            except NarrateError:
                pass
            else:
                assert not unseen & {*getattr(wanted, "entries", ()), getattr(wanted, "entry", None)}
                written_lines = list(mine.lines)
                assert written_lines[-1] == line
            if data.draw(st.booleans()):
                mine.look()
                seen[number] = len(mine.lines)
        for one in desks:
            one.look()
            assert list(one.lines) == written_lines
        assert desks[0].findings == desks[1].findings == opened(desk.path).findings
        assert_sound(desk.findings)


def test_the_second_window_is_told_who_decided_about_the_same_entry(desk: Desk) -> None:
    other = opened(desk.path)
    desk.decide(ask.Accept(entries=("e1",)), "Ida Pell", 0)
    with pytest.raises(Stale, match=r"another window meanwhile \(by Ida Pell\)") as told:
        other.decide(ask.Drop(entries=("e1",)), "Jo Marr", 0)
    assert [line.action for line in told.value.lines] == ["accept"]
    assert state_of(other, "e1") == "accepted"
    other.decide(ask.Drop(entries=("e1",)), "Jo Marr", len(other.lines))
    assert state_of(opened(desk.path), "e1") == "dropped"


@pytest.mark.parametrize(
    ("first", "second"),
    [
        (ask.Merge(entries=("e4", "e5")), ask.Accept(entries=("e5",))),
        (ask.Change(entry="e1", facts=ask.Facts(note="left")), ask.Split(entry="e1")),
        (
            ask.Add(sentences=("s0003",), facts=ask.Facts(component="floor", condition="burn")),
            ask.Add(sentences=("s0003",), facts=ask.Facts(component="wall", condition="stain")),
        ),
        (
            ask.Acknowledge(gaps=(ask.Gap(room="kitchen", component="floor"),), looked="not_looked_at"),
            ask.Acknowledge(gaps=(ask.Gap(room="kitchen", component="floor"),), looked="left_not_noted"),
        ),
        (ask.Accept(entries=("e1",)), ask.Undo()),
    ],
    ids=["merged", "changed", "the same sentence", "the same gap", "undo of what was not seen"],
)
def test_what_another_window_has_touched_is_looked_at_first(
    desk: Desk, first: ask.Request, second: ask.Request
) -> None:
    other = opened(desk.path)
    desk.decide(first, "Ida Pell", 0)
    with pytest.raises(Stale):
        other.decide(second, "Jo Marr", 0)
    assert other.findings == desk.findings


def test_decisions_of_two_windows_about_different_entries_both_stand(desk: Desk) -> None:
    other = opened(desk.path)
    desk.decide(ask.Accept(entries=("e1",)), "Ida Pell", 0)
    told = other.decide(ask.Drop(entries=("e2",)), "Jo Marr", 0)
    assert [line.by for line in told.others] == ["Ida Pell", "Ida Pell"]
    desk.look()
    assert [state_of(desk, entry) for entry in ("e1", "e2")] == ["accepted", "dropped"]
    assert desk.findings == other.findings == opened(desk.path).findings


def test_a_sealed_record_is_not_opened_for_decisions(desk: Desk) -> None:
    write_record(desk.path, desk.findings.model_copy(update={"seal": SEAL}))
    with pytest.raises(BadInput, match="start an addendum"):
        opened(desk.path)
    assert not journal_beside(desk.path).exists()


def test_a_record_sealed_while_it_is_open_is_neither_decided_about_nor_written_over(desk: Desk) -> None:
    desk.decide(ask.Accept(entries=("e1",)), WHO, 0)
    write_record(desk.path, desk.findings.model_copy(update={"seal": SEAL}))
    sealed, journal = desk.path.read_bytes(), journal_beside(desk.path).read_bytes()
    with pytest.raises(Sealed):
        desk.decide(ask.Accept(entries=("e2",)), WHO, len(desk.lines))
    desk.put_down()
    assert (desk.path.read_bytes(), journal_beside(desk.path).read_bytes()) == (sealed, journal)


def test_a_draft_written_anew_beneath_an_open_review_is_told(desk: Desk) -> None:
    write_record(desk.path, draft().model_copy(update={"entries": draft().entries[:2]}))
    with pytest.raises(BrokenRecord, match="drafted anew"):
        desk.decide(ask.Accept(entries=("e1",)), WHO, 0)
    assert not journal_beside(desk.path).exists()
    assert len(opened(desk.path).findings.entries) == 2


def test_another_window_that_has_closed_leaves_the_review_open_here(desk: Desk) -> None:
    other = opened(desk.path)
    other.decide(ask.Accept(entries=("e1",)), WHO, 0)
    other.put_down()
    desk.decide(ask.Accept(entries=("e2",)), WHO, 0)
    desk.put_down()
    states = {entry.id: entry.state for entry in read_record(desk.path, Findings).entries}
    assert [states["e1"], states["e2"], states["e3"]] == ["accepted", "accepted", "proposed"]


def test_a_journal_of_another_draft_is_refused(desk: Desk) -> None:
    desk.decide(ask.Accept(entries=("e1",)), WHO, 0)
    entries = tuple(entry.model_copy(update={"confidence": 0.1}) for entry in draft().entries)
    write_record(desk.path, draft().model_copy(update={"entries": entries}))
    with pytest.raises(BrokenRecord, match="belongs to another draft"):
        opened(desk.path)


def test_a_findings_file_that_is_not_there_leaves_nothing_behind(tmp_path: Path) -> None:
    with pytest.raises(NarrateError, match="cannot be read"):
        Desk(tmp_path / "no folder" / "walk.findings.json")
    assert list(tmp_path.iterdir()) == []


def test_who_decided_and_when_stands_beside_the_decision(desk: Desk) -> None:
    desk.decide(ask.Accept(entries=("e1",)), "Ida Pell", 0)
    decided = next(entry.decided for entry in desk.findings.entries if entry.id == "e1")
    assert decided is not None
    assert (decided.by, decided.at) == ("Ida Pell", "2026-03-06T10:00:00.000Z")


def test_nobody_has_decided_before_anybody_does(desk: Desk) -> None:
    assert desk.lines == ()
    with pytest.raises(CannotDecide):
        desk.decide(ask.Undo(), WHO, 0)
    assert desk.findings == draft()
    assert not journal_beside(desk.path).exists()
