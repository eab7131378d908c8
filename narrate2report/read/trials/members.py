"""Several of a kind tried one after the other: `this one good, this one good, the big one is not coming`."""

from __future__ import annotations

from itertools import pairwise

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.operated import is_device, is_operated
from narrate2report.records.number_words import ONES

FEWEST = 2
"""How many members are told off before they are taken for a row of trials."""

POINTED = frozenset({"this", "that"})
FINE = frozenset("good ok okay fine yes yep works work on lit red hot great perfect".split())
BOTH_OF_THEM = frozenset("and but so both they of them are do did".split())
"""Words before what the two that were named do."""

BEFORE_COUNT = frozenset("there 's is and that okay so".split())
"""`there's one, two, three, and four`."""

DONE = frozenset("lit tried tested ran flushed".split())
THE_LOT = ("the lot", "them all", "all of them", "all of 'em", "every one", "each one", "both of them")
LATELY = ("this morning", "earlier", "just now", "today", "before you", "yesterday", "on the way in")
LIT = {"range": "burner", "cooktop": "burner"}
"""Of what has several, the one that is lit."""

ONE_OF_THEM = frozenset(
    "one first second third fourth fifth last other left right back front rear middle big large small except".split()
)
"""Words that pick one of several out."""


def find_members(scene: Scene) -> list[Draft]:
    """The check of a row of things that were told off one by one, if any of them did."""
    spoken = scene.spoken
    if listed := _listed_after(scene) or _both_of_them(scene):
        return listed
    at = _pointed_out(spoken)
    at = _counted_off(spoken) if at is None else at
    at = _called_off(spoken) if at is None else at
    at = _all_done(spoken) if at is None else at
    if at is None or not scene.is_said(at):
        return []
    component = _kind(scene, at)
    if component is None:
        return []
    return [
        Draft(
            kind="check",
            room=scene.room,
            component=component,
            at=at,
            outcome="works",
            because=("tried one by one, or all of them",),
            confidence=0.7,
        )
    ]


def _listed_after(scene: Scene) -> list[Draft]:
    """`everything's working, the oven, the hob, the extractor`: clauses that only name what works."""
    spoken = scene.spoken
    first = spoken.clauses[0] if spoken.clauses else None
    opens = spoken.norms(0, 1) in (["everything"], ["all"], ["both"])
    if first is None or not opens or spoken.named_in(first) or not scene.is_said(0) or spoken.has_cue("negation"):
        return []
    at = next((cue.start for cue in spoken.cues("operates", within=first)), None)
    rest = spoken.clauses[1:]
    bare = [set(spoken.norms(one.start, one.end)) for one in rest]
    named = [one for clause in rest for one in spoken.named_in(clause) if is_device(one.component, scene.vocabulary)]
    merely = all(
        not any(spoken.tokens[at].is_finite for at in range(clause.start, clause.end))
        and not spoken.has_term("condition", within=clause)
        for clause in rest
    )
    if at is None or len(named) < FEWEST or len(bare) < FEWEST or not merely:
        return []
    return [
        Draft(
            kind="check",
            room=scene.room,
            component=one.component,
            at=one.start,
            outcome="works",
            because=(f"listed after '{spoken.words(first.start, first.end)}'",),
            confidence=0.7,
        )
        for one in named
    ]


def _both_of_them(scene: Scene) -> list[Draft]:
    """`the fan comes on with the light, both of them are working`: of the two devices named before."""
    spoken = scene.spoken
    for clause in spoken.clauses[1:]:
        norms = spoken.norms(clause.start, clause.end)
        cue = next(iter(spoken.cues("operates", within=clause)), None)
        merely = cue is not None and set(spoken.norms(clause.start, cue.start)) <= BOTH_OF_THEM
        named_just_before = clause.link != "" and bool(spoken.named_in(spoken.clauses[clause.index - 1]))
        if (
            cue is None
            or not merely
            or not named_just_before
            or "both" not in norms
            or spoken.named_in(clause)
            or not scene.is_said(cue.start)
        ):
            continue
        before = [one for one in spoken.named if one.end <= clause.start and is_device(one.component, scene.vocabulary)]
        told = {one.component: one for one in before}
        if len(told) != len(("one", "other")) or spoken.has_cue("negation", within=clause):
            continue
        return [
            Draft(
                kind="check",
                room=scene.room,
                component=component,
                at=one.start,
                outcome="works",
                because=(f"'{spoken.words(clause.start, clause.end)}' is said of the two named",),
                confidence=0.7,
            )
            for component, one in told.items()
        ]
    return []


