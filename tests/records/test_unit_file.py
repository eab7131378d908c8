"""A unit file: the sample is read whole, every mistake is told in one line with the place where it stands."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrate2report.errors import BadUnit
from narrate2report.records.unit import Unit
from narrate2report.records.unit_checks import KnownNames, check_unit
from narrate2report.records.unit_file import UnitFile, read_own_lives, read_sum, read_unit
from narrate2report.records.unit_text import unit_text
from narrate2report.shipped import shipped

KNOWN = KnownNames(
    frozenset({"kitchen", "bedroom", "whole_unit", "entry", "living_room", "bathroom", "balcony"}),
    frozenset(
        "door floor countertop oven bathtub blinds carpet fob lock smoke_alarm co_alarm baseboard wall window"
        " window_screen radiator sink range refrigerator dishwasher range_hood toilet grout caulk exhaust_fan ceiling"
        " closet_door railing tile".split()
    ),
)
WHOLE = """\
unit: 2B
currency: USD
people:
  residents: [Lena Marbeck]
dates:
  lease_start: 2025-03-06
  possession_returned: 2026-05-07
deposit:
  held: 1500.00
components:
  - room: kitchen
    component: countertop
    installed: 2018-06-11
    remedies:
      - work: repair
        what: fill the chip
        basis: invoice
        amount: 95.00
