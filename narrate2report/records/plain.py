"""Which characters are no text, since a terminal would obey them, and which are text that nobody sees."""

from __future__ import annotations

import re
import unicodedata

NOT_TEXT = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069\ud800-\udfff]")
"""Control codes but tab and the ends of lines, marks that turn the direction of a text, and halves of a pair."""

BLANK = frozenset("\u115f\u1160\u2800\u3164\uffa0")
"""Letters and signs by their category that are drawn as nothing: Hangul fillers, the Braille pattern without a dot."""

_NO_LETTERS = "\ufdd0-\ufdef" + "".join(chr(plane << 16 | last) for plane in range(17) for last in (0xFFFE, 0xFFFF))
_NOT_IN_A_LINE = re.compile(rf"[\t\n\r\u2028\u2029{_NO_LETTERS}]|{NOT_TEXT.pattern}")
"""What ends a line, parts columns or is never a letter in any text (Unicode, noncharacters), and what is no text."""


def one_line(words: str) -> str:
    """The words in a single line, with a space for whatever a file or a program would obey instead of showing it."""
    return " ".join(_NOT_IN_A_LINE.sub(" ", words).split())


def can_be_seen(words: str) -> bool:
    """Whether anything of it is seen on paper: a letter, digit, mark or sign (Unicode, general categories L N P S)."""
    return any(unicodedata.category(letter)[0] in "LNPS" and letter not in BLANK for letter in words)
