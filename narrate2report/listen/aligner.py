"""How likely the speech model holds given words on given sound: forced alignment by CTranslate2.

The words are put to the model one after the other and it says how probable each was (`Whisper.align`, whose source,
src/models/whisper.cc, counts text tokens only). The sound is encoded once for all texts, and as short as it is: a
passage of 5 s costs a sixth of a window.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np

from narrate2report.listen.device import Device
from narrate2report.listen.loading import loaded_model, tokens_of
from narrate2report.records.clip import Sound

FAINTEST = 1e-10
"""A token that is impossible counts as this probable."""


class Aligner:
    """A loaded model that weighs texts; nothing that it is told comes out of it as words."""

    def __init__(self, folder: Path, language: str, device: Device) -> None:
        """Load a checked model folder. Raises ModelMissing when the library cannot take it."""
        self._model = loaded_model(folder, device)
        self._tokens = tokens_of(self._model, language)

    def likelihoods(self, sound: Sound, texts: Sequence[str], contexts: Sequence[str]) -> list[list[float]]:
        """For each context (may be empty), the log probability of each text on the sound (at most 30 s), in nats."""
        features = self._model.feature_extractor(sound)
        features = features[:, : features.shape[1] // 2 * 2]
        encoded = self._model.encode(features)
        return [[self._of(encoded, features.shape[1], text, context) for text in texts] for context in contexts]

    def _of(self, encoded: Any, frames: int, text: str, context: str) -> float:
        before = [self._tokens.sot_prev, *self._tokens.encode(f" {context}")] if context else []
        start = [*before, *self._tokens.sot_sequence, self._tokens.no_timestamps]
        [told] = self._model.model.align(encoded, start, [self._tokens.encode(f" {text}")], frames)
        return float(np.sum(np.log(np.maximum(told.text_token_probs, FAINTEST))))