def picks_one(spoken: Spoken, at: int) -> bool:
    """`and the back right, nothing`: whether what is said at token `at` is said of one of several."""
    clause = spoken.clause_of(at)
    lead = spoken.clauses[max(0, clause.index - 1)]
    return bool(ONE_OF_THEM & set(spoken.norms(lead.start, clause.end)))


def _pointed_out(spoken: Spoken) -> int | None:
    """`this one good this one good`, `that one, that one`: where the first of them stands."""
    norms = spoken.norms()
    rows = [at for at in range(len(norms) - 1) if norms[at] in POINTED and norms[at + 1] == "one"]
    good = []
    for at in rows:
        end = at + 2 + (norms[at + 2 : at + 3] in (["is"], ["'s"]))
        if end >= len(norms) or norms[end] in FINE | {",", "and"}:
            good.append((at, min(end + 1, len(norms))))
    if len(good) < FEWEST:
        return None
    spoken.used.update(here for start, end in good for here in range(start, end))
    return good[0][0]


def counts_only(spoken: Spoken) -> bool:
    """`One, two, three, and four.`: a sentence of nothing but counting."""
    told = {norm for token, norm in zip(spoken.tokens, spoken.norms(), strict=True) if token.is_word}
    return _counted(spoken) is not None and told <= BEFORE_COUNT | set(ONES)


def _counted_off(spoken: Spoken) -> int | None:
    """`let me get them all going ... one, two, three`: where the counting begins."""
    return _counted(spoken) if spoken.has_cue("trial") else None


def _counted(spoken: Spoken) -> int | None:
    """Where a count from one begins, in clauses of a number each."""
    if {"count", "counting", "counted"} & set(spoken.norms()):
        return None
    numbers = [
        (ONES[said[-1]], clause.start)
        for clause in spoken.clauses
        if (said := spoken.norms(clause.start, clause.end)) and said[-1] in ONES and set(said[:-1]) <= BEFORE_COUNT
    ]
    values = [value for value, _ in numbers]
    return numbers[0][1] if len(values) >= FEWEST and values == list(range(1, len(values) + 1)) else None


def _called_off(spoken: Spoken) -> int | None:
    """`I'm turning each one on, red, red, red`: the same answer for one after the other."""
    if not spoken.has_cue("trial"):
        return None
    called = [
        (set(spoken.norms(clause.start, clause.end)) - {"and"}, clause.start)
        for clause in spoken.clauses
        if clause.end - clause.start <= FEWEST
    ]
    for (words, at), (others, _) in pairwise(called):
        if words == others and len(words) == 1 and words <= FINE:
            return at
    return None


def _all_done(spoken: Spoken) -> int | None:
    """`I lit the lot`, `I tested them this morning`: a trial told as done, with nothing said against it."""
    norms = spoken.norms()
    for at, norm in enumerate(norms[:-1]):
        if norm == "got" and "going" in norms[at + 1 : at + 7] and {"all", "both", "every"} & set(norms[at : at + 4]):
            return at
        if norm not in DONE or not {"i", "we", "were"} & set(norms[max(0, at - 3) : at]):
            continue
        after = " ".join(norms[at + 1 : at + 6])
        lately = norm == "tested" and any(word in after for word in LATELY)
        if (lately or after.startswith(THE_LOT)) and not {"not", "if", "nothing"} & set(norms):
            return at
    return None


def _kind(scene: Scene, at: int) -> str | None:
    named = [one.component for one in scene.spoken.named if one.start < at and one.relation == "topic"]
    for component in (*reversed(named), scene.place.subject):
        if component and is_operated(component, scene.vocabulary):
            return LIT.get(component, component)
    return None
