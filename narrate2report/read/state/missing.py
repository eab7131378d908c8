"""What should be there and is not, and what should not be there and is: from what is said of components themselves."""

from __future__ import annotations

from itertools import pairwise

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.meant.lookalikes import says_nothing
from narrate2report.read.meant.negations import negation_before
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.modes import Mode
from narrate2report.read.speech.spoken import Named, Spoken
from narrate2report.read.things.whereabouts import ROOM_GENERAL

LEAVERS = frozenset("you they tenant tenants somebody someone he she people residents".split())


OBJECTS = frozenset("the a one two both all my our their his her".split())
TOOK = frozenset("removed took taken stole stolen nicked pinched".split())


def taken_away(scene: Scene) -> list[Draft]:
    """`someone has removed the strainer basket and one of the shelves`: what somebody took is missing."""
    spoken = scene.spoken
    for at, token in enumerate(spoken.tokens):
        clause = spoken.clause_of(at)
        before = set(spoken.norms(max(clause.start, at - 3), at))
        if token.norm not in TOOK or not before & LEAVERS or not scene.is_said(at) or "not" in before:
            continue
        if not OBJECTS & set(spoken.norms(at + 1, at + 2)):
            continue
        surfaces = {name for name, term in scene.vocabulary.components.items() if term.group == "surfaces"}
        listed = [
            one
            for one in spoken.named
            if one.start > at and one.relation != "place" and one.component not in {*surfaces, ROOM_GENERAL}
        ]
        return [
            Draft.of_named(one, scene.room, "missing", f"'{spoken.words(at, one.end)}'", confidence=0.65)
            for one in listed
            if spoken.clause_of(one.start).index <= clause.index + 1
        ]
    return []


ANSWERS: dict[str, str] = {"no": "missing", "none": "missing", "nil": "missing", "yes": "present"}
"""What a note's one-word answer after a component means: `anti-tip: yes`, `stopper: none`."""


NOT_OURS = frozenset("theirs his hers yours own".split())


def is_not_ours(spoken: Spoken) -> bool:
    """`no fridge, it was theirs`, `no curtains, you bring your own`: what never belonged to the home is not missing."""
    norms = spoken.norms()
    for at, norm in enumerate(norms):
        if norm in NOT_OURS and (
            {"was", "were", "is", "'s", "bring", "brings", "took", "take", "supply", "had"}
            & set(norms[max(0, at - 4) : at])
        ):
            return True
    pairs = {tuple(norms[at : at + 3]) for at in range(len(norms))}
    return bool(
        pairs & {("do", "not", "supply"), ("do", "not", "provide"), ("do", "not", "give"), ("not", "giving", "one")}
    )


LACKING = frozenset({"no", "without", "without a", "no sign of"})
"""Denials that say right before a component that there is none."""

NOT_HAVING = frozenset({("have", "a"), ("have", "an"), ("have", "any"), ("got", "a"), ("got", "an"), ("got", "any")})
"""After `not` they say the same: `it doesn't have a lid`, `hasn't got any racks`."""


def _lacks(spoken: Spoken, clause: Clause, at: int, denial: str) -> bool:
    """Whether what begins at token `at` is said not to be there, with at most two words between."""
    gap = spoken.norms(clause.start, at)
    if "there" in gap and gap[-2:] in (["not", "a"], ["not", "an"], ["not", "any"]):
        return True  # there isn't a stopper
    if denial.lower() in LACKING:
        return bool({"no", "without", "of"} & set(gap[-3:]))
    return gap[-3:-2] in (["not"], ["never"]) and tuple(gap[-2:]) in NOT_HAVING


TELLS_ROOMS_APART = frozenset({"bathtub", "shower", "toilet", "closet", "window", "fireplace"})
"""What a room of some kind may well be without, where it is said on entering: `the guest toilet, without a shower`."""

ABOVE_A_DROP = frozenset({"stairs", "balcony", "basement"})
"""Rooms that are not safe without a rail."""


