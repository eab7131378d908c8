"""Work to be done: who, what, on which component. Told apart from care that the resident is asked to take."""

from __future__ import annotations

from narrate2report.read.bearers import ROOM_GENERAL
from narrate2report.read.clauses import Clause
from narrate2report.read.denial import negation_before
from narrate2report.read.draft import Draft
from narrate2report.read.phrasebook import Mention
from narrate2report.read.plans import NOTE_ITSELF, is_assigned, is_care, planned_by
from narrate2report.read.scene import Scene
from narrate2report.read.spoken import Named, Spoken
from narrate2report.read.stance import Mode
from narrate2report.records.findings import Action, Party

STAFF = frozenset(
    "maintenance technician plumber electrician handyman contractor exterminator locksmith facilities somebody"
    " someone guys guy crew chap welder cleaner cleaners painter painters roofer office team they he she i we"
    " my our 'll landlord".split()
)
RESIDENT = frozenset("tenant tenants resident residents you".split())
OWNER = frozenset("owner owners landlord".split())
BROUGHT = frozenset("send bring get".split())
"""What is sent or brought to `you` is not the resident's work."""

CALLED = frozenset("get getting call calling send sending book booking have having need needs want phone ring".split())
NEEDS = frozenset("need needs wants want".split())
COUNTED_OUT = frozenset("a an new another one more two some only".split())
NOT_WORK = frozenset(
    {Mode.HYPOTHETICAL, Mode.QUESTION, Mode.ELSEWHERE, Mode.PAST, Mode.SEARCH, Mode.QUOTED, Mode.POLICY}
)


def find_follow_ups(scene: Scene, *, last_flaw: str | None, owner_speaks: bool) -> list[Draft]:
    """Follow-up drafts: an action word that somebody will do, must do, or that the notes order."""
    drafts: list[Draft] = []
    for mention in scene.spoken.found.terms:
        planned = _plan_of(scene, mention)
        if planned is None:
            continue
        clause = scene.spoken.clause_of(mention.start)
        component, how = _worked_on(scene, mention, clause, last_flaw)
        words = scene.spoken.words(mention.start, mention.end)
        action: Action = mention.of("action")[0].id  # type: ignore[assignment]
        draft = Draft(
            kind="follow_up",
            room=scene.room,
            component=component,
            at=mention.start,
            because=(f"'{words}' is work, planned by '{planned}'", how),
            action=action,
            party=_party(scene.spoken, clause, owner_speaks),
            confidence=0.7,
        )
        if not any(one.component == component and (one.action == action or one.at in clause) for one in drafts):
            drafts.append(draft)
    drafts += [draft for draft in _needed_parts(scene, last_flaw) if not drafts]
    return drafts or _tradesman_called(scene, last_flaw, owner_speaks)


def _plan_of(scene: Scene, mention: Mention) -> str | None:
    """The words that plan the work that a mention names; None where it names none, or none to come."""
    spoken = scene.spoken
    senses = mention.of("action")
    if not senses or any(one.start <= mention.start < one.end for one in spoken.named):
        return None
    told = senses[0].form == "phrase" and scene.mode(mention.start) is Mode.HYPOTHETICAL
    if (scene.mode(mention.start) in NOT_WORK and not told) or _is_counted_noun(spoken, mention):
        return None
    clause = spoken.clause_of(mention.start)
    planned = planned_by(spoken, mention, clause)
    if planned == NOTE_ITSELF:
        alone = clause.end - clause.start == mention.end - mention.start
        if mention.of("works") or (mention.of("condition") and alone) or spoken.tokens[mention.start].norm == "look":
            return None
    if planned and not is_assigned(spoken, mention, clause):
        return None if is_care(spoken, mention, clause, scene.mode(mention.start)) else planned
    return planned


def _is_counted_noun(spoken: Spoken, mention: Mention) -> bool:
    """`one anchor left in`: a thing and no work."""
    if not mention.start or mention.of("action")[0].form != "verb":
        return False
    before = spoken.tokens[mention.start - 1]
    return before.tag == "CD" and spoken.tokens[mention.start].tag in {"NN", "NNS"}


def _needed_parts(scene: Scene, last_flaw: str | None) -> list[Draft]:
    """`it still needs a door`: what is needed is replaced; `it only needs a battery`: it is supplied with one."""
    spoken = scene.spoken
    for at, token in enumerate(spoken.tokens):
        clause = spoken.clause_of(at)
        if token.norm not in NEEDS or scene.mode(at) in NOT_WORK or negation_before(spoken, clause, at):
            continue
        noun = at + 1
        while noun < clause.end and spoken.tokens[noun].norm in COUNTED_OUT:
            noun += 1
        if noun == at + 1 or noun >= clause.end or spoken.tokens[noun].tag not in {"NN", "NNS"}:
            continue
        part = next((one for one in spoken.named if one.start == noun), None)
        if part is None and any(m.of("action", "condition") and m.start == noun for m in spoken.found.terms):
            continue
        owner, how = _worked_on(scene, Mention(at, at + 1, ()), clause, last_flaw)
        words = spoken.words(at, noun + 1)
        return [
            Draft(
                kind="follow_up",
                room=scene.room,
                component=part.component if part else owner,
                at=at,
                because=(f"'{words}'", how),
                action="replace" if part else "supply",
                confidence=0.65,
            )
        ]
    return []


