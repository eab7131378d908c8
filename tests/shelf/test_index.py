"""A shelf of walks: what is on it, what is found, and that its index always says what the folder does."""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from narrate2report.errors import BadInput
from narrate2report.records.files import read_record, write_record
from narrate2report.records.findings import Decision, Findings, Seal, Sourced
from narrate2report.records.settlement import Settlement
from narrate2report.records.shelved import Hit, Shelved
from narrate2report.shelf.index import Index, index_place, open_index
from narrate2report.shelf.names import groups
from tests.publish.walk import entry, evidence, findings
from tests.settled import on_disk

CHIP = entry(id="e1", evidence=(evidence(75.3, "a chip along the front edge"),))
LEAK = entry(id="e2", component="sink", condition="leak", evidence=(evidence(90.0, "slow drip below the trap"),))


@pytest.fixture
def shelf(tmp_path: Path) -> Path:
    """Three walks in folders of their own, and a recording that nobody has drafted."""
    folder = tmp_path / "walks"
    put(folder / "2a" / "in.findings.json", of("2A", "2026-03-01"))
    put(folder / "2a" / "out.findings.json", of("2A", "2026-09-01"))
    put(folder / "north" / "7c" / "in.findings.json", of("7C", "2025-01-01"))
    (folder / "north" / "9d").mkdir()
    (folder / "north" / "9d" / "film.MOV").write_bytes(b"film")
    return folder


def of(unit: str, day: str) -> Findings:
    walk = findings(CHIP, LEAK)
    head = walk.walkthrough.model_copy(
        update={"unit": (Sourced(value=unit, source="given"),), "date": (Sourced(value=day, source="given"),)}
    )
    return walk.model_copy(update={"walkthrough": head})


def put(file: Path, walk: Findings) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    write_record(file, walk)


@contextmanager
def indexed(shelf: Path) -> Iterator[Index]:
    with open_index(index_place(shelf.parent / "cache", shelf), shelf) as index:
        index.refresh(_unwatched)
        yield index


def _unwatched(done: int, of: int) -> None:
    assert done <= of


def walks(shelf: Path) -> dict[str, Shelved]:
    with indexed(shelf) as index:
        return {walk.path: walk for walk in index.walks()}


def found(shelf: Path, *words: str, most: int = 50) -> list[Hit]:
    with indexed(shelf) as index:
        return index.search([(word,) for word in words], most)


def test_every_walk_is_listed_with_where_it_stands(shelf: Path) -> None:
    told = walks(shelf)
    assert list(told) == [
        "2a/in.findings.json",
        "2a/out.findings.json",
        "north/7c/in.findings.json",
        "north/9d/film.MOV",
    ]
    assert told["north/9d/film.MOV"].standing == "to_draft"
    first = told["2a/in.findings.json"]
    assert (first.standing, first.unit, first.date) == ("to_review", "2A", "2026-03-01")
    assert (first.entries, first.open) == (2, 2)


def test_a_recording_is_to_be_drafted_until_a_record_beside_it_is_of_it(shelf: Path) -> None:
    walk = of("9D", "2026-01-01")
    (recording,) = walk.recordings[:1]
    named = recording.model_copy(update={"file": "film.MOV"})
    put(shelf / "north" / "9d" / "film.findings.json", walk.model_copy(update={"recordings": (named,)}))
    assert walks(shelf)["north/9d/film.findings.json"].standing == "to_review"
    assert "north/9d/film.MOV" not in walks(shelf)
    (shelf / "north" / "9d" / "film.findings.json").unlink()
    assert walks(shelf)["north/9d/film.MOV"].standing == "to_draft"


def test_a_decided_walk_waits_for_its_seal_and_a_sealed_one_for_nothing(shelf: Path) -> None:
    walk = of("2A", "2026-03-01")
    decided = walk.model_copy(
        update={
            "entries": tuple(
                one.model_copy(
                    update={"state": "accepted", "decided": Decision(by="Ida Pell", at="2026-03-02T09:00:00Z")}
                )
                for one in walk.entries
            ),
            "coverage": (),
        }
    )
    put(shelf / "2a" / "in.findings.json", decided)
    assert walks(shelf)["2a/in.findings.json"].standing == "reviewed"
    seal = Seal(sha256="0" * 64, sealed_at="2026-03-02T10:00:00Z", sealed_by="Ida Pell", statement="As seen.", files=())
    put(shelf / "2a" / "in.findings.json", decided.model_copy(update={"seal": seal}))
    told = walks(shelf)["2a/in.findings.json"]
    assert (told.standing, told.open) == ("sealed", 0)


def test_a_record_that_cannot_be_read_is_told_and_hides_no_other(shelf: Path) -> None:
    (shelf / "2a" / "in.findings.json").write_text("{", encoding="utf-8")
    told = walks(shelf)
    assert told["2a/in.findings.json"].standing == "broken"
    assert "in.findings.json" in (told["2a/in.findings.json"].fault or "")
    assert told["2a/out.findings.json"].standing == "to_review"


def test_words_are_found_in_the_newest_walk_first_with_a_link(shelf: Path) -> None:
    hits = found(shelf, "dripping")
    assert [hit.date for hit in hits] == sorted((hit.date or "" for hit in hits), reverse=True)
    assert {hit.path for hit in hits} == {"2a/in.findings.json", "2a/out.findings.json", "north/7c/in.findings.json"}
    assert (hits[0].told, hits[0].quote) == ("Kitchen, sink: leak", "slow drip below the trap")
    assert hits[0].link == "walk.mp4#t=90.00,93.00"
    assert len(found(shelf, "dripping", most=1)) == 1


