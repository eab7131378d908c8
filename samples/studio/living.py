"""The living room: window with screen, radiator, painted walls and a laminate floor."""

from __future__ import annotations

from studio import flaws
from studio.canvas import Canvas
from studio.shell import draw_baseboard, draw_outlet, draw_planks, draw_shell, draw_view

NAIL_HOLES = ((1416, 330), (1482, 352), (1540, 318), (1604, 362), (1668, 336), (1576, 428))


def draw_living(marks: frozenset[str]) -> Canvas:
    """Marks: floor_scratch, floor_gouge, screen_tear, wall_nail_holes, radiator_warm."""
    canvas = Canvas("#f2ead9")
    draw_shell(canvas, "#f2ead9")
    draw_planks(canvas, "#c99a63")
    draw_baseboard(canvas, gaps=((230, 500),))
    _draw_passage(canvas)
    _draw_window(canvas, torn="screen_tear" in marks)
    _draw_radiator(canvas)
    if "radiator_warm" in marks:
        for x in (800, 880, 960, 1040, 1120):
            canvas.line([(x, 616), (x + 10, 602), (x - 8, 586), (x + 8, 570), (x, 556)], "#e2703ac0", 6)
    draw_outlet(canvas, 1330, 716)
    draw_outlet(canvas, 590, 716)
    _draw_lamp(canvas)
    canvas.glow(960, 900, 330, 60, "#fff6dc60")
    if "floor_scratch" in marks:
        flaws.scratch(canvas, (930, 868), (1046, 890))
    if "floor_gouge" in marks:
        flaws.gouge(canvas, (850, 986), (1050, 970))
    if "wall_nail_holes" in marks:
        for x, y in NAIL_HOLES:
            flaws.nail_hole(canvas, x, y)
    return canvas


def _draw_passage(canvas: Canvas) -> None:
    canvas.rect(218, 270, 294, 530, "#fbf9f5")
    canvas.rect(238, 290, 254, 510, "#dfe7e4")
    canvas.rect(238, 760, 254, 40, "#c79a68")
    canvas.rect(300, 520, 192, 240, "#d7dad6")
    canvas.rect(300, 508, 192, 16, "#8d8378")
    canvas.rect(330, 330, 162, 110, "#c9d4d0")
    canvas.shade(238, 290, 254, 470, "#00000018", "#00000004")


def _draw_window(canvas: Canvas, torn: bool) -> None:
    canvas.rect(690, 196, 540, 372, "#d8d2c6")
    canvas.rect(690, 192, 540, 370, "#fdfcf9")
    draw_view(canvas, 716, 218, 488, 318)
    canvas.rect(952, 218, 16, 318, "#fdfcf9")
    canvas.rect(950, 360, 7, 40, "#b9b3a8", 3)
    for x in range(974, 1204, 8):
        canvas.line([(x, 218), (x, 536)], "#39434748", 1.2)
    for y in range(220, 536, 8):
        canvas.line([(968, y), (1204, y)], "#39434748", 1.2)
    canvas.frame(968, 218, 236, 318, "#6a6f70", 5)
    canvas.poly([(730, 232), (790, 232), (740, 420), (730, 420)], "#ffffff38")
    canvas.rect(670, 560, 580, 22, "#fdfcf9", 4)
    canvas.rect(670, 578, 580, 6, "#cfc8bb", 3)
    if torn:
        canvas.poly([(1140, 512), (1198, 472), (1198, 531), (1152, 531)], "#7fae7c")
        canvas.poly([(1152, 531), (1140, 512), (1112, 520), (1122, 545), (1146, 549)], "#58636699")
        canvas.line([(1122, 545), (1112, 520), (1140, 512), (1198, 472)], "#2f383b", 2.6)
        for x, y in ((1150, 505), (1164, 495), (1178, 486), (1190, 478)):
            canvas.line([(x, y), (x + 9, y + 10)], "#2f383bc0", 1.4)


def _draw_radiator(canvas: Canvas) -> None:
    canvas.glow(960, 796, 250, 18, "#00000060")
    for index in range(12):
        x = 748 + index * 35
        canvas.rect(x, 622, 31, 160, "#c6c2ba", 13)
        canvas.rect(x, 622, 26, 158, "#f1eee8", 12)
        canvas.rect(x + 7, 636, 5, 128, "#ffffff", 2)
    canvas.rect(742, 642, 428, 12, "#dcd8d0", 5)
    canvas.rect(742, 748, 428, 12, "#dcd8d0", 5)
    for x in (762, 1142):
        canvas.rect(x, 776, 14, 24, "#c6c2ba", 3)
    canvas.rect(1166, 744, 40, 14, "#b08d3c", 4)
    canvas.rect(1192, 726, 20, 44, "#3f4244", 5)


def _draw_lamp(canvas: Canvas) -> None:
    canvas.rect(955, 56, 8, 52, "#6c675f")
    canvas.poly([(918, 108), (1000, 108), (1030, 158), (888, 158)], "#d9a441")
    canvas.oval(959, 158, 71, 12, "#fff3c8")
