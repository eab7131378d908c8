"""Parts that are there because a thing has them: `the closet's got the shelf and the rod`, `oven has both racks`."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.meant.negations import negation_before
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Named, Spoken

COUNTED_ON: Final = frozenset(
    "closet_rod shelf drawer oven_rack refrigerator_shelf crisper_drawer door_bin dish_rack microwave_plate drip_pan"
    " drain_stopper sink_strainer window_screen window_lock window_guard peephole curtain_rod range_knob"
    " anti_tip_bracket hood_filter lint_trap shower_head shower_curtain shower_rod storage_drawer ice_maker"
    " towel_bar paper_holder medicine_cabinet soap_dish door_stop trash_bin fire_extinguisher".split()
)
"""What is looked for in a home and may be gone."""

HAVES: Final = frozenset("has have got had with".split())
ARTICLES: Final = frozenset("the a an both all its two three four five six his her their every each".split())
WHOLES: Final = frozenset({"closet", "cabinet", "pantry", "storage", "laundry", "bathroom", "half_bath"})


IN_PLACE: Final = frozenset(
    "up,there,here,on,in,in it,in there,on there,on it,in here,up there,fitted,attached,mounted,still there,still in"
    ",still on,still in there,all there,all in,all on,both there,both in,both on,both up".split(",")
)
"""What is said of a part to tell that it is where it belongs: `towel bar's up`."""

MOVING: Final = frozenset({"shower_head", "ice_maker", "window_lock"})
"""Of these, `on` and `up` tell of a trial."""

STANDING: Final = frozenset({"trash_bin", "fire_extinguisher"})
"""These are where they belong only `here` or `there`: a bin may be out, and its lid on."""

BEING: Final = frozenset("is 's are was were".split())
COMPLETE: Final = frozenset({"all", "both", "every"})
"""Before a part that is only listed they say that it is there: `fridge, all its shelves, both drawers`."""


def find_present_parts(scene: Scene, drafts: Sequence[Draft]) -> list[Draft]:
    """Drafts for parts that a sentence says are had or in place, where it says nothing else of them."""
    told = {draft.component for draft in drafts if draft.kind == "condition"}
    found = _had(scene, told)
    for one in scene.spoken.named:
        placed = _placed(scene, one) or _listed_whole(scene, one)
        if placed and one.component not in told:
            told.add(one.component)
            found.append(Draft.of_named(one, scene.room, "present", placed, confidence=0.65))
    return found


def _placed(scene: Scene, one: Named) -> str | None:
    """`the anti-tip's on there`, `the plate's still in the microwave`: words that say that a part is in its place."""
    spoken, clause = scene.spoken, scene.spoken.clause_of(one.start)
    after = spoken.norms(one.end, clause.end)
    lead = spoken.tokens[clause.start : one.start]
    if one.relation != "topic" or any(token.tag in {"IN", "NN", "NNS"} or token.is_finite for token in lead):
        return None
    if (
        one.component not in COUNTED_ON - MOVING
        or after[:1] == []
        or after[0] not in BEING
        or not scene.is_said(one.start)
    ):
        return None
    words = " ".join(after[1:])
    owners = {other.component for other in spoken.named_in(clause) if other.start > one.end}
    owned = bool(owners & set(scene.vocabulary.components[one.component].part_of))
    inside = {"in", "inside", "on"} & set(after[1:3]) and owned and len(after) <= len("still in the its".split()) + 2
    if words not in IN_PLACE and not inside:
        return None
    if one.component in STANDING and not {"here", "there"} & set(after):
        return None
    if negation_before(spoken, clause, clause.end - 1) or _tells_otherwise(spoken, clause, one.component):
        return None
    return f"'{spoken.words(one.start, clause.end)}' tells that it is there"


def _tells_otherwise(spoken: Spoken, clause: Clause, component: str) -> bool:
    """Whether a clause tells something else of a part than where it is."""
    return any(
        sense.beside in {"", component} and sense.id != "present"
        for term in spoken.terms("condition", within=clause)
        for sense in term.of("condition")
    )


def _listed_whole(scene: Scene, one: Named) -> str | None:
    """`fridge, all its shelves, both drawers there`: parts that are only counted off after what has them."""
    spoken, clause = scene.spoken, scene.spoken.clause_of(one.start)
    lead = spoken.norms(clause.start, one.start)
    if one.component not in COUNTED_ON or one.end != clause.end or not lead or not scene.is_said(one.start):
        return None
    if not set(lead) <= COMPLETE | {"its", "the", "of", "and", "two", "three", "four"} or not COMPLETE & set(lead):
        return None
    earlier = {other.component for other in spoken.named if other.start < clause.start} | {scene.place.subject or ""}
    before = spoken.clauses[: clause.index]
    asks = spoken.ends_with_question() or any(spoken.has_cue("negation", within=other) for other in before[-1:])
    follows = spoken.clauses[clause.index + 1 : clause.index + 2]
    there = bool(follows) and " ".join(spoken.norms(follows[0].start, follows[0].end)) in IN_PLACE
    goes_on = (
        bool(follows)
        and not there
        and (follows[0].link == "" or spoken.norms(follows[0].start, follows[0].start + 1) == ["are"])
    )
    if asks or goes_on or not earlier & set(scene.vocabulary.components[one.component].part_of):
        return None
    return f"'{spoken.words(clause.start, one.end)}' counts them off"


def _had(scene: Scene, told: set[str]) -> list[Draft]:
    """The parts that a sentence says a thing has; adds them to what is `told`."""
    spoken, found = scene.spoken, list[Draft]()
    for clause in spoken.clauses:
        had = _having(spoken, clause)
        if had is None or not scene.is_said(had):
            continue
        for one in _objects(spoken, clause, had):
            if one.component not in COUNTED_ON or one.component in told or not _belongs(scene, one, had):
                continue
            told.add(one.component)
            because = f"'{spoken.words(had, one.end)}' tells that it is there"
            found.append(Draft.of_named(one, scene.room, "present", because, confidence=0.65))
    return found


def _having(spoken: Spoken, clause: Clause) -> int | None:
    """Where a clause says `has`, with nothing denied, wanted or done: `has been`, `has to`, `I have`."""
    for at in range(clause.start, clause.end - 1):
        if spoken.tokens[at].norm not in HAVES or negation_before(spoken, clause, at + 1):
            continue
        before = spoken.norms(max(clause.start, at - 1), at)
        if before and before[0] in {"i", "we", "you", "he", "she", "to", "must", "been", "not"}:
            return None
        after = spoken.tokens[at + 1]
        if after.norm == "got" and at + 2 < clause.end:
            at, after = at + 1, spoken.tokens[at + 2]
        return at if after.norm in ARTICLES or after.tag in {"DT", "CD"} else None
    return None


def _objects(spoken: Spoken, clause: Clause, had: int) -> list[Named]:
    """What is had: the plain nouns of the clause, and of the list that goes on from it."""
    found: list[Named] = []
    for later in spoken.clauses[clause.index :]:
        if later is not clause and (later.link not in {"and", ",", "plus"} or _tells_more(spoken, later)):
            break
        inside = [one for one in spoken.named_in(later) if one.start > had]
        if any(not _is_had(spoken, one, had) for one in inside) or spoken.has_term("condition", within=later):
            return found if later is not clause else []
        if later is clause and any(
            spoken.tokens[at].is_finite for at in range(had + 1, later.end) if spoken.tokens[at].norm != "got"
        ):
            return []
        found += inside[:1]
        if not inside:
            break
    return found


def _is_had(spoken: Spoken, one: Named, had: int) -> bool:
    """Whether a part is what is had, and not only where something is: `all` leads on to it, `on` does not."""
    between = spoken.tokens[had + 1 : one.start]
    if spoken.tokens[had].norm == "with" and spoken.norms(had - 1, had)[:1] not in (["comes"], ["came"], ["come"]):
        return one.relation == "topic"
    return one.relation == "topic" or not any(token.tag == "IN" for token in between)


def _tells_more(spoken: Spoken, clause: Clause) -> bool:
    """Whether a clause has a verb of its own, or trails off into a place."""
    tokens = spoken.tokens[clause.start : clause.end]
    return any(token.is_finite or token.tag == "IN" for token in tokens)


def _belongs(scene: Scene, one: Named, had: int) -> bool:
    """Whether the part is one of what was spoken of: named before, in focus, or the closet that was walked into."""
    owners = set(scene.vocabulary.components[one.component].part_of)
    named = {other.component for other in scene.spoken.named if other.start < had}
    room = {scene.room.partition(".")[0]} & WHOLES
    return bool(owners & (named | {scene.place.subject or ""})) or bool(room)
