"""Speech in a language that was not listened for: when to ask the model for it, and what it is called."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from narrate2report.listen.hearing import Heard

UNSURE = 0.65
"""Mean probability of a window's words below which the language is asked for.

Measured with the base model: English of several synthetic voices 0.83 to 0.93; German, Spanish and French
listened to as English 0.46 to 0.53. Of clear speech the language is no question.
"""
FEWEST_WORDS = 5
"""Fewer words say too little."""
CHANCE, CHANCE_OF_CHOSEN = 0.5, 0.2
"""Another language is believed when it is at least this likely, and the chosen one no more than that."""

NAMES: Mapping[str, str] = MappingProxyType(
    {
        "ar": "Arabic",
        "de": "German",
        "en": "English",
        "es": "Spanish",
        "fr": "French",
        "hi": "Hindi",
        "it": "Italian",
        "ja": "Japanese",
        "ko": "Korean",
        "nl": "Dutch",
        "pl": "Polish",
        "pt": "Portuguese",
        "ru": "Russian",
        "so": "Somali",
        "tl": "Tagalog",
        "tr": "Turkish",
        "uk": "Ukrainian",
        "vi": "Vietnamese",
        "zh": "Chinese",
    }
)
"""Common languages by their ISO 639-1 code; others are told by their code."""


def language_name(code: str) -> str:
    """A language in plain words: `es` is Spanish."""
    return NAMES.get(code, f"another language ({code})")


def is_doubtful(heard: Heard) -> bool:
    """Whether a window's words are unsure enough to ask in which language they were spoken."""
    chances = [word.probability for word in heard.words]
    return len(chances) >= FEWEST_WORDS and sum(chances) / len(chances) < UNSURE


def other_language(chances: Mapping[str, float], chosen: str) -> str | None:
    """The language that seems to be spoken instead of the chosen one, from the chance of each; None for none."""
    likeliest = max(chances, key=lambda code: chances[code])
    if likeliest == chosen or chances[likeliest] < CHANCE or chances.get(chosen, 0.0) > CHANCE_OF_CHOSEN:
        return None
    return likeliest
