"""What a component is: material, type, count, colour, age, where it is said of it and not in passing."""

from __future__ import annotations

from narrate2report.read.bearers import ROOM_GENERAL
from narrate2report.read.details import quantity_before
from narrate2report.read.draft import Draft
from narrate2report.read.lookalikes import says_nothing
from narrate2report.read.numbers import whole_number
from narrate2report.read.phrasebook import Mention
from narrate2report.read.scene import Scene
from narrate2report.read.spoken import Spoken
from narrate2report.read.stance import Mode
from narrate2report.records.findings import Attribute

YEARS = frozenset({"year", "years"})
NEVER_DESCRIBED = frozenset({ROOM_GENERAL})


def find_descriptions(scene: Scene) -> list[Draft]:
    """Description drafts of a sentence."""
    drafts: list[Draft] = []
    for draft in (
        *_from_words(scene),
        *_counts(scene),
        *_ages(scene),
        *_from_names(scene),
    ):
        if draft.component not in NEVER_DESCRIBED and not any(draft.same_statement(other) for other in drafts):
            drafts.append(draft)
    return drafts


def _from_words(scene: Scene) -> list[Draft]:
    spoken, bearers, stances, room = scene.spoken, scene.bearers, scene.stances, scene.room
    drafts = []
    flawed_from = min(
        (
            mention.start
            for mention in spoken.found.terms
            if mention.of("condition")
            and not says_nothing(spoken, mention)
            and any(not scene.vocabulary.is_sound(sense.id) for sense in mention.of("condition"))
        ),
        default=len(spoken.tokens),
    )
    named_at = spoken.named_tokens()
    for mention in spoken.found.terms:
        senses = mention.of("material", "colour", "type")
        floor = bool(mention.of("material")) and _is_floor_here(spoken, mention)
        if not senses or (mention.start in named_at and not floor) or stances[mention.start].mode is not Mode.ASSERTED:
            continue
        flawed = mention.start > flawed_from or flawed_from in spoken.clause_of(mention.start)
        if mention.of("condition") or flawed or _in_passing(spoken, mention):
            continue
        if mention.of("material") and _is_floor_here(spoken, mention):
            words = spoken.words(mention.start, mention.end)
            drafts.append(_draft(room, "floor", mention.start, "material", words, "'in here' is said of the floor"))
            continue
        for bearer in bearers.of(mention, adjective=True, noun=False)[:2]:
            fitting = [sense for sense in senses if sense.beside in {"", bearer.component}]
            if fitting and bearer.component and (bearer.direct or bearer.named is not None):
                words = spoken.words(mention.start, mention.end)
                drafts.append(_draft(room, bearer.component, mention.start, fitting[0].role, words, bearer.how))
    return drafts


def _from_names(scene: Scene) -> list[Draft]:
    """`it's an electric stove`: a name that tells the type, where the sentence says what it is."""
    spoken, drafts = scene.spoken, []
    types = {
        word
        for name in ("any", *scene.vocabulary.components)
        for word in scene.vocabulary.descriptions.type.get(name, ())
    }
    for one in spoken.named:
        before = spoken.norms(max(0, one.start - 2), one.start)
        first = spoken.tokens[one.start].norm
        told = len(before) == 2 and before[0] in {"is", "'s"} and before[1] in {"a", "an"}
        if told and one.end - one.start > 1 and first in types and scene.is_said(one.start):
            words = spoken.words(one.start, one.start + 1)
            drafts.append(_draft(scene.room, one.component, one.start, "type", words, "says what it is"))
    return drafts


def _is_floor_here(spoken: Spoken, mention: Mention) -> bool:
    """`it's laminate in here`, `all vinyl throughout`."""
    before = spoken.norms(max(0, mention.start - 3), mention.start)
    after = spoken.norms(mention.end, mention.end + 2)
    return bool({"it", "all"} & set(before)) and (after == ["in", "here"] or after[:1] == ["throughout"])


def _in_passing(spoken: Spoken, mention: Mention) -> bool:
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


def _counts(scene: Scene) -> list[Draft]:
    spoken, stances, room, vocabulary = scene.spoken, scene.stances, scene.room, scene.vocabulary
    drafts = []
    predicates = {
        spoken.clause_of(mention.start).index
        for mention in spoken.found.terms
        if mention.of("condition", "works")
        and not says_nothing(spoken, mention)
        and not any(one.start == mention.start for one in spoken.named)
    }
    for one in spoken.named:
        clause = spoken.clause_of(one.start)
        if one.start in spoken.used or one.component not in vocabulary.descriptions.count_of or stances[one.start].mode is not Mode.ASSERTED:
            continue
        number = quantity_before(spoken, one.start, clause)
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
        drafts.append(_draft(room, one.component, one.start, "count", str(number), "counted"))
    return drafts


def _count_after(spoken: Spoken, end: int) -> int | None:
    """`Outlets: six.`"""
    tokens = spoken.tokens
    if end + 1 >= len(tokens) or tokens[end].text not in {":", ","}:
        return None
    found = whole_number(tokens, end + 1)
    if found is None:
        return None
    clause = spoken.clause_of(end + 1)
    rest = tokens[found[1] : clause.end]
    return found[0] if all(token.tag in {"JJ", "CD"} for token in rest) else None


def _ages(scene: Scene) -> list[Draft]:
    spoken, bearers, stances, room = scene.spoken, scene.bearers, scene.stances, scene.room
    drafts = []
    for at, token in enumerate(spoken.tokens):
        if token.norm not in YEARS or stances[at].mode not in {Mode.ASSERTED, Mode.PAST}:
            continue
        clause = spoken.clause_of(at)
        number = next(
            (n for here in range(clause.start, at) if (n := whole_number(spoken.tokens, here)) and n[1] == at),
            None,
        )
        if number is None and at and spoken.tokens[at - 1].norm in {"a", "one"}:
            number = 1, at
        old = {"old", "ago", "from"} & set(spoken.norms(clause.start, min(len(spoken.tokens), at + 3)))
        if number is None or not old:
            continue
        for bearer in bearers.of(Mention(at, at + 1, ()), adjective=False, noun=False)[:1]:
            if bearer.component:
                drafts.append(_draft(room, bearer.component, at, "age", f"{number[0]} years", bearer.how))
    return drafts


def _draft(room: str, component: str, at: int, name: str, value: str, how: str) -> Draft:
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
