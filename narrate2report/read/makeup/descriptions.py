"""What a component is: material, type, count, colour, age, where it is said of it and not in passing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.numbers import whole_number
from narrate2report.read.lexis.phrase_tree import Mention, Sense
from narrate2report.read.makeup.counts import described, find_counts
from narrate2report.read.makeup.qualities import (
    ENERGY,
    in_passing,
    is_a_note,
    is_a_state,
    is_another,
    is_no_quality,
    is_of_another,
    is_told_of_it,
)
from narrate2report.read.meant.negations import negation_before
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.modes import Mode
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.bearers import Bearer
from narrate2report.read.things.whereabouts import ROOM_GENERAL

COLOURLESS = frozenset(
    "caulk air_filter hood_filter lint_trap lock drain outlet smoke_alarm co_alarm trash_bin burner"
    " fire_extinguisher".split()
)
"""Where a colour tells what state a thing is in: white caulk, a gray filter, a green light of a keypad."""

CLOSE = 5
"""Tokens within which a second word for the same quality stands."""

NEWLY = frozenset("installed replaced new fitted put bought built laid old from".split())
"""Words with which `four years ago` tells an age."""


YEARS = frozenset({"year", "years"})
NEVER_DESCRIBED = frozenset({ROOM_GENERAL})


def find_descriptions(scene: Scene) -> list[Draft]:
    """Description drafts of a sentence."""
    drafts: list[Draft] = []
    for draft in (
        *_from_words(scene),
        *find_counts(scene),
        *_ages(scene),
        *_from_names(scene),
    ):
        repeated = any(draft.same_statement(other) or _is_same_breath(scene, draft, other) for other in drafts)
        if draft.component not in NEVER_DESCRIBED and not repeated:
            drafts.append(draft)
    return drafts


def _is_same_breath(scene: Scene, draft: Draft, other: Draft) -> bool:
    """`granite, natural stone`, `two-inch faux wood`: a second word right after the first for the same quality."""
    if draft.component != other.component or draft.attribute is None or other.attribute is None:
        return False
    between = scene.spoken.tokens[min(draft.at, other.at) : max(draft.at, other.at)]
    joined = not any(token.is_finite or token.tag in {"CC", "VBN"} for token in between)
    close = len(between) <= CLOSE if draft.attribute.name != "type" else not any(t.text == "," for t in between)
    return draft.attribute.name == other.attribute.name and joined and close


def _from_words(scene: Scene) -> list[Draft]:
    spoken, bearers, stances, room = scene.spoken, scene.bearers, scene.stances, scene.room
    drafts: list[Draft] = []
    flawed_from = min(
        (mention.start for mention in spoken.terms("condition") if _is_flaw(scene, mention)), default=len(spoken.tokens)
    )
    named_at = spoken.named_tokens()
    for mention in spoken.terms("material", "colour", "type"):
        senses = mention.of("material", "colour", "type")
        floor = bool(mention.of("material")) and _is_floor_here(spoken, mention)
        if (mention.start in named_at and not floor) or stances[mention.start].mode is not Mode.ASSERTED:
            continue
        flawed = mention.start > flawed_from or flawed_from in spoken.clause_of(mention.start)
        refused = negation_before(spoken, spoken.clause_of(mention.start), mention.start)
        if (
            flawed
            or refused
            or (is_a_state(spoken, mention) and not _goes_with(scene, mention, drafts))
            or in_passing(spoken, mention)
            or is_another(spoken, mention)
            or is_no_quality(scene, mention)
            or spoken.norms(mention.start - 1, mention.start) in (["be"], ["been"], ["get"], ["got"])
        ):
            continue
        if mention.of("material") and _is_floor_here(spoken, mention):
            words = spoken.words(mention.start, mention.end)
            drafts.append(described(room, "floor", mention.start, "material", words, "'in here' is said of the floor"))
            continue
        for bearer in bearers.of(mention, adjective=True, noun=False)[:2] or _painted(spoken, mention):
            fitting = [sense for sense in senses if sense.beside in {"", bearer.component}]
            if fitting and fitting[0].role == "colour" and bearer.component in COLOURLESS:
                continue
            if is_of_another(spoken, mention, bearer) or _unpowered(scene, fitting, bearer):
                continue
            sure = (
                bearer.direct
                or bearer.named is not None
                or is_a_note(scene, mention, bearer, fitting)
                or is_told_of_it(scene, mention, bearer, fitting)
            )
            bearer = _of_the_whole(scene, fitting, bearer)
            if fitting and bearer.component and sure:
                words = spoken.words(mention.start, mention.end)
                drafts.append(described(room, bearer.component, mention.start, fitting[0].role, words, bearer.how))
    return drafts


def _goes_with(scene: Scene, mention: Mention, drafts: Sequence[Draft]) -> bool:
    """`floor here is tile, brown`: a bare colour right after a quality of the same thing is no dirt."""
    spoken = scene.spoken
    clause = spoken.clause_of(mention.start)
    bare = mention.start == clause.start and mention.end == clause.end and clause.link == ","
    return bare and any(spoken.clause_of(draft.at).index == clause.index - 1 for draft in drafts)


def _unpowered(scene: Scene, fitting: Sequence[Sense], bearer: Bearer) -> bool:
    """`meter cupboard, gas and electric read`: what does nothing runs on nothing."""
    term = scene.vocabulary.components.get(bearer.component)
    if not fitting or fitting[0].id not in ENERGY or term is None:
        return False
    return term.group == "storage" or not (term.works or term.works_adj)


def _of_the_whole(scene: Scene, fitting: Sequence[Sense], bearer: Bearer) -> Bearer:
    """`stove, it's gas, four burners`: what a burner runs on is told of the stove."""
    lately = [scene.place.subject or "", *(one.component for one in scene.spoken.named)]
    wholes = [one for one in lately if one in {"range", "cooktop"}]
    if bearer.component == "burner" and wholes and fitting and fitting[0].id in ENERGY:
        return replace(bearer, component=wholes[0])
    return bearer


def _is_flaw(scene: Scene, mention: Mention) -> bool:
    """Whether a word names a flaw of something spoken of here."""
    near = {"", scene.place.subject, *(one.component for one in scene.spoken.named)}
    return not scene.says_nothing(mention) and any(
        sense.beside in near and not scene.vocabulary.is_sound(sense.id) for sense in mention.of("condition")
    )


def _painted(spoken: Spoken, mention: Mention) -> tuple[Bearer, ...]:
    """`Dining room. They painted it red.`: with nothing spoken of, it is the walls."""
    before = spoken.norms(max(0, mention.start - 3), mention.start)
    if mention.of("colour") and "painted" in before and {"it", "this", "that"} & set(before):
        return (Bearer("wall", "what people paint", True),)
    return ()


def _from_names(scene: Scene) -> list[Draft]:
    """`it's an electric stove`: a name that tells the type, where the sentence says what it is."""
    spoken, drafts = scene.spoken, []
    types = scene.vocabulary.descriptions.types
    for one in spoken.named:
        start = one.start
        while start and spoken.tokens[start - 1].norm in types:
            start -= 1
        end = start + 1 if start == one.start else one.start
        before = spoken.norms(max(0, start - 2), start)
        told = len(before) == 2 and before[0] in {"is", "'s"} and before[1] in {"a", "an"}
        if told and one.end - start > 1 and spoken.tokens[start].norm in types and scene.is_said(start):
            words = spoken.words(start, end)
            drafts.append(described(scene.room, one.component, start, "type", words, "says what it is"))
    return drafts


def _is_floor_here(spoken: Spoken, mention: Mention) -> bool:
    """`it's laminate in here`, `all vinyl throughout`."""
    before = spoken.norms(max(0, mention.start - 3), mention.start)
    after = spoken.norms(mention.end, mention.end + 2)
    return bool({"it", "all"} & set(before)) and (after == ["in", "here"] or after[:1] == ["throughout"])


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
        flawed = any(
            term.start in clause and _is_flaw(scene, term) and not term.start <= at + 1 < term.end
            for term in spoken.found.terms
        )
        if "ago" in old and not NEWLY & set(spoken.norms(clause.start, clause.end)):
            continue
        if number is None or not old or flawed:
            continue
        for bearer in bearers.of(Mention(at, at + 1), adjective=False, noun=False)[:1]:
            if bearer.component:
                drafts.append(described(room, bearer.component, at, "age", f"{number[0]} years", bearer.how))
    return drafts