def _tradesman_called(scene: Scene, last_flaw: str | None, owner_speaks: bool) -> list[Draft]:
    """`get the electrician on that one`, `the plumber comes Thursday`: a trade is called, the work goes unsaid."""
    spoken = scene.spoken
    for cue in spoken.cues("trade"):
        clause = spoken.clause_of(cue.start)
        if scene.mode(cue.start) in NOT_WORK or negation_before(spoken, clause, cue.start):
            continue
        if not _is_called(spoken, cue, clause):
            continue
        component, how = _worked_on(scene, Mention(cue.start, cue.end, ()), clause, last_flaw)
        listed = dict.fromkeys([component, *_listed_after(spoken, clause)])
        return [
            Draft(
                kind="follow_up",
                room=scene.room,
                component=one,
                at=cue.start,
                because=(f"'{spoken.words(clause.start, cue.end)}'", how),
                action=_trades_action(spoken, cue, clause),
                party="owner" if owner_speaks else "manager",
                confidence=0.6,
            )
            for one in listed
        ]
    return []


def _is_called(spoken: Spoken, cue: Mention, clause: Clause) -> bool:
    """Whether a trade is called, has a job, is said to come, or is noted with nothing more: `boiler man, Friday`."""
    before = spoken.norms(clause.start, cue.start)
    if set(before) & CALLED or "job" in before or before[-1:] == ["for"] or before[-2:] == ["for", "the"]:
        return True
    if set(before) - {"a", "the", "so", "and", "my", "our"}:
        return False
    if cue.end == clause.end and not clause.index:
        return True
    comes = cue.end < clause.end and spoken.tokens[cue.end].tag in {"VBZ", "VBP", "VB"}
    return comes or spoken.norms(cue.end, cue.end + 1) in (["for"], ["to"], ["on"])


def _trades_action(spoken: Spoken, cue: Mention, clause: Clause) -> Action:
    """What the trade does: an action word of its clause, cleaning for cleaners, else a repair."""
    for mention in spoken.found.terms:
        if mention.start >= cue.end and mention.start in clause and mention.of("action"):
            return mention.of("action")[0].id  # type: ignore[return-value]
    return "clean" if "cleaners" in spoken.norms(cue.start, cue.end) else "repair"


def _listed_after(spoken: Spoken, clause: Clause) -> list[str]:
    """`handyman for the towel bar, the seat and the drain`: the rest of the list."""
    found: list[str] = []
    for later in spoken.clauses[clause.index + 1 :]:
        inside = spoken.named_in(later)
        says = any(token.is_finite for token in spoken.tokens[later.start : later.end])
        if later.link not in {",", "and"} or not inside or says:
            break
        found += [one.component for one in inside if one.relation == "topic"]
    return found


def _worked_on(scene: Scene, mention: Mention, clause: Clause, last_flaw: str | None) -> tuple[str, str]:
    """The component of the work: named after the action, before it, or the one that was spoken of."""
    spoken = scene.spoken
    meant = [one for one in spoken.named if scene.mode(one.start) is not Mode.HYPOTHETICAL and one.relation != "place"]
    inside = [one for one in meant if one.start in clause]
    after = [one for one in inside if one.start >= mention.end]
    before = [one for one in inside if one.end <= mention.start]
    soon = [one for one in meant if one.relation == "topic" and 0 <= one.start - mention.end < 4]
    found: Named | None = next(iter([*after[:1], *before[-1:], *soon[:1]]), None)
    if found is not None:
        return found.component, f"'{spoken.words(found.start, found.end)}' is named"
    subjects = scene.bearers.subjects_of(clause)
    if subjects:
        return subjects[-1].component, "still about it"
    focus = last_flaw or scene.place.subject
    return (focus, "the flaw spoken of before") if focus else (ROOM_GENERAL, "no component in focus")


def _party(spoken: Spoken, clause: Clause, owner_speaks: bool) -> Party | None:
    norms = set(spoken.norms(clause.start, clause.end))
    if norms & OWNER:
        return "owner"
    if norms & RESIDENT and not norms & BROUGHT:
        return "resident"
    if norms & STAFF:
        return "owner" if owner_speaks else "manager"
    return None
