"""From a unit file to a card, to a walk that is measured against it, to its review and seal."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest

from narrate2report.cli import main
from narrate2report.records.files import read_record, write_record
from narrate2report.records.findings import Findings
from narrate2report.review import requests as ask
from narrate2report.review.desk import Desk
from narrate2report.wording import said
from tests.journeys.test_draft import NOTES
from tests.journeys.test_seal import DECLARED
from tests.publish.pdf import ReadBack

UNIT = """\
unit: 5C
currency: USD
people:
  residents: [Lena Marbeck]
dates:
  lease_start: 2025-03-06
deposit:
  held: 1500.00
rooms:
  kitchen: [countertop, sink, oven]
  bathroom: [drain, tile]
  balcony: [railing, smoke_alarm]
  whole_unit: [key]
"""


@pytest.fixture
def unit(tmp_path: Path) -> Path:
    path = tmp_path / "flat.yaml"
    path.write_text(UNIT, encoding="utf-8")
    return path


@pytest.fixture
def walk(unit: Path) -> Path:
    """A walk that was planned and on which the balcony was forgotten."""
    notes, out = unit.with_name("walk.txt"), unit.with_name("walk.findings.json")
    notes.write_text(NOTES, encoding="utf-8")
    assert main(["draft", str(notes), "--out", str(out), "--plan", str(unit), "--quiet"]) == 0
    return out


def rows(path: Path) -> dict[str, str]:
    return {f"{row.room}/{row.component}": row.status for row in read_record(path, Findings).coverage}


def test_the_card_lies_in_its_folder_as_paper_and_for_the_phone(unit: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = unit.parent / "new" / "cards"
    assert main(["plan", str(unit), "--to", str(folder)]) == 0
    assert sorted(path.name for path in folder.iterdir()) == ["flat.move_in.card.html", "flat.move_in.card.pdf"]
    assert "Move-in walk, unit 5C" in capsys.readouterr().out
    read = ReadBack((folder / "flat.move_in.card.pdf").read_bytes())
    assert len(read.pages) == 1
    for words in ("Balcony", "Railing look for looseness", "CO alarm press its test button", "Hand over and count"):
        assert words in read.text


def test_with_the_last_walk_each_of_its_flaws_is_looked_at_again(
    unit: Path, walk: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["plan", str(unit), "--to", str(unit.parent), "--last", str(walk)]) == 0
    assert "That record is a draft" in " ".join(capsys.readouterr().out.split())
    text = ReadBack((unit.parent / "flat.move_out.card.pdf").read_bytes()).text
    (chip,) = [entry for entry in read_record(walk, Findings).entries if entry.condition == "chip"]
    assert f"Look again: {said(chip)} (at 0:06 of the move-in)" in text
    assert "Take back and count aloud" in text
    assert "Key 2 given at 0:34 of the move-in" in text
    flaws = [entry for entry in read_record(walk, Findings).entries if entry.is_adverse]
    page = (unit.parent / "flat.move_out.card.html").read_text(encoding="utf-8")
    assert [one.id for one in flaws if f'data-key="again/{one.id}"' not in page] == []


def test_decisions_that_only_the_journal_holds_count(unit: Path, walk: Path) -> None:
    """A flaw that was left out in the review is not looked at again, though the file on disk lags behind."""
    desk = Desk(walk)
    (chip,) = [one for one in desk.findings.entries if one.condition == "chip"]
    desk.decide(ask.Drop(entries=(chip.id,)), "Ida Pell", 0)
    assert main(["plan", str(unit), "--to", str(unit.parent), "--last", str(walk), "--only", "html", "--quiet"]) == 0
    assert f"again/{chip.id}" not in (unit.parent / "flat.move_out.card.html").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("wrong", "told"),
    [
        ("kitchen: [countertop, sink, oven]", "flat.yaml:10: kitchn is no known room; use kitchen"),
        ("bathroom: [drain, tile]", "flat.yaml:11: bathrom is no known room; use bathroom"),
    ],
)
def test_a_room_that_is_not_known_is_told_with_its_line(
    unit: Path, wrong: str, told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    misspelt = {"kitchen: [countertop, sink, oven]": "kitchn: [countertop]", "bathroom: [drain, tile]": "bathrom: []"}
    unit.write_text(UNIT.replace(wrong, misspelt[wrong]), encoding="utf-8")
    assert main(["plan", str(unit), "--to", str(unit.parent / "cards")]) == 2
    error = capsys.readouterr().err
    assert told in error
    assert error.count("\n") == 1
    assert not (unit.parent / "cards").exists()


def test_a_last_walk_that_no_longer_matches_its_seal_makes_no_card(
    unit: Path, walk: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    settle_all(walk)
    assert main(["seal", str(walk), *DECLARED, "--quiet"]) == 0
    walk.write_bytes(walk.read_bytes().replace(b'"chip"', b'"dent"'))
    assert main(["plan", str(unit), "--to", str(unit.parent / "cards"), "--last", str(walk)]) == 2
    assert "does not match its seal" in capsys.readouterr().err
    assert not (unit.parent / "cards").exists()


def test_a_draft_is_measured_against_the_plan(walk: Path) -> None:
    assert rows(walk) == {
        "kitchen/countertop": "noted",
        "kitchen/sink": "not_noted",
        "kitchen/oven": "not_noted",
        "bathroom.hall/drain": "described_sound",
        "bathroom.hall/tile": "not_noted",
        "balcony/railing": "not_noted",
        "balcony/smoke_alarm": "not_noted",
        "whole_unit/key": "noted",
    }


def test_a_walk_of_another_unit_than_the_plan_is_told(unit: Path, tmp_path: Path) -> None:
    unit.write_text(UNIT.replace("unit: 5C", "unit: 7A"), encoding="utf-8")
    notes, out = tmp_path / "walk.txt", tmp_path / "walk.findings.json"
    notes.write_text(NOTES, encoding="utf-8")
    assert main(["draft", str(notes), "--out", str(out), "--plan", str(unit), "--quiet"]) == 0
    assert read_record(out, Findings).walkthrough.clashes == ("unit: 7A (given), 5c (spoken at 0:00)",)


def test_a_plan_without_rooms_measures_nothing_and_is_refused(
    unit: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    unit.write_text(UNIT.partition("rooms:")[0], encoding="utf-8")
    notes, out = tmp_path / "walk.txt", tmp_path / "walk.findings.json"
    notes.write_text(NOTES, encoding="utf-8")
    assert main(["draft", str(notes), "--out", str(out), "--plan", str(unit), "--quiet"]) == 2
    assert "names no rooms" in capsys.readouterr().err
    assert not out.exists()


def test_coverage_calls_out_alarms_and_then_rooms(walk: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["coverage", str(walk)]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].startswith("Smoke alarm not spoken of in Balcony (never walked).")
    assert lines[1].startswith("CO alarm not spoken of anywhere.")
    assert lines[2].startswith("Expected and never walked: Balcony.")
    assert main(["coverage", str(walk), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["never_walked"] == ["balcony"]
    assert told["counts"] == {"not_noted": 5, "noted": 2, "described_sound": 1}


def test_a_record_can_be_measured_against_another_plan_and_stays_as_it_is(
    walk: Path, unit: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = walk.read_bytes()
    unit.write_text(UNIT.partition("rooms:")[0] + "rooms:\n  kitchen: [burner]\n", encoding="utf-8")
    assert main(["coverage", str(walk), "--plan", str(unit), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["rooms"]["kitchen"] == {"burner": "described_sound"}
    assert told["never_walked"] == []
    assert walk.read_bytes() == before


def settle_all(walk: Path) -> None:
    """Everything is accepted and every gap settled, as in a review."""
    desk = Desk(walk)
    for entry in desk.findings.entries:
        desk.decide(ask.Accept(entries=(entry.id,)), "Ida Pell", len(desk.lines))
    gaps = tuple(ask.Gap(room=row.room, component=row.component) for row in desk.findings.coverage if row.is_open)
    desk.decide(ask.Acknowledge(gaps=gaps, looked="not_looked_at", note=None), "Ida Pell", len(desk.lines))
    desk.put_down()


def test_gaps_of_a_room_never_walked_are_asked_for_settled_sealed_and_verified(
    walk: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    assert main(["seal", str(walk), *DECLARED]) == 2
    assert "5" in capsys.readouterr().err
    answers = ["c", "all n", *["a"] * len(read_record(walk, Findings).entries)]
    monkeypatch.setattr("sys.stdin", io.StringIO("".join(f"{line}\n" for line in answers)))
    assert main(["review", str(walk), "--terminal", "--by", "Ida Pell"]) == 0
    assert not any(row.is_open for row in read_record(walk, Findings).coverage)
    capsys.readouterr()
    assert main(["coverage", str(walk)]) == 0
    told = " ".join(capsys.readouterr().out.split())
    assert "not looked at: railing" in told
    assert "to be settled" not in told
    assert main(["seal", str(walk), *DECLARED, "--quiet"]) == 0
    assert main(["verify", str(walk)]) == 0
    assert main(["report", str(walk), "--to", str(walk.parent / "out"), "--only", "pdf", "--quiet"]) == 0
    read = ReadBack((walk.parent / "out" / "walk.resident.pdf").read_bytes())
    assert "Balcony not looked at: railing, smoke alarm." in read.text


def test_a_gap_taken_out_of_a_sealed_record_is_told(walk: Path, capsys: pytest.CaptureFixture[str]) -> None:
    settle_all(walk)
    assert main(["seal", str(walk), *DECLARED, "--quiet"]) == 0
    sealed = read_record(walk, Findings)
    rows = tuple(row for row in sealed.coverage if row.room != "balcony")
    write_record(walk, sealed.model_copy(update={"coverage": rows}))
    assert main(["verify", str(walk)]) == 1
    assert capsys.readouterr().out
