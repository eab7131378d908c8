"""The one of several that did otherwise: `all work except the back left`, `three of them going, one is fused`."""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.numbers import whole_number
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.operated import is_device, is_operated
from narrate2report.read.trials.members import LIT, ONE_OF_THEM
from narrate2report.records.findings import Outcome

ALL = frozenset("all every each both everything".split())
PICKED = ONE_OF_THEM | frozenset("this that two three those these".split())
EXCEPTING = frozenset({"except", "but", "apart", "bar", "save", "besides", "barring", "excepting", "excluding"})
UNTRIED = frozenset("prove try test reach check get tried tested proved".split())
"""`except the one behind the sofa, that I didn't try`."""

TRIED = frozenset("tested tried checked".split())
EXCEPTED: dict[Outcome, str] = {"fails": "excepted from what works", "not_tested": "excepted from what was tried"}
TURNED: dict[Outcome | None, Outcome] = {"works": "fails", "fails": "works"}
LONGEST = 8
"""Words of a sentence that only names an exception: `All except the back left one.`"""

ALIKE = frozenset("same ditto likewise".split())
SAME_AS = frozenset("the thing story here there again exact and is it 's just as well with that this one".split())
"""Words beside `same` that say no more than it does."""

GOES = frozenset("going working glowing lit on running burning heating hot red alive live".split())
DEAD = frozenset("fused dead out gone blown off burned burnt".split())


def find_exceptions(scene: Scene, drafts: Sequence[Draft]) -> list[Draft]:
    """What the drafts of a sentence leave out: the one excepted, or the share of several that works."""
    found = [*_excepted(scene, drafts), *_named_apart(scene), *_shares(scene), *_out_of(scene, drafts)]
    known = {(draft.component, draft.outcome) for draft in drafts if draft.kind == "check"}
    return [draft for draft in found if (draft.component, draft.outcome) not in known]


def is_excepted_later(spoken: Spoken, at: int) -> bool:
    """`all work except that one, I didn't try it`: whether what follows token `at` is said of one excepted."""
    return any(clause.link in EXCEPTING and clause.start > at for clause in spoken.clauses)


def _excepted(scene: Scene, drafts: Sequence[Draft]) -> list[Draft]:
    """`the outlets all work except the one behind the sofa`."""
    spoken = scene.spoken
    for draft in drafts:
        if draft.kind != "check" or draft.outcome != "works":
            continue
        clause = spoken.clause_of(draft.at)
        heads = spoken.norms(spoken.clauses[max(0, clause.index - 1)].start, clause.end)
        following = spoken.clauses[clause.index + 1 : clause.index + 3]
        if following and set(spoken.norms(following[0].start, following[0].end)) <= ALL | {"of", "them"}:
            heads, following = [*heads, "all"], following[1:]  # they come on, all except the back left
        if not ALL & set(heads) or not following or following[0].link not in EXCEPTING:
            continue
        if not _picks(spoken, following[0], draft.component) or any(
            one.component == draft.component for one in drafts if one is not draft
        ):
            continue
        untried = "not" in spoken.norms(following[0].start) and bool(UNTRIED & set(spoken.norms(following[0].start)))
        outcome: Outcome = "not_tested" if untried else "fails"
        return [_told(scene, draft.component, following[0].start, outcome, "excepted from what works")]
    return []


def told_apart(scene: Scene, before: str | None, outcome: Outcome | None) -> list[Draft]:
    """`the burners light. All but one.`: a sentence that only leaves some out of what was just said to work or fail."""
    spoken = scene.spoken
    words = [token.norm for token in spoken.tokens if token.is_word]
    if before is None or outcome not in TURNED or len(words) > LONGEST or words[:1] == [] or words[0] not in ALL:
        return []
    at = next((here for here, token in enumerate(spoken.tokens) if token.norm in EXCEPTING), None)
    if (
        at is None
        or any(one.component != before for one in spoken.named)
        or spoken.has_term("condition")
        or not scene.is_said(at)
    ):
        return []
    if not PICKED & set(words) and whole_number(spoken.tokens, at + 1) is None:
        return []
    if any(token.is_finite and token.norm not in EXCEPTING for token in spoken.tokens):
        return []
    return [_told(scene, before, at, TURNED[outcome], "excepted from what was said of all")]


