"""What others left in a home that should be empty: `a dresser they left down here`, `four tires left in here`."""

from __future__ import annotations

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.lookalikes import says_nothing
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.modes import Mode
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.state.missing import LEAVERS
from narrate2report.read.things.pointing import POINTING, determines
from narrate2report.read.things.whereabouts import ROOM_GENERAL

NOTES = frozenset("note notes message number".split())
"""What is left for somebody to read is no debris."""

WHEN = frozenset("yesterday today on at last this in early late already before with for and so when".split())
"""After `left` they tell that people went away."""


def left_behind(scene: Scene) -> list[Draft]:
    """`there's a dresser they left down here`: things left in a home that should be empty."""
    spoken, stances, vocabulary = scene.spoken, scene.stances, scene.vocabulary
    for clause in spoken.clauses:
        norms = spoken.norms(clause.start, clause.end)
        at = next(
            (at for at, norm in enumerate(norms) if norm == "left" and set(norms[max(0, at - 2) : at]) & LEAVERS), None
        )
        if at is None or stances[clause.start + at].mode not in {Mode.ASSERTED, Mode.PAST}:
            continue
        inside = [
            term
            for term in spoken.found.terms
            if spoken.clause_of(term.start).index in {clause.index, clause.index - (clause.link == "")}
        ]
        if (
            any(_is_own_flaw(spoken, term, clause.start + at) for term in inside)
            or at + 1 >= len(norms)
            or (norms[at + 1] in POINTING and not determines(spoken, clause.start + at + 1))
            or NOTES & set(norms[at + 1 : at + 3])
            or WHEN & set(norms[at + 1 : at + 2])
        ):
            continue
        groups = {vocabulary.components[one.component].group for one in spoken.named}
        if "handed_over" in groups or norms[at + 1 : at + 2] in (["us"], ["me"]):
            continue
        return [_lying(scene, clause, clause.start + at)]
    return [draft for clause in spoken.clauses for draft in _left_lying(scene, clause)][:1]


HOLDS = frozenset(
    "cabinet closet drawer pantry refrigerator freezer oven dishwasher washer dryer vanity medicine_cabinet".split()
)
"""What things may be left in."""

IN_IT = (
    ["in", "here"],
    ["in", "there"],
    ["in", "it"],
    ["in", "them"],
    ["this", "one"],
    ["that", "one"],
    ["of", "them"],
)


def _left_in(scene: Scene, clause: Clause, at: int) -> str:
    """`in the upper cabinet he has left a bag of flour`, `the cupboards, there's a tin left in this one`: what it was
    left in, else the room."""
    spoken = scene.spoken
    for one in spoken.named_in(clause):
        within = {"in", "inside"} & set(spoken.norms(max(clause.start, one.start - 4), one.start))
        if one.component in HOLDS and within:
            return one.component
    words = spoken.norms(at, clause.end)
    pointed = any(words[here : here + 2] in IN_IT for here in range(len(words))) or words[-1:] == ["inside"]
    topics = [one.component for one in spoken.named if one.end <= at and one.relation == "topic"]
    about = topics[-1] if topics else scene.place.subject
    return about if pointed and about in HOLDS else ROOM_GENERAL


def _lying(scene: Scene, clause: Clause, at: int, component: str | None = None) -> Draft:
    words = scene.spoken.words(clause.start, clause.end)
    return Draft(
        kind="condition", room=scene.room, component=component or _left_in(scene, clause, at), at=at,
        condition="debris", assertion="present", because=(f"left behind: '{words}'",), confidence=0.6,
    )  # fmt: skip


THERE = frozenset("in inside behind under over out outside here there".split())
"""After `left` they tell where a thing was left, and not how many are left."""

TO_GO = frozenset("room rooms thing things minute minutes stop stops bit bits one ones".split())
"""What may still be to be walked: `two rooms left in here`."""

HEAPS = frozenset("pile piles heap heaps stack stacks sack sacks bag bags box boxes bunch load loads bundle".split())
"""Amounts in which things are left: `a pile of old magazines`."""

