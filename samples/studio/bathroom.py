"""The bathroom: tub with tiled surround, toilet, vanity, ceiling fan."""

from __future__ import annotations

from studio import flaws
from studio.canvas import Canvas
from studio.shell import draw_baseboard, draw_floor_tiles, draw_shell

_TILE_ROWS = range(190, 600, 41)
_TUB_LEFT, _TUB_RIGHT = 210.0, 930.0


def draw_bathroom(marks: frozenset[str]) -> Canvas:
    """Marks: tub_chip, caulk_gap, grout_mold, ceiling_stain, seat_loose, fan_running, flushing."""
    canvas = Canvas("#dfeaf0")
    draw_shell(canvas, "#dfeaf0")
    draw_floor_tiles(canvas, "#cdd6da", "#9fabb1", columns=12)
    draw_baseboard(canvas, gaps=((_TUB_LEFT - 10, _TUB_RIGHT + 10),))
    if "ceiling_stain" in marks:
        flaws.stain(canvas, 620, 66, 120, 27, "#b98a4a")
    _draw_fan(canvas, running="fan_running" in marks)
    _draw_surround(canvas)
    if "grout_mold" in marks:
        flaws.mold(canvas, 430, 559, 440)
        flaws.mold(canvas, 560, 518, 200)
        for x in (480, 562, 644, 726, 808):
            flaws.mold(canvas, x - 6, 580, 14)
    _draw_tub(canvas)
    _draw_caulk(canvas, gap="caulk_gap" in marks)
    if "tub_chip" in marks:
        flaws.chip(canvas, 640, 640, 15, "#54504c")
    _draw_toilet(canvas, loose="seat_loose" in marks)
    if "flushing" in marks:
        for turn in (20, 140, 260):
            canvas.arc(1124, 556, 40, turn, turn + 80, "#4f9fd0", 8)
    _draw_vanity(canvas)
    return canvas


def _draw_surround(canvas: Canvas) -> None:
    canvas.rect(_TUB_LEFT, 190, _TUB_RIGHT - _TUB_LEFT, 420, "#f9fbfb")
    for row, y in enumerate(_TILE_ROWS):
        canvas.line([(_TUB_LEFT, y), (_TUB_RIGHT, y)], "#c3ccd0", 3)
        for x in range(round(_TUB_LEFT) + (row % 2) * 41 + 24, round(_TUB_RIGHT), 82):
            canvas.line([(x, y), (x, min(y + 41, 600))], "#c3ccd0", 3)
    canvas.frame(_TUB_LEFT, 186, _TUB_RIGHT - _TUB_LEFT, 420, "#b4bfc4", 4)
    canvas.rect(196, 170, 748, 11, "#a7b0b5", 5)
    canvas.rect(196, 170, 748, 4, "#eef2f3", 2)
    for index in range(7):
        x = 214 + index * 15
        canvas.rect(x, 178, 15, 410, "#7fb0bb" if index % 2 else "#93c0ca")
    canvas.line([(900, 250), (862, 250), (842, 268)], "#8b9398", 9)
    canvas.poly([(858, 262), (828, 262), (816, 288), (866, 288)], "#a7b0b5")
    canvas.oval(884, 430, 22, 22, "#a7b0b5")
    canvas.oval(884, 428, 17, 17, "#dfe4e6")
    canvas.rect(880, 416, 8, 28, "#8b9398", 4)
    canvas.rect(846, 520, 46, 15, "#8b9398", 6)
    canvas.rect(846, 520, 12, 26, "#8b9398", 4)


def _draw_tub(canvas: Canvas) -> None:
    canvas.poly([(_TUB_LEFT, 598), (_TUB_RIGHT, 598), (_TUB_RIGHT + 8, 630), (_TUB_LEFT - 8, 630)], "#f6f7f6")
    canvas.poly(
        [(_TUB_LEFT + 36, 604), (_TUB_RIGHT - 30, 604), (_TUB_RIGHT - 24, 622), (_TUB_LEFT + 30, 622)],
        "#c9d3d7",
    )
    canvas.poly(
        [(_TUB_LEFT + 44, 608), (_TUB_RIGHT - 40, 608), (_TUB_RIGHT - 36, 620), (_TUB_LEFT + 40, 620)],
        "#b6c3c8",
    )
    canvas.rect(_TUB_LEFT - 10, 626, _TUB_RIGHT - _TUB_LEFT + 20, 26, "#ffffff", 9)
    canvas.rect(_TUB_LEFT - 10, 646, _TUB_RIGHT - _TUB_LEFT + 20, 7, "#c5cdd0", 4)
    canvas.rect(_TUB_LEFT - 2, 652, _TUB_RIGHT - _TUB_LEFT + 4, 148, "#f1f4f4")
    canvas.shade(_TUB_LEFT - 2, 652, _TUB_RIGHT - _TUB_LEFT + 4, 148, "#9fb0b638", "#6f848c58")
    canvas.frame(_TUB_LEFT + 40, 686, _TUB_RIGHT - _TUB_LEFT - 80, 84, "#d2dadd", 4, 12)


