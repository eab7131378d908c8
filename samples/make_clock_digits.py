"""The ten digits as the sample films draw them in their clock, side by side in one picture, for the tests to read by.

    PYTHONPATH=samples python samples/make_clock_digits.py tests/clock_digits.png

Needs Pillow (the extra `studio`); only after a change of the clock in studio/film.py.
"""

from __future__ import annotations

import sys
from pathlib import Path

from PIL import Image
from studio.film import FRAME, RATE, draw_captions

LAST_DIGIT = (898, 18, 920, 68)
"""Where tenths of a second stand."""


def main() -> None:
    """Draw ten tenths of a second and cut them out."""
    wide = LAST_DIGIT[2] - LAST_DIGIT[0]
    row = Image.new("L", (10 * wide, LAST_DIGIT[3] - LAST_DIGIT[1]))
    for digit in range(10):
        picture = Image.new("RGB", FRAME, "#808080")
        draw_captions(picture, "", "", digit * RATE // 10)
        row.paste(picture.crop(LAST_DIGIT).convert("L"), (digit * wide, 0))
    row.save(Path(sys.argv[1]), optimize=True)


if __name__ == "__main__":
    main()
