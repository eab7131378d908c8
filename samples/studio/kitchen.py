"""The kitchen: fridge, counter with sink and dishwasher, stove under a hood."""

from __future__ import annotations

from studio import flaws
from studio.canvas import Canvas
from studio.shell import draw_baseboard, draw_floor_tiles, draw_outlet, draw_shell, draw_view

_FRONT = "#7f9a8e"
_FRONT_EDGE = "#5f7a6f"
_STEEL = "#c9ced1"


def draw_kitchen(marks: frozenset[str]) -> Canvas:
    """Draw the kitchen.

    Marks of flaws: counter_chip, counter_chip_big, counter_burn, knob_missing, shelf_crack, oven_grease,
    hood_dirt. Marks of things opened or turned on: burners_lit, fridge_open, sink_open, oven_open,
    dishwasher_open.
    """
    canvas = Canvas("#eef0ea")
    draw_shell(canvas, "#eef0ea")
    draw_floor_tiles(canvas, "#d9d3c7", "#b5aea1", columns=9)
    draw_baseboard(canvas)
    _draw_backsplash(canvas)
    _draw_window(canvas)
    _draw_upper_cabinets(canvas)
    _draw_base_cabinets(canvas, open_sink="sink_open" in marks)
    _draw_dishwasher(canvas, opened="dishwasher_open" in marks)
    _draw_stove(canvas, marks)
    _draw_hood(canvas, dirty="hood_dirt" in marks)
    _draw_counter(canvas)
    if "counter_burn" in marks:
        _draw_burn(canvas)
    if "counter_chip" in marks:
        flaws.chip(canvas, 990, 584, 9, "#e0c59a")
    if "counter_chip_big" in marks:
        flaws.chip(canvas, 994, 585, 19, "#e0c59a")
    draw_outlet(canvas, 1010, 470)
    _draw_fridge(canvas, opened="fridge_open" in marks, cracked="shelf_crack" in marks)
    return canvas


def _draw_backsplash(canvas: Canvas) -> None:
    canvas.rect(490, 400, 1240, 140, "#f7f6f1")
    for row, y in enumerate(range(400, 540, 35)):
        canvas.line([(490, y), (1730, y)], "#d3d0c6", 2)
        for x in range(490 + (row % 2) * 35, 1731, 70):
            canvas.line([(x, y), (x, y + 35)], "#d3d0c6", 2)


def _draw_window(canvas: Canvas) -> None:
    canvas.rect(556, 196, 244, 230, "#fdfcf9")
    draw_view(canvas, 572, 212, 212, 186)
    canvas.rect(674, 212, 8, 186, "#fdfcf9")
    canvas.rect(544, 412, 268, 16, "#fdfcf9", 3)
    canvas.rect(544, 425, 268, 4, "#cfcac0", 2)


def _draw_cabinet_door(canvas: Canvas, x: float, y: float, w: float, h: float, knob_right: bool) -> None:
    canvas.rect(x, y, w, h, _FRONT_EDGE, 4)
    canvas.rect(x + 2, y + 2, w - 4, h - 4, _FRONT, 4)
    canvas.frame(x + 16, y + 16, w - 32, h - 32, "#6c887c", 3, 3)
    canvas.oval(x + (w - 16 if knob_right else 16), y + h * 0.5, 6, 6, "#e9dcb8")


def _draw_upper_cabinets(canvas: Canvas) -> None:
    for x, w in ((830, 140), (970, 140), (1440, 145), (1585, 145)):
        _draw_cabinet_door(canvas, x, 190, w, 206, knob_right=x in (830, 1440))