def _draw_caulk(canvas: Canvas, gap: bool) -> None:
    canvas.rect(_TUB_LEFT, 594, _TUB_RIGHT - _TUB_LEFT, 7, "#ffffff", 3)
    canvas.rect(_TUB_LEFT, 600, _TUB_RIGHT - _TUB_LEFT, 2, "#b4bfc4")
    if gap:
        canvas.rect(566, 592, 150, 11, "#2b2f31", 5)
        canvas.line([(562, 598), (590, 588), (630, 583), (672, 587), (700, 594), (720, 598)], "#fdfdf8", 7)
        canvas.line([(562, 601), (590, 591), (630, 586), (672, 590), (700, 597)], "#a9a79b", 2)


def _draw_fan(canvas: Canvas, running: bool) -> None:
    canvas.poly([(1040, 40), (1190, 40), (1206, 92), (1024, 92)], "#d9dcdc")
    canvas.poly([(1050, 45), (1180, 45), (1193, 86), (1037, 86)], "#f5f6f5")
    for y in (52, 61, 70, 79):
        canvas.line([(1048 - (y - 52) * 0.3, y), (1182 + (y - 52) * 0.3, y)], "#8c9599", 4)
    if running:
        for x in (1066, 1115, 1164):
            canvas.line([(x, 150), (x - 8, 134), (x + 8, 120), (x, 104)], "#5aa0c4c0", 6)


def _draw_toilet(canvas: Canvas, loose: bool) -> None:
    canvas.glow(1124, 800, 130, 20, "#00000060")
    canvas.rect(1030, 470, 188, 140, "#cfd8dc", 14)
    canvas.rect(1030, 470, 182, 136, "#fbfcfc", 14)
    canvas.rect(1020, 456, 206, 26, "#e4eaec", 9)
    canvas.rect(1020, 454, 206, 18, "#ffffff", 9)
    canvas.rect(1052, 496, 34, 10, "#a7b0b5", 4)
    canvas.poly([(1070, 690), (1178, 690), (1198, 802), (1050, 802)], "#eef2f3")
    canvas.poly([(1150, 690), (1178, 690), (1198, 802), (1160, 802)], "#d3dcdf")
    canvas.oval(1124, 668, 100, 62, "#dfe6e8")
    canvas.oval(1124, 656, 102, 56, "#ffffff")
    canvas.oval(1124, 654, 70, 36, "#b9c7cd")
    canvas.oval(1124, 660, 58, 26, "#8fc0d6")
    if loose:
        canvas.ring(1148, 640, 104, 52, "#00000030", 26)
        canvas.ring(1148, 634, 104, 52, "#f2ead6", 24)
        canvas.rect(1074, 598, 26, 12, "#6f777b", 4)
        canvas.rect(1162, 590, 26, 12, "#6f777b", 4)
        for x in (1270, 1286):
            canvas.arc(x - 30, 640, 34, -40, 40, "#c2572bd0", 5)
    else:
        canvas.ring(1124, 654, 100, 54, "#00000024", 24)
        canvas.ring(1124, 650, 100, 54, "#f7f4ea", 24)
        canvas.rect(1074, 600, 26, 12, "#b9c2c6", 4)
        canvas.rect(1148, 600, 26, 12, "#b9c2c6", 4)


def _draw_vanity(canvas: Canvas) -> None:
    canvas.rect(1350, 574, 350, 226, "#6f8791", 6)
    for x in (1360, 1530):
        canvas.rect(x, 618, 160, 164, "#86a0aa", 6)
        canvas.frame(x + 14, 632, 132, 136, "#728c96", 3, 4)
    canvas.oval(1508, 700, 6, 6, "#e9dcb8")
    canvas.oval(1542, 700, 6, 6, "#e9dcb8")
    canvas.poly([(1346, 552), (1704, 552), (1716, 580), (1334, 580)], "#f4f1ea")
    canvas.rect(1334, 578, 382, 20, "#e2ddd2", 4)
    canvas.oval(1525, 566, 92, 10, "#bcc6ca")
    canvas.line([(1525, 560), (1525, 508), (1534, 498), (1548, 498), (1554, 510)], "#8b9398", 11)
    canvas.rect(1366, 220, 318, 250, "#8fa4ad", 10)
    canvas.shade(1376, 230, 298, 230, "#eaf5f9", "#b9d3dd")
    canvas.poly([(1400, 236), (1470, 236), (1390, 400), (1380, 400)], "#ffffff60")
    canvas.rect(1410, 176, 230, 30, "#f9efcb", 14)
    canvas.glow(1525, 200, 190, 46, "#fff4c860")
