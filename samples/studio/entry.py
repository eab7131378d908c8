"""The entry: front door, alarms, and a first look into the living room."""

from __future__ import annotations

from studio import flaws
from studio.canvas import Canvas
from studio.shell import draw_baseboard, draw_planks, draw_shell, draw_switch

_DOOR = "#2f6d78"


def draw_entry(marks: frozenset[str]) -> Canvas:
    """Marks: door_dent, baseboard_scuff, alarm_sounding, alarm_silent."""
    canvas = Canvas("#e4ebe8")
    draw_shell(canvas, "#e4ebe8")
    draw_planks(canvas, "#c79a68")
    draw_baseboard(canvas, gaps=((540, 900), (1390, 1690)))
    _draw_passage(canvas)
    _draw_door(canvas)
    if "door_dent" in marks:
        flaws.dent(canvas, 662, 706, 25, _DOOR)
    _draw_hooks(canvas)
    draw_switch(canvas, 960, 540)
    canvas.poly([(520, 842), (900, 842), (930, 930), (484, 930)], "#5f564b")
    canvas.poly([(534, 850), (888, 850), (912, 920), (504, 920)], "#7c7163")
    if "baseboard_scuff" in marks:
        flaws.scuff(canvas, 1016, 782, 62)
    _draw_co_alarm(canvas)
    _draw_smoke_alarm(canvas, marks)
    return canvas


def _draw_door(canvas: Canvas) -> None:
    canvas.rect(530, 236, 380, 564, "#d5d0c6")
    canvas.rect(540, 246, 360, 554, "#fbf9f5")
    canvas.rect(566, 270, 308, 530, "#1d4a53")
    canvas.rect(568, 272, 304, 526, _DOOR)
    for y, high in ((306, 196), (530, 232)):
        for x in (600, 732):
            canvas.rect(x, y, 108, high, "#245863", 6)
            canvas.rect(x + 6, y + 6, 102, high - 6, "#3b7f8b", 6)
            canvas.rect(x + 8, y + 8, 94, high - 16, _DOOR, 4)
    canvas.oval(720, 348, 8, 8, "#d8b45c")
    canvas.oval(720, 348, 4, 4, "#243238")
    canvas.oval(850, 482, 15, 15, "#b48f3e")
    canvas.oval(850, 480, 13, 13, "#e3c069")
    canvas.rect(847, 472, 6, 16, "#7d6022", 2)
    canvas.rect(838, 536, 24, 60, "#b48f3e", 8)
    canvas.rect(839, 536, 21, 57, "#e3c069", 8)
    canvas.rect(790, 556, 62, 13, "#c9a24e", 6)
    canvas.rect(790, 555, 62, 8, "#f0d587", 4)
    for y in (320, 530, 740):
        canvas.rect(562, y, 10, 34, "#c9a24e", 3)
    canvas.rect(540, 794, 360, 8, "#8c6a45")


def _draw_passage(canvas: Canvas) -> None:
    canvas.rect(1380, 270, 320, 530, "#fbf9f5")
    canvas.rect(1400, 290, 280, 510, "#f3ecdd")
    canvas.poly([(1400, 800), (1400, 770), (1680, 770), (1680, 800)], "#c79a68")
    canvas.rect(1460, 400, 150, 190, "#fbfaf6")
    canvas.shade(1470, 410, 130, 170, "#a8d5ee", "#e4f2f3")
    canvas.rect(1532, 410, 6, 170, "#fbfaf6")
    canvas.shade(1400, 290, 280, 480, "#00000014", "#00000000")


def _draw_hooks(canvas: Canvas) -> None:
    canvas.rect(1084, 432, 220, 26, "#9a6f43", 4)
    canvas.rect(1084, 432, 220, 22, "#b58454", 4)
    for x in (1118, 1170, 1222, 1274):
        canvas.line([(x, 446), (x, 476), (x + 10, 484), (x + 17, 474)], "#5d5b58", 5)
        canvas.oval(x, 445, 5, 5, "#77746f")


def _draw_co_alarm(canvas: Canvas) -> None:
    canvas.rect(1146, 252, 96, 76, "#cfcac2", 12)
    canvas.rect(1146, 250, 94, 72, "#fdfcfa", 12)
    canvas.text(1194, 272, "CO ALARM", 13, "#5d5a55")
    for y in (290, 297, 304):
        canvas.rect(1160, y, 40, 3, "#b9b3aa", 1)
    canvas.oval(1222, 300, 5, 5, "#57b36a")


def _draw_smoke_alarm(canvas: Canvas, marks: frozenset[str]) -> None:
    cx, cy = 960.0, 62.0
    canvas.glow(cx, cy + 14, 86, 26, "#00000060")
    canvas.oval(cx, cy + 8, 78, 30, "#c9c4bb")
    canvas.oval(cx, cy, 78, 30, "#fdfcfa")
    canvas.ring(cx, cy + 1, 58, 21, "#c6c0b7", 4)
    canvas.ring(cx, cy + 2, 44, 15, "#ddd8d0", 3)
    canvas.oval(cx, cy + 3, 20, 8, "#e6e1d9")
    canvas.oval(cx, cy + 2, 18, 7, "#ffffff")
    if "alarm_sounding" in marks:
        canvas.oval(cx + 40, cy + 12, 7, 5, "#e2382d")
        for reach in (108, 136, 164):
            canvas.arc(cx, cy, reach, -22, 22, "#e2382dd0", 7)
            canvas.arc(cx, cy, reach, 158, 202, "#e2382dd0", 7)
    else:
        lamp = "#4c4a47" if "alarm_silent" in marks else "#57b36a"
        canvas.oval(cx + 40, cy + 12, 6, 4, lamp)
