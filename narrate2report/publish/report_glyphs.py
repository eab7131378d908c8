"""Text made fit for print: nothing that the fonts cannot show, and no word too long for its line.

The fonts are the ones that travel with the typesetter, so that a report looks the same on every machine. What they
cannot show is told in words (`[grinning face]`), never dropped and never a blank box.
"""

from __future__ import annotations

import re
import unicodedata

LONGEST_WORD = 24
"""Letters of the longest word that is never broken."""
_PIECE = 8
"""A longer one may be broken after each so many letters, so that it fits the narrowest column."""

_RANGES = (
    (0x20, 0x7E), (0xA0, 0xAC), (0xAE, 0x377), (0x37A, 0x37F), (0x384, 0x38A), (0x38C, 0x38C), (0x38E, 0x3A1),
    (0x3A3, 0x4FF), (0x5D0, 0x5EA), (0x621, 0x63A), (0x641, 0x64A), (0x660, 0x669), (0x1E00, 0x1EFF),
    (0x2010, 0x2027), (0x2030, 0x2040), (0x2044, 0x2052), (0x20A0, 0x20BF), (0x2153, 0x215E), (0x2190, 0x21FF),
    (0x2200, 0x22FF), (0x25A0, 0x25FF),
)  # fmt: skip
_SHOWN = frozenset(chr(code) for first, last in _RANGES for code in range(first, last + 1))
_ZERO_WIDTH_SPACE = "\u200b"
_LONG = re.compile(rf"\S{{{LONGEST_WORD + 1},}}")


def printable(text: str) -> str:
    """The text with stand-ins for what cannot be shown; where a long word may be broken, a zero-width space."""
    shown = "".join(map(_stand_in, unicodedata.normalize("NFC", text)))
    return _LONG.sub(_breakable, shown)


def can_be_shown(character: str) -> bool:
    """Whether the typesetter's own fonts have it."""
    return character in _SHOWN


def _breakable(word: re.Match[str]) -> str:
    return _ZERO_WIDTH_SPACE.join(word[0][at : at + _PIECE] for at in range(0, len(word[0]), _PIECE))


def _stand_in(character: str) -> str:
    if can_be_shown(character):
        return character
    if character.isspace():
        return " "
    category = unicodedata.category(character)
    if category == "Cf" or unicodedata.name(character, "").startswith("VARIATION SELECTOR"):
        return ""  # joins or styles its neighbours and shows nothing itself
    if category in {"So", "Sk"} and (name := unicodedata.name(character, "")):
        return f"[{name.lower()}]"
    return f"[U+{ord(character):04X}]"
