"""Words that point at what was named before, or only say which is meant."""

from __future__ import annotations

from narrate2report.read.speech.spoken import Spoken

POINTING = frozenset("it that this them those these".split())
DETERMINED = frozenset({"NN", "NNS", "NNP", "JJ", "CD", "VBG"})
"""Tags of the words after `that` where it only says which: `that bracket`."""


def determines(spoken: Spoken, at: int) -> bool:
    """Whether the pronoun at `at` only says which: `that bracket`."""
    following = spoken.tokens[at + 1 : at + 2]
    return bool(following) and spoken.tokens[at].norm in POINTING - {"it", "them"} and following[0].tag in DETERMINED
