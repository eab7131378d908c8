"""Which components can be tried, and which of them do something then."""

from __future__ import annotations

from narrate2report.read.lexis.vocabulary import Vocabulary

LEFT_ALONE = frozenset({"surfaces", "handed_over", "general", "furnished"})
"""Groups of components that nobody operates."""


def is_operated(component: str, vocabulary: Vocabulary) -> bool:
    """Whether a component is one that can be tried."""
    return component in vocabulary.components and vocabulary.components[component].group not in LEFT_ALONE


def is_device(component: str, vocabulary: Vocabulary) -> bool:
    """Whether a component is one that does something when it is tried."""
    return is_operated(component, vocabulary) and bool(vocabulary.components[component].works)