def _draw_base_cabinets(canvas: Canvas, open_sink: bool) -> None:
    canvas.rect(490, 598, 380, 202, "#4f6259")
    canvas.rect(1430, 598, 300, 202, "#4f6259")
    canvas.rect(490, 776, 380, 24, "#3b453f")
    canvas.rect(1430, 776, 300, 24, "#3b453f")
    for x in (1430, 1580):
        canvas.rect(x + 2, 604, 146, 46, _FRONT, 4)
        canvas.oval(x + 75, 627, 6, 6, "#e9dcb8")
        _draw_cabinet_door(canvas, x + 1, 654, 148, 120, knob_right=x == 1430)
    if not open_sink:
        _draw_cabinet_door(canvas, 492, 604, 187, 170, knob_right=True)
        _draw_cabinet_door(canvas, 681, 604, 187, 170, knob_right=False)
        return
    canvas.rect(492, 604, 376, 170, "#d9cdb6")
    canvas.rect(492, 744, 376, 30, "#c5b798")
    canvas.shade(492, 604, 376, 60, "#00000060", "#00000000")
    canvas.rect(640, 604, 76, 22, "#9aa2a6", 5)
    canvas.line([(678, 620), (678, 690), (692, 712), (716, 712), (730, 690), (730, 664), (800, 664)], "#8b9398", 21)
    canvas.line([(675, 620), (675, 690), (690, 708), (716, 708)], "#e3e8ea", 5)
    canvas.oval(678, 640, 16, 8, "#6f777b")
    canvas.oval(802, 664, 18, 18, "#6f777b")
    for x in (560, 600):
        canvas.line([(x, 660), (x, 606)], "#b1794d", 7)
        canvas.oval(x, 668, 13, 11, "#6f777b")
    for corners in (
        [(492, 604), (430, 628), (430, 806), (492, 774)],
        [(868, 604), (930, 628), (930, 806), (868, 774)],
    ):
        canvas.poly(corners, _FRONT_EDGE)
        canvas.line([*corners, corners[0]], "#4c6459", 3)


def _draw_counter(canvas: Canvas) -> None:
    for x0, x1 in ((488, 1124), (1416, 1734)):
        canvas.poly([(x0 + 8, 538), (x1 - 8, 538), (x1, 578), (x0, 578)], "#b99f80")
        canvas.poly([(x0 + 8, 538), (x1 - 8, 538), (x1 - 7, 544), (x0 + 7, 544)], "#8f7759")
        canvas.rect(x0, 578, x1 - x0, 24, "#cdb494", 3)
        canvas.rect(x0, 578, x1 - x0, 4, "#e4cfb1", 2)
        canvas.rect(x0, 602, x1 - x0, 6, "#00000038")
    canvas.poly([(566, 546), (790, 546), (800, 572), (556, 572)], "#8e979c")
    canvas.poly([(574, 549), (782, 549), (790, 568), (566, 568)], "#d3d9dc")
    canvas.poly([(580, 552), (776, 552), (780, 562), (576, 562)], "#a7b0b5")
    canvas.line([(678, 548), (678, 486), (690, 468), (716, 468), (724, 486), (724, 500)], "#8b9398", 12)
    canvas.line([(676, 548), (676, 486), (689, 466), (714, 466)], "#eef2f3", 4)
    canvas.rect(640, 538, 76, 10, "#a7b0b5", 5)


def _draw_burn(canvas: Canvas) -> None:
    canvas.oval(880, 559, 62, 13, "#6b3f1ca0")
    canvas.oval(880, 559, 56, 11, "#2f1b0ee0")
    canvas.oval(880, 559, 42, 7, "#5a371ad0")
    canvas.poly([(934, 556), (1002, 550), (1004, 556), (936, 563)], "#3a2110e0")
    canvas.oval(880, 558, 20, 3, "#7d5530b0")


