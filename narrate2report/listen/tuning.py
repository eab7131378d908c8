"""The bundled weights, tuned to talk on a walk: what was learned is added to the matrices of the model's decoder.

The model heard little talk of caulk, strike plates and spyholes when it was trained, and writes what it knows
instead. `tuning.npz` holds what narrations, spoken by synthetic voices, taught it: for each matrix two narrow ones
whose product is added to it (low-rank adaptation, Hu et al. 2021, arXiv:2106.09685). The encoder, which hears, is as
published; the decoder, which writes down, knows the words of the trade. No voice of the published figures was in what
it learned from (`tests/benchmarks/learn_hearing.py`).
"""

from __future__ import annotations

import struct
from collections.abc import Iterator, Mapping
from importlib.resources import files
from typing import NamedTuple, cast

import numpy as np
from numpy.typing import NDArray

TUNING = "tuning.npz"
DOWN, UP = "/down", "/up"
"""Behind a matrix's name: what is multiplied first, of shape (rank, columns), and second, of shape (rows, rank)."""

HALF = 4
"""A 16-bit float, in the file's own numbering of types."""


class Place(NamedTuple):
    """Where in a model's file the values of one variable lie."""

    shape: tuple[int, ...]
    type: int
    start: int
    end: int


def shipped_tuning() -> Mapping[str, NDArray[np.float16]]:
    """What the program comes with: for each tuned matrix its two narrow ones."""
    with files("narrate2report.listen").joinpath(TUNING).open("rb") as file, np.load(file) as held:
        return {name: held[name] for name in held.files}


def tune(weights: bytearray, tuning: Mapping[str, NDArray[np.float16]]) -> None:
    """Add to a `model.bin`, where it stands, what was learned.

    Added up with 64 bits and rounded once to the file's 16, so that every machine gets the same bytes. Raises
    ValueError where a matrix to be tuned is not in the file, of another shape or not of 16 bits.
    """
    places = dict(variables(weights))
    for name in sorted(key.removesuffix(UP) for key in tuning if key.endswith(UP)):
        up, down = (tuning[name + which].astype(np.float64) for which in (UP, DOWN))
        place = places.get(name)
        if place is None or place.type != HALF or place.shape != (up.shape[0], down.shape[1]):
            raise ValueError(f"the weights have no 16-bit {name} of {up.shape[0]} rows and {down.shape[1]} columns")
        matrix = np.frombuffer(bytes(weights[place.start : place.end]), np.float16).reshape(place.shape)
        weights[place.start : place.end] = (matrix + up @ down).astype(np.float16).tobytes()


def variables(weights: bytes | bytearray) -> Iterator[tuple[str, Place]]:
    """Each variable of a `model.bin`, as CTranslate2 writes it (`ctranslate2.specs.ModelSpec`, binary version 6)."""
    at = 0

    def number(form: str) -> int:
        nonlocal at
        [value] = struct.unpack_from(form, weights, at)
        at += struct.calcsize(form)
        return cast("int", value)

    def text() -> str:
        nonlocal at
        length = number("<H")
        at += length
        return weights[at - length : at - 1].decode()  # a zero ends it

    number("<I"), text(), number("<I")  # version, kind of model, its revision
    for _ in range(number("<I")):
        name = text()
        shape = tuple(number("<I") for _ in range(number("<B")))
        kind, size = number("<B"), number("<I")
        yield name, Place(shape, kind, at, at + size)
        at += size
