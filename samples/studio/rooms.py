"""The rooms of the flat by name, each with its caption and the function that draws it."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

from PIL import Image

from studio.bathroom import draw_bathroom
from studio.bedroom import draw_bedroom
from studio.canvas import Canvas
from studio.entry import draw_entry
from studio.kitchen import draw_kitchen
from studio.living import draw_living
from studio.outdoors import draw_balcony, draw_keys, draw_street

ROOMS: dict[str, tuple[str, Callable[[frozenset[str]], Canvas]]] = {
    "street": ("62 Millbray Street", draw_street),
    "entry": ("Entry", draw_entry),
    "living": ("Living room", draw_living),
    "kitchen": ("Kitchen", draw_kitchen),
    "bathroom": ("Bathroom", draw_bathroom),
    "bedroom": ("Bedroom", draw_bedroom),
    "balcony": ("Balcony", draw_balcony),
    "keys": ("Keys", draw_keys),
}


@cache
def room_picture(room: str, marks: frozenset[str]) -> tuple[Image.Image, Image.Image]:
    """The room with these marks in it: the full picture, and one of half its size for wide views."""
    full = ROOMS[room][1](marks).finish()
    return full, full.reduce(2)
