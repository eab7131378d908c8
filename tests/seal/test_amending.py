"""An addendum goes on from a sealed record, leaves it untouched, and the chain of seals can be walked back."""

from __future__ import annotations

from pathlib import Path

import pytest

from narrate2report.errors import BadInput, BrokenRecord
from narrate2report.records.beside import journal_beside
from narrate2report.records.files import write_record
from narrate2report.records.findings import Amended
from narrate2report.records.fold import folded
from narrate2report.seal.amending import addendum_beside, amend
from narrate2report.seal.decided import Decided
from narrate2report.seal.sealing import STATEMENT, Sealer, sealed
from narrate2report.seal.verifying import verify
from tests.records.review import Reviewed
from tests.seal.conftest import NOON
from tests.seal.walk import WHO, became, on_disk, write_journal


def everything(folder: Path) -> dict[str, bytes]:
    return {str(file.relative_to(folder)): file.read_bytes() for file in folder.rglob("*") if file.is_file()}


def added_to(path: Path, note: str) -> Path:
    """A sealed addendum in which somebody remarks something about the first entry."""
    out = amend(path)
    made = Reviewed(on_disk(out))
    made.keep(became(made, "e1", note=note, state="changed", decided=WHO))
    write_journal(out, made)
    write_record(out, sealed(Decided(folded(made.draft, made.lines)), out, Sealer("Ida Pell", STATEMENT), NOON))
    return out


def test_it_starts_as_the_sealed_record_and_leaves_that_as_it_is(closed: Path) -> None:
    before, record = everything(closed.parent), on_disk(closed)
    out = amend(closed)
    after = everything(closed.parent)
    assert {name: after[name] for name in before} == before
    assert sorted(after.keys() - before.keys()) == [
        "walk.addendum-1.findings.json",
        "walk.addendum-1.transcript.json",
    ]
    assert record.seal is not None
    start = on_disk(out)
    assert start.seal is None
    assert start.amends == Amended(file="walk.findings.json", sha256=record.seal.sha256)
    assert start.entries == record.entries


def test_a_chain_of_addenda_verifies_back_to_the_first_record(closed: Path) -> None:
    second = added_to(added_to(closed, "seen again on the 7th"), "and on the 8th")
    verified = verify(second)
    assert verified.mismatches == ()
    names = ["walk.addendum-2.findings.json", "walk.addendum-1.findings.json", "walk.findings.json"]
    assert [path.name for path, _ in verified.records] == names
    seals = [record.seal for _, record in verified.records]
    assert [seal.previous for seal in seals if seal] == [seal.sha256 for seal in seals[1:] if seal] + [None]


def test_a_change_anywhere_in_the_chain_is_told(closed: Path) -> None:
    second = added_to(added_to(closed, "seen again on the 7th"), "and on the 8th")
    closed.write_bytes(closed.read_bytes().replace(b'"chip"', b'"hole"', 1))
    told = [str(mismatch) for mismatch in verify(second).mismatches]
    assert any(line.startswith("seal: walk.findings.json") for line in told)
    assert any(line.startswith("addendum: walk.addendum-1.findings.json: what it started from") for line in told)


def test_a_record_before_it_that_is_gone_or_another_one_is_told(closed: Path) -> None:
    out = added_to(closed, "seen again")
    whole = closed.read_bytes()
    closed.unlink()
    (gone,) = verify(out).mismatches
    assert (gone.layer, gone.where, gone.expected) == ("addendum", "walk.findings.json", "present")
    closed.write_bytes(whole)
    record = on_disk(closed)
    write_record(
        closed, sealed(Decided(record.model_copy(update={"seal": None})), closed, Sealer("Max Orr", STATEMENT))
    )
    (other,) = verify(out).mismatches
    assert (other.layer, other.what) == ("addendum", "its seal")


def test_an_addendum_changed_before_its_first_decision_is_told(closed: Path) -> None:
    out = amend(closed)
    start = on_disk(out)
    write_record(out, start.model_copy(update={"unused": ()}))
    made = Reviewed(on_disk(out))
    made.keep(became(made, "e1", note="seen again", decided=WHO))
    write_journal(out, made)
    write_record(out, sealed(Decided(folded(made.draft, made.lines)), out, Sealer("Ida Pell", STATEMENT)))
    (found,) = verify(out).mismatches
    assert found.what == "what it started from"


def test_an_addendum_without_a_decision_is_not_sealed(closed: Path) -> None:
    out = amend(closed)
    with pytest.raises(BadInput, match="journal is missing"):
        sealed(Decided(on_disk(out)), out, Sealer("Ida Pell", STATEMENT))
    assert not journal_beside(out).exists()


def test_nothing_is_added_to_what_no_longer_matches_or_was_never_sealed(ready: Path, closed: Path) -> None:
    whole = closed.read_bytes()
    closed.write_bytes(whole.replace(b'"chip"', b'"hole"', 1))
    with pytest.raises(BrokenRecord, match="no longer matches its seal"):
        amend(closed)
    closed.write_bytes(b"{")
    with pytest.raises(BrokenRecord, match="not JSON"):
        amend(closed)
    closed.write_bytes(whole)
    write_record(ready, on_disk(ready).model_copy(update={"seal": None}))
    with pytest.raises(BadInput, match="is not sealed"):
        amend(ready)
    assert not addendum_beside(ready).exists()


def test_a_disk_that_fails_leaves_no_half_of_an_addendum(closed: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*_: object) -> None:
        raise BadInput("no space left")

    before = everything(closed.parent)
    monkeypatch.setattr("narrate2report.seal.amending.write_record", fail)
    with pytest.raises(BadInput, match="no space left"):
        amend(closed)
    assert everything(closed.parent) == before


def test_an_addendum_takes_no_place_that_is_taken_and_stays_with_the_recordings(closed: Path, tmp_path: Path) -> None:
    amend(closed)
    before = everything(closed.parent)
    with pytest.raises(BadInput, match=r"addendum-1.findings.json: is there already"):
        amend(closed)
    with pytest.raises(BadInput, match="lies in the folder"):
        amend(closed, tmp_path.parent / "elsewhere.findings.json")
    assert everything(closed.parent) == before
    assert amend(closed, closed.with_name("keys.findings.json")).name == "keys.findings.json"
