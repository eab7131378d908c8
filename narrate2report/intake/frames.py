"""Stills of a recording: the picture at a time, its neighbours, and the sharpest of a stretch.

Each call opens the recording, jumps to the key frame before and decodes on from there; nothing is kept between calls,
so calls may run side by side. Files of a still are made by `still_file`.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass
from itertools import islice
from pathlib import Path

from narrate2report.intake.pictures import ROUNDING_S, Picture, pictures
from narrate2report.intake.sharpness import is_blank, sharpness
from narrate2report.intake.upright import Pixels, luma, upright_pixels

MOST_MEASURED = 60
"""Pictures of a stretch that are measured."""

LONGEST_S = 20.0
"""Seconds from its start on in which the sharpest of a stretch is looked for; few statements are longer."""

MEASURED_LONG_SIDE = 960
"""Pixels; small enough to be quick, large enough to show the smear of a moving hand."""

CLEARLY = 1.02
"""A later picture must be this much sharper than the one held: what the encoder's noise decides, the earlier wins."""

EARLIER_S = (1.0, 8.0, 60.0)
"""How far before a picture its predecessors are looked for, one after the other, then from the beginning."""


@dataclass(frozen=True, eq=False)
class Frame:
    """A picture of a recording as a player shows it, whole and upright.

    `time_s` is where its showing begins, in seconds from 0:00. Written to the millisecond or finer, it finds the same
    picture again.
    """

    time_s: float
    pixels: Pixels

    @property
    def width(self) -> int:
        """Pixels from left to right."""
        return int(self.pixels.shape[1])

    @property
    def height(self) -> int:
        """Pixels from top to bottom."""
        return int(self.pixels.shape[0])


def frame_at(path: Path, time_s: float) -> Frame:
    """The picture that a player shows at a time: the last that began until then, within a millisecond.

    Before the first picture it is the first, beyond the end the last. Raises BadInput when the recording has no
    picture or cannot be read.
    """
    return _frame(next(pictures(path, time_s)))


def neighbour(path: Path, time_s: float, steps: int) -> Frame:
    """The picture `steps` pictures after the one shown at a time, or before it where negative; the ends are the limit.

    Raises BadInput like `frame_at`.
    """
    if steps < 0:
        return frame_at(path, _earlier_time(path, time_s, -steps))
    shown = pictures(path, time_s)
    picture = next(shown)
    for following in islice(shown, steps):
        picture = following
    return _frame(picture)


def sharpest(path: Path, start_s: float, end_s: float) -> Frame:
    """The sharpest picture of those shown from start to end, black and blank ones passed over where others are.

    At most 60 pictures, evenly spread, of at most the first 20 s are measured; of about equally sharp ones the
    earlier is taken. Raises BadInput like `frame_at`.
    """
    end_s = min(max(start_s, end_s), start_s + LONGEST_S)
    every_s = (end_s - start_s) / (MOST_MEASURED - 1)
    held: Picture | None = None
    best: tuple[bool, float] | None = None
    due_s = start_s
    for picture in pictures(path, start_s):
        if held is not None and picture.time_s > end_s:
            break
        if held is not None and picture.time_s < due_s:
            continue
        due_s = max(due_s, picture.time_s) + every_s
        brightness = luma(picture.frame, MEASURED_LONG_SIDE)
        found = (not is_blank(brightness), sharpness(brightness))
        if best is None or (found[0], found[1]) > (best[0], best[1] * CLEARLY):
            held, best = picture, found
    assert held is not None  # there is always one, or pictures() has raised
    return _frame(held)


def _earlier_time(path: Path, time_s: float, steps: int) -> float:
    """The time of the picture so many before the one shown at a time, or of the first."""
    for back_s in (*EARLIER_S, time_s):
        start_s = max(0.0, time_s - back_s)
        times: deque[float] = deque(maxlen=steps + 1)
        for picture in pictures(path, start_s):
            if times and picture.time_s > time_s + ROUNDING_S:
                break
            times.append(picture.time_s)
        if len(times) > steps or start_s == 0:
            break
    return times[0]


def _frame(picture: Picture) -> Frame:
    return Frame(picture.time_s, upright_pixels(picture.frame))
