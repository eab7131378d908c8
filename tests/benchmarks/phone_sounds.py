"""What becomes of a voice on its way to a phone, and what a phone hears where nobody speaks; on the graphics card.

For `learn_hearing.py`. Sounds are rows of (batch, samples), 16,000 a second.
"""

from __future__ import annotations

import math
import random
from collections.abc import Sequence
from typing import Any

import torch

RATE = 16_000

Tensor = Any
"""A torch.Tensor; where the library is not installed, its types are not known."""


def as_phones_hear(sounds: Tensor, lengths: Sequence[int]) -> Tensor:
    """With the echo of a room, with noise, with both or neither; nearer or farther."""
    count = len(sounds)
    rooms = with_echo(sounds, drawn(count, 0.1, 0.7), drawn(count, 0.03, 0.3))
    sounds = torch.where((drawn(count, 0, 1) < 0.4)[:, None], rooms, sounds)
    loud = sounds.std(1, keepdim=True) * 10 ** (-drawn(count, 8, 35)[:, None] / 20)
    noisy = sounds + noise(drawn(count, 0, 1), sounds.shape[1]) * loud
    sounds = torch.where((drawn(count, 0, 1) < 0.5)[:, None], noisy, sounds)
    sounds = sounds / sounds.abs().amax(1, keepdim=True).clamp(min=1e-4) * 10 ** drawn(count, -1.5, -0.05)[:, None]
    return _ended(sounds, lengths)


def with_echo(sounds: Tensor, lasts_s: Tensor, level: Tensor) -> Tensor:
    """Each in a room of its own: how long the echo takes to fall by 60 dB, and how loud it begins."""
    count = int(0.7 * RATE)
    times = torch.arange(count, device="cuda") / RATE
    tail = torch.randn(len(sounds), count, device="cuda") * torch.exp(-6.9 * times / lasts_s[:, None]) * level[:, None]
    tail[:, 0] = 1
    whole = sounds.shape[1] + count
    return torch.fft.irfft(torch.fft.rfft(sounds, whole) * torch.fft.rfft(tail, whole), whole)[:, : sounds.shape[1]]


def noise(tilts: Tensor, count: int) -> Tensor:
    """Noise of loudness 1 that falls off towards high tones by each tilt: 0 is white, a half is pink."""
    spectrum = torch.fft.rfft(torch.randn(len(tilts), count, device="cuda"))
    spectrum = spectrum / torch.arange(spectrum.shape[1], device="cuda").clamp(min=1) ** tilts[:, None]
    sound = torch.fft.irfft(spectrum, count)
    return sound / sound.std(1, keepdim=True)


def nobody(seconds: float) -> Tensor:
    """Sound in which nobody speaks: silence, noise, overtones that waver and swell, knocks, chords."""
    u = random.uniform
    count = int(seconds * RATE)
    t = torch.arange(count, device="cuda") / RATE
    sound = torch.zeros(count, device="cuda")
    match random.choice(("silence", "noise", "noise", "tones", "tones", "knocks", "chords")):
        case "noise":
            swell = 1 + u(0, 1) * torch.sin(2 * math.pi * u(0.05, 4) * t)
            sound = noise(torch.tensor([u(0, 1.2)], device="cuda"), count)[0] * swell
        case "tones":
            pitch, waver, deep, falls = u(50, 900), u(0.5, 9), u(0, 4), u(0.3, 2)
            for k in range(1, random.randrange(2, 14)):
                phase = k * deep * torch.sin(2 * math.pi * waver * t) + u(0, 6)
                sound += torch.sin(2 * math.pi * k * pitch * t + phase) / k**falls
            if random.random() < 0.6:
                sound *= 0.5 + 0.5 * torch.sin(2 * math.pi * u(0.2, 5) * t)
        case "knocks":
            at = u(0.05, 0.5)
            while at < seconds - 0.2:
                within = torch.arange(int(u(0.02, 0.15) * RATE), device="cuda") / RATE
                body = torch.randn(len(within), device="cuda")
                if random.random() < 0.5:
                    body = torch.sin(2 * math.pi * u(100, 3000) * within)
                first = int(at * RATE)
                sound[first : first + len(within)] += (body * torch.exp(-within * u(20, 120)))[: count - first]
                at += u(0.15, 1.5)
        case "chords":
            beat = u(0.3, 1.2)
            for bar in range(int(seconds / beat) + 1):
                within = (t >= bar * beat) & (t < (bar + 0.95) * beat)
                root = random.choice((174.6, 196, 220, 246.9, 261.6)) * random.choice((0.5, 1, 2))
                for by in random.choice(((1, 1.25, 1.5), (1, 1.2, 1.5), (1, 1.5, 2))):
                    sound += within * torch.sin(2 * math.pi * root * by * t) * torch.exp(-u(0.5, 4) * (t % beat))
        case _:
            pass
    sound = sound / sound.abs().max().clamp(min=1e-4) * 10 ** u(-2, -0.1)
    return sound + torch.randn(count, device="cuda") * 10 ** u(-4, -1.5) * (random.random() < 0.4)


def _ended(sounds: Tensor, lengths: Sequence[int]) -> Tensor:
    for at, length in enumerate(lengths):
        sounds[at, length:] = 0
    return sounds


def drawn(count: int, low: float, high: float) -> Tensor:
    return torch.empty(count, device="cuda").uniform_(low, high)
