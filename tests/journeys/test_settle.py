"""`settle` and `unit new` from the keyboard: the sample settled, and bad input in one line with nothing written."""

from __future__ import annotations

import io
import json
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from narrate2report.cli import main
from narrate2report.records.comparison import Comparison
from narrate2report.records.files import read_record, write_record
from narrate2report.records.findings import Findings
from narrate2report.records.schema import published
from narrate2report.records.settlement import Settlement
from narrate2report.records.unit_file import read_unit
from narrate2report.review.judging_desk import JudgingDesk
from narrate2report.review.judging_requests import Judge
from narrate2report.shipped import shipped
from tests.journeys.test_seal import DECLARED, decide
from tests.settle.hand_made import AFTER, BEFORE, Pair, judged, sample

SAMPLE = shipped("samples") / "unit.yaml"


class Office:
    """A folder with a comparison and a unit file, and what `settle` says of them."""

    def __init__(self, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
        self.folder, self._capsys = folder, capsys
        self.out = folder / "settlement.json"
        self.unit = folder / "unit.yaml"
        self.unit.write_text(SAMPLE.read_text(encoding="utf-8"), encoding="utf-8")
        self.changes = sample().written(folder)

    def change_unit(self, stands: str, written: str) -> None:
        text = self.unit.read_text(encoding="utf-8")
        assert stands in text
        self.unit.write_text(text.replace(stands, written, 1), encoding="utf-8")

    def settles(self, *options: str) -> str:
        given = ["settle", str(self.changes), "--unit", str(self.unit), "--out", str(self.out), "--today", "2026-05-12"]
        assert main([*given, *options]) == 0
        return self._capsys.readouterr().out

    def refuses(self, *options: str) -> str:
        given = ["settle", str(self.changes), "--unit", str(self.unit), "--out", str(self.out)]
        assert main([*given, *options]) == 2
        told = self._capsys.readouterr()
        assert told.out == ""
        assert told.err.count("\n") == 1
        assert not self.out.exists()
        assert not list(self.folder.glob(".settlement*"))
        return told.err

    def settlement(self) -> Settlement:
        return read_record(self.out, Settlement)


@pytest.fixture
def office(tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Office:
    monkeypatch.setenv("COLUMNS", "200")
    return Office(tmp_path, capsys)


def test_the_sample_is_settled_and_its_lines_add_up_as_a_person_would_add_them(office: Office) -> None:
    told = office.settles()
    made = office.settlement()
    lines = {charge.component: charge.amount for charge in made.charges}
    assert lines == {
        "door": Decimal("60.40"),  # 12.40 + 1.5 h x 32.00
        "floor": Decimal("156.20"),  # 284.00 x 99/180 months
        "countertop": Decimal("241.78"),  # 640.00 x 85/180 months x 80 %
        "oven": Decimal("56.00"),  # 2 h x 28.00
        "bathtub": Decimal("95.00"),
        "blinds": Decimal("19.47"),  # 64.90 x 3/5 x 50 %
        "carpet": Decimal("455.00"),  # 910.00 x 48/96 months
        "fob": Decimal("35.00"),
    }
    assert made.interest is not None
    assert made.interest.amount == Decimal("2.92")  # 50.00 x 5 % x (1 + 62/365) years
    assert made.balance.amount == Decimal("98.45")  # 1500.00 + 2.92 + 41.80 - 327.42 - 1118.85
    assert not made.provisional
    for part in (
        "98.45 USD goes back to the resident.",
        "910.00 USD × 1/2 = 455.00 USD.",
        "NOT CHARGED: without a baseline:",
        "keep 2026-06-05, 24 days left; by the table's words the last day is 2026-06-06, 25 days left",
        "check the current statute",
        "THE MOVE-IN RECORD IS NOT SEALED",
    ):
        assert part in told
    assert "PROVISIONAL" not in told


def test_the_file_is_as_its_schema_says_and_money_is_text_in_it(office: Office) -> None:
    office.settles()
    written = json.loads(office.out.read_bytes())
    Draft202012Validator(published("settlement.schema.json")).validate(written)
    assert written["balance"]["amount"] == "98.45"
    assert written["law"]["statute"] == "Ohio R.C. 5321.16"
    assert written["due"][0]["day"] == "2026-06-06"


def test_the_same_input_gives_the_same_bytes(office: Office) -> None:
    office.settles()
    first = office.out.read_bytes()
    office.settles()
    assert office.out.read_bytes() == first


def test_open_judgements_are_shown_as_open_and_the_settlement_is_provisional(office: Office) -> None:
    pair = sample()
    pair.changes[3]["judgement"] = None
    pair.written(office.folder)
    told = office.settles()
    assert "PROVISIONAL: not to be sent as final." in told
    assert "1 change not judged yet: c4." in told
    assert [one.change for one in office.settlement().open] == ["c4"]


def test_a_judgement_that_stands_only_in_the_journal_counts(office: Office) -> None:
    """A review that was killed has kept it, and has not put it into the comparison's file yet."""
    office.settles()
    charged = next(charge for charge in office.settlement().charges if charge.component == "door")
    desk = JudgingDesk(office.changes)
    desk.decide(Judge(changes=charged.changes, verdict="ordinary_wear"), "Ida Pell", 0)
    office.settles()
    assert "door" not in [charge.component for charge in office.settlement().charges]


def test_quiet_prints_nothing(office: Office) -> None:
    assert office.settles("--quiet") == ""


def test_another_law_may_be_named_and_shows_its_own_rules(office: Office) -> None:
    told = office.settles("--law", "ca")
    assert "Photographs: REQUIRED" in told
    assert "bills, invoices or receipts if deductions exceed $125" in told
    assert office.settlement().law is not None
    assert [one.day for one in office.settlement().due] == [date(2026, 5, 28)] * 2


def test_where_interest_is_due_by_the_table_and_none_is_given_nothing_is_final(office: Office) -> None:
    text = office.unit.read_text(encoding="utf-8")
    begin, end = text.index("  # Interest, where"), text.index("# Rent, fees")
    office.unit.write_text(text[:begin] + text[end:], encoding="utf-8")
    assert "wants interest on the deposit" in office.settles("--law", "Maryland")
    assert office.settlement().provisional


def test_days_given_at_the_keyboard_are_marked_as_given(office: Office) -> None:
    told = office.settles("--law", "Kentucky", "--days", "30", "--clock-start", "2026-05-07")
    assert "2026-06-06, 25 days left (days given by you)" in told
    assert "come from no statute of the table" in told


def test_ones_own_lives_lie_over_the_table(office: Office) -> None:
    lives = office.folder / "lives.yaml"
    lives.write_text("carpet:\n  years: 16\n  source: our replacement records\n", encoding="utf-8")
    office.settles("--lives", str(lives))
    carpet = next(charge for charge in office.settlement().charges if charge.component == "carpet")
    assert carpet.amount == Decimal("682.50")


REFUSED = {
    "no cost": (
        "        amount: 95.00\n",
        "",
        "unit.yaml:109: bathroom bathtub, fill and glaze the chip on the rim: its cost",
    ),
    "no remedy": ("component: oven", "component: sink", "no cost is given for: Kitchen oven (change c7)"),
    "no age": ("    installed: 2022-05-20\n", "", "bedroom carpet: its age is not known; write installed or age_years"),
    "unknown component": ("component: oven", "component: ovn", "ovn is no known component; use oven"),
    "negative age": ("age_years: 2", "age_years: -2", "'-2' is negative"),
    "day before the lease": ("returned: 2026", "returned: 2024", "lies before the lease"),
    "two currencies": ("held: 1500.00", "held: 1500.00 EUR", "1500.00 EUR where the currency is USD"),
    "another unit": ("unit: 2B", "unit: 3C", "the comparison is of another unit: 3C (the unit file), 2B"),
    "no jurisdiction": ("jurisdiction: US-OH\n", "", "no jurisdiction: write it in the unit file or --law"),
    "unknown jurisdiction": ("US-OH", "US-OX", "US-OX: not in the table of deposit law"),
    "no number of days": ("US-OH", "US-TN", "its statute gives no number of days; none is invented"),
}


@pytest.mark.parametrize(("stands", "written", "told"), REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_settled_is_one_clear_line_and_nothing_is_written(
    office: Office, stands: str, written: str, told: str
) -> None:
    office.change_unit(stands, written)
    assert told in office.refuses()


@pytest.mark.parametrize(
    ("options", "told"),
    [
        (("--days", "30"), "need both: --days N --clock-start YYYY-MM-DD"),
        (("--days", "0", "--clock-start", "2026-05-07"), "write a number of days from 1 to 365"),
        (("--days", "365", "--clock-start", "9999-12-31"), "9999-12-31 lies outside the years 1900 to 2200"),
        (("--today", "0001-01-01"), "0001-01-01 lies outside the years 1900 to 2200"),
        (("--clock-start", "7 May"), "not a day; write it as 2026-05-07"),
        (("--today", "20260507"), "write the day as 2026-05-07"),
        (("--lives", "nowhere.yaml"), "nowhere.yaml:1: cannot be read"),
    ],
)
def test_options_that_cannot_be_are_one_clear_line(office: Office, options: tuple[str, ...], told: str) -> None:
    assert told in office.refuses(*options)


def test_the_settlement_never_takes_the_place_of_what_it_is_made_from(office: Office) -> None:
    before = office.unit.read_bytes()
    for place in (office.unit, office.changes, office.folder / BEFORE, office.folder / AFTER):
        assert main(["settle", str(office.changes), "--unit", str(office.unit), "--out", str(place)]) == 2
    assert office.unit.read_bytes() == before


@pytest.mark.parametrize("name", ["walk.mp4", "in.transcript.json", "changes.journal.jsonl", "lives.yaml", "empty"])
def test_the_settlement_takes_the_place_of_no_file_but_an_earlier_settlement(
    office: Office, name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    office.out = office.folder / name
    kept = b"" if name == "empty" else b'{"schema": "something else"}\x00'
    office.out.write_bytes(kept)
    given = ["settle", str(office.changes), "--unit", str(office.unit), "--out", str(office.out)]
    assert main(given) == 2
    assert "is there already and holds no settlement; choose another name" in capsys.readouterr().err
    assert office.out.read_bytes() == kept


def test_a_link_or_a_folder_is_no_place_for_a_settlement(office: Office, capsys: pytest.CaptureFixture[str]) -> None:
    film, link, ring = (office.folder / name for name in ("walk.mp4", "link.json", "ring.json"))
    film.write_bytes(b"film")
    link.symlink_to(film)
    ring.symlink_to(ring)
    for place in (link, ring, office.folder, Path()):
        assert main(["settle", str(office.changes), "--unit", str(office.unit), "--out", str(place)]) == 2
        told = capsys.readouterr().err
        assert "is no file that can be written" in told
        assert told.count("\n") == 1
    assert film.read_bytes() == b"film"
    assert link.is_symlink()
    for name in ("ring.json", "nowhere"):
        out = str(office.folder / name / "settlement.json")
        assert main(["settle", str(office.changes), "--unit", str(office.unit), "--out", out]) == 2
        assert "no such folder" in capsys.readouterr().err
    assert main(["settle", str(ring), "--unit", str(office.unit), "--out", str(office.out)]) == 2
    assert capsys.readouterr().err.count("\n") == 1


def test_a_comparison_whose_records_are_not_there_or_changed_is_refused(office: Office) -> None:
    pair = sample()
    pair.parts["after"] = {"file": AFTER, "seal": "a" * 64}
    pair.written(office.folder)
    assert "is not the record that was compared" in office.refuses()
    pair.parts["after"] = {"file": "../elsewhere.json"}
    write_record(office.changes, pair.comparison())
    assert "names a file outside its own folder" in office.refuses()
    sample().written(office.folder)
    (office.folder / BEFORE).unlink()
    assert "in.findings.json: cannot be read" in office.refuses()
    office.changes.write_text('{"schema": "narrate2report/findings/1"}', encoding="utf-8")
    assert "not a comparison file" in office.refuses()


def test_an_entry_that_is_in_neither_record_is_told(office: Office) -> None:
    pair = Pair()
    pair.change(judgement=judged())
    pair.after.clear()
    pair.written(office.folder)
    assert "change c1 names entry a1, which is not in out.findings.json" in office.refuses()


@pytest.mark.parametrize("side", ["before", "after"])
@pytest.mark.parametrize("merged", [None, "a1"])
def test_a_change_whose_entry_has_left_its_record_since_is_not_charged(
    office: Office, side: str, merged: str | None
) -> None:
    pair = Pair()
    pair.change("worse", judgement=judged())
    entries = getattr(pair, side)
    entries[0] = entries[0].model_copy(update={"state": "dropped", "merged_into": merged})
    pair.written(office.folder)
    told = office.refuses()
    assert f"change c1 rests on entry {entries[0].id}" in told
    assert ("merged into a1" if merged else "dropped in the review") in told
    assert "compare the two again" in told


@pytest.mark.parametrize(
    ("told", "written", "why"),
    [
        ('"Ida Pell"', '"  "', "nobody is named; a judgement is a person's"),
        ('"2026-05-10T09:00:00.000Z"', '"last week"', "'last week' is no moment of ISO 8601"),
    ],
)
def test_a_judgement_by_nobody_or_at_no_moment_is_refused(office: Office, told: str, written: str, why: str) -> None:
    office.changes.write_text(office.changes.read_text(encoding="utf-8").replace(told, written), encoding="utf-8")
    assert why in office.refuses()


RENT = "amount: 327.42"
HUGE = "1000000000"


@pytest.mark.parametrize(
    ("stands", "written", "told"),
    [
        ("possession_returned: 2026-05-07", "possession_returned: 9999-12-31", "lies outside the years 1900 to 2200"),
        ("received: 2025-03-01", "received: 2026-05-08", "received 2026-05-08 lies after possession was returned"),
        (
            "since: 2025-03-06",
            "since: 2025-02-28",
            "since 2025-02-28 lies before the deposit was received on 2025-03-01",
        ),
        ("installed: 2022-05-20", "installed: 0001-01-01", "lies outside the years 1900 to 2200"),
        (
            "hours: 2\n        rate: 28.00",
            f"hours: 10000\n        rate: {HUGE}",
            "its cost comes to more than 1,000,000",
        ),
        (
            "rate_percent: 5\n    principal: 50.00",
            f"rate_percent: 100\n    principal: {HUGE}",
            "is more than the 1500.00 that is held",
        ),
        ("principal: 50.00", "principal: 1500.01", "principal 1500.01 is more than the 1500.00 that is held"),
        (
            RENT,
            f"amount: {HUGE}\n    basis: one\n  - what: more\n    amount: {HUGE}",
            "charges and sums come to more than",
        ),
    ],
)
def test_days_and_sums_that_cannot_be_meant_are_one_clear_line(
    office: Office, stands: str, written: str, told: str
) -> None:
    office.change_unit(stands, written)
    assert told in office.refuses()


@pytest.mark.parametrize("day", ["1900-01-01", "2200-12-31"])
def test_the_first_and_the_last_day_within_reach_can_be_counted_from(office: Office, day: str) -> None:
    assert "(days given by you)" in office.settles("--days", "365", "--clock-start", day)


BARE_UNIT = """\
unit: 2B
currency: USD
jurisdiction: US-OH
people: {}
dates: {lease_start: 2025-03-06, lease_end: 2026-05-07, possession_returned: 2026-05-07}
deposit: {held: 900.00}
components:
  - room: kitchen
    component: countertop
    remedies: [{work: repair, what: fill the burn, basis: invoice, amount: 70.00, receipt: invoice 12}]
"""


def sealed_walk(folder: Path, narration: str, *options: str) -> Findings:
    """A narration that was drafted, decided and sealed."""
    folder.mkdir()
    place = folder / "walk.findings.json"
    (folder / "walk.txt").write_text(narration, encoding="utf-8")
    assert main(["draft", str(folder / "walk.txt"), "--out", str(place), "--quiet", *options]) == 0
    decide(place)
    assert main(["seal", str(place), *DECLARED, "--quiet"]) == 0
    return read_record(place, Findings)


def test_two_narrated_and_sealed_walks_are_settled_and_a_changed_one_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = sealed_walk(tmp_path / "in", "[0:01] In the kitchen.\n[0:03] The countertop looks good.\n")
    after = sealed_walk(tmp_path / "out", "[0:01] In the kitchen.\n[0:03] The countertop has a burn.\n")
    burn = next(entry.id for entry in after.entries if entry.condition == "burn")
    change = {
        "id": "c1",
        "outcome": "new",
        "after": [burn],
        "because": ["new"],
        "confirmed": True,
        "judgement": judged(),
    }
    seals = [one.seal.sha256 if one.seal else None for one in (before, after)]
    whole = {
        "before": {"file": "in/walk.findings.json", "seal": seals[0]},
        "after": {"file": "out/walk.findings.json", "seal": seals[1]},
        "changes": [change],
    }
    write_record(tmp_path / "changes.json", Comparison.model_validate(whole))
    (tmp_path / "unit.yaml").write_text(BARE_UNIT, encoding="utf-8")
    out = tmp_path / "settlement.json"
    given = ["settle", str(tmp_path / "changes.json"), "--unit", str(tmp_path / "unit.yaml"), "--out", str(out)]
    assert main([*given, "--today", "2026-05-12"]) == 0
    assert "830.00 USD goes back to the resident." in (told := capsys.readouterr().out)
    assert "NOT SEALED" not in told
    assert read_record(out, Settlement).charges[0].after == (burn,)
    record = tmp_path / "out" / "walk.findings.json"
    record.write_bytes(record.read_bytes().replace(b'"burn"', b'"hole"'))
    out.unlink()
    assert main(given) == 2
    assert "does not match its seal, so nothing is settled on it" in capsys.readouterr().err
    assert not out.exists()


ANSWERS = (
    "2B", "dollars", "USD", "6 March", "2025-03-06", "1,500", "1500.00",
    "62 Millbray Street", "Ohoi", "US-OH", "", "Garrett Dunmoss", "Lena Marbeck, Tom Ashwin", "",
    "", "2026-04-30", "2024-05-07", "2026-05-07", "", "2026-05-09", "",
    "kichen", "bedroom", "carpt", "carpet",
    "grey loop pile", "May 2022", "2022-05-20", "", "invoice 6010", "-5", "", "", "",
    "mend", "replace", "new carpet, laid", "bill", "invoice", "910 EUR", "910.00", "", "", "invoice 7740", "",
    "kitchen", "oven", "", "2020-01-01", "4", "", "", "", "", "",
    "",
    "kitchen", "sink, oven", "",
)  # fmt: skip


def asked(patch: pytest.MonkeyPatch, file: Path, *answers: str) -> int:
    patch.setattr("sys.stdin", io.StringIO("".join(f"{line}\n" for line in answers)))
    return main(["unit", "new", str(file)])


def test_a_unit_is_asked_for_and_written_and_can_be_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    place = tmp_path / "unit.yaml"
    assert asked(monkeypatch, place, *ANSWERS) == 0
    told = capsys.readouterr().out
    for part in (
        "'dollars' is no currency",
        "'6 March' is no day; write it as 2026-05-07",
        "without sign or thousands comma",
        "(is it US-OH, Ohio?)",
        "2024-05-07 lies before the lease",
        "910 EUR where the currency is USD",
        "kichen is no known room; use kitchen",
        "carpt is no known component; use carpet",
        "'May 2022' is no day",
        "'-5' must be more than 0",
        "'mend' is not known here; use one of",
        "'bill' is not known here; use one of",
        "both installed and age_years; keep the one that can be shown. Left out; give it again.",
    ):
        assert part in told
    unit = read_unit(place).unit
    assert (unit.unit, unit.deposit.held, unit.jurisdiction) == ("2B", Decimal("1500.00"), "US-OH")
    assert unit.people.residents == ("Lena Marbeck", "Tom Ashwin")
    (thing,) = unit.components
    assert (thing.called, thing.remedies[0].amount) == ("grey loop pile", Decimal("910.00"))
    assert unit.rooms == {"kitchen": ("sink", "oven")}


def test_answers_that_end_too_early_write_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    place = tmp_path / "unit.yaml"
    assert asked(monkeypatch, place, *ANSWERS[:9]) == 2
    assert "nothing was written" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_a_unit_file_that_is_there_is_left_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    place = tmp_path / "unit.yaml"
    place.write_text("unit: 2B\n", encoding="utf-8")
    assert asked(monkeypatch, place, *ANSWERS) == 2
    assert "is there already and stays as it is" in capsys.readouterr().err
    assert place.read_text(encoding="utf-8") == "unit: 2B\n"