def _draw_dishwasher(canvas: Canvas, opened: bool) -> None:
    canvas.rect(872, 604, 240, 196, "#9aa1a5", 5)
    if not opened:
        canvas.rect(875, 606, 234, 186, _STEEL, 5)
        canvas.rect(875, 606, 234, 36, "#596165", 5)
        canvas.rect(908, 652, 168, 12, "#7d868b", 6)
        canvas.rect(908, 651, 168, 6, "#eef1f2", 3)
        canvas.oval(1084, 624, 6, 6, "#7fc893")
        canvas.rect(900, 618, 84, 12, "#3a4144", 3)
        return
    canvas.rect(880, 608, 224, 160, "#4b5357")
    canvas.shade(884, 610, 216, 156, "#6a7378", "#8d979c")
    for y in (640, 694):
        canvas.rect(892, y, 200, 5, "#e5eaec", 2)
        for x in range(900, 1090, 18):
            canvas.line([(x, y), (x, y - 22)], "#e5eaec", 3)
    canvas.rect(884, 722, 216, 44, "#5f8ea3d8")
    canvas.rect(884, 720, 216, 5, "#b9dbe8")
    canvas.line([(910, 736), (950, 734), (990, 738), (1040, 735)], "#ffffff90", 3)
    canvas.poly([(876, 770), (1108, 770), (1140, 846), (844, 846)], _STEEL)
    canvas.poly([(884, 776), (1100, 776), (1122, 836), (862, 836)], "#aab2b6")


def _draw_stove(canvas: Canvas, marks: frozenset[str]) -> None:
    canvas.rect(1124, 560, 292, 240, "#8b9297", 4)
    canvas.poly([(1132, 536), (1408, 536), (1418, 590), (1122, 590)], "#33383b")
    for cx, cy in ((1200, 548), (1340, 548), (1190, 573), (1350, 573)):
        if "burners_lit" in marks:
            canvas.oval(cx, cy - 2, 50, 11, "#3f8cff90")
            for step in range(-4, 5):
                canvas.poly(
                    [(cx + step * 10 - 4, cy + 2), (cx + step * 10, cy - 17), (cx + step * 10 + 4, cy + 2)],
                    "#63b0ffd8",
                )
        canvas.ring(cx, cy, 46, 9, "#0f1112", 4)
        canvas.oval(cx, cy, 15, 5, "#14171a")
        canvas.line([(cx - 50, cy), (cx + 50, cy)], "#0f1112", 4)
    canvas.rect(1122, 588, 296, 52, "#dfe3e5", 4)
    canvas.rect(1122, 588, 296, 5, "#f7f9fa", 2)
    for index in range(5):
        cx = 1158 + index * 56
        if index == 0 and "knob_missing" in marks:
            canvas.oval(cx, 614, 8, 8, "#6d7478")
            canvas.rect(cx - 3, 609, 6, 11, "#2c3032", 1)
            canvas.ring(cx, 614, 20, 20, "#b4babd", 2)
        else:
            canvas.oval(cx, 616, 20, 20, "#00000040")
            canvas.oval(cx, 614, 19, 19, "#2c3032")
            canvas.rect(cx - 3, 596, 6, 18, "#e9ecee", 2)
    if "oven_open" in marks:
        _draw_open_oven(canvas, greasy="oven_grease" in marks)
        return
    canvas.rect(1130, 646, 280, 128, _STEEL, 6)
    canvas.rect(1156, 654, 228, 11, "#7d868b", 5)
    canvas.rect(1156, 653, 228, 5, "#f4f6f7", 3)
    canvas.rect(1164, 680, 212, 78, "#24292c", 8)
    canvas.poly([(1180, 686), (1230, 686), (1200, 752), (1172, 752)], "#ffffff1c")
    canvas.rect(1130, 778, 280, 20, "#a9b0b4", 4)


