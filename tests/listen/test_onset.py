"""Word times are settled against the sound: at the onset, never late into a word, and in order."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrate2report.listen.onset import settle
from narrate2report.records.clip import Sound
from narrate2report.records.transcript import Word
from tests.listen.sounds import LoudnessMeter, bursts


def word(start: float, end: float, text: str = "word") -> Word:
    return Word(text=text, start=start, end=end, probability=0.9)


def settled(words: list[Word], sound: Sound) -> list[tuple[float, float]]:
    return [(each.start, each.end) for each in settle(words, sound, LoudnessMeter().feed(sound))]


SPEECH = [(1.0, 2.0), (4.0, 5.0)]
"""Two runs of speech with two seconds of pause between."""


@pytest.mark.parametrize("room_db", [-90.0, -60.0, -38.0], ids=["silent", "quiet", "noisy"])
@pytest.mark.parametrize("start", [3.1, 3.6, 3.9, 4.1, 4.3])
def test_the_first_word_after_a_pause_starts_with_its_sound(start: float, room_db: float) -> None:
    sound = bursts(7, SPEECH, room_db=room_db)
    (_, first) = settled([word(1.0, 2.0), word(start, 4.6)], sound)
    assert 3.94 <= first[0] <= 4.0


def test_a_word_that_was_given_the_whole_pause_keeps_its_own_side() -> None:
    sound = bursts(7, SPEECH)
    last_before, first_after = settled([word(1.5, 4.0), word(4.0, 4.5)], sound)
    assert last_before == pytest.approx((1.5, 2.0), abs=0.03)
    assert first_after[0] == pytest.approx(4.0, abs=0.04)


def test_a_word_that_starts_in_the_tail_before_the_pause_is_moved_behind_it() -> None:
    sound = bursts(7, SPEECH)
    _, moved, after = settled([word(1.2, 1.95), word(1.95, 4.3), word(4.3, 4.8)], sound)
    assert moved[0] == pytest.approx(4.0, abs=0.04)
    assert after[0] == pytest.approx(4.3, abs=0.01)


def test_a_word_with_sound_on_both_sides_of_the_pause_stands_behind_it() -> None:
    """Heard so: "prices [pause] water heaters" with "water" from before the pause into "heaters"."""
    sound = bursts(7, SPEECH)
    before, first, _ = settled([word(1.4, 1.75, "prices"), word(1.75, 4.2, "Water"), word(4.2, 4.9)], sound)
    assert before == pytest.approx((1.4, 2.0), abs=0.04)
    assert first == pytest.approx((4.0, 4.2), abs=0.04)


def test_a_word_lost_in_the_pause_goes_to_the_speech_that_follows() -> None:
    sound = bursts(7, SPEECH)
    (_, lost, _) = settled([word(1.2, 2.0), word(2.0, 2.9), word(4.4, 4.9)], sound)
    assert lost[0] == pytest.approx(4.0, abs=0.04)


def test_the_last_word_lasts_as_long_as_its_sound() -> None:
    sound = bursts(7, SPEECH)
    (only,) = settled([word(1.5, 1.7)], sound)
    assert only == pytest.approx((1.5, 2.0), abs=0.03)


def test_words_in_flowing_speech_are_left_where_they_were() -> None:
    sound = bursts(7, [(1.0, 6.0)])
    words = [word(1.5, 2.0), word(2.0, 2.5), word(2.5, 3.0)]
    assert settled(words, sound) == [(1.5, 2.0), (2.0, 2.5), (2.5, 3.0)]


def test_a_word_of_no_length_is_given_some() -> None:
    sound = bursts(7, [(1.0, 6.0)])
    spans = settled([word(1.5, 2.0), word(2.0, 2.0), word(2.0, 2.5)], sound)
    assert all(end - start >= 0.05 for start, end in spans)
    assert all(before[1] <= after[0] for before, after in pairwise(spans))


def test_no_word_is_longer_than_a_word_can_be() -> None:
    sound = bursts(12, [(1.0, 11.0)])
    ((start, end),) = settled([word(1.5, 9.0)], sound)
    assert start == 1.5
    assert end - start <= 1.51


def test_nothing_heard_stays_nothing() -> None:
    assert settle([], bursts(1, []), np.zeros(0, np.float32)) == ()


@given(
    st.lists(st.tuples(st.floats(0, 8), st.floats(0, 3)), min_size=1, max_size=12),
    st.lists(st.tuples(st.floats(0, 7), st.floats(0.05, 2)), max_size=4),
)
def test_times_stay_in_order_and_inside_the_sound(
    times: list[tuple[float, float]], talk: list[tuple[float, float]]
) -> None:
    sound = bursts(9, [(start, start + length) for start, length in talk])
    words = [word(start, min(9.0, start + length)) for start, length in sorted(times)]
    spans = settled(words, sound)
    assert len(spans) == len(words)
    assert all(0 <= start <= end <= 9.01 for start, end in spans)
    assert all(before[0] <= after[0] and before[1] <= after[0] + 0.011 for before, after in pairwise(spans))
