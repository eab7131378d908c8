"""What published standards look at inside a home is reached by the words of the vocabulary, as people say it.

The table `data/inspectable_items.csv` holds one sentence for each item and deficiency, or the reason why there is none.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

import pytest

from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.records.findings import Entry
from tests.read.told import Narrator
from tests.scoring import is_adverse

TABLE = Path(__file__).parent / "data" / "inspectable_items.csv"

ROWS_OF = {
    "NSPIRE": 152, "HUD-52580-A": 65, "HUD-90106": 66, "MCL 554.608": 12, "RCW 59.18.260": 4, "PIH 2017-20": 8,
}  # fmt: skip
"""How many items and deficiencies of each source lie inside a home."""

MOST_UNSAID = 4
OUTCOMES = frozenset({"works", "fails", "not_tested"})

HAZARDS = frozenset(
    "mold damp exposed_wiring trip_hazard sharp_edge gas_smell pest expired blocked unsafe".split()
)  # fmt: skip
"""Conditions by which somebody can be hurt: the table must reach each of them."""

MISSED_AT_PERIL = ("smoke_alarm", "co_alarm", "fire_extinguisher", "railing", "dryer_vent")
"""Components whose absence is a danger."""


@dataclass(frozen=True)
class Item:
    """One row of the table."""

    id: str
    standard: str
    item: str
    deficiency: str
    room: str
    components: tuple[str, ...]
    reads: tuple[str, ...]
    said: str
    does_not_apply: str

    def is_told_by(self, entry: Entry) -> bool:
        """Whether an entry says what the row says."""
        if entry.component not in self.components:
            return False
        seen = entry.condition if entry.kind == "condition" and entry.assertion == "present" else None
        return (seen or (entry.outcome if entry.kind == "check" else None)) in self.reads


def _item(row: Mapping[str, str]) -> Item:
    return Item(
        id=row["id"],
        standard=row["standard"],
        item=row["item"],
        deficiency=row["deficiency"],
        room=row["room"],
        components=tuple(row["component"].split()),
        reads=tuple(row["reads"].split()),
        said=row["said"],
        does_not_apply=row["does_not_apply"],
    )


with TABLE.open(encoding="utf-8", newline="") as lines:
    ITEMS = tuple(_item(row) for row in csv.DictReader(lines))

SAID = tuple(item for item in ITEMS if not item.does_not_apply)


@pytest.mark.parametrize("item", [item for item in SAID if item.components], ids=lambda item: f"{item.id} {item.said}")
def test_an_item_is_read_from_what_an_inspector_says(item: Item, entries: Narrator) -> None:
    told = entries(item.said, room=item.room)
    telling = [entry for entry in told.said_from(1) if item.is_told_by(entry)]
    assert telling, f"{item.components} {item.reads}\n{told.told()}"
    if item.deficiency:
        assert is_adverse(telling[0].model_dump(mode="json")), told.told()


@pytest.mark.parametrize("item", [item for item in SAID if not item.components], ids=lambda item: item.id)
def test_a_room_that_must_be_there_is_walked(item: Item, entries: Narrator) -> None:
    told = entries(item.said, room="garage")
    assert told.findings.rooms[-1].room in item.reads


def test_every_item_inside_a_home_has_its_row() -> None:
    assert len({item.id for item in ITEMS}) == len(ITEMS)
    standards = [item.standard for item in ITEMS]
    assert {name: standards.count(name) for name in standards} == ROWS_OF


def test_what_cannot_be_said_is_explained_and_rare() -> None:
    unsaid = [item for item in ITEMS if item.does_not_apply]
    assert len(unsaid) <= MOST_UNSAID
    for item in unsaid:
        assert len(item.does_not_apply.split()) >= 5
        assert (item.said, item.components, item.reads) == ("", (), ())
    assert all(item.said and item.room and item.reads for item in SAID)


def test_every_id_of_the_table_is_one_of_the_vocabulary(vocabulary: Vocabulary) -> None:
    assert {one for item in SAID for one in item.components} <= set(vocabulary.components)
    rooms = {one for item in SAID if not item.components for one in item.reads}
    assert {one.partition(".")[0] for one in rooms} <= set(vocabulary.rooms)
    told = {one for item in SAID if item.components for one in item.reads}
    assert told - OUTCOMES <= set(vocabulary.conditions)


def test_a_deficiency_is_never_covered_by_praise(vocabulary: Vocabulary) -> None:
    for item in SAID:
        if item.deficiency:
            assert not {one for one in item.reads if one in vocabulary.conditions and vocabulary.is_sound(one)}, item.id
            assert "works" not in item.reads, item.id


def test_what_can_hurt_somebody_is_in_the_table(vocabulary: Vocabulary) -> None:
    assert {name for name, term in vocabulary.conditions.items() if term.class_ == "hazard"} == HAZARDS
    assert {one for item in SAID for one in item.reads} >= HAZARDS
    for component in MISSED_AT_PERIL:
        assert any(component in item.components and "missing" in item.reads for item in SAID), component
