"""A timeline as pictures in SVG, of any width: for a page of paper, a screen or a phone. Pure.

A mark is told by its shape; the colour only repeats it. What is too crowded to be drawn is counted (`+3`). A walk
with very many rooms makes several pictures, none taller than a page.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from xml.etree.ElementTree import Element, tostring

from narrate2report.publish.report_tree import node
from narrate2report.publish.report_values import Lane, Mark, Timeline

INK, QUIET, LINE, ALARM = "#20303a", "#51616b", "#b9c4ca", "#8c2f1b"
FONT = "Libertinus Serif, Georgia, serif"
TEXT = 11.0
"""Size of the letters, in the units of the picture: points on paper, pixels on a screen."""
TALLEST = 600.0
_EDGE = 6.0
_SLOT = 11.0
"""Width that a mark takes."""
_RISE = 8.0
"""Height of a mark on the pile."""
_PILE = 6
"""Marks that are piled up before the rest is counted."""
_AXIS = 20.0
_WIDE = 440.0
_NAMES = 104.0
_LETTER = 0.5 * TEXT
"""Width of a letter, about."""


@dataclass(frozen=True)
class _Scale:
    """Where a time stands. The names of rooms stand left of the line where there is room, else above it."""

    width: float
    length_s: float

    @property
    def names(self) -> float:
        return _NAMES if self.width >= _WIDE else 0.0

    def at(self, seconds: float) -> float:
        left = self.names + _EDGE
        return left + min(max(seconds / self.length_s, 0.0), 1.0) * (self.width - left - _EDGE)


def drawn(timeline: Timeline, width: float, more: str = "+{n}", fit: Callable[[str], str] = str) -> tuple[Element, ...]:
    """The pictures, `width` units wide. `fit` makes text fit for print; `more` is how what is too much is counted."""
    scale = _Scale(width, timeline.length_s)
    rows = [_row(lane, scale, more, fit) for lane in timeline.lanes]
    pictures: list[list[tuple[Element, float]]] = []
    for row in rows:
        if not pictures or _AXIS + sum(tall for _, tall in pictures[-1]) + row[1] > TALLEST:
            pictures.append([])
        pictures[-1].append(row)
    return tuple(_picture(timeline, scale, rows, fit) for rows in pictures)


def as_file(picture: Element) -> str:
    """A picture as an SVG file of its own."""
    return tostring(picture, encoding="unicode")


def _picture(
    timeline: Timeline, scale: _Scale, rows: Sequence[tuple[Element, float]], fit: Callable[[str], str]
) -> Element:
    tall = _AXIS + sum(height for _, height in rows)
    parts = [*_axis(timeline, scale, tall, fit)]
    y = _AXIS
    for row, height in rows:
        row.set("transform", f"translate(0 {y:g})")
        parts.append(row)
        y += height
    box = f"0 0 {_n(scale.width)} {_n(tall)}"
    namespace = "http://www.w3.org/2000/svg"
    return node("svg", *parts, xmlns=namespace, width=_n(scale.width), height=_n(tall), view_box=box)


def _axis(timeline: Timeline, scale: _Scale, tall: float, fit: Callable[[str], str]) -> Iterator[Element]:
    free = 0.0
    for tick in timeline.ticks:
        x = scale.at(tick.at_s)
        label = fit(f"{_short(tick.file, scale.width)} {tick.label}".strip())
        wide = len(label) * _LETTER
        left = min(x, scale.width - wide)
        yield _line(x, 13, x, tall, LINE, 1.2 if tick.file else 0.5)
        if left >= free:
            yield _text(left, 10, label, QUIET)
            free = left + wide + 6


def _row(lane: Lane, scale: _Scale, more: str, fit: Callable[[str], str]) -> tuple[Element, float]:
    """A room with its marks above its line, and how tall it is."""
    slots = [int(scale.at(spot.at_s) // _SLOT) for spot in lane.spots]
    piles = Counter(slots)
    deepest = min(max(piles.values(), default=0), _PILE)
    over = any(number > _PILE for number in piles.values())
    base = max(deepest + over, 1) * _RISE + 4 + (0.0 if scale.names else TEXT + 3)
    name_y = base + 3 if scale.names else TEXT
    parts = [_text(0, name_y, fit(_short(lane.room, scale.names or scale.width)), INK, bold=True)]
    parts.append(_line(scale.at(0), base, scale.width - _EDGE, base, LINE, 0.8))
    for start, end in lane.stays_s:
        left, right = scale.at(start), max(scale.at(end), scale.at(start) + 2)
        parts.append(node("rect", x=_n(left), y=_n(base - 2), width=_n(right - left), height="4", fill=INK))
    parts += _marks(lane, slots, base, more)
    return node("g", *parts), base + 7


def _marks(lane: Lane, slots: Sequence[int], base: float, more: str) -> Iterator[Element]:
    level: Counter[int] = Counter()
    for spot, slot in sorted(zip(lane.spots, slots, strict=True), key=lambda one: one[0].at_s):
        if level[slot] < _PILE:
            yield _shape(spot.mark, (slot + 0.5) * _SLOT, base - 8 - level[slot] * _RISE)
        level[slot] += 1
    for slot, number in level.items():
        if number > _PILE:
            yield _text(slot * _SLOT, base - 5 - _PILE * _RISE, more.format(n=number - _PILE), INK)


def _shape(kind: Mark, x: float, y: float) -> Element:
    """A mark about its middle, in the shapes that stand beside its word everywhere else."""
    triangle = f"{_n(x - 4)},{_n(y + 3.5)} {_n(x + 4)},{_n(y + 3.5)} {_n(x)},{_n(y - 3.5)}"
    match kind:
        case "attention":
            return node("polygon", points=triangle, fill=ALARM, stroke=ALARM)
        case "possible":
            return node("polygon", points=triangle, fill="none", stroke=ALARM)
        case "fails":
            path = f"M{_n(x - 3.5)} {_n(y - 3.5)}l7 7m0 -7l-7 7"
            return node("path", d=path, fill="none", stroke=ALARM, stroke_width="1.8")
        case "untested":
            return node("circle", cx=_n(x), cy=_n(y), r="3.4", fill="none", stroke=INK)
        case "works":
            return node("circle", cx=_n(x), cy=_n(y), r="3.4", fill=INK)
        case "sound":
            return node("circle", cx=_n(x), cy=_n(y), r="2", fill=INK)
        case "work":
            return _square(x, y, 7, fill="none", stroke=INK)
        case _:
            return _square(x, y, 5, fill=QUIET)


def _square(x: float, y: float, side: float, **drawn_in: str) -> Element:
    half = side / 2
    return node("rect", x=_n(x - half), y=_n(y - half), width=_n(side), height=_n(side), **drawn_in)


def _text(x: float, y: float, words: str, colour: str, *, bold: bool = False) -> Element:
    weight = "bold" if bold else "normal"
    return node("text", words, x=_n(x), y=_n(y), fill=colour, font_family=FONT, font_size=_n(TEXT), font_weight=weight)


def _line(x1: float, y1: float, x2: float, y2: float, colour: str, wide: float) -> Element:
    return node("line", x1=_n(x1), y1=_n(y1), x2=_n(x2), y2=_n(y2), stroke=colour, stroke_width=_n(wide))


def _short(words: str, width: float) -> str:
    """As many letters as fit into the width."""
    most = int((width - _EDGE) / _LETTER) - 1
    return words if len(words) <= most else f"{words[:most]}…"


def _n(number: float) -> str:
    return f"{number:.1f}".removesuffix(".0")
