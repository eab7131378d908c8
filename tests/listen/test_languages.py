"""Speech in another language than the one that is listened for is noticed, said, and not read."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from narrate2report.errors import BadInput
from narrate2report.intake.sound import sound_blocks
from narrate2report.listen.hearing import Hearing
from narrate2report.listen.languages import other_language
from narrate2report.listen.listening import listen
from narrate2report.listen.stretches import Placed, to_stretches, told_languages
from narrate2report.records.clip import RATE, Sound
from narrate2report.records.transcript import Word
from tests.listen.conftest import SAMPLES
from tests.listen.sounds import MadeClip

SPANISH = Path(__file__).parent / "spoken" / "spanish.opus"
"""Invented talk about a kitchen, 16 s, spoken by espeak-ng (voice `es`)."""


def sound_of(path: Path) -> Sound:
    sound: Sound = np.concatenate(list(sound_blocks(path)))
    return sound


def test_a_passage_in_another_language_is_named_with_its_times_and_not_believed() -> None:
    english = sound_of(SAMPLES / "move-in.mp4")[27 * RATE : 41 * RATE]
    pause = np.zeros(5 * RATE, np.float32)
    heard = listen([MadeClip("walk.mp4", np.concatenate([english, pause, sound_of(SPANISH)]))], keep=None)
    (told,) = heard.warnings
    assert told.startswith("walk.mp4: from 0:19 to 0:3")
    assert "Spanish" in told
    assert [stretch.doubt is not None for stretch in heard.stretches] == [
        stretch.start > 18 for stretch in heard.stretches
    ]


def test_a_recording_in_another_language_alone_is_refused_with_the_reason() -> None:
    with pytest.raises(BadInput, match=r"walk\.mp4: from 0:00 to 0:1\d someone seems to speak Spanish"):
        listen([MadeClip("walk.mp4", sound_of(SPANISH))], keep=None)


@pytest.mark.parametrize(
    ("chances", "found"),
    [
        ({"en": 0.9, "es": 0.05}, None),
        ({"en": 0.04, "es": 0.9}, "es"),
        ({"en": 0.3, "es": 0.6}, None),
        ({"en": 0.1, "cy": 0.3, "la": 0.2}, None),
        ({"de": 0.8}, "de"),
    ],
)
def test_another_language_is_believed_only_when_it_is_plain(chances: dict[str, float], found: str | None) -> None:
    assert other_language(chances, "en") == found


def window(start: float, code: str | None) -> Placed:
    word = Word(text="something", start=1.0, end=9.0, probability=0.4)
    return Placed(start, Hearing(words=(word,), likelihood=-0.9, silence=0.1, speech=((1, 9),), other_language=code))


def test_windows_that_follow_on_each_other_are_one_passage() -> None:
    placed = [window(0, "es"), window(10, "es"), window(20, None), window(60, "es"), window(70, "xx")]
    told = told_languages(placed, "a.mp4")
    assert [line.split(" someone")[0] for line in told] == [
        "a.mp4: from 0:01 to 0:19",
        "a.mp4: from 1:01 to 1:09",
        "a.mp4: from 1:11 to 1:19",
    ]
    assert "another language (xx)" in told[-1]
    assert "Spanish" in (to_stretches(placed[:1], "a.mp4")[0].doubt or "")
