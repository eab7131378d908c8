"""Statements whose predicate is left out: `the other one doesn't`, `so is the right one`, `same on the left`.

What was told just before is told again of another of its kind, or the contrary of it. Takes the drafts just before;
leaves a sentence that names another component and says `too` to `echoes`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import LEADING, Clause
from narrate2report.read.speech.modes import Mode
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.operated import is_operated
from narrate2report.read.things.standing import HEADS, LEADS_TO, LONGEST_PLACE, STANDING, stands_for_one
from narrate2report.records.findings import Assertion

KEPT_FOR = 2
"""For how many sentences that tell nothing a statement can still be taken up."""

DENYING = frozenset("not never no none neither nor".split())

PAST = frozenset("did was were had".split())
AUXILIARY = PAST | frozenset("do does is are 's have has will would can could".split())

TAIL = frozenset("at all either though too as well also so much anymore yet now".split())

SAME = frozenset("same ditto likewise".split())
SAMENESS = SAME | frozenset(
    "the exact very thing story deal again here there too as well it 's is and also but problem trouble for in".split()
)
"""All that `and it's the same thing here` may hold."""

TURNED: dict[str, Assertion] = {"present": "absent", "absent": "present"}


@dataclass(frozen=True)
class Predicate:
    """What was last said: the drafts of one clause, the words from each on, and whether they were denied."""

    drafts: tuple[Draft, ...] = ()
    denied: bool = False
    past: bool = False
    words: tuple[str, ...] = ()
    ago: int = 0

    def after(self, spoken: Spoken, drafts: Sequence[Draft], *, in_passing: bool) -> Predicate:
        """What is remembered once a sentence was read: its own last predicate, or this one for a little longer."""
        own = last_predicate(spoken, drafts, len(spoken.tokens))
        if own is not None:
            return own
        if in_passing or (self.ago < KEPT_FOR and not spoken.named):
            return replace(self, ago=self.ago + 1)
        return Predicate()


def last_predicate(spoken: Spoken, drafts: Sequence[Draft], before: int) -> Predicate | None:
    """The conditions and trials told by the last clause that begins before token `before` and tells any."""
    told = [one for one in drafts if one.at < before and _can_be_taken_up(one)]
    if not told:
        return None
    clause = spoken.clause_of(max(one.at for one in told))
    own = tuple(one for one in told if one.at in clause)
    if not own:
        return None
    denied = bool(DENYING & set(spoken.norms(clause.start, clause.end)))
    past = any(token.tag == "VBD" for token in spoken.tokens[clause.start : clause.end])
    return Predicate(own, denied, past, tuple(spoken.norms(own[-1].at, clause.end)))


def _can_be_taken_up(draft: Draft) -> bool:
    if draft.kind == "check":
        return draft.outcome in {"works", "fails"}
    return draft.kind == "condition" and draft.assertion in TURNED


def fill_in(scene: Scene, drafts: Sequence[Draft], before: Predicate) -> list[Draft]:
    """The drafts of a sentence with what its clauses leave out; a trial read from such a clause alone gives way."""
    filled = find_left_out(scene, drafts, before)
    clauses = {scene.spoken.clause_of(one.at).index for one in filled}
    kept = [one for one in drafts if scene.spoken.clause_of(one.at).index not in clauses]
    known = [one for one in kept if one.kind == "check"]  # the fan doesn't, it just hums
    return kept + [one for one in filled if not any(one.same_statement(other) for other in known)]


def find_left_out(scene: Scene, drafts: Sequence[Draft], before: Predicate) -> list[Draft]:
    """What the clauses of a sentence tell that leave out what was said just before."""
    spoken = scene.spoken
    found: list[Draft] = []
    for clause in spoken.clauses:
        if scene.mode(clause.start) not in {Mode.ASSERTED, Mode.FUTURE}:
            continue
        said = last_predicate(spoken, [*drafts, *found], clause.start) or before
        if not said.drafts:
            continue
        if any(spoken.clause_of(one.at) is clause and one.kind != "check" for one in drafts):
            continue
        same, member = _only_says_same(spoken, clause), _member(spoken, clause)
        if same is not None and _is_all(scene, clause):
            found += _told_again(scene, said, clause, same)
        elif member is not None:
            found += _told_of(scene, said, clause, member)
    return found


def _is_all(scene: Scene, clause: Clause) -> bool:
    """Whether nothing else follows that would tell what is the same: `same thing in here, new carpet`."""
    later = [at for at in range(clause.end, len(scene.spoken.tokens)) if scene.spoken.tokens[at].is_word]
    told = any(term.start >= clause.end for term in scene.spoken.terms("condition", "works"))
    return not told and all(scene.is_said(at) for at in later)


def _told_again(scene: Scene, said: Predicate, clause: Clause, where: tuple[int, int]) -> list[Draft]:
    """`same on the left`, `same again`: every statement once more, at the place or in the room now told."""
    room, place = _room_told(scene, clause), scene.spoken.words(*where) or None
    if room is None and place is None and any(one.room == scene.room for one in said.drafts):
        return []
    room = room or scene.room
    words = scene.spoken.words(clause.start, clause.end)
    return [
        _again(one, clause.start, room, None if room != one.room else place).with_reason(f"'{words}'")
        for one in said.drafts
    ]


def _room_told(scene: Scene, clause: Clause) -> str | None:
    """The room of `same in the bedroom`."""
    term = next(iter(scene.spoken.terms("room", within=clause)), None)
    if term is None:
        return None
    named = term.of("room")[0].id
    return scene.room if scene.place.base == named else named


def _told_of(scene: Scene, said: Predicate, clause: Clause, member: Member) -> list[Draft]:
    """`the other one doesn't`: the same of another, or where only one of the two is denied, the contrary."""
    words = scene.spoken.words(clause.start, clause.end)
    if (member.verb in PAST) != said.past and member.verb not in {"will", "would", "can", "could"}:
        return []  # it drips; the last one did
    turned = member.denied != said.denied and not member.agrees
    elsewhere = scene.spoken.has_term("room", within=clause)
    found = []
    for one in said.drafts:
        if one.room != scene.room and not elsewhere:
            continue
        place = scene.spoken.words(*member.where) or None
        component = member.component or one.component
        if component != one.component and not _may_be_so(one, component, scene.vocabulary):
            continue
        told = replace(_again(one, clause.start, scene.room, place), component=component)
        if not (turned or member.denied or member.agrees):
            continue  # the drawer slides fine, and the towel bar is, ooh, wobbly
        contrary = _contrary(told, said, scene.vocabulary) if turned else told
        if contrary is not None:
            found.append(contrary.with_reason(f"'{words}', said of what was told before it"))
    return found


def _may_be_so(draft: Draft, component: str, vocabulary: Vocabulary) -> bool:
    """Whether what was told of one component can be told of another."""
    if draft.kind == "check":
        return is_operated(component, vocabulary)
    return draft.condition is not None and vocabulary.afflicts(draft.condition, component) is not False


def _again(draft: Draft, at: int, room: str, where: str | None) -> Draft:
    return replace(
        draft, room=room, at=at, where=where, quantity=None, size=None, severity=None, retries=False, also=(),
        confidence=min(draft.confidence, 0.7),
    )  # fmt: skip


def _contrary(draft: Draft, said: Predicate, vocabulary: Vocabulary) -> Draft | None:
    if draft.kind == "check":
        return replace(draft, outcome="fails" if draft.outcome == "works" else "works")
    if draft.condition is None or draft.assertion is None:
        return None
    if not vocabulary.is_sound(draft.condition):
        return replace(draft, assertion=TURNED[draft.assertion])
    flaw = vocabulary.denied_praise(draft.condition, said.words, draft.component)
    return replace(draft, condition=flaw, assertion="present") if flaw else None


@dataclass(frozen=True)
class Member:
    """Which of several a clause says no more of than `doesn't` or `is too`."""

    where: tuple[int, int]
    verb: str
    denied: bool
    agrees: bool
    """`nor does the other`: whatever was said is said of this one too."""
    component: str | None = None
    """What is named in its place: `the ceiling isn't`."""


def _member(spoken: Spoken, clause: Clause) -> Member | None:
    start, end = clause.start, clause.end
    while end > start and spoken.tokens[end - 1].norm in TAIL:
        end -= 1
    either = {"too", "either", "also"} & set(spoken.norms(end, clause.end)) or spoken.norms(end, end + 1) == ["as"]
    while start < end and spoken.tokens[start].norm in LEADING - {"so"}:
        start += 1
    norms = spoken.norms(start, end)
    if len(norms) > 1 and norms[0] in {"so", "neither", "nor"} and norms[1] in AUXILIARY:
        stands = stands_for_one(spoken, start + 2, end)
        return Member((start + 2, end), norms[1], norms[0] != "so", agrees=True) if stands else None
    denied = norms[-1:] == ["not"]
    verb = end - 1 - denied
    if verb <= start or spoken.tokens[verb].norm not in AUXILIARY:
        return None
    none = bool({"none", "neither"} & set(spoken.norms(start, verb)))
    member = Member((start, verb), spoken.tokens[verb].norm, denied or none, agrees=bool(either))
    named = _only_named(spoken, start, verb)
    if named is not None and not either:
        return replace(member, component=named)
    return member if stands_for_one(spoken, start, verb) else None


def _only_named(spoken: Spoken, start: int, end: int) -> str | None:
    """The component of `the cold tap`, where that is all that tokens name."""
    named = [one for one in spoken.named if start <= one.start < end]
    if len(named) != 1 or named[0].relation != "topic":
        return None
    return named[0].component if set(spoken.norms(start, named[0].start)) <= STANDING and named[0].end == end else None


def _only_says_same(spoken: Spoken, clause: Clause) -> tuple[int, int] | None:
    """The place in `same on the left side`, `it's the same in the bedroom`; empty where none is told."""
    norms = spoken.norms(clause.start, clause.end)
    at = next((here for here, norm in enumerate(norms) if norm in SAME), None)
    if at is None or set(norms[:at]) - SAMENESS:
        return None
    rest = next((here for here in range(at, len(norms)) if norms[here] not in SAMENESS - LEADS_TO), len(norms))
    begin, end = clause.start + rest, clause.end
    if rest == len(norms) or (norms[rest] == "in" and norms[rest + 1 :] == ["here"]):
        return begin, begin
    if norms[rest] not in LEADS_TO or end - begin > LONGEST_PLACE + 1:
        return None
    if any(begin <= one.start < end for one in spoken.named):
        return None
    here = spoken.has_term("room", within=clause) or HEADS & set(norms[rest:])
    return (begin, end) if here else None
