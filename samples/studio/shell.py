"""What every room shares: walls, ceiling and floor in one-point perspective, and the small fittings.

The back wall spans x 150 to 1770 and y 120 to 800; the floor opens from there to the lower corners.
"""

from __future__ import annotations

import random

from studio.canvas import HEIGHT, WIDTH, Canvas

LEFT, RIGHT, TOP, BASE = 150.0, 1770.0, 120.0, 800.0
CENTRE = WIDTH / 2
_SPREAD = (WIDTH / 2) / (RIGHT - CENTRE)


def draw_shell(canvas: Canvas, wall: str, ceiling: str = "#faf8f4") -> None:
    """Back wall, two side walls and the ceiling, lightly shaded; the floor comes from a function below."""
    canvas.rect(0, 0, WIDTH, HEIGHT, wall)
    canvas.poly([(0, 0), (WIDTH, 0), (RIGHT, TOP), (LEFT, TOP)], ceiling)
    canvas.poly([(0, 0), (LEFT, TOP), (LEFT, BASE), (0, HEIGHT)], "#3b352e1c")
    canvas.poly([(WIDTH, 0), (RIGHT, TOP), (RIGHT, BASE), (WIDTH, HEIGHT)], "#3b352e26")
    canvas.shade(LEFT, TOP, RIGHT - LEFT, 260, "#3b352e18", "#3b352e00")
    canvas.line([(0, 0), (LEFT, TOP), (RIGHT, TOP), (WIDTH, 0)], "#3b352e30", 3)


def draw_baseboard(canvas: Canvas, gaps: tuple[tuple[float, float], ...] = ()) -> None:
    """White boards along the back and side walls, left out where `gaps` (from, to) lie."""
    canvas.poly([(0, HEIGHT), (LEFT, BASE), (LEFT, BASE - 36), (0, HEIGHT - 43)], "#f4f1ec")
    canvas.poly([(WIDTH, HEIGHT), (RIGHT, BASE), (RIGHT, BASE - 36), (WIDTH, HEIGHT - 43)], "#f0ece6")
    edges = [LEFT, *(edge for gap in gaps for edge in gap), RIGHT]
    for start, end in zip(edges[::2], edges[1::2], strict=True):
        canvas.rect(start, BASE - 36, end - start, 36, "#fbf9f6")
        canvas.rect(start, BASE - 37, end - start, 3, "#d8d2c8")
        canvas.rect(start, BASE - 4, end - start, 4, "#b9b1a6")


def draw_planks(canvas: Canvas, wood: str) -> None:
    """A laminate floor whose boards run towards the viewer."""
    canvas.poly(_floor(), wood)
    dice = random.Random(7)
    rows = 18
    for row in range(rows):
        back = (LEFT + (RIGHT - LEFT) * row / rows, LEFT + (RIGHT - LEFT) * (row + 1) / rows)
        tint = dice.choice(["#6b3f1a12", "#6b3f1a26", "#fff1d81c", "#6b3f1a08"])
        canvas.poly([(back[0], BASE), (back[1], BASE), (_forward(back[1]), HEIGHT), (_forward(back[0]), HEIGHT)], tint)
        canvas.line([(back[0], BASE), (_forward(back[0]), HEIGHT)], "#5b371866", 1.6)
        for part in (dice.uniform(0.1, 0.45), dice.uniform(0.55, 0.95)):
            y = BASE + (HEIGHT - BASE) * part
            canvas.line([(_at(back[0], part), y), (_at(back[1], part), y)], "#5b371870", 1.6)
    canvas.shade(LEFT, BASE, RIGHT - LEFT, 30, "#00000030", "#00000000")


def draw_floor_tiles(canvas: Canvas, tile: str, joint: str, columns: int) -> None:
    """Square tiles in perspective."""
    canvas.poly(_floor(), tile)
    for column in range(columns + 1):
        x = LEFT + (RIGHT - LEFT) * column / columns
        canvas.line([(x, BASE), (_forward(x), HEIGHT)], joint, 3)
    for part in (0.0, 0.17, 0.37, 0.61, 0.9):
        y = BASE + (HEIGHT - BASE) * part
        canvas.line([(_at(LEFT, part), y), (_at(RIGHT, part), y)], joint, 3)
    canvas.shade(LEFT, BASE, RIGHT - LEFT, 30, "#00000028", "#00000000")


