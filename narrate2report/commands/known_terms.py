"""The vocabulary in the plain values that comparing needs."""

from __future__ import annotations

from narrate2report.compare.terms import Component, Terms
from narrate2report.read.lexis.vocabulary import ComponentTerm, RoomTerm, Vocabulary
from narrate2report.wording import plain


def terms_of(vocabulary: Vocabulary) -> Terms:
    """What comparing needs of the words that the reading knows."""
    return Terms(
        components={name: _component(name, term) for name, term in vocabulary.components.items()},
        classes={name: term.class_ for name, term in vocabulary.conditions.items()},
        nouns={name: (plain(name), *term.nouns) for name, term in vocabulary.conditions.items()},
        rooms={name: _room_words(name, term) for name, term in vocabulary.rooms.items()},
        likeness=vocabulary.likeness,
    )


def _component(name: str, term: ComponentTerm) -> Component:
    words = dict.fromkeys((plain(name).lower(), *term.say, *term.else_))
    return Component(term.group, tuple(words), term.part_of)


def _room_words(name: str, term: RoomTerm) -> tuple[str, ...]:
    return tuple(dict.fromkeys((plain(name), *term.say)))