MEANT_TO_BE = frozenset(
    "spare new extra your yours our ours mine salt matches tools touch keys fobs bulbs filters tiles tile".split()
)
"""What may lie there for good reason: `a box of spare tiles`."""

TAKE_AWAY = frozenset("take took taken collect collected clear cleared haul hauled move moved remove removed".split())

LYING = HEAPS | TAKE_AWAY | {"left", "full"}
"""Without one of these nothing is told of what was left lying."""


def _left_lying(scene: Scene, clause: Clause) -> list[Draft]:
    """`there are four tires left in here`, `a pile of old magazines in the corner`, `the cabinet is full of their
    prescriptions`: no word tells of a flaw, and none of whose it is or what for."""
    spoken, tokens = scene.spoken, scene.spoken.tokens
    norms = spoken.norms(clause.start, clause.end)
    if not LYING & set(norms):
        return []
    told = any(
        _is_own_flaw(spoken, term, term.start)
        for term in spoken.terms("condition", within=clause)
        if tokens[term.start].norm not in {"in", "out", "full", "left"}
    )
    if not scene.is_said(clause.start) or told or MEANT_TO_BE & set(norms) or spoken.has_cue("negation", within=clause):
        return _never_taken(scene, clause)
    opening = spoken.norms(0, 3)
    exists = "there" in opening[:2] or bool({"got", "have", "see", "find"} & {*opening, *norms[:3]})
    rooms = {at for term in spoken.terms("room", "rooms") for at in range(term.start, term.end)}
    for at in range(clause.start + 1, clause.end - 1):
        token, following = tokens[at], tokens[at + 1]
        if token.norm == "left" and token.tag == "VBN" and exists and following.norm in THERE:
            thing = tokens[at - 1].tag in {"NN", "NNS"} and at - 1 not in rooms and tokens[at - 1].norm not in TO_GO
            return [_lying(scene, clause, at)] if thing else []
        of_things = at + 2 < clause.end and following.norm == "of" and _is_a_thing(spoken, at + 2, clause)
        if token.norm in HEAPS and of_things and exists:
            return [_lying(scene, clause, at)]
        holder = next((one for one in spoken.named_in(clause) if one.end <= at and one.relation == "topic"), None)
        if token.norm == "full" and of_things and holder is not None and tokens[at - 1].norm in {"is", "'s", "are"}:
            theirs = tokens[at + 2].norm in {"their", "his", "her", "old", "somebody", "someone", "junk", "stuff"}
            return [_lying(scene, clause, at, holder.component)] if theirs else []
    return []


def _never_taken(scene: Scene, clause: Clause) -> list[Draft]:
    """`there's a shoe rack they didn't take`."""
    spoken, norms = scene.spoken, scene.spoken.norms(clause.start, clause.end)
    denied = "not" in norms or "never" in norms or "nobody" in norms
    if not denied or norms[-1:] == [] or not TAKE_AWAY & set(norms[-2:]) or not LEAVERS | {"nobody"} & set(norms):
        return []
    whole = spoken.norms(spoken.clauses[max(0, clause.index - 1)].start, clause.end)
    exists = whole[:1] == ["there"] and scene.is_said(spoken.clauses[max(0, clause.index - 1)].start)
    return [_lying(scene, clause, clause.start)] if exists and not MEANT_TO_BE & set(whole) else []


def _is_a_thing(spoken: Spoken, start: int, clause: Clause) -> bool:
    """Whether a noun that is no part of a home comes next."""
    for at in range(start, min(clause.end, start + 3)):
        if spoken.tokens[at].tag in {"NN", "NNS"}:
            return not any(one.start <= at < one.end for one in spoken.named)
    return False


def _is_own_flaw(spoken: Spoken, term: Mention, left: int) -> bool:
    """Whether a word tells of a flaw beside what was left; before it, `old`, a flaw of caulk alone, tells of none."""
    flawed = any(not sense.beside or term.start > left for sense in term.of("condition"))
    return flawed and not says_nothing(spoken, term)
