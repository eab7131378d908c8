"""How many of a kind a room has, as a description: `five burners`, `outlets: six`, `windows in here, five`."""

from __future__ import annotations

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.numbers import whole_number
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.modes import Mode
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.details import quantity_before
from narrate2report.records.findings import Attribute

PARTS = frozenset({"slat", "slats", "bolt", "bolts"})
"""Of these there are many to one component."""


def find_counts(scene: Scene) -> list[Draft]:
    """Description drafts for what is counted and not told anything else of."""
    spoken, stances, room, vocabulary = scene.spoken, scene.stances, scene.room, scene.vocabulary
    drafts = []
    predicates = {
        spoken.clause_of(mention.start).index
        for mention in spoken.terms("condition", "works")
        if (mention.of("works") or _is_told(scene, mention))
        and not scene.says_nothing(mention)
        and not any(one.start == mention.start for one in spoken.named)
    } | {spoken.clause_of(cue.start).index for cue in spoken.cues("operates", "fails")}
    for one in spoken.named:
        clause = spoken.clause_of(one.start)
        if (
            one.start in spoken.used
            or one.component not in vocabulary.descriptions.count_of
            or stances[one.start].mode is not Mode.ASSERTED
        ):
            continue
        number = quantity_before(spoken, one.start, clause)
        if spoken.tokens[one.end - 1].norm in PARTS or "pair" in spoken.norms(max(0, one.start - 3), one.start):
            continue
        if number is None:
            number = _count_after(spoken, one.end)
        if (
            number is None
            or number < 2
            or clause.index in predicates
            or (one.relation == "place" and "with" not in spoken.norms(clause.start, one.start))
        ):
            continue
        if spoken.has_cue("negation", within=clause):
            continue
        drafts.append(described(room, one.component, one.start, "count", str(number), "counted"))
    return drafts


def _is_told(scene: Scene, mention: Mention) -> bool:
    near = {"", *(one.component for one in scene.spoken.named)}
    return any(sense.beside in near for sense in mention.of("condition"))


def _count_after(spoken: Spoken, end: int) -> int | None:
    """`Outlets: six.`, `Windows in here, five.`, `plugs, there are four`, `sprinkler heads x2`."""
    tokens = spoken.tokens
    times = tokens[end].norm.removeprefix("x") if end < len(tokens) and tokens[end].norm.startswith("x") else ""
    if times.isdigit():
        return int(times)
    at = end
    while at < len(tokens) and tokens[at].norm in {"in", "here", "this", "room"}:
        at += 1
    if at + 1 >= len(tokens) or tokens[at].text not in {":", ","}:
        return None
    clause = spoken.clause_of(at + 1)
    there = spoken.norms(at + 1, at + 3) in (["there", "are"], ["there", "is"])
    found = whole_number(tokens, at + 3 if there else at + 1) if at + 3 < len(tokens) or not there else None
    if found is None:
        return None
    types = {here for term in spoken.found.terms if term.of("type") for here in range(term.start, term.end)}
    rest = [token for here, token in enumerate(tokens) if found[1] <= here < clause.end and here not in types]
    plain = all(token.tag in {"JJ", "CD"} or token.norm == "doubles" for token in rest)
    return found[0] if there or plain else None


def described(room: str, component: str, at: int, name: str, value: str, how: str) -> Draft:
    """A description draft."""
    attribute = Attribute.model_validate({"name": name, "value": value})
    return Draft(
        kind="description",
        room=room,
        component=component,
        at=at,
        because=(f"'{value}' tells its {name}", how),
        attribute=attribute,
        confidence=0.75,
    )