def test_all_words_must_stand_in_the_same_place(shelf: Path) -> None:
    assert found(shelf, "chip", "edge")
    assert not found(shelf, "chip", "trap")


def test_what_changed_on_disk_is_what_is_found(shelf: Path) -> None:
    with indexed(shelf):
        pass
    walk = of("2A", "2026-03-01")
    noted = walk.entries[0].model_copy(update={"note": "see the quokka"})
    put(shelf / "2a" / "in.findings.json", walk.model_copy(update={"entries": (noted, *walk.entries[1:])}))
    assert [hit.path for hit in found(shelf, "quokka")] == ["2a/in.findings.json"]
    shutil.rmtree(shelf / "2a")
    assert found(shelf, "quokka") == []
    assert list(walks(shelf)) == ["north/7c/in.findings.json", "north/9d/film.MOV"]


def test_an_index_that_is_damaged_or_of_another_layout_is_made_again(shelf: Path) -> None:
    before = walks(shelf)
    place = index_place(shelf.parent / "cache", shelf)
    place.write_bytes(b"no database at all, but long enough to be taken for one" * 50)
    assert walks(shelf) == before
    with sqlite3.connect(place) as base:
        base.execute("pragma user_version = 99")
    assert walks(shelf) == before


def test_a_copy_with_chapters_is_no_recording_of_its_own(shelf: Path) -> None:
    before = walks(shelf)
    (shelf / "north" / "9d" / "film.chapters.mov").write_bytes(b"film with chapters")
    assert walks(shelf) == before


def test_links_and_hidden_folders_are_passed_over(shelf: Path) -> None:
    before = walks(shelf)
    (shelf / ".kept").mkdir()
    shutil.copy(shelf / "2a" / "in.findings.json", shelf / ".kept")
    (shelf / "round").symlink_to(shelf)
    assert walks(shelf) == before


def test_a_shelf_that_is_no_folder_is_told(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match="is no folder"), indexed(tmp_path / "none"):
        pass


@settings(max_examples=60)
@given(st.text(max_size=60))
def test_any_words_can_be_looked_for(words: str) -> None:
    with sqlite3.connect(":memory:") as memory:
        memory.execute("create virtual table line using fts5(words, tokenize = 'porter unicode61 remove_diacritics 2')")
        for group in groups(words, lambda name: ["bath tub"] if name == "tub" else []):
            asked = " OR ".join('"' + name.replace('"', '""') + '"' for name in group)
            if "\0" not in asked and any(map(str.isalnum, words)):
                memory.execute("select * from line where line match ?", (asked,)).fetchall()


def test_a_name_of_several_words_is_one_thing() -> None:
    names = {"smoke alarm": ["smoke detector", "smoke alarm"], "tub": ["bathtub", "tub"]}
    found_groups = groups("loose Smoke alarm tub", lambda name: names.get(name, []))
    assert found_groups == [("loose",), ("smoke alarm", "smoke detector"), ("tub", "bathtub")]


def test_a_settlement_beside_its_walks_tells_the_next_day_and_closes_them(tmp_path: Path) -> None:
    (tmp_path / "walks" / "2b").mkdir(parents=True)
    place = on_disk(tmp_path / "walks" / "2b")
    settlement = read_record(place, Settlement)
    names = (settlement.comparison.before.file, settlement.comparison.after.file)
    days = sorted(str(day) for due in settlement.due if (day := due.plan_by or due.day))
    told = walks(tmp_path / "walks")
    assert {told[f"2b/{name}"].due for name in names} == {days[0]}
    assert "settled" not in {told[f"2b/{name}"].standing for name in names}
    for name in names:
        record = read_record(place.parent / name, Findings)
        seal = Seal(sha256="0" * 64, sealed_at="2026-05-09T10:00:00Z", sealed_by="Ida Pell", statement="", files=())
        put(place.parent / name, record.model_copy(update={"seal": seal}))
    write_record(place, settlement.model_copy(update={"provisional": False}))
    told = walks(tmp_path / "walks")
    assert {told[f"2b/{name}"].standing for name in names} == {"settled"}
    write_record(place, settlement.model_copy(update={"provisional": True, "today": settlement.today}))
    assert {walks(tmp_path / "walks")[f"2b/{name}"].standing for name in names} == {"sealed"}
    place.unlink()
    assert {walks(tmp_path / "walks")[f"2b/{name}"].due for name in names} == {None}


def test_a_day_that_does_not_apply_is_not_waited_for(tmp_path: Path) -> None:
    """Nothing is left of the deposit, so that it need not be returned by any day."""
    place = on_disk(tmp_path)
    settlement = read_record(place, Settlement)
    first = settlement.due[0].model_copy(update={"plan_by": None, "holds_if": None})
    early, late = date(2026, 6, 1), date(2026, 6, 20)
    due = (
        first.model_copy(update={"duty": "return", "day": early}),
        first.model_copy(update={"duty": "itemise", "day": late}),
    )
    for to, day in (("resident", early), ("owner", late)):
        balance = settlement.balance.model_copy(update={"to": to})
        write_record(place, settlement.model_copy(update={"due": due, "balance": balance}))
        (walk,) = {told.due for told in walks(tmp_path).values()}
        assert walk == str(day)
