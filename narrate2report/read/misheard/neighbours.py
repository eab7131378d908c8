"""Which trade words a word of the vocabulary calls for beside it: what a misheard word may have been.

`strike` calls for `plate`, `torn` for what tears, `around the tub` for what lies around a tub.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise

from narrate2report.read.lexis.inflect import noun_forms, verb_forms
from narrate2report.read.lexis.vocabulary import ComponentTerm, ConditionTerm, Vocabulary
from narrate2report.read.lexis.words import SPELLINGS

JOINTS = frozenset(
    "a an and around along behind between under over above near inside against across below at by for from in into it"
    " of off on or out that the this to up with its no not little big small left through".split()
)
"""Words that join a phrase and call for nothing."""

Wanted = Mapping[str, frozenset[str]]
"""By a word of the vocabulary, the words that it calls for."""


@dataclass(frozen=True)
class Neighbours:
    """What calls for what; all words as the tokenizer gives them."""

    words: frozenset[str]
    """Every word that names or describes something by itself: where one stands, nothing was misheard."""
    deeds: frozenset[str]
    """Verbs of the vocabulary, which are not words for things: `draw` in `the top draw`."""
    parts: frozenset[str]
    """Words of longer phrases (`bottom`, `kick`): they make sense wherever the trade is talked of."""
    rooms: frozenset[str]
    """Words of the names of rooms."""
    things: frozenset[str]
    flaws: frozenset[str]
    adjectives: frozenset[str]
    """Adjectives and verb forms of conditions."""
    wrong: frozenset[str]
    """Words of the table of sound-alikes: never what was meant."""
    after: Wanted
    """Words that follow it in a phrase of the vocabulary: `strike` has `plate`."""
    before: Wanted
    sensible: frozenset[tuple[str, str]]
    """Pairs of words that the vocabulary knows to mean something else: `cutting board`."""
    doers: Wanted
    """By a verb: the components that do it when they work (`flushes` has `toilet`)."""
    sufferers: Wanted
    """By a word for a flaw: the components of which that is usual."""
    praise: frozenset[str]
    """Words that say that all is well: said of anything."""
    kin: Wanted
    """By a component word: components that are part of it, beside it, or of which it is part."""
    marks: Wanted
    """By a component word: nouns of its usual conditions (`dent`)."""
    states: Wanted
    """By a component word: adjectives and verbs of its usual conditions (`peeling`)."""


def neighbours_of(vocabulary: Vocabulary) -> Neighbours:
    """Read off the vocabulary what calls for what."""
    names = {one: _single(_component_names(term)) for one, term in vocabulary.components.items()}
    sufferers: dict[str, set[str]] = defaultdict(set)
    marks: dict[str, set[str]] = defaultdict(set)
    states: dict[str, set[str]] = defaultdict(set)
    flaws: set[str] = set()
    praise: set[str] = set()
    for condition, flaw in vocabulary.conditions.items():
        nouns, others = _single(_nouns(flaw.nouns)), _single(_states(flaw))
        if vocabulary.is_sound(condition):
            praise |= others
        if not vocabulary.is_sound(condition):
            flaws |= nouns
        for component, called in names.items():
            if not vocabulary.afflicts(condition, component):
                continue
            if not vocabulary.is_sound(condition):
                for word in nouns | others:
                    sufferers[word] |= called
                for name in called:
                    marks[name] |= nouns
                    states[name] |= others
    after, before = _pairs(vocabulary)
    things = frozenset().union(*names.values())
    said = _single(name for term in vocabulary.components.values() for name in _nouns(term.say))
    wrong = frozenset(word for word in vocabulary.sound_alikes if " " not in word) - said
    return Neighbours(
        words=things | flaws | _own_words(vocabulary),
        deeds=_deeds(vocabulary),
        parts=frozenset(after) | frozenset(before),
        rooms=_room_words(vocabulary),
        things=things,
        flaws=frozenset(flaws),
        adjectives=frozenset().union(*states.values()),
        wrong=wrong,
        after=after,
        before=before,
        sensible=_sensible(vocabulary),
        doers=_doers(vocabulary, names),
        sufferers=_frozen(sufferers),
        praise=frozenset(praise),
        kin=_kin(vocabulary, names),
        marks=_frozen(marks),
        states=_frozen(states),
    )


def _doers(vocabulary: Vocabulary, names: Mapping[str, frozenset[str]]) -> Wanted:
    found: dict[str, set[str]] = defaultdict(set)
    for component, term in vocabulary.components.items():
        for deed in _single(form for verb in term.works for form in verb_forms(verb)):
            found[deed] |= names[component]
    return _frozen(found)


def _kin(vocabulary: Vocabulary, names: Mapping[str, frozenset[str]]) -> Wanted:
    found: dict[str, set[str]] = defaultdict(set)
    for component, term in vocabulary.components.items():
        for other in {*term.part_of, *term.near} - {component}:
            for name in names.get(other, ()):
                found[name] |= names[component]
            for name in names[component]:
                found[name] |= names.get(other, frozenset())
    return _frozen(found)


def _pairs(vocabulary: Vocabulary) -> tuple[Wanted, Wanted]:
    """Words that stand beside each other in the vocabulary's phrases for components and conditions."""
    after: dict[str, set[str]] = defaultdict(set)
    before: dict[str, set[str]] = defaultdict(set)
    phrases = [name for term in vocabulary.components.values() for name in _component_names(term)]
    for condition, flaw in vocabulary.conditions.items():
        if not vocabulary.is_sound(condition):
            phrases += _nouns(flaw.nouns)
    for phrase in phrases:
        words = _normal(phrase)
        for first, second in pairwise(words):
            if not {first, second} & JOINTS and min(len(first), len(second)) > 2:
                after[first].add(second)
                before[second].add(first)
    return _frozen(after), _frozen(before)


