"""What a thing is, told in fragments; and words that look like a description and are none."""

from __future__ import annotations

import pytest

from tests.read.told import Narrator
from tests.read.wanted import Want, description, difference


@pytest.mark.parametrize(
    ("room", "lines", "wanted"),
    [
        ("kitchen", ("Stove's electric, glass top.",),
         [description("range", "type", "electric"), description("range", "type", "glass top")]),
        ("entry", ("The front door.", "It's steel."), [description("door", "material", "steel")]),
        ("kitchen", ("Stove. It's gas, four burners.",),
         [description("range", "type", "gas"), description("burner", "count", "4")]),
        ("kitchen", ("The sink is composite, black.",),
         [description("sink", "material", "composite"), description("sink", "colour", "black")]),
        ("kitchen", ("Hob, four ring.",), [description("burner|cooktop", "count", "4")]),
        ("kitchen", ("The counter is fine, it's granite.",), [description("countertop", "material", "granite")]),
        ("kitchen", ("The counter is granite, natural stone.",), [description("countertop", "material", "granite")]),
        ("living room", ("Walls good, floor good, hardwood.",), [description("floor", "material|type", "hardwood")]),
        ("bedroom", ("Blinds.", "Faux wood, no broken slats."), [description("blinds", "material|type", "faux wood")]),
        ("dining room", ("They painted it orange.",), [description("wall", "colour", "orange")]),
        ("entry", ("The door's painted white, with a scuff low down.",), [description("door", "colour", "white")]),
        ("living room", ("That's an electric panel heater.",), [description("heater", "type", "electric")]),
        ("living room", ("AC, it's a wall unit.",), [description("air_conditioner", "type", "wall")]),
        ("living room", ("Windows in here, three.",), [description("window", "count", "3")]),
        ("living room", ("Outlets, there are six of them.",), [description("outlet", "count", "6")]),
        ("living room", ("The flooring is vitrified tiles, cream colour.",),
         [description("floor|tile", "material|type", "vitrified tiles"), description("floor|tile", "colour", "cream")]),
    ],
)  # fmt: skip
def test_what_a_thing_is(room: str, lines: tuple[str, ...], wanted: list[Want], entries: Narrator) -> None:
    told = entries(*lines, room=room)
    wrong = difference(tuple(one for one in told.entries if one.kind == "description"), wanted)
    assert not wrong, f"{wrong}\n{told.told()}"


@pytest.mark.parametrize(
    ("room", "said"),
    [
        ("bathroom", "The caulk is white and tight."),
        ("basement", "The filter's gray as a battleship."),
        ("entry", "I had the locks re-keyed last week."),
        ("kitchen", "Under the sink there's a stain from a leak two years back."),
        ("entry", "There's a linen trolley in front of the door."),
        ("yard", "There's a maple tree growing in the gutter."),
        ("bedroom", "Two bent slats on the blinds."),
        ("living room", "The fireplace, no gas today."),
        ("kitchen", "All four burners come on."),
        ("living room", "The coffee table has two white rings on the top."),
        ("bathroom", "The ceiling is turning green."),
        ("bedroom", "The painter will do this wall white again in May."),
        ("bedroom", "The mattress is new, you see the plastic still."),
        ("kitchen", "The cabinet, gas and electric read."),
        ("bathroom", "The grout could be mildew or hair dye. It's purple."),
    ],
)
def test_what_is_no_description(room: str, said: str, entries: Narrator) -> None:
    told = entries(said, room=room)
    assert [one for one in told.entries if one.kind == "description"] == [], told.told()
