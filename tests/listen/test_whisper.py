"""What a window is filled up to before the model hears it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrate2report.listen.cuts import LONGEST, MARGIN
from narrate2report.listen.silero import FRAME
from narrate2report.listen.whisper import LENGTHS_S, ROOM_S, filled_s
from narrate2report.records.clip import RATE


@given(st.floats(0, (LONGEST + MARGIN) * FRAME / RATE))
def test_a_window_is_followed_by_silence_however_long_it_is(sound_s: float) -> None:
    assert sound_s + ROOM_S <= filled_s(sound_s) <= LENGTHS_S[-1]


@pytest.mark.parametrize(("sound_s", "filled"), [(0.5, 8), (6.5, 8), (6.6, 15), (20.4, 22), (20.6, 30), (29.5, 30)])
def test_short_windows_cost_less(sound_s: float, filled: int) -> None:
    assert filled_s(sound_s) == filled
