"""Work told by what will become of a flaw: `I'll level the feet`, `it'll be blown out`, `roofers are being asked up`.

Any verb will do, but for those that mend nothing; a flaw stands before it in the same sentence. What is done follows
from the flaw.
"""

from __future__ import annotations

from typing import Final

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.negations import negation_before
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.work.chores import NO_WORK
from narrate2report.read.work.remedies import to_mend
from narrate2report.read.work.worked_on import NOT_TO_COME, worked_on

WILL: Final = frozenset("will 'll shall".split())
BOUND: Final = frozenset("got has have needs need ought".split())
"""Before `to` they tell what is still to come."""

BETWEEN: Final = frozenset("just also probably then definitely have to need go and be get being".split())
NOTHING_DONE: Final = NO_WORK | frozenset(
    "do be get have come go take make give put show photograph film snap zoom write type document record add list"
    " point describe assume guess hope wait wonder argue discuss talk think consider decide last stay hold stand bring"
    " move start stop let continue finish hear find happen become lose fall break crack leak rot rust die fail drop"
    " bend slip trip cut burn hit catch stick spread grow dry warm heat cool fade wear win learn miss skip sound check"
    " fluff iron wash buff look feel smell taste see deduct keep leave lean fly blow weigh dispute agree accept"
    " forgive overlook let lets sleep sit stand eat cook live love like hate want sell rent cause need work run"
    " pass".split()
)
"""Verbs that say of a flaw what becomes of it by itself, or what is made of it on paper."""

PARTICLED: Final = frozenset("out off up over down through back round in away on".split())
DOING: Final = frozenset("run put take go come give blow cut make get bring".split())
"""Verbs that mend something only with a word of direction and an object: `run a hot cycle through it`."""

ARRANGED: Final = frozenset(
    "asked told given earmarked flagged promised arranged called ordered booked notified informed logged reported"
    " scheduled commissioned instructed alerted chased quoted".split()
)
NOT_THEIRS: Final = frozenset("deposit you your yourself tenant tenants resident residents".split())


def find_intended(scene: Scene, flaw: str | None, *, owner_speaks: bool) -> list[Draft]:
    """At most one follow-up draft: what will be done about the flaw that a sentence told before."""
    spoken = scene.spoken
    if flaw is None or spoken.ends_with_question() or spoken.has_cue("often", "condition"):
        return []
    for clause in spoken.clauses[1:]:
        at = _will_be_done(spoken, clause) or _has_been_arranged(spoken, clause)
        if at is None or not _is_flawed_before(scene, clause) or negation_before(spoken, clause, at):
            continue
        if scene.mode(at) in NOT_TO_COME or NOT_THEIRS & set(spoken.norms(clause.start, at)):
            continue
        found = Mention(at, at + 1)
        told = f"'{spoken.words(clause.start, at + 1)}', said after a flaw, plans work"
        on = worked_on(scene, found, clause, flaw)
        on = on if any(one.component == on[0] for one in spoken.named) else (flaw, "the flaw spoken of before")
        return [to_mend(scene, clause, at, on, told, owner_speaks=owner_speaks, confidence=0.5)]
    return []


def _is_flawed_before(scene: Scene, clause: Clause) -> bool:
    return any(
        term.start < clause.start and scene.is_said(term.start) and not scene.says_nothing(term)
        for term, _ in scene.flaws()
    )


def _will_be_done(spoken: Spoken, clause: Clause) -> int | None:
    """The verb of `I'll level the feet`, `sealant'll go over that`, `it'll be blown out`."""
    will = next((at for at in range(clause.start, clause.end) if spoken.tokens[at].norm in WILL), None)
    if will is None:
        bound = (at for at in range(clause.start, clause.end) if spoken.tokens[at].norm in BOUND)
        will = next((at + 1 for at in bound if spoken.norms(at + 1, at + 2) == ["to"]), None)
    if will is None:
        return None
    at = will + 1
    while at < clause.end and spoken.tokens[at].norm in BETWEEN:
        at += 1
    if at >= clause.end or spoken.tokens[at].tag not in {"VB", "VBN", "VBP", "VBG", "NN", "JJ"}:
        return None
    passive = bool({"be", "get"} & set(spoken.norms(will + 1, at)))
    if passive:
        return at if spoken.tokens[at].tag == "VBN" and spoken.tokens[at].norm not in NO_WORK else None
    rest = spoken.norms(at + 1, clause.end)
    if spoken.tokens[at].norm in DOING or spoken.norms(at - 1, at) == ["go"]:
        directed = bool(PARTICLED & set(rest)) and len(rest) > 1
        return at if directed and not {"report", "list", "note", "back"} & set(rest) else None
    return at if rest and spoken.tokens[at].norm not in NOTHING_DONE else None


def _has_been_arranged(spoken: Spoken, clause: Clause) -> int | None:
    """The participle of `a rigid one's been earmarked`, `roofers are being asked up`, `so a service is arranged`."""
    for at in range(clause.start + 1, clause.end):
        if spoken.tokens[at].norm in ARRANGED and spoken.tokens[at].tag in {"VBN", "VBD"}:
            before = spoken.norms(max(clause.start, at - 2), at)
            if before[-1:] and before[-1] in {"been", "being", "is", "are", "'s"}:
                return at
    return None
