"""Parts that are there because a thing has them: `the closet's got the shelf and the rod`, `oven has both racks`."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from narrate2report.read.clauses import Clause
from narrate2report.read.draft import Draft
from narrate2report.read.negations import negation_before
from narrate2report.read.scene import Scene
from narrate2report.read.spoken import Named, Spoken

COUNTED_ON: Final = frozenset(
    "closet_rod shelf drawer oven_rack refrigerator_shelf crisper_drawer door_bin dish_rack microwave_plate drip_pan"
    " drain_stopper sink_strainer window_screen window_lock window_guard peephole curtain_rod range_knob"
    " anti_tip_bracket hood_filter lint_trap shower_head shower_curtain shower_rod storage_drawer ice_maker"
    " towel_bar paper_holder medicine_cabinet soap_dish door_stop".split()
)
"""What is looked for in a home and may be gone."""

HAVES: Final = frozenset("has have got had with".split())
ARTICLES: Final = frozenset("the a an both all its two three four five six his her their every each".split())
WHOLES: Final = frozenset({"closet", "cabinet", "pantry", "storage", "laundry", "bathroom", "half_bath"})


def find_present_parts(scene: Scene, drafts: Sequence[Draft]) -> list[Draft]:
    """Drafts for the parts that a sentence says a thing has, where it says nothing else of them."""
    spoken, found = scene.spoken, list[Draft]()
    told = {draft.component for draft in drafts if draft.kind == "condition"}
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
        if any(one.relation != "topic" for one in inside) or spoken.has_term("condition", within=later):
            return found if later is not clause else []
        if later is clause and any(
            spoken.tokens[at].is_finite for at in range(had + 1, later.end) if spoken.tokens[at].norm != "got"
        ):
            return []
        found += inside[:1]
        if not inside:
            break
    return found


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
