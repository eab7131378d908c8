"""The clock burnt into the sample films, read back by comparing with its drawn digits.

`clock_digits.png` beside this holds the digits; `samples/make_clock_digits.py` draws them.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import av
import numpy as np
from numpy.typing import NDArray

Grey = NDArray[np.float64]
DIGITS = Path(__file__).parent / "clock_digits.png"
WIDE = 22
TOP, BOTTOM = 18, 68
CENTRES = (795.5, 838.7, 865.7, 909.0)
"""Where minutes, tens of seconds, seconds and tenths stand in a picture of 960 by 540."""

WORTH = (60.0, 10.0, 1.0, 0.1)
LARGEST_DIFFERENCE = 25.0
"""Mean difference of brightness (of 255) between a digit as shown and as drawn, at most."""


def read_clock(picture: NDArray[np.uint8]) -> float:
    """The seconds that the clock of a sample film shows in a picture (rows, columns, red-green-blue)."""
    assert picture.shape == (540, 960, 3), "not a picture of a sample film"
    grey = picture @ np.array([0.299, 0.587, 0.114])
    return round(sum(_digit(grey, centre) * worth for centre, worth in zip(CENTRES, WORTH, strict=True)), 1)


def _digit(grey: Grey, centre: float) -> int:
    left = round(centre - WIDE / 2)
    best = min(
        (float(np.abs(grey[TOP:BOTTOM, left + shift : left + shift + WIDE] - drawn).mean()), digit)
        for digit, drawn in enumerate(_drawn_digits())
        for shift in (-1, 0, 1)
    )
    assert best[0] < LARGEST_DIFFERENCE, "no digit of the clock"
    return best[1]


@cache
def _drawn_digits() -> list[Grey]:
    with av.open(str(DIGITS)) as container:
        row = next(container.decode(video=0)).to_ndarray(format="gray").astype(np.float64)
    return [row[:, digit * WIDE : (digit + 1) * WIDE] for digit in range(10)]
