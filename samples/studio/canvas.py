"""A drawing surface measured in the units of a room: 1920 wide and 1080 high, whatever the pixels are.

Shapes are drawn far larger than they are shown and then reduced, which is what makes their edges smooth.
Colours are web colours; two more digits give the opacity ("#20202080").
"""

from __future__ import annotations

import math
import random
from collections.abc import Sequence

from PIL import Image, ImageColor, ImageDraw, ImageFilter, ImageFont

WIDTH, HEIGHT = 1920, 1080
MASTER = 2
"""Pixels of a finished picture for each unit."""

_OVERSAMPLE = 2
_SCALE = MASTER * _OVERSAMPLE

Point = tuple[float, float]


def load_font(size: float) -> ImageFont.FreeTypeFont:
    """The typeface that comes with Pillow, so that no system font is needed."""
    font = ImageFont.load_default(size)
    if not isinstance(font, ImageFont.FreeTypeFont):
        raise RuntimeError("Pillow was built without FreeType")
    return font


class Canvas:
    """Draws shapes given in units; `finish` returns the picture."""

    def __init__(self, background: str) -> None:
        self._image = Image.new("RGB", (WIDTH * _SCALE, HEIGHT * _SCALE), background)
        self._draw = ImageDraw.Draw(self._image, "RGBA")

    def finish(self) -> Image.Image:
        """The picture with smooth edges, `MASTER` pixels a unit."""
        return self._image.reduce(_OVERSAMPLE)

    def rect(self, x: float, y: float, w: float, h: float, fill: str, radius: float = 0) -> None:
        """A filled box from its upper left corner."""
        box = (x * _SCALE, y * _SCALE, (x + w) * _SCALE - 1, (y + h) * _SCALE - 1)
        self._draw.rounded_rectangle(box, radius * _SCALE, fill=fill)

    def frame(self, x: float, y: float, w: float, h: float, edge: str, width: float, radius: float = 0) -> None:
        """The outline of a box, drawn inwards."""
        box = (x * _SCALE, y * _SCALE, (x + w) * _SCALE - 1, (y + h) * _SCALE - 1)
        self._draw.rounded_rectangle(box, radius * _SCALE, outline=edge, width=round(width * _SCALE))

    def poly(self, points: Sequence[Point], fill: str) -> None:
        """A filled polygon."""
        self._draw.polygon([(x * _SCALE, y * _SCALE) for x, y in points], fill=fill)

    def line(self, points: Sequence[Point], fill: str, width: float) -> None:
        """A polyline with rounded joints."""
        scaled = [(x * _SCALE, y * _SCALE) for x, y in points]
        self._draw.line(scaled, fill=fill, width=max(1, round(width * _SCALE)), joint="curve")

    def oval(self, cx: float, cy: float, rx: float, ry: float, fill: str) -> None:
        """A filled ellipse around its centre."""
        box = ((cx - rx) * _SCALE, (cy - ry) * _SCALE, (cx + rx) * _SCALE, (cy + ry) * _SCALE)
        self._draw.ellipse(box, fill=fill)

    def ring(self, cx: float, cy: float, rx: float, ry: float, edge: str, width: float) -> None:
        """The outline of an ellipse."""
        box = ((cx - rx) * _SCALE, (cy - ry) * _SCALE, (cx + rx) * _SCALE, (cy + ry) * _SCALE)
        self._draw.ellipse(box, outline=edge, width=max(1, round(width * _SCALE)))

    def arc(self, cx: float, cy: float, r: float, start: float, end: float, edge: str, width: float) -> None:
        """A part of a circle, in degrees clockwise from three o'clock."""
        box = ((cx - r) * _SCALE, (cy - r) * _SCALE, (cx + r) * _SCALE, (cy + r) * _SCALE)
        self._draw.arc(box, start, end, fill=edge, width=max(1, round(width * _SCALE)))

    def blob(self, cx: float, cy: float, rx: float, ry: float, fill: str, seed: int, wobble: float = 0.2) -> None:
        """An irregular rounded patch; the same seed gives the same outline."""
        dice = random.Random(seed)
        waves = [(k, dice.uniform(0, math.tau), dice.uniform(0.3, 1.0) / k) for k in range(2, 7)]
        points = []
        for step in range(72):
            angle = step * math.tau / 72
            reach = 1 + wobble * sum(size * math.sin(k * angle + turn) for k, turn, size in waves)
            points.append((cx + rx * reach * math.cos(angle), cy + ry * reach * math.sin(angle)))
        self.poly(points, fill)

    def text(self, x: float, y: float, words: str, size: float, fill: str, anchor: str = "mm") -> None:
        """Words placed by Pillow's anchor letters: centred on the point unless said otherwise."""
        self._draw.text((x * _SCALE, y * _SCALE), words, fill=fill, font=load_font(size * _SCALE), anchor=anchor)

    def shade(self, x: float, y: float, w: float, h: float, top: str, bottom: str) -> None:
        """A box whose colour (and opacity) runs from top to bottom."""
        size = (round(w * _SCALE), round(h * _SCALE))
        ramp = Image.linear_gradient("L").resize(size)
        blend = Image.composite(Image.new("RGBA", size, _rgba(bottom)), Image.new("RGBA", size, _rgba(top)), ramp)
        self._image.paste(blend, (round(x * _SCALE), round(y * _SCALE)), blend)

    def glow(self, cx: float, cy: float, rx: float, ry: float, colour: str) -> None:
        """A soft ellipse: light when bright, a shadow when dark."""
        small = 8
        size = (round(rx * 4 * _SCALE / small), round(ry * 4 * _SCALE / small))
        mask = Image.new("L", size, 0)
        box = (size[0] * 0.3, size[1] * 0.3, size[0] * 0.7, size[1] * 0.7)
        ImageDraw.Draw(mask).ellipse(box, fill=_rgba(colour)[3])
        mask = mask.filter(ImageFilter.GaussianBlur(max(1.0, min(size) / 9)))
        mask = mask.resize((size[0] * small, size[1] * small))
        place = (round((cx - rx * 2) * _SCALE), round((cy - ry * 2) * _SCALE))
        self._image.paste(Image.new("RGB", mask.size, _rgba(colour)[:3]), place, mask)


def _rgba(colour: str) -> tuple[int, int, int, int]:
    value = ImageColor.getcolor(colour, "RGBA")
    if not isinstance(value, tuple) or len(value) != 4:
        raise RuntimeError(f"not a colour with opacity: {colour}")
    return value