"""


def read(folder: Path, text: str) -> UnitFile:
    place = folder / "unit.yaml"
    place.write_text(text, encoding="utf-8")
    file = read_unit(place)
    check_unit(file, KNOWN)
    return file


def test_the_sample_is_read_whole() -> None:
    file = read_unit(shipped("samples") / "unit.yaml")
    check_unit(file, KNOWN)
    assert file.unit.deposit.held == Decimal("1500.00")
    assert file.unit.dates.possession_returned == date(2026, 5, 7)
    assert {remedy.work for thing in file.unit.components for remedy in thing.remedies} >= {
        "replace",
        "clean",
        "supply",
    }


def test_a_sum_may_name_the_currency_of_the_file(tmp_path: Path) -> None:
    assert read(tmp_path, WHOLE.replace("95.00", "95.00 USD")).unit.components[0].remedies[0].amount == Decimal("95.00")


MISTAKES = {
    "other currency": ("95.00", "95.00 EUR", 18, "95.00 EUR where the currency is USD"),
    "no such currency": ("currency: USD", "currency: USX", 2, "USX is no currency"),
    "currency in words": ("currency: USD", "currency: dollars", 2, "is no currency code"),
    "a sign": ("95.00", "$95.00", 18, "is no sum of money; write it as 1480.00"),
    "a thousands comma": ("1500.00", "1,500.00", 9, "without sign or thousands comma"),
    "a negative sum": ("95.00", "-95.00", 18, "is negative"),
    "half a cent": ("95.00", "95.005", 18, "more than 2 decimal places"),
    "a day that is none": ("2026-05-07", "2026-05-37", 7, "is no day; write it as 2026-05-07"),
    "a day by its seconds": ("2026-05-07", "86400", 7, "'86400' is no day; write it as 2026-05-07"),
    "a day before the lease": ("possession_returned: 2026", "possession_returned: 2024", 7, "lies before the lease"),
    "a negative age": ("installed: 2018-06-11", "age_years: -3", 13, "'-3' is negative"),
    "installed after the end": ("installed: 2018", "installed: 2027", 13, "its age would be negative"),
    "two ages": (
        "installed: 2018-06-11",
        "installed: 2018-06-11\n    age_years: 4",
        11,
        "both installed and age_years",
    ),
    "an unknown component": ("component: countertop", "component: countertp", 11, "no known component; use countertop"),
    "an unknown room": ("room: kitchen", "room: kichen", 11, "no known room; use kitchen"),
    "a misspelt name": ("basis: invoice", "bassis: invoice", 17, "no such name here; use basis"),
    "an unknown work": ("work: repair", "work: mend", 15, "'mend' is not known here; use one of 'replace'"),
    "no cost": ("        amount: 95.00\n", "", 15, "its cost is missing; write the amount of the invoice"),
    "labour without a rate": ("amount: 95.00", "hours: 3", 15, "own labour needs both hours and rate"),
    "not enough without why": ("amount: 95.00", "amount: 95.00\n        suffices: no", 15, "needs a reason; write why"),
    "a part without why": ("amount: 95.00", "amount: 9\n        portion_percent: 50", 15, "write portion_why"),
    "no deposit": ("deposit:\n  held: 1500.00\n", "", 1, "deposit: is missing"),
    "words for a list": ("residents: [Lena Marbeck]", "residents: Lena Marbeck", 4, "a list is wanted here"),
    "a list for words": ("unit: 2B", "unit: [2B]", 1, "words are wanted here"),
    "nothing": ("unit: 2B", "unit:", 1, "is empty; write it or leave the line out"),
    "a tab": ("  held", "\theld", 9, "a tab where only spaces may stand"),
    "twice": ("currency: USD", "currency: USD\ncurrency: USD", 3, "'currency' stands here twice"),
    "a stay without paint": ("installed: 2018-06-11", "share_by: stay", 13, "no remedy here repaints"),
    "too large": ("1500.00", "99999999999", 9, "is too large to be meant"),
    "interest without a rate": (
        "held: 1500.00",
        "held: 1500.00\n  interest: {basis: law}",
        10,
        "either its amount, or",
    ),
}


@pytest.mark.parametrize(("stands", "written", "line", "told"), MISTAKES.values(), ids=MISTAKES)
def test_a_mistake_is_told_in_one_line_with_its_place(
    tmp_path: Path, stands: str, written: str, line: int, told: str
) -> None:
    assert stands in WHOLE
    with pytest.raises(BadUnit) as refused:
        read(tmp_path, WHOLE.replace(stands, written, 1))
    message = str(refused.value)
    assert message.startswith(f"{tmp_path / 'unit.yaml'}:{line}: ")
    assert told in message
    assert "\n" not in message


@pytest.mark.parametrize("text", ["", "# nothing yet\n", "- a\n- b\n", "just words\n"])
def test_a_file_without_facts_says_how_to_get_one(tmp_path: Path, text: str) -> None:
    with pytest.raises(BadUnit, match="narrate2report unit new FILE"):
        read(tmp_path, text)


def test_the_same_thing_twice_is_refused(tmp_path: Path) -> None:
    block = WHOLE.partition("components:\n")[2]
    with pytest.raises(BadUnit, match=r"unit\.yaml:19: kitchen countertop stands here twice"):
        read(tmp_path, WHOLE + block)


def test_flaws_are_named_by_all_remedies_of_a_thing_or_by_none(tmp_path: Path) -> None:
    other = "      - {work: clean, what: wipe it, basis: invoice, amount: 5, flaws: [stain]}\n"
    with pytest.raises(BadUnit, match="name the flaws of every remedy or of none"):
        read(tmp_path, WHOLE + other)


def test_ones_own_lives_are_read_with_or_without_a_source(tmp_path: Path) -> None:
    place = tmp_path / "lives.yaml"
    place.write_text("carpet:\n  years: 7\n  source: our records\nblinds:\n  years: 2.5\n", encoding="utf-8")
    assert [(row.group, row.years, row.source) for row in read_own_lives(place, {"carpet", "blinds"})] == [
        ("carpet", Decimal(7), "our records"),
        ("blinds", Decimal("2.5"), None),
    ]
    place.write_text("carpet:\n  years: 0\n", encoding="utf-8")
    with pytest.raises(BadUnit, match=r"lives\.yaml:2: carpet\.years: must be more than 0"):
        read_own_lives(place, {"carpet"})
    place.write_text("carpt:\n  years: 7\n", encoding="utf-8")
    with pytest.raises(BadUnit, match=r"lives\.yaml:1: carpt is nothing that a unit file can name; use carpet"):
        read_own_lives(place, {"carpet"})


@given(st.text(max_size=12))
def test_whatever_is_typed_as_a_sum_is_money_or_refused(typed: str) -> None:
    try:
        amount = Decimal(read_sum(typed, "USD"))
    except ValueError:
        return
    assert amount >= 0
    assert amount == round(amount, 2)


def test_a_unit_that_is_written_is_read_back_the_same(tmp_path: Path) -> None:
    unit = read_unit(shipped("samples") / "unit.yaml").unit
    text = unit_text(unit)
    assert read(tmp_path, text).unit == unit
    assert "held: 1500.00\n" in text
    assert "lease_start: 2025-03-06\n" in text


@given(st.text("abc: #'\"-[]{}yesno0123456789.,\u00e4", min_size=1, max_size=20).filter(lambda text: text.strip()))
def test_any_words_are_written_so_that_they_are_read_back(tmp_path_factory: pytest.TempPathFactory, words: str) -> None:
    told = {
        "unit": words,
        "currency": "USD",
        "people": {"residents": [f"R {words}"]},
        "dates": {"lease_start": "2025-03-06"},
    }
    unit = Unit.model_validate(told | {"deposit": {"held": "1"}})
    place = tmp_path_factory.mktemp("unit") / "unit.yaml"
    place.write_text(unit_text(unit), encoding="utf-8")
    assert read_unit(place).unit == unit