def told_alike(scene: Scene, before: str | None, outcome: Outcome | None) -> list[Draft]:
    """`the smoke alarm works. Carbon monoxide alarm, same thing.`: another that did as the one just before it."""
    spoken = scene.spoken
    at = next((clause for clause in spoken.clauses[1:] if _says_same(spoken, clause)), None)
    if before is None or outcome is None or at is None or not scene.is_said(at.start):
        return []
    named = [one for one in spoken.named if one.start < at.start and one.relation == "topic"]
    said = [term for clause in spoken.clauses[: at.index] for term in spoken.terms("condition", within=clause)]
    if not named or named[0].component == before or said or not is_device(named[0].component, scene.vocabulary):
        return []
    return [_told(scene, named[0].component, at.start, outcome, "as the one just before")]


def _says_same(spoken: Spoken, clause: Clause) -> bool:
    norms = set(spoken.norms(clause.start, clause.end))
    return bool(norms & ALIKE) and norms <= ALIKE | SAME_AS


def _out_of(scene: Scene, drafts: Sequence[Draft]) -> list[Draft]:
    """`five of six have power`, `two out of four work`, `all but two are live`: the others do not."""
    spoken = scene.spoken
    for draft in drafts:
        if draft.kind != "check" or draft.outcome != "works":
            continue
        clause = spoken.clause_of(draft.at)
        if _is_short(spoken, clause, draft.at) or _is_all_but(spoken, clause) or _is_barred(spoken, clause, draft.at):
            return [_told(scene, draft.component, clause.start, "fails", "not all of them do")]
    return []


def _is_short(spoken: Spoken, clause: Clause, end: int) -> bool:
    """Whether the subject of a clause is a number of a larger one."""
    for at in range(clause.start, end):
        some = whole_number(spoken.tokens, at)
        if some is None or (at > clause.start and whole_number(spoken.tokens, at - 1) is not None):
            continue
        after = some[1] + (spoken.norms(some[1], some[1] + 1) == ["out"])
        if spoken.norms(after, after + 1) != ["of"]:
            continue
        after += 1 + (spoken.norms(after + 1, after + 2) in (["the"], ["them"], ["these"]))
        total = whole_number(spoken.tokens, after)
        if total is not None and total[1] <= end and 0 < some[0] < total[0]:
            return True
    return False


def _is_all_but(spoken: Spoken, clause: Clause) -> bool:
    """`all but two are live`, whether or not `but` was taken to open a clause of its own."""
    start = spoken.clauses[clause.index - 1].start if clause.index and clause.link in EXCEPTING else clause.start
    norms = [norm for norm in spoken.norms(start, clause.end) if norm not in {"of", "them", "for"}]
    at = next((here for here, norm in enumerate(norms) if norm in ALL), None)
    if at is None or norms[at + 1 : at + 2] == [] or norms[at + 1] not in EXCEPTING:
        return False
    counted = next(here for here in range(start, clause.end) if spoken.tokens[here].norm in EXCEPTING) + 1
    return whole_number(spoken.tokens, counted) is not None or bool(PICKED & set(norms[at + 2 : at + 4]))


