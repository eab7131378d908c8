"""The speech model: Whisper through faster-whisper and CTranslate2, on the processor (8-bit weights) or a card.

Only this module, loading.py, aligner.py and silero.py know the library. Each window is heard by itself: nothing said
before it steers it, and no prompt or hot word ever enters, since both were seen to put words into the record that
nobody said. No sampling: the same sound gives the same words, alone or beside others, on any number of cores.

The model was trained on 30 s, filled up with silence. It takes less, and time and memory shrink with it; but where
the sound reaches to the very end, it does not notice that talk is over, and goes on in circles. So a window is filled
up to the next of a few lengths that leaves it some silence.
"""

from __future__ import annotations

import zlib
from collections import defaultdict
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from narrate2report.listen.device import CPU, Device
from narrate2report.listen.hearing import Heard
from narrate2report.listen.languages import is_doubtful, other_language
from narrate2report.listen.loading import loaded_model, tokens_of, usable_cores
from narrate2report.records.clip import RATE, Sound
from narrate2report.records.transcript import Word

BEAM = 5

LENGTHS_S = (8, 15, 22, 30)
"""What windows are filled up to. Few, since only equal lengths are heard together."""
ROOM_S = 1.5
"""Silence that must follow the sound. Of 100 words in windows of up to 28 s (two voices of flite and one of espeak-ng,
clean, with echo and with noise, 8,300 words) 32 were wrong without any, 19.5 with 0.5 s, 18.9 with 1 s, 19.1 with 2 s,
18.6 with 4 s and 18.6 when filled up to 30 s. Windows of up to 20 s are encoded in two thirds of the time, but
espeak-ng was heard worse by a word in a hundred; of up to 15 s, all voices.
"""

FRAMES_PER_S = 100
"""Of what the model is given; of the times that it gives, half as many."""

LOOPED = 2.4
"""A text that compresses better than this repeats itself (the threshold that Whisper's authors use)."""

NO_REPEAT = 6
"""Second try at a loop: no run of this many tokens may come twice in a window."""

OPENING, CLOSING = "\"'“¿([{-", "\"'.。,，!！?？:：”)]}、"
"""Marks that stand with the word after them, and with the word before."""

Features = NDArray[np.float32]


