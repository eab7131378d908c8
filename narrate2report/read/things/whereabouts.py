"""Where a flaw lies by the words around it: `on the counter`, `all over the shelves`, `cabinet door`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Named, Spoken
from narrate2report.read.walk.place import Place

WALL = "wall"
MEASURED = frozenset("shoulder head waist knee ankle hip chest eye hand child's bike bicycle elbow sofa chair".split())
HEIGHTS = frozenset("height level high".split())
"""`at shoulder height`, `about chest high`: a first word and a second."""
OUTDOORS = frozenset({"yard", "exterior", "patio", "porch", "parking", "balcony"})
ALONG_WALLS = frozenset(
    "headboard bed sofa couch settee loveseat futon recliner desk dresser bookcase bookshelf tv telly television"
    " armchair sideboard wardrobe tallboy crib cot chest buffet bureau".split()
)
NEAR = 5
"""Words from a flaw to the `behind` that tells where it is."""
LEVEL = frozenset("floor carpet ceiling rug baseboard countertop".split())
SET_IN = frozenset("window switch outlet thermostat".split())
IN_WALLS = SET_IN | frozenset("door entry_door closet_door radiator mirror".split())
CLOSE_BY = frozenset("under below beneath underneath beside near".split())
ROOM_GENERAL = "room_general"
CAME = frozenset(
    "dried set hardened spread opened appeared formed started grown come gone developed soaked settled run dripped"
    " spilled spilt left blooming growing spreading forming showing creeping running opening starting appearing".split()
)
"""How a flaw comes to lie where it is."""
HELPING = frozenset("has have 's is are been".split())
LONGEST_WAY = 5
"""Words between such a flaw and what it is on."""


@dataclass(frozen=True)
class Whereabouts:
    """The places that one sentence tells; `predicates` are the words that say something of a component."""

    _spoken: Spoken
    _predicates: Sequence[Mention]
    _place: Place

    def modifies_next(self, one: Named, named: Sequence[Named]) -> bool:
        """`cabinet door`: the first of two nouns in a row only says which."""
        return any(other.start == one.end and other.relation == one.relation for other in named)

    def lies_on(self, predicate: Mention, clause: Clause) -> Named | None:
        """`a scratch on the counter`: the component after on, in, of, across ..."""
        named = self._spoken.named_in(clause)
        for one in named:
            if one.relation == "of" and one.start >= predicate.end and not self.modifies_next(one, named):
                flaws = {mention.start for mention in self._predicates}
                between = range(predicate.end, one.start)
                told = any(self._spoken.tokens[at].is_finite and at not in flaws for at in between)
                if not told or self._came_there(predicate, one):
                    return one
        return None

    def ends_before(self, predicate: Mention, on: Named | None) -> bool:
        """`they got paint on`, before `this outlet cover`: whoever `they` are, it is on what follows."""
        last = self._spoken.tokens[predicate.end - 1]
        long = predicate.end - predicate.start > 1 and last.norm in {"on", "in", "over", "into"}
        return long and on is not None and 0 <= on.start - predicate.end <= 2

    def _came_there(self, predicate: Mention, one: Named) -> bool:
        """`a run of gloss has dried on the frame`, `a crack has opened across the ceiling`: how it came where it is."""
        said = [norm for norm in self._spoken.norms(predicate.end, one.start) if norm not in HELPING]
        return bool(said) and said[0] in CAME and len(said) <= LONGEST_WAY

    def is_on_it(self, predicate: Mention, clause: Clause) -> bool:
        """`dead flies on them`, `a stain around it`."""
        norms = self._spoken.norms(predicate.end, min(clause.end, predicate.end + 3))
        return any(
            norms[at : at + 2][0] in {"on", "in", "around", "under"}
            and norms[at + 1 : at + 2] in (["it"], ["them"], ["that"])
            for at in range(len(norms))
        )

    def is_of_it(self, predicate: Mention, clause: Clause) -> bool:
        """`a scuff along the bottom of it`."""
        norms = self._spoken.norms(predicate.end, clause.end)
        return any(first == "of" and second in {"it", "them"} for first, second in pairwise(norms))

    def named_after(self, clause: Clause) -> Named | None:
        """`it's filthy, the filter up in the hood`: what `it` is comes in the next clause."""
        following = self._spoken.clauses[clause.index + 1 : clause.index + 2]
        if not following or following[0].link != ",":
            return None
        tokens = self._spoken.tokens[following[0].start : following[0].end]
        if any(token.is_finite for token in tokens) or any(m.start in following[0] for m in self._predicates):
            return None
        return next((one for one in self._spoken.named_in(following[0]) if one.relation == "topic"), None)

    def also_done_to(self, clause: Clause) -> tuple[Named, ...]:
        """`I wiped out every cupboard and drawer`: the rest of what something was done to, with no verb of its own."""
        found: list[Named] = []
        for later in self._spoken.clauses[clause.index + 1 :]:
            inside = [one for one in self._spoken.named_in(later) if one.relation == "topic"]
            told = any(mention.start in later for mention in self._predicates) or self.has_verb(later)
            if later.link not in {"and", ","} or len(inside) != 1 or told:
                break
            found += inside
        return tuple(found)

    def lies_at(self, predicate: Mention, clause: Clause) -> Named | None:
        """`there's rust at the drain`: with nothing else spoken of, the place bears it."""
        for one in self._spoken.named_in(clause):
            if one.relation == "place" and one.start >= predicate.end:
                between = set(self._spoken.norms(predicate.end, one.start))
                if between & {"at", "inside"} or (between & {"around", "round"} and not self._place.subject):
                    return one
        return None

    def on_wall_beside(self, predicate: Mention, clause: Clause) -> Named | None:
        """`there's crayon behind the door`, `a stain above the window`: the wall, unless a floor is spoken of"""
        if self._place.subject in LEVEL or self._is_about_level():
            return None
        for one in self._spoken.named_in(clause):
            if one.relation == "place" and one.start >= predicate.end and one.component in IN_WALLS:
                between = set(self._spoken.norms(predicate.end, one.start))
                leads_over = "over" in between and "to" not in between  # from the light over to the window
                if between & {"behind", "above"} or leads_over or (one.component in SET_IN and between & CLOSE_BY):
                    return one
        return None

    def _is_about_level(self) -> bool:
        """`ceiling in here, there's a crack from the light to the window`: the sentence opens with what it is on."""
        return any(one.component in LEVEL and one.relation == "topic" for one in self._spoken.named[:1])

    def is_at_a_height(self, clause: Clause) -> bool:
        """`a tide line at shoulder height`, `smudges at hand level`: where only a wall is, with nothing named."""
        if self._place.base in OUTDOORS or self._spoken.named_in(clause):
            return False
        norms = self._spoken.norms(clause.start, clause.end)
        return any(norms[at] in MEASURED and set(norms[at + 1 : at + 2]) & HEIGHTS for at in range(len(norms) - 1))

    def is_behind_furniture(self, predicate: Mention) -> bool:
        """`one good gouge behind the headboard`: what stands along a wall hides a piece of it."""
        norms = self._spoken.norms(predicate.end)
        at = norms.index("behind") if "behind" in norms else len(norms)
        return at <= NEAR and bool(ALONG_WALLS & set(norms[at + 1 : at + 4]))

    def owner_of_subject(self, predicate: Mention, clause: Clause) -> Named | None:
        """`the brass plate on the bottom of the door is tarnished`: a subject that is no component is a part of the one
        that it is said to be on."""
        named = self._spoken.named_in(clause)
        if len(named) != 1 or named[0].relation != "of" or named[0].end > predicate.start:
            return None
        verb = range(named[0].end, predicate.start)
        before = range(clause.start, named[0].start)
        said = any(self._spoken.tokens[at].is_finite for at in verb) and not any(
            self._spoken.tokens[at].is_finite for at in before
        )
        return named[0] if said else None

    def has_verb(self, clause: Clause) -> bool:
        """Whether a clause says something: a flaw that looks like a verb (`scratches`) does not count."""
        flaws = {mention.start for mention in self._predicates}
        return any(self._spoken.tokens[at].is_finite and at not in flaws for at in range(clause.start, clause.end))

    def list_lies_on(self, clause: Clause) -> Named | None:
        """`scratches, scuffs and a burn on the counter`: the place at the end holds for the whole list."""
        for later in self._spoken.clauses[clause.index + 1 :]:
            if later.link not in {",", "and", "or"}:
                return None
            if self.has_verb(later):
                return None
            for one in self._spoken.named_in(later):
                if one.relation == "of":
                    return one
                if one.relation == "topic":
                    return None
        return None

    def spread_over(self, clause: Clause) -> tuple[Named, ...]:
        """`that's mold, all over the shelves and down in the crispers`: where it is follows in clauses of its own."""
        found: list[Named] = []
        for later in self._spoken.clauses[clause.index + 1 :]:
            inside = [
                one for one in self._spoken.named_in(later) if one.relation == "of" and one.component != ROOM_GENERAL
            ]
            tokens = self._spoken.tokens[later.start : later.end]
            if not inside or later.link not in {",", "and"} or any(token.is_finite for token in tokens):
                break
            if any(mention.start in later and not self._spoken.leads_on(mention) for mention in self._predicates):
                break
            found += inside
        return tuple(found)
