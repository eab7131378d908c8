"""Which component a flaw is on where the clause names none: the focus, what was spoken of before, its owner, or what
the flaw usually befalls, ranked by how well it fits and how lately it was spoken of, with the reason."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from narrate2report.read.bearers import Bearer
from narrate2report.read.phrase_tree import Mention
from narrate2report.read.scene import Scene
from narrate2report.read.whereabouts import ROOM_GENERAL

FITS = 2.0
"""What a usual flaw counts for a component, and an unusual one against it."""

IN_FOCUS, IN_SENTENCE, SPOKEN_OF, USUAL, OWNER = 3.0, 2.0, 1.8, 1.2, 1.1
"""What the standing of a candidate counts: the last topic first, the owner of a part last."""

FADES = 0.3
"""What each component or sentence in between takes from what was spoken of."""

LASTS = 1
"""For how many sentences something that was spoken of may still be meant."""


@dataclass(frozen=True)
class Candidate:
    """A component that may be meant, how much speaks for it, and why."""

    component: str
    score: float
    why: str


def rank(condition: str, bearer: Bearer, mention: Mention, scene: Scene) -> list[Candidate]:
    """The components that a flaw may be on, best first; equal ones in the order: focus, sentence, owner, before."""
    best: dict[str, Candidate] = {}
    for one in _candidates(condition, bearer, mention, scene):
        fits = scene.vocabulary.afflicts(condition, one.component)
        known = Candidate(one.component, one.score + (0 if fits is None else FITS if fits else -FITS), one.why)
        if one.component not in best or best[one.component].score < known.score:
            best[one.component] = known
    return sorted(best.values(), key=lambda one: -one.score)


def _candidates(condition: str, bearer: Bearer, mention: Mention, scene: Scene) -> Iterator[Candidate]:
    vocabulary = scene.vocabulary
    yield Candidate(bearer.component, IN_FOCUS, bearer.how)
    before = [one for one in scene.spoken.named if one.end <= mention.start]
    faulty = vocabulary.conditions[condition].class_ == "fault"
    if bearer.named is None or (faulty and _named_between(bearer, mention, scene)):
        for far, one in enumerate(reversed(before)):
            yield Candidate(
                one.component, IN_SENTENCE - 0.01 * far, f"usual of {_plain(one.component)}, named before it"
            )
        for far, (component, when) in enumerate(reversed(scene.place.lately)):
            if scene.number - when <= LASTS:
                said = f"usual of {_plain(component)}, which was spoken of"
                yield Candidate(component, SPOKEN_OF - 0.01 * far - FADES * (scene.number - when), said)
    if (faulty and not bearer.direct) or (bearer.named is None and _is_seen(condition, mention, scene)):
        for owner in vocabulary.components[bearer.component].part_of:
            yield Candidate(owner, OWNER, f"usual of {_plain(owner)}, whose part was in focus")
    default = vocabulary.conditions[condition].default
    if default:
        yield Candidate(default, USUAL, f"usual of {_plain(default)}, not of what was in focus")


def _named_between(bearer: Bearer, mention: Mention, scene: Scene) -> bool:
    """`the tap is fine, in the sink it drains slow`: something else was named after what the fault would be of."""
    return bearer.named is not None and any(
        one.relation == "of" and bearer.named.end <= one.start and one.end <= mention.start
        for one in scene.spoken.named
    )


def _is_seen(condition: str, mention: Mention, scene: Scene) -> bool:
    """Damage that is seen, and no `it` that says what it is on."""
    clause = scene.spoken.clause_of(mention.start)
    pointed = {"it", "that", "this", "one"} & set(scene.spoken.norms(clause.start, mention.start))
    return scene.vocabulary.conditions[condition].class_ == "damage" and not pointed


def _plain(component: str) -> str:
    return component.replace("_", " ")


PAINTED = frozenset({"peeling", "paint_drip", "freshly_painted", "discoloration", "chip", "good", "clean", "new"})
"""What is said of paint itself; any other flaw is of what it is on."""


def _under_paint(condition: str, bearer: Bearer, scene: Scene) -> str | None:
    """`the paint's fresh. There's a scuff over here`: on the wall, or on what else was spoken of and is painted."""
    if bearer.component != "paint" or bearer.named is not None or condition in PAINTED:
        return None
    owners = scene.vocabulary.components["paint"].part_of
    return next((one for one, _ in reversed(scene.place.lately) if one in owners), "wall")


def fitting(condition: str, bearer: Bearer, mention: Mention, scene: Scene) -> tuple[str, str]:
    """The component a condition is put on: the usual one where the focus cannot bear it."""
    vocabulary = scene.vocabulary
    default = vocabulary.conditions[condition].default
    if not bearer.component:
        told = _told_before(condition, mention, scene)
        return told or default or ROOM_GENERAL, "named before it" if told else "no component in focus"
    loosely = not bearer.direct or bearer.component == ROOM_GENERAL
    if loosely and (under := _lies_on(condition, mention, scene)):
        return under, f"lies on a {under.replace('_', ' ')}"
    if painted := _under_paint(condition, bearer, scene):
        return painted, f"the {painted.replace('_', ' ')} under the paint"
    denied = any(sense.form == "denies" for sense in mention.of("condition"))
    if denied and bearer.direct and bearer.component != ROOM_GENERAL and says_it(mention, scene):
        return bearer.component, bearer.how  # it's dry
    if loosely and vocabulary.afflicts(condition, bearer.component) is False:
        first = rank(condition, bearer, mention, scene)[0]
        return first.component, first.why
    return bearer.component, bearer.how


def _told_before(condition: str, mention: Mention, scene: Scene) -> str | None:
    """`paint cans stacked against the heater, that's a fire risk`: the last component of the sentence so far that
    the condition usually afflicts."""
    spoken = scene.spoken
    clause = spoken.clause_of(mention.start)
    if not {"that", "it", "this"} & set(spoken.norms(clause.start, mention.start)):
        return None
    named = [one.component for one in reversed(spoken.named) if one.end <= clause.start]
    return next((one for one in named if scene.vocabulary.afflicts(condition, one)), None)


def says_it(mention: Mention, scene: Scene) -> bool:
    """Whether a pronoun before the word says what it is of: `it's dry`."""
    clause = scene.spoken.clause_of(mention.start)
    return bool({"it", "that", "they"} & set(scene.spoken.norms(clause.start, mention.start)))


def _lies_on(condition: str, mention: Mention, scene: Scene) -> str | None:
    """`there's a puddle`: where such a thing lies, whatever was spoken of before."""
    clause = scene.spoken.clause_of(mention.start)
    if "it" in scene.spoken.norms(mention.end, clause.end):
        return None
    words = " ".join(scene.spoken.norms(mention.start, mention.end))
    lying = scene.vocabulary.conditions[condition].lies_on.items()
    return next((component for component, said in lying if any(words.endswith(one) for one in said)), None)
