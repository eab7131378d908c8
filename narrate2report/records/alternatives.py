"""Sayings written with alternatives to the phrases they stand for: `(will|does) not stay (up|open)` to four of them.

A group in brackets holds its alternatives apart with `|`; an empty one may be left out: `(just|) hums`.
"""

from __future__ import annotations

import re
from itertools import product

GROUP = re.compile(r"\(([^()]*)\)")

MOST_FORMS = 500
"""Phrases that one saying may stand for; more are hardly meant."""


def spread(saying: str) -> tuple[str, ...]:
    """Every phrase that a saying stands for, in the order written; a plain phrase stands for itself.

    Raises ValueError, with what is wrong in plain words, for a bracket without its fellow or too many phrases.
    """
    if "(" not in saying and ")" not in saying:
        return (saying,)
    pieces = GROUP.split(saying)
    if any(mark in piece for piece in pieces for mark in "()"):
        raise ValueError(f"'{saying}' has a bracket too many; write alternatives as (one|another)")
    groups = [piece.split("|") if at % 2 else [piece] for at, piece in enumerate(pieces)]
    forms = 1
    for group in groups:
        forms *= len(group)
    if forms > MOST_FORMS:
        raise ValueError(f"'{saying}' stands for {forms} phrases, over {MOST_FORMS}; write it in several")
    told = (" ".join("".join(chosen).split()) for chosen in product(*groups))
    return tuple(dict.fromkeys(one for one in told if one))
