"""What is remembered from one sentence of a walk to the next."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from narrate2report.read.across.asked import Asked
from narrate2report.read.across.claims import Claims
from narrate2report.read.across.left_out import Predicate
from narrate2report.read.across.openings import Opening
from narrate2report.read.across.put_right import Mending
from narrate2report.read.across.searches import Waiting
from narrate2report.read.drafts.draft import Draft
from narrate2report.read.resident.handovers import Handing
from narrate2report.read.speech.modes import Mode, Stance
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.focus import Focus
from narrate2report.read.things.whereabouts import ROOM_GENERAL
from narrate2report.read.trials.trials import Trials, is_means
from narrate2report.read.walk.course import Way
from narrate2report.read.walk.place import Place

NOT_HERE = frozenset({Mode.ELSEWHERE, Mode.QUOTED, Mode.PAST, Mode.HYPOTHETICAL, Mode.POLICY})
"""Modes in which a component that is named does not come into focus."""

TALKED_ABOUT = frozenset({Mode.HYPOTHETICAL, Mode.POLICY, Mode.SEARCH})
"""Modes of what is said in passing between two statements."""

DOERS = frozenset("i we you they he she nobody somebody who".split())
"""Whoever does something to what is named behind them."""

UNREAD_LASTS = 2
"""For how many sentences what was spoken of, with nothing found of it, is what `I'll fix it` means."""


@dataclass
class Walk:
    """What is remembered from one sentence to the next."""

    ways: Mapping[int, Way] = field(default_factory=dict)
    """Where sentences lead, by their number; of others the rules decide."""
    place: Place = field(default_factory=Place)
    waiting: Waiting = field(default_factory=Waiting)
    asked: Asked = field(default_factory=Asked)
    claims: Claims = field(default_factory=Claims)
    trials: Trials = field(default_factory=Trials)
    handing: Handing = field(default_factory=Handing)
    focus: Focus = field(default_factory=Focus)
    mending: Mending = field(default_factory=Mending)
    last_conditions: tuple[Draft, ...] = ()
    planned: tuple[Draft, ...] = ()
    planned_at: int = -99
    """The work that was last planned, and in which sentence: `I'll do that Monday` says it once more."""
    unread: str | None = None
    unread_at: int = -99
    """The component that was last spoken of with nothing found of it, and in which sentence."""
    said: Predicate = field(default_factory=Predicate)
    """What was last said of a component: what `the other one doesn't` leaves out."""
    owner_speaks: bool = False
    withdrawing: bool = False
    pausing: Opening | None = None
    """Words that announced a correction and ended the sentence before: `Oh, wait.`"""
    turn: int = 0
    """Sentences so far without those in passing: how near two statements are is counted in these."""


def is_in_passing(spoken: Spoken, drafts: Sequence[Draft], stances: Sequence[Stance]) -> bool:
    """`I always check for cracks`, `if you scratch it, we charge`: states nothing, and what was spoken of before it
    is spoken of after it. `I'm checking the sill` goes on to the sill."""
    if spoken.moved or any(draft.kind != "advice" for draft in drafts):
        return False
    conditions = [mention.start for mention in spoken.terms("condition")]
    return (
        any(stance.mode in TALKED_ABOUT for stance in stances)
        and all(stances[at].mode in TALKED_ABOUT for at in conditions)
        and all(stances[one.start].mode in NOT_HERE for one in spoken.named if one.relation != "place")
    )


def remember(
    spoken: Spoken,
    drafts: Sequence[Draft],
    stances: Sequence[Stance],
    number: int,
    walk: Walk,
) -> None:
    """Note what a sentence spoke of: the component in focus, those before it, and the conditions it told."""
    here = [one for one in spoken.named if stances[one.start].mode not in NOT_HERE]
    for one in here:
        if one.relation != "place":
            walk.place.speak_of(one.component, number)
    topics = [
        one.component
        for one in here
        if one.relation == "topic" and stances[one.start].mode is not Mode.INSTRUCTION and not is_means(spoken, one)
    ]
    told = [
        draft.component
        for draft in drafts
        if draft.kind in {"condition", "check", "description"} and draft.component != ROOM_GENERAL
    ]
    for component in told:
        walk.place.speak_of(component, number)
    talked_of = None if told or topics or drafts else _talked_of(spoken, stances)
    if told or topics:
        walk.place.subject = (topics or told)[-1]
    elif talked_of is not None:
        walk.place.subject = talked_of
    if not drafts and (topics or talked_of) and (left := _left_unread(spoken, [*topics, talked_of])) is not None:
        walk.unread, walk.unread_at = left, number
    if (asked := walk.asked.of_what(number)) is not None:
        walk.place.subject = asked
    walk.last_conditions = tuple(draft for draft in drafts if draft.kind == "condition")
    if spoken.moved and not told:
        walk.focus.leave()


def spoken_of_since(walk: Walk, flaw: str | None) -> str | None:
    """What work means that points to no thing of its own sentence: the flaw spoken of before, or what was spoken of
    since in words of which nothing was found. `The tap drips. The hood draws next to nothing. I'll get that fixed.`"""
    newer = walk.unread_at > walk.focus.flaw_at and walk.turn - walk.unread_at <= UNREAD_LASTS
    return walk.unread if flaw is not None and newer and walk.unread is not None else flaw


def _left_unread(spoken: Spoken, topics: Sequence[str | None]) -> str | None:
    """`The hood draws next to nothing`: what a sentence is about of which nothing was found; not what is denied (`the
    wall's not soft`), nor what somebody does something to (`they never pull the stove out`)."""
    for one in spoken.named:
        clause = spoken.clause_of(one.start)
        before = spoken.tokens[clause.start : one.start]
        done_to = any(token.norm in DOERS or (token.tag in {"VB", "VBP"} and token.norm != "are") for token in before)
        denied = any(cue.start >= one.end for cue in spoken.cues("negation", within=clause))
        if one.component in topics and not done_to and not (denied and spoken.has_term("condition", within=clause)):
            return one.component
    return None


def _talked_of(spoken: Spoken, stances: Sequence[Stance]) -> str | None:
    """`They told me the toilet was loose.`: what was only talked about is what `it is` then means."""
    named = {one.component for one in spoken.named if one.relation == "topic" and not is_means(spoken, one)}
    if len(named) != 1 or any(stances[one.start].mode in {Mode.POLICY, Mode.ELSEWHERE} for one in spoken.named):
        return None
    return named.pop()
