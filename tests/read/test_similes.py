"""What something is likened to is not seen: nothing is toasted under a dry sink, and no floor is of glass."""

from __future__ import annotations

import pytest

from tests.read.told import Narrator

LIKENED = [
    ("Under the sink it's dry as toast.", {("pipe", "damp", "absent")}),
    ("The counter is smooth as a baby's bottom, no chips.", {("countertop", "chip", "absent")}),
    ("The floor is slick as glass.", set()),
    ("The oven is clean as a mirror.", {("oven", "clean", "present")}),
    ("The fan is quiet as a stair.", set()),
]


@pytest.mark.parametrize(("line", "seen"), LIKENED)
def test_what_something_is_likened_to_is_not_read(
    line: str, seen: set[tuple[str, str, str]], entries: Narrator
) -> None:
    told = entries(line, room="kitchen").entries
    found = {(one.component, one.condition, one.assertion) for one in told if one.kind == "condition"}
    assert seen <= found
    assert {one for one in found - seen if one[1] not in {"good", "noise"}} == set()
    assert not [one for one in told if one.kind == "description"]


@pytest.mark.parametrize(
    "line",
    [
        "There's a scratch on the door as long as a pencil.",
        "There's a crack in the tile as wide as a dime.",
        "The wall has a stain as big as a plate.",
    ],
)
def test_a_size_is_told_by_likeness_and_the_flaw_stays(line: str, entries: Narrator) -> None:
    told = entries(line, room="kitchen").entries
    assert [one.assertion for one in told if one.kind == "condition"] == ["present"]


def test_a_saying_that_is_known_is_read_as_a_whole(entries: Narrator) -> None:
    (only,) = entries("The door is solid as a rock.", room="kitchen").entries
    assert (only.component, only.condition, only.assertion) == ("door", "good", "present")
