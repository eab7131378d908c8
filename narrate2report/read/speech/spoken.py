"""A sentence as the reading sees it: tokens, clauses, cues, and the terms that were found in it."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise

from narrate2report.read.lexis.phrase_tree import COMPONENT_ROLES, Mention
from narrate2report.read.lexis.phrasebook import Found, PhraseBook
from narrate2report.read.lexis.words import Token
from narrate2report.read.speech.clauses import MARKS, PARTICLES, Clause, TermBounds, bare_start, split_clauses
from narrate2report.read.speech.sentences import Sentence
from narrate2report.records.findings import Heard

PLACE_PREPOSITIONS = frozenset(
    "by near behind beside under underneath beneath below above over between around round opposite"
    " against toward towards off outside beyond past from at with for into onto next where to inside"
    " within".split()
)
BEARING_PREPOSITIONS = frozenset("on in of across along through throughout all upon down up".split())
CLOSE_TO = frozenset(
    "next close near screwed fixed attached left right opposite nearest closest up back going stuck down".split()
)


@dataclass(frozen=True)
class Named:
    """A component named in the sentence: `relation` tells how it stands there.

    topic: the thing spoken of (`the tub has ...`); of: what something is on, in or of (`a chip on the tub`);
    place: only where (`by the tub`).
    """

    component: str
    start: int
    end: int
    relation: str
    room: str | None = None


@dataclass
class Spoken:
    """One sentence under reading. Filled stage by stage, in the order of the fields."""

    sentence: Sentence
    text: str
    tokens: tuple[Token, ...]
    found: Found
    heard: tuple[Heard, ...] = ()
    room: str = "whole_unit"
    moved: bool = False
    named: tuple[Named, ...] = ()
    used: set[int] = field(default_factory=set)

    @cached_property
    def clauses(self) -> tuple[Clause, ...]:
        """The clauses; not split inside a matched phrase."""
        named = self.terms(*COMPONENT_ROLES)
        bounds = TermBounds(
            frozenset(mention.start for mention in named),
            frozenset(mention.end for mention in (*named, *self.terms("room"))),
            frozenset(
                [
                    m.start
                    for m in self.terms("condition", "works")
                    if not m.of(*COMPONENT_ROLES) and not self.leads_on(m)
                ]
                + [cue.start for cue in self.cues("operates", "fails")]
            ),
        )
        fixed = {
            at
            for mention in (*self.found.terms, *self.found.cues)
            for at in range(mention.start + 1, mention.end)
            if self.tokens[at].text not in MARKS
        }
        breaks = {cue.start for cue in self.cues("terminator")}
        return split_clauses(self.tokens, bounds, fixed, breaks)

    def leads_on(self, mention: Mention) -> bool:
        """Whether a small word that could say `it is in` or `it is out` only leads to what follows: `on the wall`."""
        if mention.end - mention.start > 1 or self.tokens[mention.start].norm not in PARTICLES:
            return False
        return mention.end < len(self.tokens) and self.tokens[mention.end].is_word

    @cached_property
    def _clause_of(self) -> list[Clause]:
        """For each token its clause; marks belong to the clause before them, leading ones to the first."""
        clauses = self.clauses
        starts = [0, *(clause.start for clause in clauses[1:]), len(self.tokens)]
        return [clause for clause, (at, end) in zip(clauses, pairwise(starts), strict=True) for _ in range(at, end)]

    def clause_of(self, at: int) -> Clause:
        """The clause that a token stands in."""
        return self._clause_of[at]

    def terms(self, *roles: str, within: Clause | None = None) -> Sequence[Mention]:
        """The terms of these roles, in order, in one clause or in the whole sentence."""
        found = self._terms.get(roles)
        if found is None:
            found = self._terms[roles] = [mention for mention in self.found.terms if mention.of(*roles)]
        return found if within is None else [mention for mention in found if mention.start in within]

    @cached_property
    def _terms(self) -> dict[tuple[str, ...], list[Mention]]:
        return {}

    def has_term(self, *roles: str, within: Clause | None = None) -> bool:
        """Whether any term of these roles begins in a clause, or in the whole sentence."""
        return bool(self.terms(*roles, within=within))

    @cached_property
    def _cue_kinds(self) -> frozenset[str]:
        return frozenset(kind for mention in self.found.cues for kind in mention.senses.ids)

    def cues(self, *kinds: str, within: Clause | None = None) -> Iterator[Mention]:
        """The cues of these kinds, in order, in one clause or in the whole sentence."""
        if self._cue_kinds.isdisjoint(kinds):
            return
        for mention in self.found.cues:
            if (within is None or mention.start in within) and not mention.senses.ids.isdisjoint(kinds):
                yield mention

    def has_cue(self, *kinds: str, within: Clause | None = None) -> bool:
        """Whether any such cue is there."""
        return next(self.cues(*kinds, within=within), None) is not None

    def words(self, start: int, end: int) -> str:
        """The words of tokens `start` to `end` as they stand in the text."""
        return self.text[self.tokens[start].start : self.tokens[end - 1].end] if end > start else ""

    def named_in(self, clause: Clause) -> tuple[Named, ...]:
        """The components named in a clause."""
        return tuple(one for one in self.named if one.start in clause)

    def named_terms(self, clause: Clause) -> Sequence[Mention]:
        """The component words of a clause, before it is known which component each means."""
        return self.terms(*COMPONENT_ROLES, within=clause)

    def named_tokens(self) -> set[int]:
        """The places of all tokens that name a component."""
        return {at for one in self.named for at in range(one.start, one.end)}

    @cached_property
    def _norms(self) -> list[str]:
        return [token.norm for token in self.tokens]

    def norms(self, start: int = 0, end: int | None = None) -> list[str]:
        """Normal forms of a range of tokens."""
        return self._norms[start:end]

    def ends_with_question(self) -> bool:
        """Whether the sentence is marked as a question."""
        return self.text.rstrip().endswith("?")


def speak(sentence: Sentence, text: str, tokens: Sequence[Token], book: PhraseBook, heard: tuple[Heard, ...]) -> Spoken:
    """A sentence with its vocabulary matches, before place is known."""
    return Spoken(sentence=sentence, text=text, tokens=tuple(tokens), found=book.find(tokens), heard=heard)


PARTS = frozenset(
    "side front back top bottom edge corner end face inside left right middle underside rim lip base".split()
)


SUMS = frozenset("total general short sum principle".split())
"""Nouns of set phrases that open a sentence: `in general the ...`."""

NO_LIKENESS = frozenset("'d would looks look feels seems just something is 's are was so and of like".split())
"""Before `like` they make it a guess or a filler."""


GOVERNED = {
    "with": frozenset(
        "wrong happy unhappy pleased satisfied problem problems issue issues matter trouble deal dealing bother"
        " bothering done goes carry play mess fault happened happening luck begin had have".split()
    ),
    "at": frozenset("look looking looked looks go glance stare peek ".split()),
    "from": frozenset("expect expected expecting worse better".split()),
    "after": frozenset("looking look looks".split()),
    "into": frozenset("looking look looked".split()),
    "over": frozenset("went go going gone look looked looking".split()),
}  # fmt: skip
"""What is spoken of with a preposition that would otherwise tell a place: `nothing wrong with the oven`."""


def _is_governed(spoken: Spoken, clause: Clause, at: int, start: int) -> bool:
    """`I'm not happy with the carpet`, `so with the fridge, ...`: a preposition that leads to what is spoken of."""
    tokens, norm = spoken.tokens, spoken.tokens[at].norm
    if norm not in GOVERNED:
        return False
    if norm in {"with", "for"} and at == bare_start(tokens, clause):
        ends = [mention.end for mention in spoken.terms(*COMPONENT_ROLES, within=clause) if mention.start == start]
        return ends == [clause.end] and clause.end < len(tokens)
    return at > clause.start and tokens[at - 1].norm in GOVERNED[norm]


def _is_likened(spoken: Spoken, clause: Clause, start: int) -> bool:
    """`groans like an old chair`: what something is only compared with."""
    norms = spoken.norms(clause.start, start)
    if "like" not in norms:
        return False
    at = clause.start + norms.index("like")
    return at > clause.start and spoken.tokens[at - 1].norm not in NO_LIKENESS


SHOWN = frozenset("see seeing is 's shows show notice".split())


def _is_shown(spoken: Spoken, clause: Clause, start: int) -> bool:
    """`you can see where the skirting has been chewed`: spoken of; in `dents where the bed legs stood` it is not."""
    norms = spoken.norms(clause.start, start)
    at = norms.index("where", 1)
    if norms[at - 1] not in SHOWN or len(norms) - at > len(["where", "the"]):
        return False
    flaws = [mention.start for mention in spoken.terms("condition", within=clause)]
    return bool(flaws) and flaws[0] > start


STAIRS = frozenset("stairs stair staircase stairway".split())
ENDS_OF_STAIRS = frozenset("foot bottom top head".split())


def _at_end_of_stairs(spoken: Spoken, clause: Clause, start: int, at: int) -> str | None:
    """`worn at the foot of the stairs`, with the `of` at token `at`: where another thing is, if one is named; in
    `at the foot of the stairs, the lino is worn` it is named in a later clause."""
    leads = spoken.norms(max(clause.start, at - 3), at - 1)
    if spoken.tokens[start].norm not in STAIRS or not PLACE_PREPOSITIONS & set(leads):
        return None
    if spoken.tokens[at - 1].norm not in ENDS_OF_STAIRS:
        return None
    opens = spoken.tokens[clause.start].norm in PLACE_PREPOSITIONS
    things = spoken.terms(*COMPONENT_ROLES, within=None if opens else clause)
    another = any(sense.id != "stair" for one in things if one.start != start for sense in one.of(*COMPONENT_ROLES))
    return "place" if another else "of"


def relation_of(spoken: Spoken, start: int, ends: Collection[int] | None = None) -> str:
    """How a component that starts at token `start` stands in its clause: topic, of, or place. `ends` are the tokens
    that follow right on a component; those of words that mean nothing else where it is not yet known.

    `the bottom of the tub` and `one of the slats` are about the tub and the slats; `a chip on the edge of the
    tub` says what bears the chip.
    """
    tokens, clause = spoken.tokens, spoken.clause_of(start)
    ends = {term.end for term in spoken.terms("component")} if ends is None else ends
    if tokens[start].norm in PLACE_PREPOSITIONS:
        own = [m for m in spoken.terms("component") if clause.start <= m.start < start]
        return "place" if own else "topic"
    if "where" in spoken.norms(clause.start + 1, start):
        return "topic" if _is_shown(spoken, clause, start) else "place"
    if _is_likened(spoken, clause, start):
        return "place"
    flaws = {at for mention in spoken.terms("condition") for at in range(mention.start, mention.end)}
    for at in range(start - 1, max(clause.start, start - 6) - 1, -1):
        token = tokens[at]
        if token.norm == "of":
            if at - 1 in flaws:
                return "of"
            if (where := _at_end_of_stairs(spoken, clause, start, at)) is not None:
                return where
            if at in ends and tokens[at - 1].norm not in PARTS:
                return "place"  # the lamp of the ceiling
            if at - 1 >= clause.start and tokens[at - 1].norm in {"left", "right"}:
                return "place"
            if at - 1 >= clause.start and tokens[at - 1].norm in PARTS:
                ahead = tokens[at - 2].norm if at - 2 >= clause.start else ""
                if ahead in {"in", "to"}:
                    return "place"
                whole = any(m.of("component") and clause.start <= m.start < at for m in spoken.found.terms)
                found = relation_of(spoken, at - 1)
                return "of" if found == "place" and not whole else found
            return "topic"
        if token.norm in SUMS and tokens[at + 1].norm in {"the", "this"}:
            return "topic"  # in total the flat is good
        if (
            token.norm == "to"
            and (at == clause.start or tokens[at - 1].norm not in CLOSE_TO)
            and tokens[at].tag != "RB"
        ):
            ranges = any(token.norm == "from" for token in tokens[max(clause.start, at - 5) : at])
            return "place" if ranges else "of"
        if token.norm == "over" and at and tokens[at - 1].norm == "all":
            return "of"
        if token.norm == "with" and {"start", "starting", "begin", "beginning"} & {
            t.norm for t in tokens[clause.start : at]
        }:
            return "topic"
        if _is_governed(spoken, clause, at, start):
            return "topic"
        adverb = token.norm == "next" and tokens[at + 1].norm != "to"
        if token.norm == "from" and at == clause.start and "water" in spoken.norms(start, clause.end):
            return "of"  # from this tap no water comes
        if token.norm == "for" and at == clause.start + 1 and tokens[at - 1].norm == "as":
            return "topic"  # as for the oven
        if token.norm in PLACE_PREPOSITIONS and token.tag != "RP" and not adverb:
            return "place"
        if token.norm in BEARING_PREPOSITIONS and token.tag != "RP":
            return "of"
        if token.is_finite or (token.is_verb and token.tag not in {"VBN", "VBG"}) or token.tag in {"CC", "PRP"}:
            return "topic"
        if token.text in MARKS:
            return "topic"
    return "topic"
