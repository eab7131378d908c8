"""Published guidance: every row of the table stands beside something, whole and with its source."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.review.guidance import applying, definitions, guidance_for, published
from narrate2report.shipped import shipped
from tests.publish import walk

TABLE = shipped("references") / "wear-vs-damage.csv"


def rows(table: Path) -> list[dict[str, str]]:
    with table.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_every_row_is_read_whole_with_its_source_and_how_it_was_verified() -> None:
    assert [vars(one) for one in published().values()] == rows(TABLE)
    assert all(one.source and one.verified and one.confidence for one in published().values())


def test_every_published_pair_stands_beside_some_component_and_the_rest_are_definitions() -> None:
    pairs = [row["id"] for row in rows(TABLE) if row["kind"] == "pair"]
    assert list(applying()) == pairs
    assert [one.id for one in definitions()] == [row["id"] for row in rows(TABLE) if row["kind"] != "pair"]


def test_what_the_rows_speak_of_is_in_the_vocabulary() -> None:
    known = load_vocabulary()
    for name, one in applying().items():
        assert one.components - {"*"} <= set(known.components), name
        assert one.conditions <= set(known.conditions), name
        assert not any(known.is_sound(condition) for condition in one.conditions), name


@pytest.mark.parametrize(
    ("component", "condition", "fitting"),
    [
        ("carpet", "burn", {"wd008", "wd021"}),
        ("wall", "nail_hole", {"wd004"}),
        ("blinds", "bent", {"wd029"}),
        ("oven", "grease", {"wd040"}),
        ("baseboard", "scuff", set()),
    ],
)
def test_it_is_found_by_component_and_condition(component: str, condition: str, fitting: set[str]) -> None:
    found, others = guidance_for(walk.entry(component=component, condition=condition))
    assert set(found) == fitting
    assert not set(found) & set(others)


def test_a_failed_check_is_looked_up_as_what_does_not_work() -> None:
    found, _ = guidance_for(walk.entry(kind="check", component="light_fixture", outcome="fails"))
    assert found == ("wd037",)
