"""Windows are cut at pauses, are never too long, and leave no speech out."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from hypothesis import example, given, settings
from hypothesis import strategies as st

from narrate2report.listen.cuts import BLIP, LONGEST, MARGIN, SPEAKS, Cut, Cutter, frames


def cuts(chances: Sequence[float]) -> list[Cut]:
    cutter = Cutter()
    found = [cut for chance in chances for cut in cutter.feed(chance)]
    return [*found, *cutter.finish()]


def talk(*seconds: float) -> list[float]:
    """Chances for speech and silence in turn, in seconds, beginning with speech."""
    return [
        chance
        for number, length in enumerate(seconds)
        for chance in [0.95 if number % 2 == 0 else 0.02] * frames(length)
    ]


def test_silence_has_no_windows() -> None:
    assert cuts([0.02] * 5000) == []


def test_a_short_clip_is_one_window_with_a_margin() -> None:
    (cut,) = cuts(talk(0, 2.0, 3.0, 2.0))
    assert cut.start == frames(2.0) - MARGIN
    assert cut.end == frames(5.0) + MARGIN
    assert [(span.start, span.end) for span in cut.speech] == [(frames(2.0), frames(2.0) + frames(3.0))]


def test_a_long_silence_always_parts_windows() -> None:
    assert len(cuts(talk(3, 6, 3, 6, 3))) == 3


def test_a_breath_does_not_part_windows() -> None:
    (cut,) = cuts(talk(3, 0.6, 3, 0.6, 3))
    assert len(cut.speech) == 3


def test_long_talk_is_cut_at_a_pause_not_in_a_word() -> None:
    found = cuts(talk(*[4.0, 0.5] * 20))
    assert len(found) >= 3
    for before, after in pairwise(found):
        assert before.end <= after.start
        assert before.speech[-1].end < after.speech[0].start


def test_the_longer_of_two_late_pauses_is_chosen() -> None:
    first, *_ = cuts(talk(12, 0.3, 3, 0.25, 13, 0.5, 5))
    assert first.speech[-1].end == frames(12)


def test_speech_without_a_pause_is_cut_where_it_is_faintest() -> None:
    chances = talk(60)
    faint = frames(24)
    chances[faint] = SPEAKS
    first, second, *_ = cuts(chances)
    assert first.end == second.start == faint


def test_a_click_is_no_window() -> None:
    assert cuts([0.02] * 300 + [0.9] * (BLIP - 1) + [0.02] * 300) == []


@settings(max_examples=60)
@given(st.lists(st.tuples(st.floats(0, 1), st.integers(1, 1200)), max_size=8))
@example([(1.0, 871), (0.0, 4)])
@example([(1.0, 871), (0.0, 4), (1.0, 900)])
def test_windows_follow_each_other_and_hold_all_speech(runs: list[tuple[float, int]]) -> None:
    chances = [chance for chance, length in runs for _ in range(length)]
    found = cuts(chances)
    for cut in found:
        assert 0 <= cut.start < cut.end <= len(chances)
        assert cut.end - cut.start <= LONGEST + 2 * MARGIN
        assert all(cut.start <= span.start < span.end <= cut.end for span in cut.speech)
    for before, after in pairwise(found):
        assert before.end <= after.start
    held = {frame for cut in found for frame in range(cut.start, cut.end)}
    lost = [frame for frame, chance in enumerate(chances) if chance >= SPEAKS and frame not in held]
    assert all(_is_in_a_blip(frame, chances) for frame in lost)


def _is_in_a_blip(frame: int, chances: Sequence[float]) -> bool:
    """Only speech shorter than a click may be left out."""
    first = last = frame
    while first > 0 and chances[first - 1] >= SPEAKS:
        first -= 1
    while last + 1 < len(chances) and chances[last + 1] >= SPEAKS:
        last += 1
    return last - first + 1 < BLIP
