"""How words sound, and which sounds are near each other."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrate2report.errors import ModelMissing
from narrate2report.read.misheard import sounds
from narrate2report.read.misheard.letters import letters_to_phones
from narrate2report.read.misheard.sound_index import SoundIndex
from narrate2report.read.misheard.sounds import CODE, apart, english_sounds

CODES = st.text(sorted(set(CODE.values())), max_size=9)


@pytest.mark.parametrize(
    ("one", "other"),
    [("caulk", "cock"), ("jamb", "jam"), ("hole", "whole"), ("plate", "plait"), ("newel", "newle"), ("sill", "cill")],
)
def test_words_of_one_sound_are_not_apart(one: str, other: str) -> None:
    english = english_sounds()
    assert apart(english.of(one), english.of(other)) == 0.0


@pytest.mark.parametrize(
    ("meant", "nearer", "farther"),
    [
        ("dent", "tent", "vent"),
        ("gutter", "cutter", "butter"),
        ("escutcheon", "escutchin", "question"),
        ("architrave", "arkitrave", "aggravate"),
        ("splashback", "splashbag", "flashback"),
        ("latch", "letch", "lunch"),
    ],
)
def test_what_is_easily_mistaken_is_nearer(meant: str, nearer: str, farther: str) -> None:
    english = english_sounds()
    assert apart(english.of(meant), english.of(nearer)) < apart(english.of(meant), english.of(farther))


@given(CODES, CODES)
def test_a_distance_is_the_same_both_ways_and_nothing_only_for_the_same(one: str, other: str) -> None:
    assert apart(one, other) == pytest.approx(apart(other, one))
    assert (apart(one, other) == 0.0) == (one == other)
    assert 0.0 <= apart(one, other) <= 2.0


@given(st.text(st.characters(codec="utf-8", categories=["L", "M", "N"]), max_size=20))
def test_any_letters_have_sounds_that_are_known(word: str) -> None:
    assert set(letters_to_phones(word)) <= CODE.keys()


def test_the_index_finds_what_is_near_and_nothing_else() -> None:
    english = english_sounds()
    index = SoundIndex({word: english.of(word) for word in ("gutter", "grout", "baluster", "hinge")})
    assert index.near(english.of("cutter"), 0.2).keys() == {"gutter"}
    assert index.near(english.of("ballister"), 0.2).keys() == {"baluster"}
    assert index.near(english.of("teapot"), 0.2) == {}


def test_english_words_are_told_from_strings_of_letters_and_common_from_rare() -> None:
    english = english_sounds()
    assert english.is_word("cutter")
    assert not english.is_word("arkitrave")
    assert english.common("would") > english.common("hinge") > english.common("arkitrave") == 0


def test_a_missing_dictionary_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sounds, "PACKAGE", "no_such_package_at_all")
    with pytest.raises(ModelMissing, match="pronouncing dictionary"):
        sounds.english_sounds.__wrapped__()