def may_be_absent(component: str, room: str, vocabulary: Vocabulary) -> bool:
    """Whether a home is whole without it: a room without carpet or wallpaper is none the worse, a stair without a
    rail is."""
    if component == "railing":
        return room.partition(".")[0] not in ABOVE_A_DROP
    group = vocabulary.components[component].group
    return group in {"surfaces", "handed_over"} and component != "remote_control"


HANDED = frozenset("there is 's was and but so still no".split())
"""All that leads to what should have been handed over and was not: `there is no key for it`, `and no fob`."""

AFTER_HANDED = frozenset("for to with in on here there left either".split())


KEYS = frozenset({"key", "mailbox_key", "fob"})
"""What everybody is given; not everybody has a parking permit."""


def _is_not_handed_over(spoken: Spoken, clause: Clause, one: Named) -> bool:
    """`no mailbox key`, `there's no key for it`: said with nothing but that there is none."""
    lead, after = spoken.norms(clause.start, one.start), spoken.norms(one.end, clause.end)
    return lead[-1:] == ["no"] and set(lead) <= HANDED and set(after[:1]) <= AFTER_HANDED


def _tells_of(spoken: Spoken, term: Mention, one: Named) -> bool:
    """Whether a word denies a flaw or a trial of a component, and so not the component: `no drawer damage`."""
    if term.start <= one.start and one.end <= term.end and term.end - term.start > one.end - one.start:
        return bool(term.of("condition"))  # no broken slats
    if (term.start < one.end and one.start < term.end) or says_nothing(spoken, term):
        return False
    flawed = any(sense.beside in {"", one.component} for sense in term.of("condition"))
    return flawed or any(sense.id == one.component for sense in term.of("works"))


OPENINGS = frozenset({"window", "door", "vent"})
"""What a room may be built without."""


def _answered(spoken: Spoken, room: str) -> list[Draft]:
    drafts = []
    for one in spoken.named:
        clause = spoken.clause_of(one.start)
        rest = spoken.norms(one.end, clause.end)
        following = spoken.clauses[clause.index + 1 : clause.index + 2]
        if not rest and following and following[0].link in {":", "-"}:
            rest = spoken.norms(following[0].start, following[0].end)
        if len(rest) == 1 and rest[0] in ANSWERS and one.relation == "topic":
            because = f"'{rest[0]}' answers '{spoken.words(one.start, one.end)}'"
            drafts.append(Draft.of_named(one, room, ANSWERS[rest[0]], because))
    return drafts


def missing_parts(scene: Scene) -> list[Draft]:
    """`the microwave has no plate`, `these stairs don't have a handrail`: a denied component is missing, if no flaw
    of it is denied."""
    spoken, stances, room, vocabulary = scene.spoken, scene.stances, scene.room, scene.vocabulary
    drafts = _answered(spoken, room)
    if is_not_ours(spoken):
        return drafts
    for one in spoken.named:
        clause = spoken.clause_of(one.start)
        close = "no" if spoken.norms(one.start - 1, one.start) == ["no"] else negation_before(spoken, clause, one.start)
        if close is None or one.component == ROOM_GENERAL or not _lacks(spoken, clause, one.start, close):
            continue
        if one.component in OPENINGS and spoken.norms(one.start - 2, one.start) == ["with", "no"]:
            continue  # with no window in here
        if ("no", "one") in pairwise(spoken.norms(clause.start, one.start)):
            continue  # no one has switched the oven on
        if "never" in spoken.norms() or spoken.norms(one.end, one.end + 2) == ["in", "these"]:
            continue  # `no stove in these`: said of homes of a kind
        if may_be_absent(one.component, room, vocabulary) and not (
            one.component in KEYS and _is_not_handed_over(spoken, clause, one)
        ):
            continue
        if spoken.moved and one.component in TELLS_ROOMS_APART:
            continue
        if stances[one.start].mode is not Mode.ASSERTED:
            continue
        if any(_tells_of(spoken, term, one) for term in spoken.found.terms if term.start in clause):
            continue
        because = f"'{spoken.words(one.start, one.end)}' after '{close}'"
        drafts.append(Draft.of_named(one, room, "missing", because, confidence=0.7))
    return drafts
