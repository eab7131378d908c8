"""The fixed wording of a prompt card, as it stands in `languages/`."""

from __future__ import annotations

from functools import cache

from narrate2report.publish.wording_files import wording_of
from narrate2report.records.base import Value
from narrate2report.records.card import WalkKind


class Pair(Value):
    """A word to catch the eye, and the rest."""

    lead: str
    more: str


class ShortCaution(Pair):
    """A caution in short, with what it rests on."""

    source: str


class CardWords(Value):
    """Everything in card.yaml."""

    titles: dict[WalkKind, str]
    last_walks: dict[str, str]
    page: dict[str, str]
    saying: tuple[Pair, ...]
    example: str
    also: str
    bold: str
    begin: dict[str, tuple[str, ...]]
    end: dict[str, tuple[str, ...]]
    try_: dict[str, str]
    look: dict[str, str]
    cautions: dict[str, ShortCaution]
    phone: dict[str, str]


@cache
def card_words() -> CardWords:
    """The wording as it stands in its file."""
    told = wording_of("card")
    told["try_"] = told.pop("try")
    return CardWords.model_validate(told)
