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
