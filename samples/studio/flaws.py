"""How each kind of flaw is drawn, wherever in the flat it turns up.

Positions and sizes are in room units (see canvas). Every flaw is seeded by its place, so it looks the same
each time.
"""

from __future__ import annotations

import math
import random

from studio.canvas import Canvas, Point


def scratch(canvas: Canvas, start: Point, end: Point) -> None:
    """One fine line that has broken the surface, with its lit lower edge."""
    points = _wander(start, end, steps=14, stray=1.6)
    canvas.line([(x + 0.8, y + 1.6) for x, y in points], "#fff4e0b0", 1.4)
    canvas.line(points, "#4a2f1ae6", 2.0)


def gouge(canvas: Canvas, start: Point, end: Point) -> None:
    """A deep, ragged furrow with splintered edges."""
    middle = _wander(start, end, steps=16, stray=2.5)
    dice = random.Random(round(start[0] + end[1]))
    half = [3 + 4.5 * math.sin(math.pi * i / 16) * dice.uniform(0.7, 1.2) for i in range(17)]
    upper = [(x, y - h) for (x, y), h in zip(middle, half, strict=True)]
    lower = [(x, y + h) for (x, y), h in zip(middle, half, strict=True)]
    canvas.poly([(x, y + 3) for x, y in upper + lower[::-1]], "#f2d3a4c0")
    canvas.poly(upper + lower[::-1], "#4b2c14")
    canvas.line([(x, y + 1.5) for x, y in middle[2:-2]], "#24130a", 2.5)
    for x, y in middle[2:-2:2]:
        canvas.line([(x, y - 4), (x + dice.uniform(5, 14), y - dice.uniform(9, 14))], "#6d4523", 1.4)


def scuff(canvas: Canvas, cx: float, cy: float, length: float) -> None:
    """A grey rub made of a few overlapping streaks."""
    dice = random.Random(round(cx))
    for _ in range(9):
        x, y = cx + dice.uniform(-0.3, 0.1) * length, cy + dice.uniform(-5, 5)
        canvas.line([(x, y), (x + length * dice.uniform(0.3, 0.6), y - dice.uniform(1, 6))], "#37343270", 2.4)


def dent(canvas: Canvas, cx: float, cy: float, radius: float, paint: str) -> None:
    """A hollow pressed into a painted surface: dark above, lit below."""
    canvas.glow(cx, cy, radius * 1.5, radius * 1.35, "#00000070")
    canvas.oval(cx, cy, radius, radius * 0.9, "#00000066")
    canvas.oval(cx, cy + radius * 0.16, radius * 0.9, radius * 0.76, paint)
    canvas.oval(cx, cy - radius * 0.05, radius * 0.8, radius * 0.6, "#00000040")
    canvas.arc(cx, cy, radius * 0.95, 25, 155, "#ffffffb0", radius * 0.1)


def chip(canvas: Canvas, cx: float, cy: float, radius: float, inside: str) -> None:
    """A flake broken out of an edge, showing what lies beneath."""
    canvas.blob(cx, cy, radius * 1.15, radius * 0.8, "#00000090", round(cx), 0.35)
    canvas.blob(cx, cy + radius * 0.08, radius, radius * 0.66, inside, round(cx), 0.35)
    canvas.blob(cx + radius * 0.15, cy + radius * 0.2, radius * 0.5, radius * 0.26, "#00000038", round(cy), 0.4)


def crack(canvas: Canvas, start: Point, end: Point, colour: str = "#2d2a28", stray: float = 5) -> None:
    """A jagged line with two short branches; `stray` is how far it leaves the straight way."""
    points = _wander(start, end, steps=11, stray=stray)
    canvas.line([(x + 1, y + 1.5) for x, y in points], "#ffffff90", 1.6)
    canvas.line(points, colour, 2.4)
    for index, turn in ((4, 1), (7, -1)):
        x, y = points[index]
        canvas.line([(x, y), (x + 10, y + stray * 1.8 * turn), (x + 24, y + stray * 2.6 * turn)], colour, 1.6)


def nail_hole(canvas: Canvas, cx: float, cy: float) -> None:
    """A small round hole with a rim of lifted paint."""
    canvas.oval(cx, cy, 6.5, 6.2, "#ffffffd0")
    canvas.oval(cx + 0.4, cy + 0.9, 5.6, 5.2, "#8d857b")
    canvas.oval(cx, cy, 4.0, 4.0, "#1d1a18")


def stain(canvas: Canvas, cx: float, cy: float, rx: float, ry: float, tint: str) -> None:
    """A dried patch: pale in the middle, darker towards its rim. `tint` is a colour without opacity."""
    seed = round(cx + cy)
    canvas.blob(cx, cy, rx, ry, tint + "66", seed, 0.3)
    canvas.blob(cx, cy, rx * 0.94, ry * 0.94, tint + "40", seed, 0.3)
    canvas.blob(cx + rx * 0.1, cy, rx * 0.6, ry * 0.6, tint + "50", seed + 1, 0.35)
    for turn in (0.6, 2.2, 4.4):
        canvas.blob(
            cx + rx * 1.4 * math.cos(turn),
            cy + ry * 1.4 * math.sin(turn),
            rx * 0.1,
            ry * 0.12,
            tint + "90",
            seed,
        )


def mold(canvas: Canvas, x: float, y: float, length: float) -> None:
    """Dark specks that gather along a horizontal joint."""
    dice = random.Random(round(x + y))
    for _ in range(round(length / 2.6)):
        along = x + dice.random() * length
        size = dice.uniform(1.2, 4.2)
        canvas.blob(
            along,
            y + dice.gauss(0, 3.4),
            size,
            size,
            dice.choice(["#26302bd8", "#3c4a3cd0", "#1b201fd0"]),
            dice.randrange(99),
        )


def grease(canvas: Canvas, x: float, y: float, w: float, h: float) -> None:
    """Brown film with drips that run down inside a box."""
    dice = random.Random(round(x))
    canvas.shade(x, y, w, h, "#7a4a1878", "#4d2c0cb8")
    for _ in range(14):
        left, top = x + dice.uniform(0.04, 0.96) * w, y + dice.uniform(0.0, 0.35) * h
        fall = dice.uniform(0.25, 0.6) * h
        canvas.line([(left, top), (left, top + fall)], "#c98a35c0", 4)
        canvas.oval(left, top + fall, 4.5, 6, "#d99a40d8")
    for _ in range(12):
        canvas.blob(
            x + dice.random() * w,
            y + dice.uniform(0.55, 0.97) * h,
            12,
            5,
            "#2a1606c0",
            dice.randrange(99),
            0.4,
        )


def _wander(start: Point, end: Point, steps: int, stray: float) -> list[Point]:
    """Points from start to end that stray to either side."""
    dice = random.Random(round(start[0] * 7 + end[1]))
    points = []
    for step in range(steps + 1):
        part = step / steps
        off = 0.0 if step in (0, steps) else dice.uniform(-stray, stray)
        points.append((start[0] + (end[0] - start[0]) * part, start[1] + (end[1] - start[1]) * part + off))
    return points