class Whisper:
    """A loaded model; loading takes about half a second and 300 MB for the base model. Threads may share it."""

    def __init__(self, folder: Path, language: str = "en", device: Device = CPU) -> None:
        """Load a checked model folder. Raises ModelMissing when the library cannot take it."""
        from faster_whisper.transcribe import get_suppressed_tokens

        self._language, self._device = language, device
        self._model = loaded_model(folder, device, self.workers)
        self._tokens = tokens_of(self._model, language)
        self._prompt = self._model.get_prompt(self._tokens, [], without_timestamps=True)
        self._unwanted = get_suppressed_tokens(self._tokens, [-1])

    @property
    def at_once(self) -> int:
        """Windows decoded together."""
        return self._device.at_once

    @property
    def workers(self) -> int:
        """Threads that may hear at a time."""
        return min(self._device.workers, usable_cores())

    @property
    def settings(self) -> Mapping[str, str | int | float | bool]:
        """All that the words depend on, apart from sound and model."""
        return hearing_settings(self._language, self._device)

    def hear(self, sounds: Sequence[Sound]) -> list[Heard]:
        """The words of each window, by itself; one that came out as a loop is heard once more, and of one that came
        out unsure the language is asked for.
        """
        heard: dict[int, Heard] = {}
        alike: dict[int, list[int]] = defaultdict(list)
        for index, sound in enumerate(sounds):
            alike[filled_s(len(sound) / RATE)].append(index)
        for length_s, indices in alike.items():
            heard.update(zip(indices, self._hear_alike([sounds[at] for at in indices], length_s), strict=True))
        return [heard[index] for index in range(len(sounds))]

    def _hear_alike(self, sounds: Sequence[Sound], length_s: int) -> list[Heard]:
        encoded = self._encode([self._features(sound, length_s) for sound in sounds])
        heard = self._with_languages(self._decode(encoded, sounds), encoded)
        for index, sound in enumerate(sounds):
            if repeats(heard[index].words) > LOOPED:
                alone = self._encode([self._features(sound, length_s)])
                [again] = self._decode(alone, [sound], no_repeat_ngram_size=NO_REPEAT)
                if repeats(again.words) <= LOOPED:
                    heard[index] = again.model_copy(update={"other_language": heard[index].other_language})
        return heard

    def _features(self, sound: Sound, length_s: int) -> Features:
        features = self._model.feature_extractor(sound)[:, :-1][:, : length_s * FRAMES_PER_S]
        return np.pad(features, ((0, 0), (0, length_s * FRAMES_PER_S - features.shape[1])))

    def _encode(self, features: Sequence[Features]) -> Any:
        """What the model makes of windows of one length."""
        if self._device.name != CPU.name:
            return self._model.encode(np.stack(features))
        from ctranslate2 import StorageView

        # One after the other: what is compared with what in several windows does not fit into a processor's cache,
        # and takes twice as long.
        return StorageView.from_array(np.concatenate([np.asarray(self._model.encode(one)) for one in features]))

    def _decode(self, encoded: Any, sounds: Sequence[Sound], **more: Any) -> list[Heard]:
        told = self._model.model.generate(
            encoded,
            [list(self._prompt) for _ in sounds],
            beam_size=BEAM,
            max_length=self._model.max_length,
            suppress_tokens=self._unwanted,
            suppress_blank=False,  # it may say that nothing was said, instead of the likeliest words
            return_scores=True,
            return_no_speech_prob=True,
            **more,
        )
        texts = [[token for token in one.sequences_ids[0] if token < self._tokens.eot] for one in told]
        frames = [len(sound) * FRAMES_PER_S // RATE for sound in sounds]
        aligned = self._model.find_alignment(self._tokens, texts, encoded, frames)
        return [
            Heard(
                words=_words(found, len(sound) / RATE),
                likelihood=round(_likelihood(one) if text else 0.0, 4),
                silence=round(one.no_speech_prob if text else 1.0, 4),
            )
            for one, text, found, sound in zip(told, texts, aligned, sounds, strict=True)
        ]

    def _with_languages(self, heard: list[Heard], encoded: Any) -> list[Heard]:
        """What was heard just now, with the language of each window that came out unsure."""
        if not any(map(is_doubtful, heard)):
            return heard
        told = self._model.model.detect_language(encoded)
        return [
            each.model_copy(update={"other_language": other_language(_by_code(chances), self._language)})
            if is_doubtful(each)
            else each
            for each, chances in zip(heard, told, strict=True)
        ]


def hearing_settings(language: str, device: Device = CPU) -> dict[str, str | int | float | bool]:
    """The settings that a model is used with, without loading it."""
    return {
        "beam": BEAM,
        "device": device.name,
        "weights": device.weights,
        "language": language,
        "prompt": False,
        "may_be_blank": True,
        "no_repeat": NO_REPEAT,
        "filled_to_s": " ".join(map(str, LENGTHS_S)),
    }


def filled_s(sound_s: float) -> int:
    """The length to which a window of so many seconds (at most 30) is filled up."""
    return next((length for length in LENGTHS_S if length >= sound_s + ROOM_S), LENGTHS_S[-1])


def repeats(words: Sequence[Word]) -> float:
    """How well a text compresses: 1 to 2 for speech, far more for a loop."""
    text = " ".join(word.text for word in words).encode()
    return len(text) / len(zlib.compress(text)) if text else 0.0


def _likelihood(told: Any) -> float:
    """Mean log probability of the tokens and the end behind them, from the library's mean over the tokens alone."""
    count = len(told.sequences_ids[0])
    return float(told.scores[0] * count / (count + 1))


def _words(aligned: list[dict[str, Any]], length: float) -> tuple[Word, ...]:
    """A window's words, with their marks, from what the library says of each piece of text."""
    from faster_whisper.transcribe import merge_punctuations

    merge_punctuations(aligned, OPENING, CLOSING)
    words: list[Word] = []
    for piece in aligned:
        begin = min(max(0.0, float(piece["start"])), length)
        end = min(max(begin, float(piece["end"])), length)
        if words and piece["word"] and not piece["word"].startswith(" "):
            # "re" + "-caulk": the library parts a word at a hyphen, its own space tells words apart.
            before = words[-1]
            words[-1] = Word(
                text=before.text + piece["word"].strip(),
                start=before.start,
                end=max(before.end, end),
                probability=min(before.probability, _chance(piece["probability"])),
            )
        elif piece["word"].strip():
            text = piece["word"].strip()
            words.append(Word(text=text, start=begin, end=end, probability=_chance(piece["probability"])))
    return tuple(words)


def _by_code(chances: Sequence[tuple[str, float]]) -> dict[str, float]:
    """`<|en|>` and its chance, as the library tells them, to `en` and its chance."""
    return {token.strip("<|>"): chance for token, chance in chances}


def _chance(probability: float) -> float:
    return round(min(1.0, max(0.0, float(probability))), 3)