def draw_carpet(canvas: Canvas, pile: str) -> None:
    """A carpet: plain colour with a fine fleck."""
    canvas.poly(_floor(), pile)
    dice = random.Random(11)
    for _ in range(5200):
        part = dice.random()
        x, y = _at(LEFT + dice.random() * (RIGHT - LEFT), part), BASE + (HEIGHT - BASE) * part
        canvas.line(
            [(x, y), (x + dice.uniform(-3, 3), y - dice.uniform(3, 6))],
            dice.choice(["#ffffff40", "#5b514430"]),
            1.3,
        )
    canvas.shade(LEFT, BASE, RIGHT - LEFT, 34, "#00000030", "#00000000")


def draw_outlet(canvas: Canvas, cx: float, cy: float) -> None:
    """A two-part wall outlet with its cover plate."""
    canvas.rect(cx - 17, cy - 27, 34, 54, "#d9d4cb", 5)
    canvas.rect(cx - 16, cy - 27, 32, 51, "#fdfcfa", 5)
    for y in (cy - 13, cy + 11):
        canvas.rect(cx - 7, y - 6, 3, 9, "#4a4744")
        canvas.rect(cx + 4, y - 6, 3, 9, "#4a4744")
        canvas.oval(cx, y + 7, 2.4, 2.4, "#4a4744")


def draw_switch(canvas: Canvas, cx: float, cy: float) -> None:
    """A light switch."""
    canvas.rect(cx - 17, cy - 27, 34, 54, "#cfc9bf", 5)
    canvas.rect(cx - 16, cy - 27, 32, 51, "#fdfcfa", 5)
    canvas.rect(cx - 6, cy - 12, 12, 22, "#e3ded6", 2)
    canvas.rect(cx - 5, cy - 11, 10, 10, "#ffffff", 2)


def draw_view(canvas: Canvas, x: float, y: float, w: float, h: float) -> None:
    """What a window looks out on: sky, hills and the roofs across the street. Lies wholly inside the box."""
    canvas.shade(x, y, w, h * 0.75, "#9fd0ec", "#e6f3f5")
    canvas.oval(x + w * 0.76, y + h * 0.2, h * 0.075, h * 0.075, "#fff2b8")
    hills = [
        (0.0, 0.66),
        (0.15, 0.56),
        (0.32, 0.63),
        (0.5, 0.52),
        (0.7, 0.62),
        (0.86, 0.54),
        (1.0, 0.62),
        (1.0, 1.0),
        (0.0, 1.0),
    ]
    canvas.poly([(x + w * a, y + h * b) for a, b in hills], "#9cc39a")
    canvas.rect(x, y + h * 0.76, w, h * 0.24, "#7fae7c")
    for part, wide, colour in ((0.08, 0.2, "#c9836b"), (0.36, 0.17, "#d8c19b"), (0.66, 0.22, "#b7705c")):
        left, roof = x + w * part, y + h * 0.7
        canvas.rect(left, roof, w * wide, h * 0.3, colour)
        canvas.poly(
            [
                (left - w * 0.01, roof),
                (left + w * wide / 2, roof - h * 0.12),
                (left + w * (wide + 0.01), roof),
            ],
            "#6d5148",
        )
        canvas.rect(left + w * wide * 0.2, roof + h * 0.07, w * wide * 0.2, h * 0.09, "#f3ecd2")
        canvas.rect(left + w * wide * 0.6, roof + h * 0.07, w * wide * 0.2, h * 0.09, "#f3ecd2")


def _floor() -> list[tuple[float, float]]:
    return [(LEFT, BASE), (RIGHT, BASE), (WIDTH, HEIGHT), (0, HEIGHT)]


def _at(x: float, part: float) -> float:
    """Where the floor line that starts at x on the back wall is after a part of its way to the front."""
    return x + (_forward(x) - x) * part


def _forward(x: float) -> float:
    return CENTRE + (x - CENTRE) * _SPREAD
