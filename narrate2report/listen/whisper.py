"""The speech model: Whisper through faster-whisper and CTranslate2, on the processor (8-bit weights) or a card.

Only this module, aligner.py and silero.py know the library. Each window is heard by itself: nothing said before it
steers it, and no prompt or hot word ever enters, since both were seen to put words into the record that nobody said.
No sampling: the same sound gives the same words.
"""

from __future__ import annotations

import os
import zlib
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from narrate2report.errors import ModelMissing
from narrate2report.listen.device import CPU, Device
from narrate2report.listen.hearing import Heard
from narrate2report.listen.languages import is_doubtful, other_language
from narrate2report.records.clip import RATE, Sound
from narrate2report.records.cores import cores
from narrate2report.records.transcript import Word

if TYPE_CHECKING:
    from faster_whisper.transcribe import Segment, WhisperModel

BEAM = 5

LOOPED = 2.4
"""A text that compresses better than this repeats itself (the threshold that Whisper's authors use)."""

NO_REPEAT = 6
"""Second try at a loop: no run of this many tokens may come twice in a window."""


class Whisper:
    """A loaded model; loading takes about half a second and 300 MB for the base model."""

    def __init__(self, folder: Path, language: str = "en", device: Device = CPU) -> None:
        """Load a checked model folder. Raises ModelMissing when the library cannot take it."""
        from faster_whisper import BatchedInferencePipeline

        self._language, self._device = language, device
        model = loaded_model(folder, device)
        self._pipeline = BatchedInferencePipeline(model)
        self._encoded: Any = None
        self._remember_encoded(model)

    @property
    def at_once(self) -> int:
        """Windows decoded together."""
        return self._device.at_once

    @property
    def settings(self) -> Mapping[str, str | int | float | bool]:
        """All that the words depend on, apart from sound and model."""
        return hearing_settings(self._language, self._device)

    def hear(self, sounds: Sequence[Sound]) -> list[Heard]:
        """The words of each window, by itself; one that came out as a loop is heard once more, and of one that came
        out unsure the language is asked for.
        """
        heard = self._with_languages(self._decode(sounds))
        for index, sound in enumerate(sounds):
            if repeats(heard[index].words) > LOOPED:
                again = self._decode([sound], no_repeat_ngram_size=NO_REPEAT)[0]
                if repeats(again.words) <= LOOPED:
                    heard[index] = again.model_copy(update={"other_language": heard[index].other_language})
        return heard

    def _remember_encoded(self, model: Any) -> None:
        """Keep what the model made of the last windows: the language can then be asked for without a second pass."""
        encode = model.encode

        def remembering(features: Any) -> Any:
            self._encoded = encode(features)
            return self._encoded

        model.encode = remembering

    def _with_languages(self, heard: list[Heard]) -> list[Heard]:
        """What was heard just now, with the language of each window that came out unsure."""
        if not any(map(is_doubtful, heard)):
            return heard
        told = self._pipeline.model.model.detect_language(self._encoded)
        if len(told) != len(heard):
            raise ValueError(f"{len(told)} windows were encoded, {len(heard)} heard: more than fit at once")
        return [
            each.model_copy(update={"other_language": other_language(_by_code(chances), self._language)})
            if is_doubtful(each)
            else each
            for each, chances in zip(heard, told, strict=True)
        ]

    def _decode(self, sounds: Sequence[Sound], **more: Any) -> list[Heard]:
        joined, places = _lay_out(sounds)
        segments, _ = self._pipeline.transcribe(
            joined,
            language=self._language,
            beam_size=BEAM,
            temperature=0.0,
            word_timestamps=True,
            without_timestamps=True,
            condition_on_previous_text=False,
            clip_timestamps=places,
            batch_size=self._device.at_once,
            **more,
        )
        found: list[list[Segment]] = [[] for _ in sounds]
        starts = [place["start"] for place in places]
        for segment in segments:
            found[max(0, int(np.searchsorted(starts, segment.seek / 100, side="right")) - 1)].append(segment)
        return [
            _heard(each, start, len(sound) / RATE) for each, start, sound in zip(found, starts, sounds, strict=True)
        ]


