"""Where in the vocabulary the words would have to stand that a correction asks for, and what they would then mean."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from narrate2report.learn.phrases import Form
from narrate2report.learn.reviewed import Said
from narrate2report.records.findings import Entry
from narrate2report.records.proposal import Place

ASSERTED = {"absent": "negation", "possible": "hedge"}
TRIED = {"works": "operates", "fails": "fails", "not_tested": "not_tested"}
"""Which cue says so of whatever component."""

NAMED_BY_WORDS = {"material", "colour"}
"""What a thing is, where the words themselves are told."""


def places(right: Entry, read: Sequence[Entry]) -> Iterator[tuple[Place, Form]]:
    """Where words of its sentence may be missing, for an entry that a person had to put right.

    `read` is what was read of the sentence: what it got right is not to be learnt.
    """
    alike = [entry for entry in read if entry.kind == right.kind]
    if all(entry.component != right.component for entry in read):
        yield Place("components", (right.component, "say")), "noun"
        yield Place("components", (right.component, "else")), "noun"
    if right.kind == "condition" and right.condition:
        yield from _condition(right, right.condition, alike)
    elif right.kind == "check" and right.outcome and not any(entry.outcome == right.outcome for entry in alike):
        yield Place("cues", (TRIED[right.outcome],)), "words"
    elif right.kind == "follow_up" and right.action and not any(entry.action == right.action for entry in alike):
        yield from _kinds_of_word(Place("actions", (right.action,)), "nouns", "verbs", "phrases")
    elif right.attribute and right.attribute.name in NAMED_BY_WORDS:
        yield Place("descriptions", (right.attribute.name,)), "words"


def _condition(right: Entry, condition: str, alike: Sequence[Entry]) -> Iterator[tuple[Place, Form]]:
    same = [entry for entry in alike if entry.condition == condition]
    if not same:
        yield from _kinds_of_word(Place("conditions", (condition,)), "nouns", "verbs", "adjectives", "phrases")
    elif right.assertion in ASSERTED and all(entry.assertion != right.assertion for entry in same):
        yield Place("cues", (ASSERTED[right.assertion],)), "words"


FORMS: dict[str, Form] = {"nouns": "noun", "verbs": "verb", "adjectives": "words", "phrases": "words"}


def _kinds_of_word(block: Place, *fields: str) -> Iterator[tuple[Place, Form]]:
    for field in fields:
        yield Place(block.file, (*block.keys, field)), FORMS[field]


def not_meant(dropped: Entry) -> Iterator[tuple[Place, Form]]:
    """Where a phrase would have to stand so that it is not read as what a person left out."""
    if dropped.kind == "condition" and dropped.condition:
        yield Place("conditions", (dropped.condition, "not_in")), "words"
    yield Place("components", (dropped.component, "not_in")), "words"
    yield Place("idioms"), "words"


def means(place: Place, entry: Entry, phrase: Sequence[str]) -> bool:
    """Whether an entry says what a phrase at this place would mean."""
    name = place.keys[0] if place.keys else ""
    match place.file:
        case "components":
            return entry.component == name
        case "conditions":
            return entry.condition == name
        case "actions":
            return entry.action == name
        case "descriptions":
            told = entry.attribute
            return told is not None and told.name == name and set(phrase) <= set(told.value.lower().split())
        case "cues":
            return name in (ASSERTED.get(entry.assertion or ""), TRIED.get(entry.outcome or ""))
    return False


def fits(place: Place, phrase: Sequence[str], said: Said) -> bool:
    """Whether a sentence bears out a phrase at this place, by what a person left of it.

    Of a phrase that is not to be read: nothing that was left says it.
    """
    if is_shield(place):
        kept = [entry for entry in said.right if not place.keys or _is_of(place, entry)]
        return not kept
    return any(means(place, entry, phrase) for entry in said.right)


def is_shield(place: Place) -> bool:
    """Whether a phrase stands there to keep something from being read."""
    return place.file == "idioms" or place.keys[-1] == "not_in"


def _is_of(place: Place, entry: Entry) -> bool:
    return place.keys[0] in (entry.component, entry.condition)
