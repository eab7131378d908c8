"""Which component a flaw is on: of all that may bear it the one that most speaks for, with the reasons.

`signs` says what speaks for each candidate, `sign_weights` what each sign counts. A component named twice gathers
what speaks for it in both places, as the weights were fitted for (a log-linear model).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import exp, log

from narrate2report.read.lexis.phrase_tree import Mention, Sense
from narrate2report.read.meant.scene import Scene
from narrate2report.read.state.sign_weights import WEIGHTS
from narrate2report.read.state.signs import Candidate, Signs
from narrate2report.read.things.bearers import Bearer
from narrate2report.read.things.whereabouts import ROOM_GENERAL

CERTAIN = frozenset(
    {"listed", "spread", "whole", "side", "object", "on the wall", "at the end", "what it is", "otherwise"}
)
"""Links that leave no doubt: `scuffs and a burn on the counter` ends a list, `overall` sums up."""


PAINTED = frozenset({"peeling", "paint_drip", "freshly_painted", "discoloration", "chip", "good", "clean", "new"})
"""What is said of paint itself; any other flaw is of what it is on."""


@dataclass(frozen=True)
class Ranked:
    """A component that may bear a flaw, what the word means of it, and how much speaks for it."""

    component: str
    sense: Sense | None
    best: Candidate
    score: float

    @property
    def why(self) -> str:
        """The two signs that count most."""
        told = sorted(self.best.signs, key=lambda sign: -WEIGHTS.get(sign, 0.0) * self.best.signs[sign])[:2]
        return f"most speaks for the {self.component.replace('_', ' ')}: {'; '.join(told)}"


def bear(mention: Mention, grammar: Sequence[Bearer], scene: Scene, *, noun: bool) -> tuple[tuple[Sense, Bearer], ...]:
    """What bears a flaw, and what the word means of it: several only where a list shares it.

    `grammar` is what the sentence alone says of that; of a list that it found all are taken or none.
    """
    certain = any(one.link in CERTAIN and not _is_in_the_air(mention, one) for one in grammar)
    certain = certain or _lacks_it(mention, grammar)
    if certain or all(sense.beside for sense in mention.of("condition")):
        return tuple(_as_grammar_says(mention, grammar))
    ranked = rank(mention, grammar, scene, noun=noun)
    first = ranked[0]
    if first.sense is None:
        return ()
    told = [one for one in grammar if one.component == first.component]
    if not told:
        clause = scene.spoken.clause_of(mention.start)
        named = first.best.named
        direct = named is not None and named.start in clause
        return ((first.sense, Bearer(first.component, first.why, direct, named)),)
    senses = {one.component: one.sense for one in ranked}
    return tuple((sense, one) for one in grammar if (sense := senses.get(one.component)) is not None)


def _lacks_it(mention: Mention, grammar: Sequence[Bearer]) -> bool:
    """`the door is missing its handle`: what stands right behind is missing, and not what lacks it."""
    missing = any(one.id == "missing" and not one.beside for one in mention.of("condition"))
    return missing and any(one.link == "described" and one.named and one.named.start >= mention.end for one in grammar)


def _is_in_the_air(mention: Mention, bearer: Bearer) -> bool:
    """`no smell, and no scratches on the door`: a list that begins with what is in the air."""
    senses = mention.of("condition")
    return bearer.link == "listed" and all(one.id == "odor" for one in senses)


def _as_grammar_says(mention: Mention, grammar: Sequence[Bearer]) -> Iterator[tuple[Sense, Bearer]]:
    """What needs no weighing up: the sentence is plain, or the word is a flaw of certain things only."""
    for one in grammar:
        senses = mention.of("condition")
        own = (sense for sense in senses if sense.beside == one.component)
        sense = next(own, next((sense for sense in senses if not sense.beside), None))
        if sense is not None:
            yield sense, one


def rank(mention: Mention, grammar: Sequence[Bearer], scene: Scene, *, noun: bool) -> list[Ranked]:
    """All that may bear a flaw, best first."""
    gathered: dict[str, Ranked] = {}
    for candidate, sense in weigh_up(mention, grammar, scene, noun=noun):
        score = sum(WEIGHTS.get(sign, 0.0) * value for sign, value in candidate.signs.items())
        one = Ranked(candidate.component, sense, candidate, score)
        before = gathered.get(candidate.component)
        if before is not None:
            better = one if one.score > before.score else before
            one = replace(better, score=better.score + log(1 + exp(-abs(one.score - before.score))))
        gathered[candidate.component] = one
    return sorted(gathered.values(), key=lambda one: -one.score)


def weigh_up(
    mention: Mention, grammar: Sequence[Bearer], scene: Scene, *, noun: bool
) -> Iterator[tuple[Candidate, Sense | None]]:
    """Each candidate with all its signs, and what the word means of it: None where it means nothing."""
    senses = mention.of("condition")
    told = {one.component for one in grammar}
    only: dict[str, Sense] = {}
    for sense in senses:
        if sense.beside in told:
            only.setdefault(sense.beside, sense)
    plain = next((sense for sense in senses if not sense.beside), None)
    usually = [ROOM_GENERAL] if plain is None else _put_where(plain.id, mention, scene)
    if plain is not None:
        usually += [one for one in _lies_on(plain.id, mention, scene) if one not in usually]
    signs = Signs(scene, mention, noun, grammar)
    for candidate in signs.candidates(usually):
        meant = only.get(candidate.component, plain)
        if meant and meant.id not in PAINTED and _is_paint_elsewhere(candidate, mention, scene):
            candidate = replace(candidate, component="wall")  # wall color's the same, there's scuffs
        if candidate.component == "paint" and candidate.named is None and meant and meant.id not in PAINTED:
            continue  # the paint's fresh; there's a scuff by the switch
        if meant is not None:
            own = _of_condition(meant.id, candidate, mention, scene)
            candidate.signs.update(own | ({"means it of this": 1.0} if meant.beside else {}))
        yield candidate, meant


def _is_paint_elsewhere(candidate: Candidate, mention: Mention, scene: Scene) -> bool:
    """Whether a candidate is the paint of walls, spoken of in an earlier clause."""
    named = candidate.named
    if candidate.component != "paint" or named is None or named.start in scene.spoken.clause_of(mention.start):
        return False
    return "wall" in scene.spoken.norms(named.start, named.end) and named.end <= mention.start


def _put_where(condition: str, mention: Mention, scene: Scene) -> list[str]:
    """Where a flaw is put that no component is named for: nowhere, where the clause names one that it usually befalls
    (`exposed wires at this outlet` are not the lamp's)."""
    named = scene.spoken.named_in(scene.spoken.clause_of(mention.start))
    if any(scene.vocabulary.afflicts(condition, one.component) for one in named):
        return []
    return [scene.vocabulary.conditions[condition].default or ROOM_GENERAL]


def _of_condition(condition: str, candidate: Candidate, mention: Mention, scene: Scene) -> dict[str, float]:
    """The signs that hang on what the flaw is."""
    vocabulary, component = scene.vocabulary, candidate.component
    usual = vocabulary.afflicts(condition, component)
    term = vocabulary.conditions[condition]
    signs = {"befalls it": vocabulary.befalls.speaks_for(condition, component)}
    about = {
        "usual of it": usual is True,
        "not usual of it": usual is False,
        "never of it": vocabulary.excludes(condition, component),
        "where it is put": (term.default or ROOM_GENERAL) == component,
        "lies there": component in _lies_on(condition, mention, scene),
    }
    signs |= {sign: 1.0 for sign, so in about.items() if so}
    if candidate.named is None or candidate.named.start not in scene.spoken.clause_of(mention.start):
        signs |= {f"{sign}, named elsewhere": value for sign, value in signs.items()}
    return signs | {f"{sign}, {term.class_}": 1.0 for sign in ("the room", "in focus") if sign in candidate.signs}


def says_it(mention: Mention, scene: Scene) -> bool:
    """Whether a pronoun before the word says what it is of: `it's dry`."""
    clause = scene.spoken.clause_of(mention.start)
    return bool({"it", "that", "they"} & set(scene.spoken.norms(clause.start, mention.start)))


def _lies_on(condition: str, mention: Mention, scene: Scene) -> tuple[str, ...]:
    """`there's a puddle`: where such a thing lies, whatever was spoken of before."""
    clause = scene.spoken.clause_of(mention.start)
    if "it" in scene.spoken.norms(mention.end, clause.end):
        return ()
    words = " ".join(scene.spoken.norms(mention.start, mention.end))
    lying = scene.vocabulary.conditions[condition].lies_on.items()
    return tuple(component for component, said in lying if any(words.endswith(one) for one in said))
