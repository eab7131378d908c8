"""The bedroom: blinds, carpet, closet and the wall where a bed goes."""

from __future__ import annotations

from studio import flaws
from studio.canvas import Canvas
from studio.shell import draw_baseboard, draw_carpet, draw_outlet, draw_shell, draw_view

_SLATS = range(222, 560, 17)


def draw_bedroom(marks: frozenset[str]) -> Canvas:
    """Marks: slats_two, slats_four, carpet_stain, bed_nail_holes, closet_off_track."""
    canvas = Canvas("#e6e3ee")
    draw_shell(canvas, "#e6e3ee")
    draw_carpet(canvas, "#cbbda9")
    draw_baseboard(canvas, gaps=((1160, 1660),))
    broken = {5, 6} if "slats_two" in marks else {5, 6, 10, 14} if "slats_four" in marks else set()
    _draw_blinds(canvas, broken)
    _draw_closet(canvas, off_track="closet_off_track" in marks)
    draw_outlet(canvas, 900, 712)
    canvas.oval(960, 66, 104, 26, "#d7d1c4")
    canvas.oval(960, 60, 100, 24, "#fffbe9")
    if "bed_nail_holes" in marks:
        flaws.nail_hole(canvas, 950, 372)
        flaws.nail_hole(canvas, 1014, 372)
    if "carpet_stain" in marks:
        flaws.stain(canvas, 560, 918, 86, 34, "#8f1d2c")
    return canvas


def _draw_blinds(canvas: Canvas, broken: set[int]) -> None:
    canvas.rect(318, 196, 460, 376, "#d2ccd8")
    canvas.rect(318, 192, 460, 374, "#fdfcfa")
    draw_view(canvas, 342, 216, 412, 326)
    canvas.rect(300, 562, 496, 22, "#fdfcfa", 4)
    canvas.rect(300, 580, 496, 6, "#c9c3cf", 3)
    for index, y in enumerate(_SLATS):
        if index in broken:
            snap = 640 + 22 * (index % 3)
            _draw_slat(canvas, 334, y, snap, y)
            drop = 44 + 9 * (index % 2)
            canvas.poly([(snap + 18, y + 4), (758, y + drop - 8), (760, y + drop), (snap + 14, y + 14)], "#e9e2cf")
            canvas.line([(snap + 14, y + 14), (760, y + drop)], "#a79d86", 2)
            canvas.line([(snap, y - 2), (snap - 8, y + 4), (snap + 2, y + 8), (snap - 5, y + 13)], "#8d8471", 2.4)
        else:
            _draw_slat(canvas, 334, y, 762, y)
    for x in (400, 548, 696):
        canvas.line([(x, 206), (x, 566)], "#b9b09b", 2)
    canvas.rect(328, 196, 440, 24, "#efe9d8", 4)
    canvas.rect(328, 216, 440, 4, "#b9b09b")
    canvas.rect(334, 560, 428, 12, "#efe9d8", 4)
    canvas.line([(352, 216), (350, 470)], "#c9c1ad", 5)


def _draw_slat(canvas: Canvas, x0: float, y0: float, x1: float, y1: float) -> None:
    canvas.poly([(x0, y0), (x1, y1), (x1, y1 + 12), (x0, y0 + 12)], "#f3eddc")
    canvas.line([(x0, y0 + 12), (x1, y1 + 12)], "#b5ab95", 2)


def _draw_closet(canvas: Canvas, off_track: bool) -> None:
    canvas.rect(1150, 236, 520, 564, "#fbf9f5")
    canvas.rect(1170, 262, 480, 538, "#57504c")
    canvas.rect(1180, 330, 460, 9, "#c9c3b9")
    canvas.rect(1170, 258, 480, 16, "#a8a29a")
    canvas.rect(1170, 788, 480, 12, "#a8a29a")
    _draw_panel(canvas, [(1172, 276), (1418, 276), (1418, 788), (1172, 788)])
    if off_track:
        _draw_panel(canvas, [(1428, 300), (1664, 268), (1690, 782), (1452, 806)])
    else:
        _draw_panel(canvas, [(1402, 276), (1648, 276), (1648, 788), (1402, 788)])


def _draw_panel(canvas: Canvas, corners: list[tuple[float, float]]) -> None:
    """A sliding door from its four corners, clockwise from the upper left."""
    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = corners
    canvas.poly([(x + 5, y + 4) for x, y in corners], "#00000050")
    canvas.poly(corners, "#e9dfcb")
    canvas.line([*corners, corners[0]], "#b6a98f", 4)
    for a, b in ((0.06, 0.47), (0.53, 0.94)):
        inner = [(0.12, a), (0.88, a), (0.88, b), (0.12, b), (0.12, a)]
        points = []
        for across, down in inner:
            left = (x0 + (x3 - x0) * down, y0 + (y3 - y0) * down)
            right = (x1 + (x2 - x1) * down, y1 + (y2 - y1) * down)
            points.append((left[0] + (right[0] - left[0]) * across, left[1] + (right[1] - left[1]) * across))
        canvas.line(points, "#c5b89e", 3)
    canvas.oval((x0 + x3) / 2 + 18, (y0 + y3) / 2, 9, 14, "#a5946f")
