"""Care and responsibility said to the resident about a component. Advice about nothing in particular is talk."""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.bearers import ROOM_GENERAL
from narrate2report.read.clauses import Clause
from narrate2report.read.draft import Draft
from narrate2report.read.scene import Scene
from narrate2report.read.spoken import Spoken
from narrate2report.read.stance import Mode, Stance

POINTING = frozenset("it that this them they those these here there one".split())


INDEFINITE = frozenset("something anything things stuff".split())
"""What a rule for everything is about: `if you scratch something, we charge`."""

REMOVALS = frozenset("take remove move roll clear pick bring get".split())

RECENT = 2
"""For how many sentences an order that names nothing is about the component in focus."""


def find_advice(scene: Scene) -> list[Draft]:
    """At most one advice draft a sentence: the care that is asked, of the component it is about."""
    spoken, stances, place, vocabulary = scene.spoken, scene.stances, scene.place, scene.vocabulary
    told = [at for at, stance in enumerate(stances) if stance.mode is Mode.INSTRUCTION]
    if told and not _is_addressed(spoken, stances[told[0]].cue):
        return []
    ordered = bool(told)
    if not told:
        told = _consequence(spoken, stances)
    if not told:
        return []
    first, last = told[0], told[-1]
    inside = [one for one in spoken.named if first <= one.start <= last and one.component != ROOM_GENERAL]
    opening = spoken.clause_of(first)
    pointing = {"it", "that", "this", "them", "those"} & set(spoken.norms(first, opening.end))
    handled = spoken.norms(first + 1, first + 2) in (["it"], ["them"], ["these"], ["those"])
    if pointing and (handled or not any(one.start in opening for one in inside)):
        before = [one for one in spoken.named if one.end <= first and one.relation == "topic"]
        focus = before[-1].component if before else place.subject
        if focus:
            return [_draft(scene, first, focus, "what 'it' points to")]
    inside.sort(
        key=lambda one: (
            one.relation == "place" or vocabulary.components[one.component].group == "furnished",
            one.start,
        )
    )
    if (
        inside
        and place.subject
        and (inside[0].relation == "place" or vocabulary.components[inside[0].component].group == "furnished")
    ):
        return [_draft(scene, first, place.subject, "the component last in focus")]
    others = [
        one for one in spoken.named if one not in inside and one.relation != "place" and one.component != ROOM_GENERAL
    ]
    group = {one.component: vocabulary.components[one.component].group for one in spoken.named}
    for one in (*inside, *others):
        if group[one.component] != "handed_over" or one in inside:
            return [_draft(scene, first, one.component, f"'{spoken.words(one.start, one.end)}' is named")]
    for mention in spoken.found.terms:
        for sense in mention.of("condition"):
            default = vocabulary.conditions[sense.id].default
            if default and first <= mention.start <= last and not place.subject:
                return [_draft(scene, first, default, "what its flaw is usual of")]
    if spoken.tokens[first].norm in REMOVALS and {"that", "those", "this", "these", "your"} & set(
        spoken.norms(first, last + 1)
    ):
        return [_draft(scene, first, ROOM_GENERAL, "something of the resident's is to go")]
    recent = bool(place.lately) and scene.number - place.lately[-1][1] <= RECENT
    for_all = not ordered and INDEFINITE & set(spoken.norms())
    pointed = POINTING & set(spoken.norms()) or (recent and not for_all and not spoken.has_cue("contact"))
    asked = spoken.has_cue("contact") and not any(stance.mode is Mode.HYPOTHETICAL for stance in stances)
    handed = place.subject and vocabulary.components[place.subject].group == "handed_over"
    if place.subject and pointed and not asked and not handed:
        return [_draft(scene, first, place.subject, "the component last in focus")]
    return []


def _you_do(spoken: Spoken, clause: Clause) -> bool:
    """`you get out`, `then you call me`: what the resident does when it happens."""
    norms = [norm for norm in spoken.norms(clause.start, clause.end) if norm not in {"then", "and", "so"}]
    if len(norms) < 2 or norms[0] != "you":
        return False
    verb = spoken.tokens[clause.start + spoken.norms(clause.start, clause.end).index("you") + 1]
    return verb.tag in {"VBP", "VB"} and verb.norm not in {"are", "have", "can", "will", "see", "might"}


def _is_addressed(spoken: Spoken, cue: str) -> bool:
    """Whether somebody is spoken to; a bare imperative may be the speaker's own `pull that out`."""
    if cue.lower() in REMOVALS:
        return True
    listed = any(spoken.words(one.start, one.start + 1) == cue for one in spoken.cues("imperative"))
    handles = bool({"it", "them"} & set(spoken.norms()[1:4]))
    return listed or handles or spoken.has_cue("instruction", "addressee", "often")


def _consequence(spoken: Spoken, stances: Sequence[Stance]) -> list[int]:
    """`if you crack this tile, that's on you`: a warning to the resident with what follows from it."""
    if not spoken.has_cue("addressee"):
        return []
    hypothetical = [at for at, stance in enumerate(stances) if stance.mode is Mode.HYPOTHETICAL]
    if not hypothetical:
        return []
    ordered = any(cue for cue in spoken.cues("instruction", "imperative", "policy") if cue.start >= hypothetical[0])
    verbs = any(
        clause.start > hypothetical[0] and (spoken.tokens[clause.start].tag == "VB" or _you_do(spoken, clause))
        for clause in spoken.clauses
    )
    return hypothetical if ordered or verbs else []


def _draft(scene: Scene, at: int, component: str, how: str) -> Draft:
    stances, room = scene.stances, scene.room
    return Draft(
        kind="advice",
        room=room,
        component=component,
        at=at,
        because=(f"said to the resident: '{stances[at].cue}'", how),
        confidence=0.7,
    )
