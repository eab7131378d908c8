"""Weighing what may have been said against the sound: which piece of it, what is kept, what the model really says."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrate2report.listen.weighing import AFTER_S, BEFORE_S, CONTEXT, cut_out, weigh, weigh_with
from narrate2report.records.clip import RATE, Sound
from narrate2report.records.transcript import Transcript
from narrate2report.records.weighing import Passage, Weight
from tests.listen.conftest import sample_clips
from tests.listen.sounds import MadeClip, bursts, pieces


class CountingWeigher:
    """Every letter of a text costs half a nat; counts the passages, and may be stopped as a program is killed."""

    def __init__(self, *, fails_after: int | None = None, each: float = -0.5) -> None:
        self.weighed: list[str] = []
        self._fails_after = fails_after
        self._each = each

    def likelihoods(self, sound: Sound, texts: Sequence[str], contexts: Sequence[str]) -> list[list[float]]:
        assert len(sound)
        if contexts == ("",):
            if self._fails_after is not None and len(self.weighed) >= self._fails_after:
                raise KeyboardInterrupt
            self.weighed.append(texts[0])
        return [[self._each * len(text) - len(context) for text in texts] for context in contexts]


CLIP = MadeClip("walk.wav", bursts(20.0, [(1.0, 18.0)]))


def passage(start: float, text: str = "The cock is black.", *readings: str) -> Passage:
    return Passage(
        recording=CLIP.name, start=start, end=start + 2, text=text, readings=readings or ("The caulk is black.",)
    )


def weighed(
    weigher: CountingWeigher, passages: Sequence[Passage], keep: Path | None = None
) -> list[tuple[Weight, ...]]:
    return [one.weights for one in weigh_with(lambda: weigher, {"model": "m"}, passages, [CLIP], keep=keep)]


@given(
    starts=st.lists(st.integers(0, 18_00), min_size=1, max_size=6),
    size=st.integers(100, 70_000),
)
def test_each_passage_gets_its_own_stretch_of_sound_however_the_sound_comes(starts: list[int], size: int) -> None:
    sound = np.arange(20 * RATE, dtype=np.float32)
    passages = [passage(start / 100, f"Number {number}.") for number, start in enumerate(starts)]
    cut = list(cut_out(pieces(sound, size), passages))
    assert sorted(one.text for one, _ in cut) == sorted(one.text for one in passages)
    for one, piece in cut:
        first = max(0, round((one.start - BEFORE_S) * RATE))
        assert piece[0] == first
        assert len(piece) == min(len(sound), round((one.end + AFTER_S) * RATE)) - first


def test_a_reading_is_told_by_how_much_likelier_it_is_than_what_was_heard() -> None:
    [weights] = weighed(
        CountingWeigher(), [passage(3.0, "The cock is black.", "The cocks is black.", "The coc is black.")]
    )
    assert weights == (Weight(plain=-0.5, context=-0.5), Weight(plain=0.5, context=0.5))


def test_what_the_sound_rules_out_is_not_weighed_among_words_of_the_trade() -> None:
    [weights] = weighed(CountingWeigher(), [passage(3.0, "The cock is black.", f"The {'a' * 40} is black.")])
    assert weights == (Weight(plain=-18.0, context=None),)


def test_nothing_is_told_where_what_was_heard_does_not_fit_the_sound_either() -> None:
    assert weighed(CountingWeigher(each=-3.0), [passage(3.0)]) == [()]


def test_the_context_asserts_nothing() -> None:
    """A prompt with a statement in it was seen to come back as speech: nouns alone, and a full stop."""
    assert CONTEXT.endswith(".")
    assert not {"is", "are", "has", "there", "works", "no"} & set(CONTEXT.lower().replace(",", "").split())


def test_another_run_weighs_nothing_and_plays_nothing(tmp_path: Path) -> None:
    keep, first, again = tmp_path / "kept.jsonl", CountingWeigher(), CountingWeigher()
    passages = [passage(start) for start in (1.0, 5.0, 9.0)]
    before = weighed(first, passages, keep)
    held, plays = keep.read_bytes(), len(CLIP.plays)
    assert weighed(again, passages, keep) == before
    assert (len(first.weighed), again.weighed, len(CLIP.plays)) == (3, [], plays)
    assert keep.read_bytes() == held


@pytest.mark.parametrize("after", range(4))
def test_a_run_that_was_stopped_goes_on_where_it_was(after: int, tmp_path: Path) -> None:
    keep = tmp_path / "kept.jsonl"
    passages = [passage(start, f"The cock of {start}.") for start in (1.0, 5.0, 9.0, 13.0)]
    with pytest.raises(KeyboardInterrupt):
        weighed(CountingWeigher(fails_after=after), passages, keep)
    again = CountingWeigher()
    assert weighed(again, passages, keep) == weighed(CountingWeigher(), passages)
    assert len(again.weighed) == 4 - after


def test_the_model_tells_what_was_said_from_what_was_not(sample_transcript: Transcript) -> None:
    """With the bundled model, on the sample: every word that was heard there against a word of another sound."""
    stretch = next(one for one in sample_transcript.stretches if "chip" in one.text)
    other = stretch.text.replace("chip", "banana")
    asked = Passage(
        recording=stretch.recording,
        start=stretch.start,
        end=stretch.end,
        text=stretch.text,
        readings=(stretch.text, other, stretch.text.replace("chip", "ship")),
    )
    [told] = weigh([asked], sample_clips().clips, sample_transcript.engine, keep=None)
    same, far, near = told.weights
    assert same == Weight(plain=0.0, context=0.0)
    assert far.plain < -8
    assert far.context is None
    assert far.plain < near.plain < 0
