"""Whether a word of quality is said of a component: `it's steel` is, `you see the plastic`, `white rings` are not."""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.lexis.phrase_tree import Mention, Sense
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.bearers import Bearer

LOOKS = frozenset("color colour kind one ones finish tone shade paint look style pile".split())
"""Nouns that only stand for how something looks: `cream colour`, `the speckled kind`."""

BECOMES = frozenset("turning turns turned gone going goes went go".split())
"""`the ceiling is turning green`: no colour that it has."""

BEING = frozenset({"is", "'s", "are", "was", "were"})
POINTING = frozenset({"the", "this", "that", "these", "those", "some"})
ENERGY = frozenset({"gas", "electric"})
PRONOUNS = frozenset({"it", "this", "that", "they", "these", "those"})
BETWEEN = frozenset({"DT", "JJ", "RB", "RBR", "NN", "CD"})


def is_a_state(spoken: Spoken, mention: Mention) -> bool:
    """`a rub, black`, `gone gray`: a word that may be dirt is a colour only where something is said to be it."""
    if not mention.of("condition"):
        return False
    clause = spoken.clause_of(mention.start)
    before = spoken.norms(max(clause.start, mention.start - 4), mention.start)
    said = bool({"is", "'s", "are", "painted"} & set(before)) and not {"gone", "going", "turned"} & set(before)
    return not said or any(not sense.beside for sense in mention.of("condition"))


def is_another(spoken: Spoken, mention: Mention) -> bool:
    """`basin and pedestal`, `a linen cart`: what the word names or tells of is no component spoken of."""
    clause = spoken.clause_of(mention.start)
    noun = spoken.tokens[mention.end - 1].tag in {"NN", "NNS"} and bool(mention.of("type"))
    verb = any(token.is_finite for token in spoken.tokens[: clause.end])
    return _is_of_a_thing(spoken, mention) or (clause.link == "and" and noun and not verb)


def _is_of_a_thing(spoken: Spoken, mention: Mention) -> bool:
    """`a linen cart`, `a maple tree`: what something else is made of that is no part of a home."""
    after = spoken.tokens[mention.end : mention.end + 1]
    if not after or after[0].tag not in {"NN", "NNS"} or after[0].norm in LOOKS or not mention.of("material", "colour"):
        return False
    return not any(term.start <= mention.end < term.end for term in spoken.found.terms)


def is_a_note(scene: Scene, mention: Mention, bearer: Bearer, fitting: Sequence[Sense]) -> bool:
    """`Blinds. Two-inch faux wood, ...`: a first clause without a verb, of a type that only what is in focus has."""
    spoken = scene.spoken
    clause = spoken.clause_of(mention.start)
    told = any(token.is_finite for token in spoken.tokens[clause.start : clause.end])
    own = bool(fitting) and fitting[0].beside == bearer.component == scene.place.subject
    return own and not told and clause.index == 0 and not spoken.named_in(clause)


def in_passing(spoken: Spoken, mention: Mention) -> bool:
    """`the laminate counter looks good`: right before the noun, it only says which."""
    clause = spoken.clause_of(mention.start)
    after = next((one for one in spoken.named_in(clause) if one.start >= mention.end), None)
    if after is None or any(
        spoken.tokens[at].tag not in {"JJ", "NN", "CC", "CD"} for at in range(mention.end, after.start)
    ):
        return False
    before = spoken.norms(max(clause.start, mention.start - 3), mention.start)
    if {"is", "'s", "are"} & set(before):
        return False
    same = any(one.component == after.component and one.end <= mention.start for one in spoken.named)
    alone = after.end == clause.end and not any(t.is_finite for t in spoken.tokens[clause.start : clause.end])
    return not same and not (alone and clause.index + 1 < len(spoken.clauses))


def is_no_quality(scene: Scene, mention: Mention) -> bool:
    """`turning green`, `will do it white again`, `you see the plastic`, `the valve of the gas`: not what it is."""
    spoken = scene.spoken
    clause = spoken.clause_of(mention.start)
    before = spoken.norms(clause.start, mention.start)
    if BECOMES & set(before[-2:]) or "will" in before:
        return True
    after = spoken.tokens[mention.end : min(clause.end, mention.end + 1)]
    leads_on = bool(after) and after[0].tag in {"NN", "NNS", "JJ", "CD"}
    told = bool(BEING & set(before)) and before[-1:] != ["the"]
    return bool(POINTING & set(before[-1:])) and not leads_on and not told and not mention.of("colour")


def is_of_another(spoken: Spoken, mention: Mention, bearer: Bearer) -> bool:
    """`two white rings on the top`: a colour right before a noun that is not what bears it."""
    after = [term for term in spoken.found.terms if term.start == mention.end]
    if not mention.of("colour") or not after or spoken.tokens[mention.end].tag not in {"NN", "NNS"}:
        return False
    if any(term.of("material", "type", "colour") for term in after):
        return False
    return not any(one.start == mention.end and one.component == bearer.component for one in spoken.named)


def is_told_of_it(scene: Scene, mention: Mention, bearer: Bearer, fitting: Sequence[Sense]) -> bool:
    """`Front door. It's steel.`: material or own type of what was named in this sentence or the one before."""
    spoken, place = scene.spoken, scene.place
    sense = fitting[0] if fitting else None
    own = sense is not None and (sense.role == "material" or (sense.role == "type" and bool(sense.beside)))
    if sense is None or not (own or sense.id in ENERGY):
        return False
    clause = spoken.clause_of(mention.start)
    lately = any(one == bearer.component and scene.number - when <= 1 for one, when in place.lately)
    norms = spoken.norms(clause.start, mention.start)
    if len(norms) < len(("it", "is")) or norms[0] not in PRONOUNS or norms[1] not in BEING:
        return False
    plain = all(spoken.tokens[at].tag in BETWEEN for at in range(clause.start + 2, mention.start))
    return plain and lately and bearer.component == place.subject and not spoken.named_in(clause)
