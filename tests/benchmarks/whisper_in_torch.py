"""Whisper on the variables of a CTranslate2 file, in plain PyTorch, with narrow matrices that can be learned.

For `learn_hearing.py`, on a machine with a graphics card. What is multiplied is as in the published model (Radford et
al. 2022, arXiv:2212.04356); beside a matrix W of the decoder stand two narrow ones, of which B A is added to it
(low-rank adaptation, Hu et al. 2021, arXiv:2106.09685). Tensors are of one batch: (batch, places, width).
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from typing import Any

import numpy as np
import torch
from numpy.typing import NDArray
from torch.nn import functional

Tensor = Any
"""A torch.Tensor; where the library is not installed, its types are not known."""

CARD = "cuda"
HEADS, LAYERS, WIDTH = 8, 6, 512
"""Of Whisper base."""
SCALE = 2.0
"""By which what was learned is multiplied; `learned` has it in the second matrix."""


class Whisper:
    """The published weights, which stay as they are, and the narrow matrices."""

    def __init__(self, weights: Mapping[str, NDArray[np.float32]], rank: int, halves: str = "decoder|encoder") -> None:
        self._weights = {name: torch.from_numpy(np.array(value)).to(CARD) for name, value in weights.items()}
        tuned = [name for name in self._weights if re.search(rf"^({halves})/.*linear_\d/weight$", name)]
        self._down = {
            name: self._new(torch.randn(rank, self._columns(name)) / self._columns(name) ** 0.5) for name in tuned
        }
        self._up = {name: self._new(torch.zeros(len(self._weights[name]), rank)) for name in tuned}
        self.tuned = True
        """Whether what was learned is added."""

    @property
    def parameters(self) -> list[Tensor]:
        return [*self._down.values(), *self._up.values()]

    def learned(self) -> dict[str, NDArray[np.float16]]:
        """The narrow matrices, under the names that `listen/tuning.py` reads."""
        down = {f"{name}/down": value.detach() for name, value in self._down.items()}
        up = {f"{name}/up": value.detach() * SCALE for name, value in self._up.items()}
        return {name: value.cpu().numpy().astype(np.float16) for name, value in {**down, **up}.items()}

    def encode(self, mel: Tensor) -> Tensor:
        """(batch, 80, frames) to (batch, frames / 2, width)."""
        x = functional.gelu(
            functional.conv1d(mel, self._of("encoder/conv1/weight"), self._of("encoder/conv1/bias"), padding=1)
        )
        x = functional.gelu(
            functional.conv1d(x, self._of("encoder/conv2/weight"), self._of("encoder/conv2/bias"), stride=2, padding=1)
        )
        x = x.transpose(1, 2)
        x = x + self._of("encoder/position_encodings/encodings")[: x.shape[1]]
        for layer in range(LAYERS):
            x = self._attend_to_itself(x, f"encoder/layer_{layer}/self_attention", causal=False)
            x = self._feed_forward(x, f"encoder/layer_{layer}/ffn")
        return self._normed(x, "encoder/layer_norm")

    def decode(self, tokens: Tensor, encoded: Tensor) -> Tensor:
        """What the model makes of each token and all before it; `scores` tells the next ones from it."""
        x = functional.embedding(tokens, self._of("decoder/embeddings/weight"))
        x = x + self._of("decoder/position_encodings/encodings")[: tokens.shape[1]]
        for layer in range(LAYERS):
            x = self._attend_to_itself(x, f"decoder/layer_{layer}/self_attention", causal=True)
            name = f"decoder/layer_{layer}/attention"
            query = self._linear(self._normed(x, f"{name}/layer_norm"), f"{name}/linear_0")
            key, value = self._linear(encoded, f"{name}/linear_1").chunk(2, -1)
            x = x + self._linear(_attention(query, key, value, causal=False), f"{name}/linear_2")
            x = self._feed_forward(x, f"decoder/layer_{layer}/ffn")
        return self._normed(x, "decoder/layer_norm")

    def scores(self, decoded: Tensor) -> Tensor:
        """Of each token of the vocabulary to come next."""
        return functional.linear(decoded, self._of("decoder/embeddings/weight"))

    def _attend_to_itself(self, x: Tensor, name: str, *, causal: bool) -> Tensor:
        query, key, value = self._linear(self._normed(x, f"{name}/layer_norm"), f"{name}/linear_0").chunk(3, -1)
        return x + self._linear(_attention(query, key, value, causal=causal), f"{name}/linear_1")

    def _feed_forward(self, x: Tensor, name: str) -> Tensor:
        inner = functional.gelu(self._linear(self._normed(x, f"{name}/layer_norm"), f"{name}/linear_0"))
        return x + self._linear(inner, f"{name}/linear_1")

    def _linear(self, x: Tensor, name: str) -> Tensor:
        weight = f"{name}/weight"
        y = functional.linear(x, self._of(weight), self._of(f"{name}/bias"))
        if self.tuned and weight in self._down:
            y = y + functional.linear(functional.linear(x, self._down[weight]), self._up[weight]) * SCALE
        return y

    def _normed(self, x: Tensor, name: str) -> Tensor:
        return functional.layer_norm(x, (WIDTH,), self._of(f"{name}/gamma"), self._of(f"{name}/beta"))

    def _of(self, name: str) -> Tensor:
        return self._weights[name]

    def _columns(self, name: str) -> int:
        return int(self._weights[name].shape[1])

    @staticmethod
    def _new(values: Tensor) -> Tensor:
        return values.to(CARD).requires_grad_()


def _attention(query: Tensor, key: Tensor, value: Tensor, *, causal: bool) -> Tensor:
    heads = [each.unflatten(-1, (HEADS, -1)).transpose(1, 2) for each in (query, key, value)]
    return functional.scaled_dot_product_attention(*heads, is_causal=causal).transpose(1, 2).flatten(2)


class Ear:
    """Sound to what the model is given: log-mel features, filled up with nothing to one of a few lengths, as
    `narrate2report/listen/whisper.py` fills them up.
    """

    LENGTHS_S = (8, 15, 22, 30)
    ROOM_S = 1.5
    FRAMES_PER_S = 100
    HOP, SPAN = 160, 400
    RATE = 16_000

    def __init__(self, filters: NDArray[np.float32]) -> None:
        self._filters = torch.from_numpy(filters).to(CARD)
        self._span = torch.hann_window(self.SPAN, device=CARD)

    def features(self, sounds: Tensor, lengths: list[int]) -> Tensor:
        """Of sounds (batch, samples) that last `lengths` samples each."""
        longest = max(lengths) / self.RATE + self.ROOM_S
        frames = next((each for each in self.LENGTHS_S if each >= longest), self.LENGTHS_S[-1]) * self.FRAMES_PER_S
        sounds = functional.pad(sounds, (0, max(0, frames * self.HOP - sounds.shape[1]) + self.SPAN))
        power = torch.stft(sounds, self.SPAN, self.HOP, window=self._span, return_complex=True).abs() ** 2
        mel = torch.log10((self._filters @ power).clamp(min=1e-10))
        filled = torch.zeros(len(sounds), len(self._filters), frames, device=CARD)
        for at, length in enumerate(lengths):
            heard = min(frames, length // self.HOP + 1)
            one = mel[at, :, :heard]
            filled[at, :, :heard] = (torch.maximum(one, one.max() - 8.0) + 4) / 4
        return filled


def warmed_and_cooled(step: int, steps: int, warm: int = 50) -> float:
    """The share of the learning rate at a step: up in a straight line, then down along a cosine to a twentieth."""
    return min(1.0, step / warm) * (0.05 + 0.95 * 0.5 * (1 + math.cos(math.pi * step / steps)))
