"""What speaks for and against each component that a flaw may be on: where it is named, how lately it was spoken of,
whether such a flaw befalls it.

Each candidate carries signs by name, each a number (mostly 1); what they count is `sign_weights`. No sign decides by
itself, and nothing is chosen here.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause, bare_start
from narrate2report.read.speech.spoken import Named
from narrate2report.read.things.bearers import Bearer
from narrate2report.read.things.whereabouts import ROOM_GENERAL

IT = frozenset("it they that this".split())
APPEARS = frozenset("looks look feels feel seems seem smells sounds".split())
"""Verbs that may open a clause with no subject: `looks tidy`."""
COUNTS = frozenset("one two three both each another none some".split())
"""Words that stand for things of a kind named before: `one is missing its handle`."""

STOOD = frozenset("stood was were sat had hung lay used been rubbed rested went".split())
"""What a thing did that has left its traces."""

LEAVES = frozenset("leave leaves left leaving made makes punched put puts".split())

FAR = 6
"""Beyond so many words, mentions or sentences it no longer matters how many they are."""


@dataclass(frozen=True)
class Candidate:
    """A component that may bear a flaw, where it is named if it is, and what speaks for it."""

    component: str
    named: Named | None
    signs: dict[str, float]


@dataclass(frozen=True)
class Signs:
    """The candidates for one word for a condition; `grammar` is what the grammar of the sentence alone makes of it."""

    scene: Scene
    mention: Mention
    noun: bool
    grammar: Sequence[Bearer]

    def candidates(self, usually: Sequence[str]) -> list[Candidate]:
        """Every component that is named in the sentence or may be meant without a name, with its signs.

        `usually` is what such a flaw is of when nothing is named.
        """
        found = [*self._named(), *self._spoken_of(), *self._general(), *map(self._usual, usually)]
        known = {one.component for one in found}
        found += [Candidate(one.component, one.named, {}) for one in self.grammar if one.component not in known]
        for one in found:
            one.signs.update(self._grammar_says(one))
        return found

    def _grammar_says(self, candidate: Candidate) -> dict[str, float]:
        """The grammar speaks for one component, wherever it is named."""
        for bearer in self.grammar:
            if bearer.component == candidate.component and (
                bearer.named is None or candidate.named is None or bearer.named == candidate.named
            ):
                return {f"grammar: {bearer.link}": 1.0}
        return {}

    @cached_property
    def _clause(self) -> Clause:
        return self.scene.spoken.clause_of(self.mention.start)

    @cached_property
    def _before(self) -> list[Named]:
        return [one for one in self.scene.spoken.named if one.end <= self.mention.start]

    @cached_property
    def _topics(self) -> list[Named]:
        """What the clause itself names as its subject before the flaw."""
        return [one for one in self._before if one.relation == "topic" and one.start in self._clause]

    @cached_property
    def _pronoun(self) -> bool:
        spoken = self.scene.spoken
        return bool(IT & set(spoken.norms(self._clause.start, self.mention.end))) or self._goes_on

    @cached_property
    def _goes_on(self) -> bool:
        """`it's been painted, looks tidy`: a verb without its subject goes on about what `it` was."""
        spoken, clause = self.scene.spoken, self._clause
        if not clause.index or clause.link not in {",", "and", "but"}:
            return False
        start = bare_start(spoken.tokens, clause)
        before = spoken.clauses[clause.index - 1]
        bare = start < clause.end and spoken.tokens[start].norm in APPEARS
        return bare and bool(IT & set(spoken.norms(before.start, before.end)))

    @cached_property
    def _counted(self) -> bool:
        """`one is missing its handle`: a number without a noun opens the clause."""
        tokens = self.scene.spoken.tokens[self._clause.start : self._clause.end]
        return len(tokens) > 1 and tokens[0].norm in COUNTS and not tokens[1].tag.startswith(("NN", "JJ"))

    def _named(self) -> Iterator[Candidate]:
        for one in self.scene.spoken.named:
            if self._only_stood_there(one):
                continue
            signs = self._here(one) if one.start in self._clause else self._elsewhere(one)
            if any(other.start == one.end for other in self.scene.spoken.named):
                signs["only says which"] = 1.0
            if self._is_nested(one):
                signs["tells of another thing"] = 1.0
            if one in self.scene.bearers.subjects_of(self._clause):
                signs["subject of the clause"] = 1.0
            if self.noun and one.end <= self.mention.start:
                signs |= dict.fromkeys(self._set_apart(one), 1.0)
            yield Candidate(one.component, one, signs)

    def _only_stood_there(self, one: Named) -> bool:
        """`dents where the bed legs stood`: what has left them."""
        spoken, clause = self.scene.spoken, self.scene.spoken.clause_of(one.start)
        return "where" in spoken.norms(clause.start, one.start) and bool(STOOD & set(spoken.norms(one.end, clause.end)))

    def _here(self, one: Named) -> dict[str, float]:
        """Named in the clause of the flaw."""
        form = "noun" if self.noun else "quality"
        if one.end <= self.mention.start:
            signs = {f"before it, {one.relation}, {form}": 1.0}
            if one == self._before[-1]:
                signs["named last"] = 1.0
            if self._topics and one == self._topics[-1]:
                signs["last subject"] = 1.0
            return signs
        if one.start < self.mention.end:
            return {f"within it, {one.relation}": 1.0}
        signs = {f"after it, {one.relation}, {form}": 1.0}
        between = self.scene.spoken.tokens[self.mention.end : one.start]
        signs["words between"] = min(len(between), FAR) / FAR
        if not between:
            signs[f"right after it, {form}"] = 1.0
        if any(token.is_finite for token in between):
            signs["a verb between"] = 1.0
        if self._topics:
            signs[f"after it, {one.relation}, and a subject before"] = 1.0
        return signs

    def _elsewhere(self, one: Named) -> dict[str, float]:
        """Named in another clause of the sentence."""
        clause = self.scene.spoken.clause_of(one.start)
        far = self._clause.index - clause.index
        signs = {f"{'earlier' if far > 0 else 'later'} clause, {one.relation}": 1.0}
        signs["clauses between"] = min(abs(far) - 1, FAR) / FAR
        if self._topics:
            signs["other clause, and a subject here"] = 1.0
        if self._before and one == self._before[-1]:
            signs["named last"] = 1.0
        if far > 0 and self._pronoun:
            signs["earlier clause, and a pronoun"] = 1.0
        if far > 0 and self._counted:
            signs["earlier clause, and a number"] = 1.0
        if far == 1:
            signs[f"clause before, joined by {self._clause.link or 'nothing'}"] = 1.0
        return signs

    def _set_apart(self, one: Named) -> Iterator[str]:
        """What shows that a noun says nothing of a component before it."""
        spoken = self.scene.spoken
        between = range(one.end, self.mention.start)
        if any(spoken.tokens[at].norm in LEAVES for at in between):
            yield "only leaves it"  # the towel bar came off and left two holes
        told = {term.start for term in spoken.terms("condition", "works")}
        apart = spoken.clause_of(one.start) != self._clause and self._clause.link in {",", "and"}
        if apart and not any(spoken.tokens[at].is_verb or at in told for at in between):
            yield "listed with it"  # a grill, two chairs, a dead plant

    def _is_nested(self, one: Named) -> bool:
        """`the caulk along the back of the counter`: the counter tells where the caulk is."""
        if one.relation == "topic":
            return False
        clause = self.scene.spoken.clause_of(one.start)
        begin = self.mention.end if one.start >= self.mention.end and one.start in self._clause else clause.start
        return any(begin <= other.start < one.start for other in self.scene.spoken.named_in(clause))

    def _spoken_of(self) -> Iterator[Candidate]:
        """Named in sentences before, and what the thing in focus is a part of."""
        place = self.scene.place
        about = {
            ", and one is named here": bool(self._before),
            ", and a subject here": bool(self._topics),
            ", and a pronoun": self._pronoun,
            ", and a number": self._counted,
        }
        for far, (component, when) in enumerate(reversed(place.lately)):
            ago = self.scene.number - when
            signs = {"spoken of": 1.0, "things since": min(far, FAR) / FAR, "sentences since": min(ago, FAR) / FAR}
            yield Candidate(component, None, signs | {f"spoken of{why}": 1.0 for why, so in about.items() if so})
        if place.subject:
            signs = {"in focus": 1.0, **{f"in focus{why}": 1.0 for why, so in about.items() if so}}
            yield Candidate(place.subject, None, signs)
            if place.subject == "paint":  # the paint's new; there's a dent over here
                painted = self.scene.vocabulary.components["paint"].part_of
                under = next((one for one, _ in reversed(place.lately) if one in painted), "wall")
                yield Candidate(under, None, signs | {"grammar: focus": 1.0})
            for owner in self.scene.vocabulary.components[place.subject].part_of:
                if place.subject == "paint":
                    continue  # it may be on any of them
                yield Candidate(owner, None, {"its part is in focus": 1.0})

    def _general(self) -> Iterator[Candidate]:
        """The room as a whole."""
        spoken = self.scene.spoken
        signs = {"the room": 1.0}
        about = {
            "the room, and one is named": bool(spoken.named),
            "the room, here": "here" in spoken.norms(),
            "the room, walked into": spoken.moved,
            "the room, and nothing in focus": self.scene.place.subject is None,
            "the room, and a pronoun": self._pronoun,
        }
        yield Candidate(ROOM_GENERAL, None, signs | {why: 1.0 for why, so in about.items() if so})

    def _usual(self, component: str) -> Candidate:
        """What such a flaw is of when nothing is named."""
        about = {
            "put there": True,
            "put there, and one is named": bool(self.scene.spoken.named),
            "put there, and one is in focus": self.scene.place.subject is not None,
        }
        return Candidate(component, None, {why: 1.0 for why, so in about.items() if so})
