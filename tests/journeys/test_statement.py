"""From a settlement to a statement and a letter: what is written, what is missing, and when nothing is written."""

from __future__ import annotations

import json
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from icalendar import Calendar

from narrate2report.cli import main
from narrate2report.records.comparison import Comparison
from narrate2report.records.files import read_record, write_record
from narrate2report.records.findings import Findings, Still
from narrate2report.records.settlement import Settlement
from tests.journeys.test_settle import BARE_UNIT, sealed_walk
from tests.publish.pdf import ReadBack
from tests.publish.test_report_pdf import png
from tests.settle.hand_made import AFTER, BEFORE, judged
from tests.settled import on_disk

NAMES = ["flat.letter.txt", "flat.statement.resident.html", "flat.statement.resident.pdf"]


@pytest.fixture
def flat(tmp_path: Path) -> Path:
    """A settlement with its comparison and both records beside it."""
    (tmp_path / "walks").mkdir()
    return on_disk(tmp_path / "walks")


@pytest.fixture
def refused(flat: Path, capsys: pytest.CaptureFixture[str]) -> Callable[..., str]:
    """Runs the command, which must refuse in one line and write nothing; gives the line."""

    def run(*more: str) -> str:
        folder = flat.parent.parent / "papers"
        assert main(["statement", str(flat), "--to", str(folder), *more]) == 2
        assert not folder.exists()
        told = capsys.readouterr().err
        assert told.count("\n") == 1
        return told

    return run