def hearing_settings(language: str, device: Device = CPU) -> dict[str, str | int | float | bool]:
    """The settings that a model is used with, without loading it."""
    return {
        "beam": BEAM,
        "device": device.name,
        "weights": device.weights,
        "language": language,
        "prompt": False,
        "no_repeat": NO_REPEAT,
    }


def repeats(words: Sequence[Word]) -> float:
    """How well a text compresses: 1 to 2 for speech, far more for a loop."""
    text = " ".join(word.text for word in words).encode()
    return len(text) / len(zlib.compress(text)) if text else 0.0


def loaded_model(folder: Path, device: Device) -> WhisperModel:
    """The model of a checked folder, on the device. Raises ModelMissing when the library cannot take it."""
    from faster_whisper import WhisperModel

    try:
        model = WhisperModel(
            str(folder),
            device=device.name,
            compute_type=device.weights,
            cpu_threads=usable_cores(),
            local_files_only=True,
        )
    except Exception as error:  # the libraries below raise bare ones for files that they cannot take
        raise ModelMissing(f"{folder}: is not a Whisper model for CTranslate2 ({error})") from error
    _sum_in_fixed_order(model)
    return model


def _sum_in_fixed_order(model: WhisperModel) -> None:
    """Make what a model hears the same on any number of processor cores.

    The library multiplies sound with its filters by a product whose sums are cut into as many pieces as there are
    cores, and the last digit of a sum decides now and then between two words. The filters are nearly all zeros: as a
    sparse matrix they are added up one after the other, as fast.
    """
    from scipy.sparse import csr_array

    extractor = model.feature_extractor
    extractor.mel_filters = csr_array(extractor.mel_filters)


def _lay_out(sounds: Sequence[Sound]) -> tuple[Sound, list[dict[str, float]]]:
    """The windows in a row, each from a whole second on: the library counts starts in 10 ms."""
    pieces, places, at = [], [], 0
    for sound in sounds:
        seconds = -(-len(sound) // RATE)
        pieces.append(np.pad(sound, (0, seconds * RATE - len(sound))))
        places.append({"start": float(at), "end": at + len(sound) / RATE})
        at += seconds
    return np.concatenate(pieces), places


def _heard(segments: Sequence[Segment], start: float, length: float) -> Heard:
    """A window's segments as words with times from its own start."""
    words: list[Word] = []
    for segment in segments:
        for word in segment.words or ():
            begin = min(max(0.0, word.start - start), length)
            end = min(max(begin, word.end - start), length)
            if words and not word.word.startswith(" "):
                # "re" + "-caulk": the library parts a word at a hyphen, its own space tells words apart.
                before = words[-1]
                words[-1] = Word(
                    text=before.text + word.word.strip(),
                    start=before.start,
                    end=max(before.end, end),
                    probability=min(before.probability, _chance(word.probability)),
                )
            elif word.word.strip():
                words.append(Word(text=word.word.strip(), start=begin, end=end, probability=_chance(word.probability)))
    likelihood = min((segment.avg_logprob for segment in segments), default=0.0)
    silence = max((segment.no_speech_prob for segment in segments), default=1.0)
    return Heard(words=tuple(words), likelihood=round(likelihood, 4), silence=round(silence, 4))


def _by_code(chances: Sequence[tuple[str, float]]) -> dict[str, float]:
    """`<|en|>` and its chance, as the library tells them, to `en` and its chance."""
    return {token.strip("<|>"): chance for token, chance in chances}


def _chance(probability: float) -> float:
    return round(min(1.0, max(0.0, float(probability))), 3)


def usable_cores() -> int:
    """Processor cores this program may use; more than eight bring nothing for windows of 30 s.

    OMP_NUM_THREADS, by which the libraries below are told how many, sets a lower number.
    """
    usable = cores()
    told = os.environ.get("OMP_NUM_THREADS", "")
    if told.isdecimal() and int(told) > 0:
        usable = min(usable, int(told))
    return max(1, min(8, usable))
