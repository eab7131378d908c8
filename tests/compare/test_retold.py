"""The same flaw told by two people: never `new`, whatever synonym, words of place or unit of size they choose.

The walks are narrated and read, not made by hand: what reading takes for something else is no less false in the end.
"""

from __future__ import annotations

from functools import cache
from itertools import permutations

import pytest

from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.lexis.words import Tokenizer
from narrate2report.records.comparison import FlawChange
from narrate2report.records.findings import Findings
from tests.compare.walks import compared
from tests.read.told import Narrator

RETOLD: dict[str, tuple[str, tuple[str, ...]]] = {
    "gouge in the floor by the sliding door": (
        "Okay, the living room.",
        (
            "There's a gouge in the floor by the sliding door, about four inches.",
            "The floor has a deep cut next to the slider, roughly ten centimetres long.",
            "Floor: a gouge of maybe a third of a foot near the patio door.",
            "Over by the glass door somebody gouged the floor, four inches or so.",
        ),
    ),
    "chip at the sink edge": (
        "Now the bathroom.",
        (
            "The sink is chipped on the front rim, a quarter inch.",
            "There's a nick in the basin, front edge, about six millimetres.",
            "Sink has a little chip along the lip at the front.",
            "The washbasin has a chip on the front edge.",
        ),
    ),
    "stain on the carpet at the window": (
        "In the bedroom.",
        (
            "The carpet has a stain under the window, about a foot across.",
            "There's a spot on the carpet by the window, thirty centimetres wide.",
            "Carpet is stained near the windowsill, twelve inches.",
            "A discoloured patch in the carpet below the window, one foot.",
        ),
    ),
    "holes in the wall above the bed": (
        "The master bedroom.",
        (
            "Three nail holes in the wall above the bed.",
            "Three little picture holes over the headboard, in the wall.",
            "The wall has three pin holes where the bed goes.",
            "There are three tack holes on the wall over the bed.",
        ),
    ),
    "screen torn at the corner": (
        "Kitchen next.",
        (
            "The window screen is torn in the bottom corner, two inches.",
            "There's a rip in the screen, lower corner, about five centimetres.",
            "The screen has a tear down low at the corner.",
            "The bug screen is ripped at the bottom corner.",
        ),
    ),
    "burner that does not light": (
        "Here's the kitchen.",
        (
            "The back left burner doesn't light.",
            "The burner at the rear on the left won't come on.",
            "Left rear burner is not working.",
            "I can't get the back left burner to light.",
        ),
    ),
    "burn on the countertop": (
        "The kitchen.",
        (
            "There's a burn on the counter next to the stove, the size of a quarter.",
            "The countertop is scorched by the range, about one inch.",
            "Worktop has a burn mark beside the cooker, two and a half centimetres.",
            "A scorch mark on the countertop near the stove.",
        ),
    ),
    "loose rail": (
        "We're on the stairs.",
        (
            "The handrail is loose at the top.",
            "The banister wobbles up at the top end.",
            "The railing comes loose at the upper end.",
            "The top of the handrail is wobbly.",
        ),
    ),
    "cracked tile at the tub": (
        "Hall bathroom.",
        (
            "One tile is cracked beside the tub.",
            "There's a cracked tile next to the bathtub.",
            "A tile by the bath has a hairline crack.",
            "One floor tile is broken near the tub.",
        ),
    ),
    "scrapes on the door frame": (
        "In the entry.",
        (
            "The door frame is scuffed on the left side, about knee high.",
            "Left door jamb has scrapes, down at knee height.",
            "There are scuff marks on the left side of the door frame.",
            "The doorframe is scratched on the left hand side, low down.",
        ),
    ),
}


@cache
def narrator() -> Narrator:
    return Narrator(load_vocabulary(), Tokenizer())


@cache
def walk(room: str, telling: str) -> Findings:
    """A walk in which one flaw is told."""
    return narrator()(room, telling).findings


def changes(room: str, before: str, after: str) -> tuple[FlawChange, ...]:
    return compared(walk(room, before), walk(room, after)).changes


@pytest.mark.parametrize("name", RETOLD)
def test_every_telling_is_read_as_a_flaw(name: str) -> None:
    room, tellings = RETOLD[name]
    for telling in tellings:
        assert any(entry.is_adverse for entry in walk(room, telling).entries), telling


@pytest.mark.parametrize("name", RETOLD)
def test_a_flaw_that_is_told_again_in_other_words_is_never_new(name: str) -> None:
    room, tellings = RETOLD[name]
    for before, after in permutations(tellings, 2):
        told = changes(room, before, after)
        assert {change.outcome for change in told}.isdisjoint({"new", "no_baseline", "gone"}), (before, after, told)