def _is_barred(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`they all came on bar one at the front`, where the exception is not taken for a clause of its own."""
    if not ALL & set(spoken.norms(clause.start, at)):
        return False
    norms = spoken.norms(at, clause.end)
    excepts = [here for here, norm in enumerate(norms[:-1]) if norm in EXCEPTING - {"but", "save"}]
    return any(PICKED & set(norms[here + 1 : here + 4]) for here in excepts)


def _picks(spoken: Spoken, clause: Clause, component: str) -> bool:
    """Whether a clause only picks one or some out and says nothing of them that a finder of its own would read."""
    words = [norm for norm in spoken.norms(clause.start, clause.end) if norm not in EXCEPTING | {"for", "from", "the"}]
    verbs = any(spoken.tokens[at].is_finite for at in range(clause.start, clause.end))
    named = [one for one in spoken.named_in(clause) if one.relation == "topic" and one.component != component]
    goes_on = any(later.link == "" for later in spoken.clauses[clause.index + 1 : clause.index + 2])
    if goes_on:
        return False
    return bool(words) and words[0] in PICKED and not (verbs or named or spoken.has_term("condition", within=clause))


def _named_apart(scene: Scene) -> list[Draft]:
    """`everything works except for the disposal`, `tested everything bar the oven`: what is named as the exception."""
    spoken = scene.spoken
    for clause in spoken.clauses[1:]:
        before = spoken.clauses[clause.index - 1]
        heads = set(spoken.norms(spoken.clauses[max(0, before.index - 1)].start, before.end))
        outcome: Outcome = "not_tested" if TRIED & heads else "fails"
        works = outcome == "not_tested" or spoken.has_cue("operates", within=before)
        verbs = any(spoken.tokens[at].is_finite for at in range(clause.start, clause.end))
        if clause.link not in EXCEPTING - {"but"} or not works or not ALL & heads or verbs:
            continue
        if spoken.has_cue("negation", within=before):
            continue
        if not scene.is_said(before.start) or spoken.has_term("condition", within=clause):
            continue
        return [
            _told(scene, one.component, one.start, outcome, EXCEPTED[outcome])
            for one in spoken.named_in(clause)[:1]
            if set(spoken.norms(clause.start, one.start)) <= EXCEPTING | {"for", "from", "the", "that", "this"}
            if is_operated(one.component, scene.vocabulary) and scene.vocabulary.components[one.component].works
        ]
    return []


def _shares(scene: Scene) -> list[Draft]:
    """`heat lamps, four, three of them going`: how many of several do, and so how many do not."""
    spoken = scene.spoken
    for clause in spoken.clauses:
        number = _share(spoken, clause)
        component = _several(scene, clause)
        if number is None or component is None or not scene.is_said(clause.start):
            continue
        drafts = [_told(scene, component, clause.start, "works", "so many of them do")]
        total = max((found[0] for at in range(clause.start) if (found := whole_number(spoken.tokens, at))), default=0)
        rest = spoken.norms(clause.end)
        if total > number or DEAD & set(rest[:8]):
            drafts.append(_told(scene, component, max(clause.start, clause.end - 1), "fails", "not all of them do"))
        return drafts
    return []


def _share(spoken: Spoken, clause: Clause) -> int | None:
    """The number of `three of them going`, `three are glowing`."""
    found = whole_number(spoken.tokens, clause.start)
    if found is None or found[1] >= clause.end or spoken.norms(clause.end - 1, clause.end)[0] not in GOES:
        return None
    between = set(spoken.norms(found[1], clause.end - 1))
    return found[0] if between and between <= {"of", "them", "are", "is", "'re", "all"} else None


def _several(scene: Scene, clause: Clause) -> str | None:
    named = [one.component for one in scene.spoken.named if one.start < clause.start and one.relation == "topic"]
    for component in (*reversed(named), scene.place.subject):
        if component and is_operated(component, scene.vocabulary) and scene.vocabulary.components[component].works:
            return LIT.get(component, component)
    return None


def _told(scene: Scene, component: str, at: int, outcome: Outcome, why: str) -> Draft:
    return Draft(
        kind="check",
        room=scene.room,
        component=component,
        at=at,
        outcome=outcome,
        because=(f"'{scene.spoken.words(at, scene.spoken.clause_of(at).end)}': {why}",),
        confidence=0.65,
    )
