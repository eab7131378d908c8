"""Keys, fobs and papers given to the resident or returned by them."""

from __future__ import annotations

from narrate2report.read.clauses import Clause
from narrate2report.read.denial import negation_before
from narrate2report.read.details import quantity_before
from narrate2report.read.draft import Draft
from narrate2report.read.numbers import whole_number
from narrate2report.read.scene import Scene
from narrate2report.read.spoken import Named, Spoken
from narrate2report.read.stance import Mode

LENT = frozenset({"air_filter", "light_bulb", "curtain"})
"""Components of other groups that are handed over when the speaker says so."""

KEPT_OUT = frozenset({Mode.HYPOTHETICAL, Mode.QUESTION, Mode.QUOTED, Mode.ELSEWHERE, Mode.POLICY, Mode.SEARCH})


def find_handovers(scene: Scene) -> list[Draft]:
    """Handover drafts, and `missing` for what was not returned."""
    spoken, stances, room, vocabulary = scene.spoken, scene.stances, scene.room, scene.vocabulary
    drafts: list[Draft] = []
    flaw_clauses = {
        spoken.clause_of(mention.start).index
        for mention in spoken.found.terms
        if mention.of("condition", "works") and mention.start not in spoken.used
    }
    for one in spoken.named:
        group = vocabulary.components[one.component].group
        if group != "handed_over" and one.component not in LENT:
            continue
        clause = spoken.clause_of(one.start)
        if stances[one.start].mode in KEPT_OUT or one.relation == "place":
            continue
        quantity = _quantity(spoken, one, clause)
        gives = spoken.has_cue("giving")
        returns = spoken.has_cue("returning")
        if negation_before(spoken, clause, one.start):
            if returns and group == "handed_over":
                drafts.append(_missing(spoken, one, room, quantity))
            continue
        if _not_back(spoken, one, clause):
            drafts.append(_missing(spoken, one, room, quantity))
        elif clause.index in flaw_clauses:
            continue
        elif one.component in LENT:
            if quantity is not None and any(
                "leaving you" in spoken.words(c.start, c.end).lower()
                or "giving you" in spoken.words(c.start, c.end).lower()
                or "leave you" in spoken.words(c.start, c.end).lower()
                for c in spoken.cues("giving")
            ):
                drafts.append(_handed(spoken, one, room, quantity, returned=False))
        elif quantity is not None or gives or returns or one.component == "manual":
            if stances[one.start].mode is Mode.INSTRUCTION and quantity is None:
                continue
            drafts.append(_handed(spoken, one, room, quantity, returned=returns and not _gives_only(spoken)))
    return [*_without_heading(drafts), *_one_for(scene)]


def _without_heading(drafts: list[Draft]) -> list[Draft]:
    """`the keys came back: two door keys, one fob`: keys without a number announce the counted ones."""
    if not any(draft.kind == "handover" and draft.quantity is not None for draft in drafts):
        return drafts
    return [
        draft
        for draft in drafts
        if not (draft.kind == "handover" and draft.component == "key" and draft.quantity is None)
    ]


ELLIPSIS = {
    "mailbox": "mailbox_key",
    "garage_door": "key",
    "gate": "key",
    "door": "key",
    "sliding_door": "key",
    "closet": "key",
}
"""What `one for the ...` is after keys have been named."""


def _one_for(scene: Scene) -> list[Draft]:
    """`two front door keys, one for the post box`."""
    spoken = scene.spoken
    first_key = next((one.start for one in spoken.named if one.component == "key"), None)
    if first_key is None:
        return _two_for(scene) if scene.place.subject == "key" else []
    drafts = []
    for one in spoken.named:
        before = spoken.norms(max(0, one.start - 3), one.start)
        if one.start < first_key or one.component not in ELLIPSIS or "for" not in before:
            continue
        at = one.start - len(before) + before.index("for") - 1
        number = whole_number(spoken.tokens, at) if at >= 0 else None
        if number is not None and scene.mode(one.start) not in KEPT_OUT:
            meant = Named(ELLIPSIS[one.component], one.start, one.end, "topic")
            drafts.append(_handed(spoken, meant, scene.room, number[0], returned=spoken.has_cue("returning")))
    return drafts


def _two_for(scene: Scene) -> list[Draft]:
    """`Keys, then. Two for the front, one for the back.`: keys were named in the sentence before."""
    spoken, drafts = scene.spoken, []
    for clause in spoken.clauses:
        start = clause.start + (spoken.tokens[clause.start].norm == "and")
        number = whole_number(spoken.tokens, start) if start < clause.end else None
        if number is None or spoken.norms(number[1], number[1] + 1) != ["for"]:
            continue
        inside = [one.component for one in spoken.named_in(clause)]
        meant = Named(ELLIPSIS.get(inside[0], "key") if inside else "key", start, clause.end, "topic")
        drafts.append(_handed(spoken, meant, scene.room, number[0], returned=spoken.has_cue("returning")))
    return drafts


def _gives_only(spoken: Spoken) -> bool:
    return any(
        cue
        for cue in spoken.cues("giving")
        if spoken.words(cue.start, cue.end).lower() in {"here's", "here is", "you've got", "you get"}
    )


def _quantity(spoken: Spoken, one: Named, clause: Clause) -> int | None:
    """`two front door keys`; also `keys: two` and `keys returned, two`."""
    before = quantity_before(spoken, one.start, clause)
    if before is not None:
        return before
    if spoken.norms(one.end, one.end + 1) == ["("]:
        bracketed = whole_number(spoken.tokens, one.end + 1)
        if bracketed is not None:
            return bracketed[0]
    if "both" in spoken.norms(max(clause.start, one.start - 3), one.start):
        return 2
    for at in range(one.end, clause.end):
        number = whole_number(spoken.tokens, at)
        if number is not None and number[1] == clause.end:
            return number[0]
    for later in spoken.clauses[clause.index + 1 : clause.index + 2]:
        number = whole_number(spoken.tokens, later.start)
        if later.link in {":", ","} and number is not None and number[1] == later.end:
            return number[0]
    determiner = spoken.norms(max(clause.start, one.start - 3), one.start)
    return 1 if {"a", "an", "your"} & set(determiner) and spoken.tokens[one.end - 1].tag not in {"NNS"} else None


def _not_back(spoken: Spoken, one: Named, clause: Clause) -> bool:
    """`remote: not returned`, `the mailbox key is ... you lost it`."""
    for later in spoken.clauses[clause.index : clause.index + 3]:
        if later.index > clause.index and any(other.start in later for other in spoken.named):
            return False
        words = spoken.norms(max(one.end, later.start), later.end)
        if "lost" in words or ("not" in words and {"returned", "back", "here", "handed"} & set(words)):
            return True
    return False


def _handed(spoken: Spoken, one: Named, room: str, quantity: int | None, *, returned: bool) -> Draft:
    words = spoken.words(one.start, one.end)
    return Draft(
        kind="handover",
        room=room,
        component=one.component,
        at=one.start,
        because=(f"'{words}' {'returned by' if returned else 'given to'} the resident",),
        quantity=quantity,
        direction="returned" if returned else "given",
        confidence=0.8 if quantity is not None else 0.6,
    )


def _missing(spoken: Spoken, one: Named, room: str, quantity: int | None) -> Draft:
    return Draft(
        kind="condition",
        room=room,
        component=one.component,
        at=one.start,
        because=(f"'{spoken.words(one.start, one.end)}' was not returned",),
        condition="missing",
        assertion="present",
        quantity=quantity,
        confidence=0.75,
    )
