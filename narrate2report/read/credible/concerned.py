"""Which component a task is of: those that it may be of, with what speaks for each.

They are the components that the sentence names, those the rules drafted the task of, and those spoken of before. As
with the bearers of flaws (`state/signs`) nothing is chosen here; what each sign weighs was learned (`tasks`).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from narrate2report.read.credible.signs import Observed, rules_of
from narrate2report.read.lexis.learned import Sign
from narrate2report.read.speech.spoken import Named
from narrate2report.read.things.focus import Focus, is_adverse
from narrate2report.read.things.whereabouts import ROOM_GENERAL

POINTING: Final = frozenset("it that this them these those they one ones".split())
"""Words that stand for a thing named before."""

RANKS, NEAR = 3, 3
"""How many of the last flaws and things are told apart, and how many words off a thing is near."""


def concerned(observed: Observed, kind: str, focus: Focus) -> Mapping[str, Sequence[Sign]]:
    """By component that a task of this kind may be of, its signs."""
    found: dict[str, list[Sign]] = {}
    for component, signs in _found(observed, kind, focus):
        found.setdefault(component, [f"{component}"]).extend(signs)
    many = min(len({one.component for one in observed.scene.spoken.named}), 2)
    pointing = bool(POINTING & set(observed.words))
    for component, signs in found.items():
        named = "named" in signs
        if not named:
            signs.append("not named")
            signs += [f"{sign}, {many} named" for sign in list(signs)]
            signs += [f"{sign}, pointed to" for sign in list(signs) if pointing]
        signs += [f"{sign}, {'named' if named else 'not named'}" for sign in list(signs) if sign.startswith("because")]
        if component == ROOM_GENERAL:
            signs.append(f"the room, {many} named")
    return {component: sorted(set(signs)) for component, signs in found.items()}


def _found(observed: Observed, kind: str, focus: Focus) -> Iterator[tuple[str, list[Sign]]]:
    """Each component that the task may be of, as often as it is met."""
    scene = observed.scene
    for draft in observed.drafts:
        if draft.kind == kind:
            yield draft.component, ["drafted", rules_of(draft)]
        elif is_adverse(draft, scene.vocabulary):
            yield draft.component, ["flaw here"]
        else:
            yield draft.component, [f"{draft.kind} here"]
    for one in scene.spoken.named:
        yield one.component, list(_of_named(observed, one, kind))
    for rank, component in enumerate(dict.fromkeys(focus.lately(scene.number))):
        if rank < RANKS:
            yield component, [f"flaw {rank} ago"]
    if (told := focus.told(scene.number)) is not None:
        yield told, ["told last"]
    if scene.place.subject is not None:
        yield scene.place.subject, ["in focus"]
    for rank, (component, _) in enumerate(reversed(scene.place.lately[-RANKS:])):
        yield component, [f"spoken of {rank} ago"]
    yield ROOM_GENERAL, []


def _of_named(observed: Observed, one: Named, kind: str) -> Iterator[Sign]:
    """What speaks for a component where it is named."""
    spoken = observed.scene.spoken
    before, two_before, _ = observed.around(one.start)
    after = observed.around(one.end - 1)[2]
    clause = spoken.clause_of(one.start)
    yield from ("named", f"named {one.relation}", f"behind {before}", f"behind {two_before}", f"before {after}")
    yield f"clause {clause.link}, {' '.join(spoken.norms(clause.start, clause.start + 1))}"
    others = {other.component for other in spoken.named} - {one.component}
    if not others:
        yield "named alone"
    if one == spoken.named[0]:
        yield "named first"
    if one == spoken.named[-1]:
        yield "named last"
    owners = observed.scene.vocabulary.components[one.component].part_of
    if others & set(owners):
        yield "part of one named"
    if any(one.component in observed.scene.vocabulary.components[other].part_of for other in others):
        yield "has a part named"
    words = spoken.terms("action") if kind == "follow_up" else []
    word = next(iter(words or spoken.cues("instruction", "imperative")), None)
    if word is not None:
        behind = one.start >= word.end
        off = one.start - word.end if behind else word.start - one.end
        told = f"{'after' if behind else 'before'} the word of it"
        yield f"{told}, {'near' if off < NEAR else 'far'}, {'same' if word.start in clause else 'other'} clause"
        yield f"{told}, {one.relation}"
