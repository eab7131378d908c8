"""Sayings written with alternatives stand for exactly the phrases one would write out; what is miswritten is told."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrate2report.errors import BadVocabulary
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.records.alternatives import MOST_FORMS, spread
from tests.read.told import Narrator

WORDS = st.lists(st.text("abc", min_size=1, max_size=3), min_size=1, max_size=4, unique=True)


def test_a_plain_phrase_stands_for_itself() -> None:
    assert spread("comes off in my hand") == ("comes off in my hand",)


def test_every_choice_is_written_out_and_an_empty_one_left_out() -> None:
    assert spread("(will|does) not stay (up|)") == (
        "will not stay up",
        "will not stay",
        "does not stay up",
        "does not stay",
    )


@given(first=WORDS, second=WORDS)
def test_as_many_phrases_as_there_are_choices(first: list[str], second: list[str]) -> None:
    forms = spread(f"({'|'.join(first)}) x ({'|'.join(second)})")
    assert set(forms) == {f"{one} x {other}" for one in first for other in second}


@pytest.mark.parametrize("saying", ["(one|two", "one) two", "((one|two) three)"])
def test_a_bracket_too_many_is_told_with_its_line(saying: str, tmp_path: Path) -> None:
    (tmp_path / "conditions.yaml").write_text(f'worn:\n  phrases: ["{saying}"]\n', encoding="utf-8")
    with pytest.raises(BadVocabulary, match=r"conditions\.yaml:2: .*bracket"):
        load_vocabulary(tmp_path)


def test_too_many_phrases_are_refused() -> None:
    many = "(" + "|".join(f"w{number}" for number in range(MOST_FORMS + 1)) + ")"
    with pytest.raises(ValueError, match="write it in several"):
        spread(many)


@pytest.mark.parametrize(
    ("said", "component", "condition"),
    [
        ("The towel bar came away in my hand.", "towel_bar", "broken"),
        ("The front door, you can see daylight under it.", "door", "draft"),
        ("The window won't stay up.", "window", "not_working"),
        ("The dishwasher makes an awful racket.", "dishwasher", "noise"),
        ("The drawer takes a bit of muscle.", "drawer", "sticking"),
        ("The oven door doesn't quite shut.", "oven_door", "misaligned"),
    ],
)
def test_flaws_told_without_a_noun_for_them(entries: Narrator, said: str, component: str, condition: str) -> None:
    told = entries("Kitchen.", said)
    assert (component, condition, "present") in [(one.component, one.condition, one.assertion) for one in told.entries]


@pytest.mark.parametrize("said", ["I didn't turn it on.", "We don't lock it."])
def test_what_somebody_leaves_undone_is_no_fault(entries: Narrator, said: str) -> None:
    told = entries("Kitchen.", "This is the dishwasher.", said)
    assert not [one for one in told.entries if one.kind == "condition"]


@pytest.mark.parametrize(
    ("said", "component"),
    [
        ("Refrigerator cold, freezer cold.", "freezer"),
        ("Fridge at thirty-eight.", "refrigerator"),
        ("Fan: on.", "range_hood"),
    ],
)
def test_a_note_of_what_a_thing_is_meant_to_be_is_its_check(entries: Narrator, said: str, component: str) -> None:
    told = entries("Kitchen.", said)
    assert (component, "works") in [(one.component, one.outcome) for one in told.entries]