@pytest.fixture(scope="module")
def sealed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A settlement on two narrated walks that were decided, sealed and then compared."""
    folder = tmp_path_factory.mktemp("walks")
    told = {"in": "The countertop looks good.", "out": "The countertop has a burn."}
    records = {
        name: sealed_walk(folder / name, f"[0:01] In the kitchen.\n[0:03] {words}\n") for name, words in told.items()
    }
    burn = next(entry.id for entry in records["out"].entries if entry.condition == "burn")
    sides = [
        {"file": f"{name}/walk.findings.json", "seal": record.seal and record.seal.sha256}
        for name, record in records.items()
    ]
    change = {"id": "c1", "outcome": "new", "after": [burn], "because": ["new"], "confirmed": True}
    whole = {"before": sides[0], "after": sides[1], "changes": [change | {"judgement": judged()}]}
    write_record(folder / "changes.json", Comparison.model_validate(whole))
    (folder / "unit.yaml").write_text(BARE_UNIT, encoding="utf-8")
    out = folder / "flat.settlement.json"
    files = [str(folder / "changes.json"), "--unit", str(folder / "unit.yaml"), "--out", str(out)]
    assert main(["settle", *files, "--today", "2026-05-12", "--quiet"]) == 0
    return out


def printed(flat: Path, *more: str) -> ReadBack:
    folder = flat.parent.parent / "papers"
    assert main(["statement", str(flat), "--to", str(folder), "--only", "pdf", "--quiet", *more]) == 0
    (made,) = folder.glob("*.pdf")
    return ReadBack(made.read_bytes())


def altered(file: Path, change: Callable[[dict[str, Any]], object]) -> None:
    whole = json.loads(file.read_text("utf-8"))
    change(whole)
    file.write_text(json.dumps(whole), "utf-8")


def test_statement_and_letter_lie_in_their_folder_and_nothing_else_changed(
    flat: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = {path: path.read_bytes() for path in flat.parent.rglob("*") if path.is_file()}
    folder = flat.parent.parent / "new" / "papers"
    assert main(["statement", str(flat), "--to", str(folder)]) == 0
    assert sorted(path.name for path in folder.iterdir()) == NAMES
    told = capsys.readouterr().out
    assert "goes back to the resident" in told
    assert "RECORD NOT SEALED" in told
    assert {path: path.read_bytes() for path in flat.parent.rglob("*") if path.is_file()} == before
    read = ReadBack((folder / NAMES[2]).read_bytes())
    inside = read.root["/Names"]["/EmbeddedFiles"]["/Names"][1].get_object()
    assert inside["/EF"]["/F"].get_object().get_data() == flat.read_bytes()


def test_two_sealed_walks_make_a_statement_without_any_mark_and_show_their_seals(sealed: Path) -> None:
    folder = sealed.parent.parent / "papers"
    assert main(["statement", str(sealed), "--to", str(folder), "--quiet"]) == 0
    read = ReadBack((folder / "flat.statement.resident.pdf").read_bytes())
    assert "PROVISIONAL" not in read.text
    assert "NOT SEALED" not in read.text
    for name in ("in", "out"):
        seal = read_record(sealed.parent / name / "walk.findings.json", Findings).seal
        assert seal is not None
        assert seal.sha256 in read.text.replace(" ", "")
    assert "“The countertop looks good.”" in read.text
    assert "***" not in (folder / "flat.letter.txt").read_text("utf-8")


def test_nothing_is_printed_of_a_record_that_no_longer_matches_its_seal(
    sealed: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    record = sealed.parent / "out" / "walk.findings.json"
    whole = record.read_bytes()
    record.write_bytes(whole.replace(b'"burn"', b'"hole"'))
    folder = sealed.parent.parent / "none"
    assert main(["statement", str(sealed), "--to", str(folder)]) == 2
    record.write_bytes(whole)
    assert "does not match its seal, so nothing is printed of it" in capsys.readouterr().err
    assert not folder.exists()


def test_the_office_gets_its_own_copy_and_no_letter(flat: Path) -> None:
    folder = flat.parent.parent / "papers"
    assert main(["statement", str(flat), "--to", str(folder), "--for", "office", "--quiet"]) == 0
    assert sorted(path.name for path in folder.iterdir()) == [
        "flat.dates.ics",
        "flat.statement.office.html",
        "flat.statement.office.pdf",
    ]


def test_the_days_go_into_a_calendar_and_none_is_invented(flat: Path) -> None:
    folder = flat.parent.parent / "papers"
    assert main(["statement", str(flat), "--to", str(folder), "--for", "office", "--quiet"]) == 0
    calendar = Calendar.from_ical((folder / "flat.dates.ics").read_bytes())
    told = {(str(event["summary"]), event.decoded("dtstart")) for event in calendar.walk("VEVENT")}
    settlement = read_record(flat, Settlement)
    assert {day for _, day in told} == {day for due in settlement.due for day in (due.day, due.plan_by) if day}
    assert all("2B" in summary for summary, _ in told)
    assert all("check the current statute" in str(event["description"]).lower() for event in calendar.walk("VEVENT"))
    first = (folder / "flat.dates.ics").read_bytes()
    assert main(["statement", str(flat), "--to", str(folder), "--for", "office", "--quiet"]) == 0
    assert (folder / "flat.dates.ics").read_bytes() == first


def test_the_office_copy_is_made_without_the_comparison_too_and_says_so(flat: Path) -> None:
    (flat.parent / "changes.json").unlink()
    assert "It did not lie beside the settlement" in printed(flat, "--for", "office").text


def test_a_time_opens_the_recording_of_its_own_walk(flat: Path) -> None:
    (flat.parent / "walk.mp4").write_bytes(b"x" * 9)
    assert set(printed(flat).links) == {"../walks/walk.mp4#t=75.30,78.30"}


def test_recordings_and_pictures_that_are_missing_are_said_in_their_places(flat: Path) -> None:
    still = Still(file="out.stills/one.png", recording="walk.mp4", time=76.0, sha256="b" * 64)
    record = read_record(flat.parent / AFTER, Findings)
    entries = tuple(one.model_copy(update={"stills": (still,)}) for one in record.entries)
    write_record(flat.parent / AFTER, record.model_copy(update={"entries": entries}))
    read = printed(flat)
    assert read.links == []
    assert "Picture not shown: its file is missing." in read.text
    assert "It did not lie beside the record" in read.text
    (flat.parent / "out.stills").mkdir()
    (flat.parent / "out.stills" / "one.png").write_bytes(png())
    assert "Picture not shown: its file is not the picture that was taken." in printed(flat).text


def test_links_go_to_where_the_firm_keeps_its_videos(flat: Path) -> None:
    read = printed(flat, "--link-base", "https://films.example/{file}?at={seconds}")
    assert set(read.links) == {"https://films.example/walk.mp4?at=75.30"}


@pytest.mark.parametrize("base", ["javascript:alert(1)", "films.example"])
def test_a_link_base_that_is_no_web_address_is_refused(refused: Callable[..., str], base: str) -> None:
    assert "no web address" in refused("--link-base", base)


@pytest.mark.parametrize("name", [BEFORE, AFTER])
def test_a_record_that_is_not_there_is_asked_for(flat: Path, refused: Callable[..., str], name: str) -> None:
    (flat.parent / name).unlink()
    assert f"{name}: not there; keep the settlement in the folder of the two records" in refused()


@pytest.mark.parametrize("name", ["before", "after"])
def test_another_record_than_the_one_that_was_compared_is_refused(
    flat: Path, refused: Callable[..., str], name: str
) -> None:
    altered(flat, lambda whole: whole["comparison"][name].update(seal="d" * 64))
    assert "is not the record that was compared (its seal differs)" in refused()


def test_a_settlement_changed_by_hand_is_refused(flat: Path, refused: Callable[..., str]) -> None:
    altered(flat, lambda whole: whole["charges"][0].update(amount="1.00"))
    assert "does not give its amount" in refused()


def charge_of(whole: dict[str, Any], method: str) -> dict[str, Any]:
    return next(one for one in whole["charges"] if one["proration"]["method"] == method)


def kept_total(whole: dict[str, Any], cents: int) -> None:
    """Change the first charge, the sum of charges and the balance alike, so that all lines still add up."""
    for place, name, sign in ((whole["charges"][0], "amount", 1), (whole["balance"], "charges", 1),
                              (whole["balance"], "amount", -1)):  # fmt: skip
        place[name] = str(Decimal(place[name]) + sign * Decimal(cents) / 100)


ALTERED: dict[str, tuple[Callable[[dict[str, Any]], object], str]] = {
    "ordinary wear that is charged": (
        lambda whole: whole["charges"][0]["judgements"][0].update(verdict="ordinary_wear"),
        "not judged beyond ordinary wear",
    ),
    "an open judgement that is charged": (
        lambda whole: whole["charges"][0]["judgements"][0].update(verdict="open"),
        "not judged beyond ordinary wear",
    ),
    "what has no baseline": (lambda whole: whole["charges"][0].update(outcomes=["no_baseline"]), "are no proof"),
    "no judgement at all": (lambda whole: whole["charges"][0].update(judgements=[]), "one judgement for each change"),
    "final with something open": (
        lambda whole: whole.update(open=[whole["not_charged"].pop()], provisional=False),
        "said to be final",
    ),
    "one change twice": (
        lambda whole: whole["charges"][0].update(changes=whole["charges"][1]["changes"]),
        "stands in it more than once",
    ),
    "a charge and its balance": (lambda whole: kept_total(whole, 1000), "does not give its amount"),
    "a cost": (lambda whole: whole["charges"][0]["cost"].update(total="9999.00"), "does not add up"),
    "a share of nothing": (
        lambda whole: charge_of(whole, "straight_line")["proration"].update(share="1/0"),
        "is none between 0 and 1",
    ),
    "a share above all": (
        lambda whole: charge_of(whole, "not_prorated")["proration"].update(share="3/2"),
        "is none between 0 and 1",
    ),
    "another share than the age gives": (
        lambda whole: charge_of(whole, "straight_line")["proration"].update(share="99/100"),
        "not what its age and useful life give",
    ),
    "a part of what is not prorated": (
        lambda whole: charge_of(whole, "not_prorated")["proration"].update(share="1/2"),
        "not what its age and useful life give",
    ),
    "another amount in the working": (
        lambda whole: whole["charges"][0].update(working=["Charged in full: 1.00 USD."]),
        "does not give its amount",
    ),
    "the resident's debts": (lambda whole: whole["balance"].update(owed="0.00"), "does not add up"),
    "what is left": (lambda whole: whole["balance"].update(amount="1.00"), "does not add up"),
}


@pytest.mark.parametrize("name", ALTERED)
def test_what_settling_never_writes_is_not_printed(flat: Path, refused: Callable[..., str], name: str) -> None:
    change, told = ALTERED[name]
    altered(flat, change)
    line = refused()
    assert told in line
    assert "flat.settlement.json" in line
    assert line.rstrip().endswith("settle again")


@pytest.mark.parametrize(
    ("field", "broken", "told"),
    [
        ("currency", "<b>", "no currency of ISO 4217"),
        ("currency", "usd", "no currency of ISO 4217"),
        ("today", "tomorrow", "not a settlement file: today"),
        ("schema", "narrate2report/findings/1", "not a settlement file: schema"),
    ],
)
def test_a_file_that_is_no_settlement_is_refused_by_name(
    flat: Path, refused: Callable[..., str], field: str, broken: str, told: str
) -> None:
    altered(flat, lambda whole: whole.update({field: broken}))
    line = refused()
    assert told in line
    assert "flat.settlement.json" in line


@pytest.mark.parametrize("content", [b"", b"[]", b"\xff\xfe", b"{", b"null"])
def test_what_is_no_json_of_ours_is_refused(flat: Path, refused: Callable[..., str], content: bytes) -> None:
    flat.write_bytes(content)
    assert "flat.settlement.json" in refused()


def test_a_record_outside_the_folder_is_not_read(flat: Path, refused: Callable[..., str]) -> None:
    altered(flat, lambda whole: whole["comparison"]["before"].update(file="../in.findings.json"))
    assert "outside its own folder" in refused()


def test_a_folder_that_is_a_file_is_refused(flat: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["statement", str(flat), "--to", str(flat)]) == 2
    assert "is no folder that can be written to" in capsys.readouterr().err


def test_a4_paper(flat: Path) -> None:
    assert printed(flat, "--paper", "a4").pages
