"""Where nobody speaks nothing is invented: the bundled model on minutes of silence, noise and music."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from narrate2report.errors import BadInput
from narrate2report.intake.sound import sound_blocks
from narrate2report.listen.hearing import Hearing
from narrate2report.listen.listening import listen
from narrate2report.listen.models import find_model
from narrate2report.listen.stretches import Placed, to_stretches
from narrate2report.listen.whisper import Whisper
from narrate2report.records.clip import RATE, Sound
from tests.listen.conftest import SAMPLES
from tests.listen.noises import NOBODY
from tests.listen.sounds import MadeClip


@pytest.fixture(scope="module")
def model() -> Whisper:
    return Whisper(find_model().ready_folder())


@pytest.mark.parametrize("made", NOBODY.values(), ids=NOBODY.keys())
def test_minutes_of_it_are_no_speech(made: Callable[[float], Sound]) -> None:
    with pytest.raises(BadInput, match=r"no speech was heard in walk\.mp4"):
        listen([MadeClip("walk.mp4", made(120))], keep=None)


@pytest.mark.parametrize("made", NOBODY.values(), ids=NOBODY.keys())
def test_what_the_model_writes_there_is_doubted_even_where_speech_was_suspected(
    made: Callable[[float], Sound], model: Whisper
) -> None:
    """The speech detector is passed over, and a whole window of it claimed to be speech."""
    (heard,) = model.hear([made(28)])
    hearing = Hearing(**heard.model_dump(), speech=((0.0, 28.0),))
    stretches = to_stretches([Placed(0.0, hearing)], "walk.mp4") if heard.words else ()
    assert [stretch.text for stretch in stretches if stretch.doubt is None] == []


def test_between_two_sentences_minutes_of_noise_stay_empty() -> None:
    spoken = np.concatenate(list(sound_blocks(SAMPLES / "move-in.mp4")))
    one, other = spoken[27 * RATE : 37 * RATE], spoken[37 * RATE : 50 * RATE]
    between = np.concatenate([made(45) for made in NOBODY.values()])
    back = 10 + len(between) / RATE
    heard = listen([MadeClip("walk.mp4", np.concatenate([one, between, other]))], keep=None)
    believed = [stretch for stretch in heard.stretches if stretch.doubt is None]
    assert "front door" in " ".join(stretch.text for stretch in believed).lower()
    assert [stretch.text for stretch in believed if stretch.end > 10.5 and stretch.start < back - 0.5] == []
    assert any(stretch.start >= back - 0.5 for stretch in believed)
