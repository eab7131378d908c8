"""A still as the typesetter takes it in: wrapped in SVG, so that it goes into the PDF as it is.

Given a JPEG, the typesetter unpacks it and holds every pixel of every picture until the end; given an SVG that holds
the same JPEG, it copies the bytes. For 200 pictures of 1920 pixels that was 217 MB in place of 1359.
"""

from __future__ import annotations

import base64
import struct
from pathlib import Path
from xml.etree.ElementTree import tostring

from narrate2report.errors import BadInput
from narrate2report.publish.report_tree import node

_PNG = b"\x89PNG\r\n\x1a\n"
_SIZES = frozenset({*range(0xC0, 0xD0)} - {0xC4, 0xC8, 0xCC})
"""Markers of JPEG segments that tell the size (ITU-T T.81, table B.1)."""
_BARE = frozenset({0x01, *range(0xD0, 0xD9)})
"""Markers without a segment."""


def wrapped(file: Path) -> str:
    """The picture as an SVG file of its own size. Raises BadInput for what is neither JPEG nor PNG."""
    content = file.read_bytes()
    kind = "png" if content.startswith(_PNG) else "jpeg"
    try:
        width, height = map(str, _png_size(content) if kind == "png" else _jpeg_size(content))
    except (struct.error, IndexError, ValueError) as error:
        raise BadInput(f"{file}: is no picture that can be printed") from error
    inside = f"data:image/{kind};base64,{base64.b64encode(content).decode('ascii')}"
    picture = node("image", href=inside, width=width, height=height)
    box = f"0 0 {width} {height}"
    namespace = "http://www.w3.org/2000/svg"
    return tostring(node("svg", picture, xmlns=namespace, width=width, height=height, view_box=box), encoding="unicode")


def _png_size(content: bytes) -> tuple[int, int]:
    width, height = struct.unpack(">II", content[16:24])
    return width, height


def _jpeg_size(content: bytes) -> tuple[int, int]:
    """Width and height in pixels, from the first segment that tells them."""
    if content[:2] != b"\xff\xd8":
        raise ValueError("no JPEG")
    at = 2
    while True:
        if content[at] != 0xFF:
            raise ValueError("no marker where one is due")
        marker = content[at + 1]
        if marker in _SIZES:
            height, width = struct.unpack(">HH", content[at + 5 : at + 9])
            return width, height
        at += 1 if marker == 0xFF else 2 if marker in _BARE else 2 + struct.unpack(">H", content[at + 2 : at + 4])[0]
