"""The three trees of words that a vocabulary grows: terms with all their forms, cues, and idioms.

In comes a vocabulary, out come trees to be matched; what a match means in its sentence is left to `phrasebook`.
"""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.lexis.inflect import around_pronouns, noun_forms, verb_forms
from narrate2report.read.lexis.phrase_tree import PhraseTree, Sense
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.lexis.words import Tokenizer

READ_AS_VERB = (" drains", " sprays")
"""Plurals that are hardly ever said: `sink drains` says what the sink does."""


class Trees:
    """The words of a vocabulary, each in the tree that it belongs to."""

    def __init__(self, vocabulary: Vocabulary, tokenizer: Tokenizer) -> None:
        self._tokenizer = tokenizer
        self.terms, self.cues, self.idioms = PhraseTree(), PhraseTree(), PhraseTree()
        self._add_rooms(vocabulary)
        self._add_components(vocabulary)
        self._add_conditions(vocabulary)
        self._add_actions(vocabulary)
        self._add_descriptions(vocabulary)
        for idiom in vocabulary.idioms:
            self._add(self.idioms, idiom, Sense("idiom", ""))
        for cue, phrases in vocabulary.cues.items():
            for phrase in phrases:
                self._add(self.cues, phrase, Sense("cue", cue))

    def _add(self, tree: PhraseTree, phrase: str, sense: Sense) -> None:
        words = self._tokenizer.phrase(phrase)
        tree.add(words, sense)
        for written, spoken in (("is", "'s"), ("'s", "is")):
            if written in words[:-1]:
                tree.add(tuple(spoken if word == written else word for word in words), sense)

    def _add_nouns(self, phrases: Sequence[str], role: str, term_id: str, beside: str = "") -> None:
        for phrase in phrases:
            for form in noun_forms(phrase):
                if not form.endswith(READ_AS_VERB):
                    self._add(self.terms, form, Sense(role, term_id, "noun", beside))

    def _add_verbs(self, phrases: Sequence[str], role: str, term_id: str) -> None:
        for phrase in phrases:
            for form in verb_forms(phrase):
                self._add(self.terms, form, Sense(role, term_id, "verb"))

    def _add_rooms(self, vocabulary: Vocabulary) -> None:
        for room, term in vocabulary.rooms.items():
            for phrase in term.say:
                self._add(self.terms, phrase, Sense("room", room))
                self._add(self.terms, noun_forms(phrase)[-1], Sense("rooms", room))
                for suffix, before in term.qualifiers.items():
                    for word in before:
                        self._add(self.terms, f"{word} {phrase}", Sense("room", f"{room}.{suffix}"))
            for named, phrases in term.named.items():
                for phrase in phrases:
                    self._add(self.terms, phrase, Sense("room", named))
            for phrase in term.uses:
                for form in verb_forms(phrase):
                    self._add(self.cues, form, Sense("use", room))
            for phrase in term.implied_by:
                self._add(self.idioms, phrase, Sense("implies", room))
            for phrase in term.not_in:
                self._add(self.idioms, phrase, Sense("idiom", room, "room"))

    def _add_components(self, vocabulary: Vocabulary) -> None:
        for component, term in vocabulary.components.items():
            self._add_nouns(term.say, "component", component)
            for owner, phrases in term.near.items():
                self._add_nouns(phrases, "near", component, owner)
            for room, phrases in term.in_.items():
                self._add_nouns(phrases, "in", component, room)
            self._add_nouns(term.else_, "else", component)
            self._add_verbs(term.works, "works", component)
            for phrase in term.works_adj:
                self._add(self.terms, phrase, Sense("works", component, "adjective"))
            for phrase in term.care:
                self._add(self.cues, phrase, Sense("care", component))
            for phrase in term.not_in:
                self._add(self.idioms, phrase, Sense("idiom", component, "component"))

    def _add_conditions(self, vocabulary: Vocabulary) -> None:
        for condition, term in vocabulary.conditions.items():
            self._add_nouns(term.nouns, "condition", condition)
            self._add_verbs(term.verbs, "condition", condition)
            for form, phrases in (
                ("adjective", term.adjectives),
                ("phrase", term.phrases),
                ("denies", term.denies),
            ):
                for phrase in phrases:
                    self._add(self.terms, phrase, Sense("condition", condition, form))
            for component, phrases in term.only.items():
                for phrase in phrases:
                    self._add(self.terms, phrase, Sense("condition", condition, "adjective", component))
            for phrase in term.not_in:
                self._add(self.idioms, phrase, Sense("idiom", condition, "condition"))

    def _add_actions(self, vocabulary: Vocabulary) -> None:
        for action, term in vocabulary.actions.items():
            self._add_verbs((*term.verbs, *around_pronouns(term.verbs)), "action", action)
            self._add_nouns(term.nouns, "action", action)
            for phrase in term.phrases:
                self._add(self.terms, phrase, Sense("action", action, "phrase"))

    def _add_descriptions(self, vocabulary: Vocabulary) -> None:
        terms = vocabulary.descriptions
        for name, phrases in (("material", terms.material), ("colour", terms.colour)):
            for phrase in phrases:
                self._add(self.terms, phrase, Sense(name, phrase))
        for component, phrases in terms.type.items():
            for phrase in phrases:
                self._add(self.terms, phrase, Sense("type", phrase, "", "" if component == "any" else component))
