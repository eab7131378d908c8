"""The balcony, the front of the building, and the table on which keys change hands."""

from __future__ import annotations

import random

from studio import flaws
from studio.canvas import HEIGHT, WIDTH, Canvas


def draw_balcony(marks: frozenset[str]) -> Canvas:
    """Marks: tile_crack."""
    canvas = Canvas("#cfe7f2")
    canvas.shade(0, 0, WIDTH, 620, "#8fc8ea", "#eaf5f4")
    canvas.oval(1560, 150, 60, 60, "#fff2b8")
    canvas.poly(
        [(0, 600), (360, 470), (700, 560), (1080, 440), (1500, 560), (1920, 460), (1920, 800), (0, 800)],
        "#a7cba3",
    )
    canvas.rect(0, 610, WIDTH, 200, "#83b27f")
    _draw_trees(canvas)
    canvas.poly([(0, 800), (WIDTH, 800), (WIDTH, HEIGHT), (0, HEIGHT)], "#c6a58d")
    for x in range(-480, 2401, 240):
        canvas.line([(960 + (x - 960) * 0.72, 800), (960 + (x - 960) * 1.25, HEIGHT)], "#94745f", 4)
    for y in (800, 852, 920, 1010):
        canvas.line([(0, y), (WIDTH, y)], "#94745f", 4)
    _draw_railing(canvas)
    _draw_glass_door(canvas)
    if "tile_crack" in marks:
        flaws.crack(canvas, (500, 930), (668, 1002))
    return canvas


def _draw_trees(canvas: Canvas) -> None:
    dice = random.Random(3)
    for x, y, size in ((620, 640, 92), (840, 690, 70), (1210, 640, 104), (1460, 700, 76), (1760, 650, 110)):
        canvas.rect(x - 9, y, 18, 170, "#7a5a3f")
        for _ in range(7):
            colour = dice.choice(["#4f8b57", "#5f9a62", "#457d50"])
            canvas.blob(
                x + dice.uniform(-0.6, 0.6) * size,
                y - dice.uniform(0, 0.8) * size,
                size * 0.6,
                size * 0.52,
                colour,
                dice.randrange(99),
            )


def _draw_railing(canvas: Canvas) -> None:
    for x in range(452, 1921, 44):
        canvas.rect(x, 520, 10, 270, "#3d4448")
        canvas.rect(x, 520, 4, 270, "#5b6468")
    for x in (440, 1160, 1880):
        canvas.rect(x, 486, 26, 320, "#343b3f", 3)
        canvas.rect(x - 8, 794, 42, 14, "#343b3f", 3)
    canvas.rect(430, 484, 1490, 30, "#2f3639", 8)
    canvas.rect(430, 484, 1490, 11, "#56605f", 6)
    canvas.rect(430, 766, 1490, 16, "#343b3f", 4)


def _draw_glass_door(canvas: Canvas) -> None:
    canvas.poly([(0, 0), (430, 60), (430, 812), (0, HEIGHT)], "#e0d6c8")
    canvas.poly([(60, 150), (370, 176), (370, 830), (60, 992)], "#fbf9f5")
    canvas.poly([(84, 184), (350, 204), (350, 816), (84, 952)], "#5e6f78")
    canvas.poly([(84, 184), (350, 204), (350, 816), (84, 952)], "#bcd7e060")
    canvas.poly([(110, 200), (190, 206), (130, 620), (110, 640)], "#ffffff40")
    canvas.poly([(210, 190), (226, 191), (226, 884), (210, 892)], "#fbf9f5")
    canvas.rect(236, 520, 12, 74, "#8d949a", 5)
    canvas.poly([(40, 1000), (384, 824), (412, 826), (412, 842), (40, 1040)], "#a69a8b")


