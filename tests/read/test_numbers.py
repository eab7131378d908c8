"""Numbers and measures as people say them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.read.told import Narrator
from tests.read.walks import Spoken, Walk

ONES = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen"
    " seventeen eighteen nineteen"
).split()
TENS = "twenty thirty forty fifty sixty seventy eighty ninety".split()

SIZES: list[tuple[str, Fraction, str]] = [
    ("an inch", Fraction(1), "in"),
    ("one inch", Fraction(1), "in"),
    ("three inches", Fraction(3), "in"),
    ("half an inch", Fraction(1, 2), "in"),
    ("a half inch", Fraction(1, 2), "in"),
    ("a quarter inch", Fraction(1, 4), "in"),
    ("a quarter of an inch", Fraction(1, 4), "in"),
    ("three quarters of an inch", Fraction(3, 4), "in"),
    ("three-quarters of an inch", Fraction(3, 4), "in"),
    ("three quarter inch", Fraction(3, 4), "in"),
    ("an eighth of an inch", Fraction(1, 8), "in"),
    ("five eighths of an inch", Fraction(5, 8), "in"),
    ("a sixteenth of an inch", Fraction(1, 16), "in"),
    ("two and a half inches", Fraction(5, 2), "in"),
    ("two and a quarter inches", Fraction(9, 4), "in"),
    ("one and three quarter inches", Fraction(7, 4), "in"),
    ("an inch and a half", Fraction(3, 2), "in"),
    ("1/4 inch", Fraction(1, 4), "in"),
    ("3/8 of an inch", Fraction(3, 8), "in"),
    ("1/4-inch", Fraction(1, 4), "in"),
    ("2 1/2 inches", Fraction(5, 2), "in"),
    ("2-1/2 inches", Fraction(5, 2), "in"),
    ("2½ inches", Fraction(5, 2), "in"),
    ("¾ inch", Fraction(3, 4), "in"),
    ("2.5 inches", Fraction(5, 2), "in"),
    (".5 inches", Fraction(1, 2), "in"),
    ("0.25 in", Fraction(1, 4), "in"),
    ('3"', Fraction(3), "in"),
    ("3″", Fraction(3), "in"),
    ('1/4"', Fraction(1, 4), "in"),
    ('1 1/2"', Fraction(3, 2), "in"),
    ("two feet", Fraction(2), "ft"),
    ("a foot", Fraction(1), "ft"),
    ("a foot and a half", Fraction(3, 2), "ft"),
    ("half a foot", Fraction(1, 2), "ft"),
    ("6 ft", Fraction(6), "ft"),
    ("twelve inches", Fraction(12), "in"),
    ("twenty-four inches", Fraction(24), "in"),
    ("thirty six inches", Fraction(36), "in"),
    ("five millimeters", Fraction(5), "mm"),
    ("5mm", Fraction(5), "mm"),
    ("5 mm", Fraction(5), "mm"),
    ("ten centimetres", Fraction(10), "cm"),
    ("forty centimeters", Fraction(40), "cm"),
    ("15cm", Fraction(15), "cm"),
    ("a metre", Fraction(1), "m"),
    ("two metres", Fraction(2), "m"),
    ("one yard", Fraction(1), "yd"),
]


@pytest.fixture(scope="module")
def cracks(entries: Narrator) -> Walk[str]:
    return Walk(entries, {said: Spoken("bedroom", f"There's a crack in the ceiling, {said}.") for said, _, _ in SIZES})


@pytest.mark.parametrize(("said", "value", "unit"), SIZES, ids=[said for said, _, _ in SIZES])
def test_a_size_is_read_to_value_and_unit(said: str, value: Fraction, unit: str, cracks: Walk[str]) -> None:
    (entry,) = cracks.given(said)
    assert entry.size is not None
    assert entry.size.value == pytest.approx(float(value), abs=1e-4)
    assert entry.size.unit == unit
    assert entry.size.text.strip(' "″.') in said


@pytest.mark.parametrize(
    "said", ["There's a chip in the sink the size of a dime.", "There's a chip in the sink, about as big as a pea."]
)
def test_a_likeness_stays_in_words(said: str, entries: Narrator) -> None:
    (entry,) = entries(said, room="kitchen").entries
    assert entry.size is not None
    assert entry.size.value is None
    assert entry.size.text in said


@pytest.mark.parametrize(
    "said",
    [
        "There's a chip in the sink.",
        "There's a chip in the sink, in the corner.",
        "The sink in bathroom two has a chip.",
        "There's a chip in the sink, one of these days we'll fix it.",
    ],
)
def test_no_size_is_made_up(said: str, entries: Narrator) -> None:
    chips = [entry for entry in entries(said, room="kitchen").entries if entry.condition == "chip"]
    assert [(entry.size, entry.quantity) for entry in chips] == [(None, None)]


QUANTITIES = [
    ("a couple of", 2), ("a couple", 2), ("a dozen", 12), ("half a dozen", 6), ("12", 12), ("3", 3), ("a pair of", 2),
    ("a hundred", 100), ("two dozen", 24), ("some", None), ("a few", None), ("several", None), ("lots of", None),
]  # fmt: skip


@pytest.fixture(scope="module")
def holes(entries: Narrator) -> Walk[str]:
    said = {said: Spoken("bedroom", f"There are {said} nail holes in the wall.") for said, _ in QUANTITIES}
    return Walk(entries, said)


@pytest.mark.parametrize(("said", "quantity"), QUANTITIES, ids=[said for said, _ in QUANTITIES])
def test_a_quantity_is_read_only_where_a_number_was_said(said: str, quantity: int | None, holes: Walk[str]) -> None:
    assert [(entry.condition, entry.quantity) for entry in holes.given(said)] == [("nail_hole", quantity)]


@pytest.mark.parametrize(
    "said", ["The ceiling has {} cracks.", "You've got {} door keys.", "{} of the slats are bent."]
)
def test_numbers_in_words_and_in_digits_are_the_same_number(said: str, entries: Narrator) -> None:
    numbers = range(2, 100)
    sentences = {(number, "words"): Spoken("bedroom", said.format(_in_words(number))) for number in numbers}
    sentences |= {(number, "digits"): Spoken("bedroom", said.format(number)) for number in numbers}
    walk = Walk(entries, sentences)
    wrong = {
        name: [entry.quantity for entry in walk.given(name)]
        for name in sentences
        if [entry.quantity for entry in walk.given(name)] != [name[0]]
    }
    assert wrong == {}


def _in_words(number: int) -> str:
    if number < len(ONES):
        return ONES[number]
    tens, ones = divmod(number, 10)
    return TENS[tens - 2] + (f"-{ONES[ones]}" if ones else "")


@pytest.mark.parametrize(
    ("said", "size", "quantity"),
    [
        ("There are two scratches on the counter, three inches long.", 3.0, 2),
        ("There's a three inch scratch on the counter.", 3.0, None),
        ("Two three-inch scratches on the counter.", 3.0, 2),
    ],
)
def test_how_many_and_how_long_are_told_apart(said: str, size: float, quantity: int | None, entries: Narrator) -> None:
    told = entries(said, room="kitchen")
    (entry,) = told.entries
    assert entry.size is not None, told.told()
    assert (entry.size.value, entry.quantity) == (size, quantity), told.told()
