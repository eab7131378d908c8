"""Which characters are no text: what a terminal would obey instead of showing it."""

from __future__ import annotations

import re

NOT_TEXT = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069\ud800-\udfff]")
"""Control codes but tab and the ends of lines, marks that turn the direction of a text, and halves of a pair."""