def draw_street(_: frozenset[str]) -> Canvas:
    """The front of the building, before the walk begins; it has no flaws to show."""
    canvas = Canvas("#bfe0f0")
    canvas.shade(0, 0, WIDTH, 860, "#96cbea", "#eef6f4")
    canvas.rect(0, 860, WIDTH, 220, "#b9b4ab")
    canvas.rect(0, 860, WIDTH, 14, "#9c968c")
    canvas.rect(300, 110, 1240, 750, "#b56b56")
    dice = random.Random(5)
    for y in range(112, 860, 22):
        canvas.line([(300, y), (1540, y)], "#8f4f3e50", 2)
        for x in range(300 + (y // 22 % 2) * 26, 1540, 52):
            canvas.line([(x, y), (x, y + 22)], "#8f4f3e50", 2)
            if dice.random() < 0.12:
                canvas.rect(x, y, min(52, 1540 - x), 22, "#8f4f3e2c")
    canvas.rect(280, 90, 1280, 34, "#ded5c6", 4)
    for y in (176, 398):
        for x in (384, 690, 1000, 1306):
            _draw_facade_window(canvas, x, y)
    for x in (384, 1306):
        _draw_facade_window(canvas, x, 640)
    canvas.rect(800, 640, 240, 220, "#ded5c6")
    canvas.rect(826, 664, 188, 196, "#26535d")
    canvas.rect(836, 674, 80, 186, "#2f6d78")
    canvas.rect(924, 674, 80, 186, "#2f6d78")
    for x in (850, 938):
        canvas.rect(x, 692, 52, 90, "#a9cfd6", 4)
    canvas.rect(1060, 690, 96, 62, "#f5efe2", 8)
    canvas.text(1108, 722, "62", 44, "#3b3630")
    canvas.rect(760, 860, 320, 22, "#cfc8bb")
    canvas.rect(176, 610, 26, 260, "#7a5a3f")
    for x, y, size in ((190, 560, 110), (120, 610, 80), (258, 600, 84), (180, 470, 84)):
        canvas.blob(x, y, size, size * 0.85, "#5f9a62", round(x))
    canvas.rect(1704, 420, 12, 450, "#4b5154")
    canvas.rect(1600, 380, 236, 66, "#2f6a52", 8)
    canvas.text(1718, 413, "MILLBRAY ST", 33, "#ffffff")
    return canvas


def _draw_facade_window(canvas: Canvas, x: float, y: float) -> None:
    canvas.rect(x - 14, y - 14, 178, 182, "#ded5c6", 3)
    canvas.shade(x, y, 150, 154, "#6f93a6", "#c3dbe2")
    canvas.rect(x + 72, y, 6, 154, "#f5efe2")
    canvas.rect(x, y + 74, 150, 6, "#f5efe2")


def draw_keys(marks: frozenset[str]) -> Canvas:
    """Marks: fob_missing."""
    canvas = Canvas("#8a5f3c")
    for y in range(0, HEIGHT, 135):
        canvas.rect(0, y, WIDTH, 132, "#96693f" if y // 135 % 2 else "#9f7147")
    canvas.glow(1370, 560, 330, 420, "#00000070")
    canvas.rect(1060, 120, 580, 840, "#6b4a2c", 18)
    canvas.rect(1090, 160, 520, 770, "#fdfbf4")
    canvas.rect(1250, 92, 200, 66, "#b9bec1", 12)
    canvas.text(1350, 232, "Keys, unit 2B", 46, "#3b3630")
    for row, label in enumerate(("door key", "door key", "mailbox key", "gate fob")):
        y = 342 + row * 120
        canvas.frame(1130, y - 26, 52, 52, "#6f685d", 4, 6)
        if not (row == 3 and "fob_missing" in marks):
            canvas.line([(1140, y), (1152, y + 15), (1176, y - 18)], "#2f7a4b", 8)
        canvas.text(1220, y, label, 40, "#3b3630", anchor="lm")
        canvas.line([(1210, y + 44), (1560, y + 44)], "#d9d1c0", 3)
    _draw_key(canvas, 290, 300, 1.0, "#d8b45c")
    _draw_key(canvas, 290, 520, 1.0, "#d8b45c")
    _draw_key(canvas, 330, 716, 0.66, "#b9bec1")
    if "fob_missing" not in marks:
        canvas.glow(620, 880, 150, 70, "#00000080")
        canvas.rect(470, 800, 300, 136, "#31383c", 66)
        canvas.rect(474, 800, 292, 126, "#454e53", 62)
        canvas.ring(520, 863, 22, 22, "#20262a", 8)
        canvas.oval(660, 863, 30, 30, "#5f6a70")
        canvas.text(660, 863, "GATE", 17, "#e9eef0")
    return canvas


def _draw_key(canvas: Canvas, x: float, y: float, size: float, metal: str) -> None:
    """A key that points to the right; its bow is centred on the point."""
    canvas.glow(x + 190 * size, y + 26 * size, 260 * size, 60 * size, "#00000070")
    canvas.oval(x, y, 84 * size, 84 * size, metal)
    canvas.rect(x + 60 * size, y - 20 * size, 350 * size, 40 * size, metal, 8 * size)
    for step, depth in enumerate((22, 34, 16, 30, 20)):
        canvas.rect(x + (210 + step * 38) * size, y + 14 * size, 26 * size, depth * size, metal, 3 * size)
    canvas.rect(x + 60 * size, y - 12 * size, 340 * size, 8 * size, "#ffffff60", 4 * size)
    canvas.oval(x - 34 * size, y, 22 * size, 22 * size, "#855a38")
    canvas.ring(x, y, 74 * size, 74 * size, "#ffffff50", 6 * size)
