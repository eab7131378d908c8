"""Work told by what is on its way, by the list it is on, or by its time: `part should be here Friday`, `that goes on
the joiner's sheet`, `decorator's got it down for Wednesday`.

No word says what is done. Such words are work only where a flaw was spoken of, or the thing itself is named; what is
done follows from the flaw: what is missing is supplied, what is dirty cleaned, what is loose secured.
"""

from __future__ import annotations

from typing import Final

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.pointing import POINTING
from narrate2report.read.work.remedies import ANOTHER, to_mend
from narrate2report.read.work.worked_on import NOT_TO_COME, party_of, to_do, worked_on

PARTS: Final = ANOTHER | frozenset("part parts bulb bulbs battery batteries kit gasket screws bolts paste tape".split())
"""Words for what is put in: with one of these that comes, or lies ready, work is meant."""

ON_THE_WAY: Final = frozenset("out in back up down to over through".split())
"""After `on the way` they tell where somebody goes."""

GIVEN: Final = frozenset("you your yours tenant tenants rent lease deposit".split())
"""Whoever is to move in on Friday does no work on that day."""

ON_PAPER: Final = frozenset(
    "type typing typed write writing email emailing file filing upload uploading print printing note notes report"
    " reports photo photos picture pictures send sending post posting copy invoice".split()
)
"""What is done about the record of the walk, and not about the home."""

STORED: Final = frozenset("van truck ute".split())
RESTING: Final = frozenset("open shut closed closes opens trash rubbish recycling bins collection office".split())
"""What has its own days: `trash goes out Thursday`."""


def find_scheduled(scene: Scene, flaw: str | None, *, owner_speaks: bool) -> list[Draft]:
    """At most one follow-up draft of a sentence that no word of work told of."""
    spoken = scene.spoken
    if spoken.ends_with_question() or spoken.has_cue("often"):
        return []
    for clause in spoken.clauses:
        found = _listed(spoken, clause) or _on_its_way(scene, clause) or _timed(scene, clause, flaw)
        if found is not None and _is_of_what_is_handed(scene, clause, flaw):
            continue
        listed = found is not None and spoken.norms(clause.start, clause.start + 1) in (["put"], ["add"])
        denied = found is not None and spoken.has_cue("negation", "not_tested", within=clause)
        if found is None or denied or (scene.mode(found.start) in NOT_TO_COME and not listed):
            continue
        on = worked_on(scene, found, clause, flaw)
        if on[0] != flaw and not any(one.component == on[0] for one in spoken.named):
            continue
        told = f"'{spoken.words(found.start, found.end)}' plans work"
        if spoken.norms(found.end - 1, found.end)[0] in STORED:
            party = party_of(spoken, clause, owner_speaks=owner_speaks)
            return [to_do(scene, found.start, on, told, "replace", party, confidence=0.5)]
        return [to_mend(scene, clause, found.start, on, told, owner_speaks=owner_speaks, confidence=0.5)]
    return []


def _is_of_what_is_handed(scene: Scene, clause: Clause, flaw: str | None) -> bool:
    """`I borrowed the spare key, that goes back tonight`, `your fob's not ready, so that'll be Friday`: when it changes
    hands, which mends nothing."""
    handed = [one.component for one in scene.spoken.named if one.end <= clause.end and one.relation == "topic"]
    last = handed[-1] if handed else ""
    group = scene.vocabulary.components[last].group if last in scene.vocabulary.components else ""
    return group == "handed_over" and not (last == flaw and any(True for _ in scene.flaws()))


def _listed(spoken: Spoken, clause: Clause) -> Mention | None:
    """`that goes on the joiner's sheet`, `put the disposal on your list`, `I've logged a job for it`."""
    asked = next(spoken.cues("job_asked", within=clause), None)
    if asked is not None:
        return asked
    cue = next(spoken.cues("worklist", within=clause), None)
    if cue is None:
        return None
    lead = spoken.norms(clause.start, cue.start)
    if lead[:1] in (["add"], ["put"]) or (lead[:2] in (["would", "you"], ["can", "you"]) and "on" in lead):
        return cue
    entered = set(lead[-2:]) & {"on", "onto", "to"} or {"one", "for"} <= set(lead[-3:])
    return cue if entered and not {"you", "your"} & set(lead) else None


def _on_its_way(scene: Scene, clause: Clause) -> Mention | None:
    """`a new one's coming in the mail`, `part should be here in three days`, `bulbs arriving Friday`."""
    spoken = scene.spoken
    cue = next(spoken.cues("arriving", within=clause), None)
    if cue is None:
        return None
    if ANOTHER & set(spoken.norms(cue.start, cue.end)):
        return cue  # we've a new one coming
    if spoken.norms(cue.end - 1, cue.end)[0] in STORED and "you" not in spoken.norms(clause.start, cue.start):
        return cue  # I've a length in the van
    if {"you", "i", "we"} & set(spoken.norms(clause.start, clause.start + 1)):
        return None
    if ON_THE_WAY & set(spoken.norms(cue.end, cue.end + 1)):
        return None
    lead = set(spoken.norms(clause.start, cue.start))
    named = any(one.start in clause and one.end <= cue.start + 1 for one in spoken.named)
    named = named or bool(scene.bearers.subjects_of(clause))  # a seat, soft close, is coming
    return cue if PARTS & lead or (named and spoken.tokens[clause.start].norm != "the") else None


def _timed(scene: Scene, clause: Clause, flaw: str | None) -> Mention | None:
    """`decorator's got it down for Wednesday`, `bait goes down tonight`, `do it myself Saturday`: said after a flaw."""
    spoken = scene.spoken
    cue = next(spoken.cues("when_to_come", within=clause), None)
    if cue is None or flaw is None or (not clause.index and not POINTING & set(spoken.norms(clause.start, cue.start))):
        return None
    if spoken.norms(cue.start - 1, cue.start) in (["till"], ["until"]):
        return None  # it'll hold till Monday
    if ON_PAPER & set(spoken.norms(clause.start, cue.start)):
        return None  # typing it up this afternoon
    told = any(term.start < clause.start for term, _ in scene.flaws())
    pointed = POINTING & set(spoken.norms(clause.start, cue.start))
    lead = spoken.tokens[clause.start : cue.start]
    said = {token.norm for token in spoken.tokens[clause.start : clause.end]}
    if (
        not (told or pointed)
        or GIVEN & said
        or RESTING & said
        or any(token.tag == "VBD" and token.norm != "got" for token in lead)
    ):
        return None
    return cue if any(token.is_verb for token in lead) else None