def _draw_open_oven(canvas: Canvas, greasy: bool) -> None:
    canvas.rect(1136, 646, 268, 120, "#191c1e", 6)
    canvas.shade(1148, 652, 244, 108, "#3c4143", "#5b6164")
    for y in (686, 724):
        canvas.rect(1148, y, 244, 4, "#d5dadc", 2)
        for x in range(1160, 1390, 20):
            canvas.line([(x, y), (x + 3, y + 9)], "#d5dadc", 2)
    if greasy:
        flaws.grease(canvas, 1150, 654, 240, 104)
    canvas.poly([(1134, 768), (1406, 768), (1440, 852), (1100, 852)], _STEEL)
    canvas.poly([(1164, 778), (1376, 778), (1398, 836), (1142, 836)], "#33393c")
    if greasy:
        for cx, cy in ((1210, 800), (1290, 818), (1340, 796)):
            canvas.blob(cx, cy, 26, 8, "#a8702ab0", cx, 0.4)


def _draw_hood(canvas: Canvas, dirty: bool) -> None:
    canvas.rect(1214, 120, 112, 160, _STEEL)
    canvas.rect(1214, 120, 40, 160, "#ffffff50")
    canvas.poly([(1214, 276), (1326, 276), (1416, 352), (1124, 352)], "#b9bfc3")
    canvas.poly([(1214, 276), (1260, 276), (1230, 352), (1124, 352)], "#ffffff48")
    canvas.rect(1124, 350, 292, 20, "#dfe3e5", 3)
    canvas.poly([(1134, 370), (1406, 370), (1386, 404), (1154, 404)], "#8d959a")
    for x in range(1150, 1400, 10):
        canvas.line([(x, 371), (1270 + (x - 1270) * 0.86, 403)], "#d5dadc", 2)
    for y in (379, 388, 397):
        canvas.line([(1140, y), (1400, y)], "#d5dadc", 2)
    if dirty:
        canvas.poly([(1134, 370), (1406, 370), (1386, 404), (1154, 404)], "#6b4416c0")
        for cx in range(1170, 1390, 24):
            canvas.blob(cx, 386, 15, 8, "#2f1c08d0", cx, 0.4)
            canvas.oval(cx + 6, 408, 3, 6, "#b67a2cd8")


def _draw_fridge(canvas: Canvas, opened: bool, cracked: bool) -> None:
    canvas.rect(198, 252, 288, 548, "#8e979b", 12)
    if not opened:
        canvas.rect(200, 252, 280, 544, "#dfe4e6", 12)
        canvas.rect(200, 440, 280, 5, "#8e979b")
        canvas.shade(206, 260, 60, 170, "#ffffff70", "#ffffff10")
        for y, high in ((340, 84), (462, 110)):
            canvas.rect(446, y, 14, high, "#79838a", 6)
            canvas.rect(446, y, 6, high, "#f2f5f6", 3)
        return
    canvas.rect(208, 262, 268, 528, "#cfe0e6", 8)
    canvas.shade(214, 268, 256, 516, "#fdffff", "#dcebf0")
    canvas.oval(342, 284, 50, 8, "#fff7d0")
    for y in (380, 480, 590):
        canvas.poly([(226, y - 22), (458, y - 22), (470, y), (214, y)], "#b4d4dec0")
        canvas.line([(226, y - 22), (458, y - 22)], "#8fb3bf", 2)
        canvas.rect(214, y, 256, 11, "#8fbccb", 3)
        canvas.rect(214, y, 256, 4, "#eefafd", 2)
    if cracked:
        flaws.crack(canvas, (217, 586), (460, 571), "#1f3f4a", stray=3)
    for x in (222, 346):
        canvas.rect(x, 640, 118, 132, "#bcd7e0b0", 8)
        canvas.frame(x, 640, 118, 132, "#8fb3bf", 3, 8)
        canvas.rect(x + 34, 652, 50, 9, "#8fb3bf", 4)
    canvas.poly([(200, 252), (96, 226), (96, 838), (200, 796)], "#eef2f3")
    canvas.line([(200, 252), (96, 226), (96, 838), (200, 796)], "#98a2a7", 4)
    for y in (340, 470, 600):
        canvas.poly([(190, y), (112, y - 6), (112, y + 36), (190, y + 40)], "#c3d9e1")
        canvas.line([(190, y), (112, y - 6)], "#8fb3bf", 4)
