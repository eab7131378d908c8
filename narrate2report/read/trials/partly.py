"""What works in part: `off the wall switch but not off its own button`, `only the top half gets warm`, `one way only`;
and what nothing comes from: `nothing from the left socket`, `nothing happens when I turn the tap`.

Each finder gives the failed checks of one sentence, beside the passed ones that `checks` found.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.numbers import whole_number
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Named, Spoken
from narrate2report.read.things.operated import is_device

CONTRASTING: Final = frozenset({"but", "and", ",", "though", "just", ""})
HOW: Final = frozenset(
    "off on from with at by in up down out under through via both back all for upstairs downstairs always properly"
    " fully well right quite outside inside".split()
)
"""Words after `but not` that tell from where, how or how far a thing does not work."""

NO_CONTRAST: Final = frozenset("tested tried tonight today yet that this a bad much long often sure".split())

PARTS: Final = frozenset(
    "half part side end top bottom left right front back low high slow cold hot way direction speed setting".split()
)
"""Words for some of a thing or of several, or for one of the ways in which it is meant to go."""

SETTINGS: Final = PARTS | frozenset("medium middle boost fast first second third up down open shut".split())
"""What of two results tells that they are not of the same."""

ONLY: Final = frozenset({"only", "just"})
COUNTS: Final = frozenset(
    {("one", "of"), ("two", "of"), ("three", "of"), ("some", "of"), ("the", "one"), ("half", "of")}
)
MADE_SO: Final = frozenset("open opens close closes slide slides tilt lock locks opening opened".split())
"""What not all of several need do: some windows are made fast."""

TAKES: Final = frozenset("takes took take needs need a an second minute minutes seconds".split())
"""`it only took a second`: how soon, and not how much of it."""

SOURCES: Final = (["from"], ["out", "of"], ["off"])
NOTHINGS: Final = (["nothing"], ["not", "a", "thing"], ["no", "joy"], ["no", "response"], ["nada"], ["zilch"], ["nowt"])


def find_partly(scene: Scene, checks: Sequence[Draft]) -> list[Draft]:
    """The failed checks that go with the passed `checks` of a sentence, and those of what nothing comes from."""
    found: dict[str, Draft] = {}
    for draft in (
        *_not_everywhere(scene, checks),
        *_only_some(scene, checks),
        *_too_few(scene),
        *_nothing_from(scene),
    ):
        known = any(one.component == draft.component and one.outcome != "works" for one in checks)
        if not known:
            found.setdefault(draft.component, draft)
    return list(found.values())


def _not_everywhere(scene: Scene, checks: Sequence[Draft]) -> list[Draft]:
    """`works on the battery but not on the mains`, `goes down but not up`: a clause that denies the rest of it."""
    spoken, drafts = scene.spoken, []
    for clause in spoken.clauses[1:]:
        norms = [norm for norm in spoken.norms(clause.start, clause.end) if norm not in {"but", "and", "though"}]
        if clause.link not in CONTRASTING or norms[:1] != ["not"] or not set(norms[1:2]) & HOW:
            continue
        bare = not any(spoken.tokens[at].is_finite for at in range(clause.start, clause.end))
        before = spoken.clauses[clause.index - 1]
        worked = [one for one in checks if one.outcome == "works" and one.at in before]
        if worked and bare and not NO_CONTRAST & set(norms[1:]) and scene.is_said(clause.start):
            drafts.append(_fails(scene, worked[-1].component, clause, "not in every way"))
    return drafts


def _only_some(scene: Scene, checks: Sequence[Draft]) -> list[Draft]:
    """`only the top half gets warm`, `spins one way only`: some of it, or one of the ways it should go."""
    spoken, drafts = scene.spoken, []
    for draft in checks:
        if draft.outcome != "works":
            continue
        clause = spoken.clause_of(draft.at)
        norms = spoken.norms(clause.start, clause.end)
        opens = norms[: draft.at - clause.start]
        at = next((at for at, norm in enumerate(opens) if norm in ONLY), None)
        few = at is not None and _is_some(opens[at + 1 : at + 4]) and not TAKES & set(opens[at + 1 :])
        ends = norms[-1:] == ["only"] and bool(PARTS & set(norms[draft.at - clause.start + 1 : -1]))
        if few or ends:
            drafts.append(_fails(scene, draft.component, clause, "only some of it, or only in one way"))
    return drafts


def _is_some(norms: Sequence[str]) -> bool:
    """`the top half`, `one of the rings`; `only the middle two open` may as well be how they are made."""
    return bool(PARTS & set(norms)) or tuple(norms[:2]) in COUNTS


def _too_few(scene: Scene) -> list[Draft]:
    """`only three are lighting`, `only one of them works`: the others do not; of windows, some are made to open."""
    spoken, drafts = scene.spoken, []
    for mention in (*spoken.terms("works"), *spoken.cues("operates")):
        clause = spoken.clause_of(mention.start)
        opens = spoken.norms(clause.start, mention.start)
        at = next((at for at, norm in enumerate(opens) if norm in ONLY), None)
        number = whole_number(spoken.tokens, clause.start + at + 1) if at is not None else None
        if (
            number is None
            or MADE_SO & set(spoken.norms(mention.start, mention.end))
            or not scene.is_said(mention.start)
        ):
            continue
        if not set(spoken.norms(number[1], mention.start)) <= {"of", "them", "the", "are", "is", "actually", "ones"}:
            continue
        carried = [one.component for one in scene.bearers.subjects_of(clause)]
        focus = [scene.place.subject] if scene.place.subject else []
        found = [one for one in carried or focus if is_device(one, scene.vocabulary)]
        drafts += [_fails(scene, found[0], clause, "the others do not")] if found else []
    return drafts


def of_other_settings(spoken: Spoken, one: int, other: int) -> bool:
    """`runs on low, does nothing on high`: whether two results are told of different settings or ways."""
    first, second = (
        SETTINGS & set(spoken.norms(spoken.clause_of(at).start, spoken.clause_of(at).end)) for at in (one, other)
    )
    return bool(first) and bool(second) and first.isdisjoint(second)


def moved_in_vain(scene: Scene, cue: Mention) -> str | None:
    """The component of `nothing happens when I turn the hot tap`, told at `cue`."""
    spoken = scene.spoken
    happens = spoken.norms(cue.start, cue.start + 2) in (["nothing", "happens"], ["nothing", "happened"])
    named = _moved(spoken, spoken.clause_of(cue.start), happens=happens)
    return named[0].component if named and is_device(named[0].component, scene.vocabulary) else None


def _nothing_from(scene: Scene) -> list[Draft]:
    """`nothing from the left socket`, `nothing happens when I turn the tap`."""
    spoken, drafts = scene.spoken, []
    for clause in spoken.clauses:
        norms = spoken.norms(clause.start, clause.end)
        source = _after_nothing(norms)
        if source is None or not scene.is_said(clause.start) or spoken.has_cue("search"):
            continue
        inside = [one for one in spoken.named_in(clause) if _comes_next(spoken, clause.start + source, one)]
        named = inside or _moved(spoken, clause, happens=norms[1:2] in (["happens"], ["happened"]))
        if named and is_device(named[0].component, scene.vocabulary):
            drafts.append(_fails(scene, named[0].component, clause, "nothing comes of it"))
    return drafts


def _after_nothing(norms: Sequence[str]) -> int | None:
    """Where what it comes from begins, in a clause that opens with nothing."""
    for words in NOTHINGS:
        if list(norms[: len(words)]) != words:
            continue
        rest = list(norms[len(words) :])
        if rest[:1] in (["happens"], ["happened"], ["comes"]) and rest[1:2] in ([], ["out"], ["at"]):
            return len(norms)
        if rest[:2] in (["at", "all"], ["whatever", "from"]):
            rest = rest[2 if rest[0] == "at" else 1 :]
        if any(rest[: len(source)] == source for source in SOURCES):
            return len(norms) - len(rest) + 1
    return None


def _comes_next(spoken: Spoken, at: int, one: Named) -> bool:
    """`from the left-hand socket`; what stands in `from the last tenant in the drawer` gave nothing to a tenant."""
    between = spoken.tokens[at : one.start]
    return one.start >= at and not any(token.tag in {"IN", "NNS", "NNP"} for token in between)


def _moved(spoken: Spoken, clause: Clause, *, happens: bool) -> list[Named]:
    """`... when I turn the hot tap`: what was worked and did nothing."""
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    if not happens or not following or following[0].link not in {"when", "if", "whenever"}:
        return []
    return list(spoken.named_in(following[0]))


def _fails(scene: Scene, component: str, clause: Clause, why: str) -> Draft:
    return Draft(
        kind="check",
        room=scene.room,
        component=component,
        at=max(clause.start, clause.end - 1),
        outcome="fails",
        because=(f"'{scene.spoken.words(clause.start, clause.end)}': {why}",),
        confidence=0.65,
    )
