"""The ways in which a stretch of speech can be meant."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Mode(Enum):
    """What a stretch of speech is: only ASSERTED says that something is so."""

    ASSERTED = "said of this place now"
    HYPOTHETICAL = "what would be, not what is"
    SEARCH = "looked for, not found"
    INSTRUCTION = "said to the resident"
    POLICY = "about charges or rules"
    PAST = "about another time"
    ELSEWHERE = "about another place"
    QUOTED = "somebody's words"
    QUESTION = "asked, not said"
    FUTURE = "work to come"


@dataclass(frozen=True)
class Stance:
    """The mode of a token and the words that decided it (empty for ASSERTED)."""

    mode: Mode
    cue: str = ""


PLAIN = Stance(Mode.ASSERTED)
