"""How sharp a picture is, and whether there is anything in it."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

FAINTEST = 4.0
"""Standard deviation of brightness (of 255) below which a picture is black, white or a covered lens: noise alone."""


def sharpness(brightness: NDArray[np.uint8]) -> float:
    """The variance of the Laplacian of a picture's brightness: edges that are smeared by focus or motion lower it.

    Only for comparing pictures of equal size and like content. Method: J. L. Pech-Pacheco, G. Cristóbal,
    J. Chamorro-Martínez, J. Fernández-Valdivia, "Diatom autofocusing in brightfield microscopy: a comparative study",
    Proceedings of the 15th International Conference on Pattern Recognition, 2000, volume 3, pages 314-317.
    """
    values = brightness.astype(np.float32)
    if min(values.shape) < 3:
        return 0.0
    inner = values[1:-1, 1:-1]
    laplacian = values[:-2, 1:-1] + values[2:, 1:-1] + values[1:-1, :-2] + values[1:-1, 2:] - 4 * inner
    return float(laplacian.var(dtype=np.float64))


def is_blank(brightness: NDArray[np.uint8]) -> bool:
    """Whether nothing can be made out in a picture.

    >>> is_blank(np.full((90, 160), 16, np.uint8))
    True
    """
    return float(brightness.std()) < FAINTEST