def _sensible(vocabulary: Vocabulary) -> frozenset[tuple[str, str]]:
    phrases = [*vocabulary.idioms]
    for terms in (vocabulary.components, vocabulary.conditions, vocabulary.rooms):
        phrases += [phrase for term in terms.values() for phrase in term.not_in]
    return frozenset(pair for phrase in phrases for pair in pairwise(_normal(phrase)))


def _own_words(vocabulary: Vocabulary) -> frozenset[str]:
    """Words that mean something in a walk by themselves: rooms, work, materials, colours, states, charges."""
    words: set[str] = set(vocabulary.descriptions.colour)
    words.update(vocabulary.cues.get("policy", ()))
    words.update(vocabulary.descriptions.material)
    words.update(_room_words(vocabulary))
    for action in vocabulary.actions.values():
        words.update(_nouns(action.nouns))
    for condition in vocabulary.conditions.values():
        words.update((*_states(condition), *(word for said in condition.only.values() for word in said)))
    for component in vocabulary.components.values():
        words.update(component.works_adj)
    return _single(words)


def _room_words(vocabulary: Vocabulary) -> frozenset[str]:
    return frozenset(word for room in vocabulary.rooms.values() for phrase in room.say for word in phrase.split())


def _deeds(vocabulary: Vocabulary) -> frozenset[str]:
    verbs = [verb for action in vocabulary.actions.values() for verb in action.verbs]
    verbs += [verb for component in vocabulary.components.values() for verb in component.works]
    return _single(form for verb in verbs for form in verb_forms(verb))


def _component_names(term: ComponentTerm) -> Iterator[str]:
    return (form for name in term.names for form in noun_forms(name))


def _nouns(names: Iterable[str]) -> Iterator[str]:
    return (form for name in names for form in noun_forms(name))


def _states(term: ConditionTerm) -> Iterator[str]:
    yield from term.adjectives
    for verb in term.verbs:
        yield from verb_forms(verb)


def _single(phrases: Iterable[str]) -> frozenset[str]:
    return frozenset(words[0] for phrase in phrases if len(words := _normal(phrase)) == 1 and words[0].isalpha())


def _normal(phrase: str) -> tuple[str, ...]:
    return tuple(SPELLINGS.get(word, word) for word in phrase.replace("-", " ").split())


def _frozen(found: Mapping[str, set[str]]) -> Wanted:
    return {word: frozenset(wanted) for word, wanted in found.items()}
