"""Work to be done: who, what, on which component. Told apart from care that the resident is asked to take."""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.bearers import ROOM_GENERAL
from narrate2report.read.clauses import Clause
from narrate2report.read.denial import negation_before
from narrate2report.read.draft import Draft
from narrate2report.read.phrasebook import Mention
from narrate2report.read.scene import Scene
from narrate2report.read.spoken import Spoken
from narrate2report.read.stance import Mode, Stance
from narrate2report.records.findings import Action, Party

NOTE_ITSELF = "the note itself"
STAFF = frozenset(
    "maintenance technician plumber electrician handyman contractor exterminator locksmith facilities"
    " somebody someone guys guy crew chap welder cleaner cleaners painter painters roofer office team they"
    " he she i we 'll landlord".split()
)
DONE = frozenset("i we they he she just already".split())
REACHING_BACK = frozenset("it that this them those these one ones".split())
ORDER_LEAD = frozenset("a the and then full good so that one 's is it this those are just".split())
NOT_WORK = frozenset(
    {Mode.HYPOTHETICAL, Mode.QUESTION, Mode.ELSEWHERE, Mode.PAST, Mode.SEARCH, Mode.QUOTED, Mode.POLICY}
)


def find_follow_ups(scene: Scene, *, last_flaw: str | None, owner_speaks: bool) -> list[Draft]:
    """Follow-up drafts: an action word that somebody will do, must do, or that the notes order."""
    spoken, stances, room = scene.spoken, scene.stances, scene.room
    drafts: list[Draft] = []
    named_at = {at for one in spoken.named for at in range(one.start, one.end)}
    for mention in spoken.found.terms:
        actions = mention.of("action")
        if (
            not actions
            or mention.start in named_at
            or _is_counted_noun(spoken, mention)
            or stances[mention.start].mode in NOT_WORK
        ):
            continue
        clause = spoken.clause_of(mention.start)
        planned = _planned_by(spoken, mention, clause)
        assigned = _is_assigned(spoken, mention, clause)
        alone = clause.end - clause.start == mention.end - mention.start
        if planned == NOTE_ITSELF and (
            mention.of("works") or (mention.of("condition") and alone) or spoken.tokens[mention.start].norm == "look"
        ):
            continue
        if planned is None or (not assigned and _is_care(spoken, clause, stances, mention)):
            continue
        component, how = _worked_on(scene, mention, clause, last_flaw)
        draft = Draft(
            kind="follow_up",
            room=room,
            component=component,
            at=mention.start,
            because=(f"'{spoken.words(mention.start, mention.end)}' is work, planned by '{planned}'", how),
            action=_action(actions[0].id),
            party=_party(spoken, clause, owner_speaks),
            confidence=0.7,
        )
        if not any(
            draft.component == other.component and (draft.action == other.action or other.at in clause)
            for other in drafts
        ):
            drafts.append(draft)
    drafts += _needed_parts(scene)
    return drafts or _tradesman_called(scene, last_flaw, owner_speaks)


def _is_counted_noun(spoken: Spoken, mention: Mention) -> bool:
    """`one anchor left in`: a thing and no work."""
    if not mention.start or mention.of("action")[0].form != "verb":
        return False
    before = spoken.tokens[mention.start - 1]
    return before.tag == "CD" and spoken.tokens[mention.start].tag in {"NN", "NNS"}


def _needed_parts(scene: Scene) -> list[Draft]:
    """`it still needs a door`, `wants a new seal`: what is needed is to be replaced or supplied."""
    spoken, stances, room = scene.spoken, scene.stances, scene.room
    drafts = []
    for one in spoken.named:
        clause = spoken.clause_of(one.start)
        before = spoken.norms(max(clause.start, one.start - 5), one.start)
        if stances[one.start].mode in NOT_WORK or not before or negation_before(spoken, clause, one.start):
            continue
        at = next((i for i, norm in enumerate(before) if norm in {"need", "needs", "wants"}), None)
        if (
            at is not None
            and before[at + 1 :]
            and set(before[at + 1 :]) <= {"a", "an", "new", "another", "one", "more", "two", "some"}
        ):
            drafts.append(
                Draft(
                    kind="follow_up", room=room, component=one.component, at=one.start, action="replace",
                    because=(f"'{spoken.words(one.start, one.end)}' is needed",), confidence=0.65,
                )
            )  # fmt: skip
    return drafts


def _tradesman_called(scene: Scene, last_flaw: str | None, owner_speaks: bool) -> list[Draft]:
    """`get the electrician on that one`, `I'm calling the carpenter`: a trade is called, the work goes unsaid."""
    spoken, stances, room = scene.spoken, scene.stances, scene.room
    for cue in spoken.cues("trade"):
        clause = spoken.clause_of(cue.start)
        before = spoken.norms(clause.start, cue.start)
        after = spoken.norms(cue.end, cue.end + 1)
        called = set(before) & CALLED or "job" in before or before[-1:] == ["for"] or before[-2:] == ["for", "the"]
        assigned = not set(before) - {"a", "the", "so", "and"} and after in (["for"], ["to"], ["on"])
        if (
            stances[cue.start].mode in NOT_WORK
            or not (called or assigned)
            or negation_before(spoken, clause, cue.start)
        ):
            continue
        component, how = _worked_on(scene, Mention(cue.start, cue.end, ()), clause, last_flaw)
        listed = [component, *(one for one in _listed_after(spoken, clause) if one != component)]
        return [
            Draft(
                kind="follow_up", room=room, component=one, at=cue.start,
                because=(f"'{spoken.words(clause.start, cue.end)}'", how),
                action="clean" if "cleaners" in spoken.norms(cue.start, cue.end) else "repair",
                party="owner" if owner_speaks else "manager", confidence=0.6,
            )
            for one in listed
        ]  # fmt: skip
    return []


def _listed_after(spoken: Spoken, clause: Clause) -> list[str]:
    """`handyman for the towel bar, the seat and the drain`: the rest of the list."""
    found = []
    for later in spoken.clauses[clause.index + 1 :]:
        inside = spoken.named_in(later)
        if (
            later.link not in {",", "and"}
            or not inside
            or any(t.is_finite for t in spoken.tokens[later.start : later.end])
        ):
            break
        found += [one.component for one in inside if one.relation == "topic"]
    return found


CALLED = frozenset("get getting call calling send sending book booking have having need needs want phone ring".split())


def _action(name: str) -> Action:
    return name  # type: ignore[return-value]


def _planned_by(spoken: Spoken, mention: Mention, clause: Clause) -> str | None:
    """The words that make an action word a plan; None where it is only spoken of or already done."""
    tokens = spoken.tokens
    if negation_before(spoken, clause, mention.start):
        return None
    token = tokens[mention.start]
    before = spoken.norms(clause.start, mention.start)
    if token.norm.endswith("ed") and before and before[-1] in {"get", "gets", "getting"}:
        return spoken.words(mention.start - 1, mention.end)
    if token.norm.endswith("ed") and before and before[-1] in {"i", "we", "they", "was", "were", "been", "just", "and"}:
        return None
    for cue in spoken.cues("future", within=clause):
        if cue.start < mention.start or cue.start >= mention.end:
            return spoken.words(cue.start, cue.end)
    if mention.of("action")[0].form == "phrase":
        return spoken.words(mention.start, mention.end)
    if _is_assigned(spoken, mention, clause):
        return spoken.words(clause.start, mention.start)
    if _is_order(spoken, mention, clause):
        return NOTE_ITSELF
    earlier = spoken.clauses[clause.index - 1] if clause.index else None
    if (
        earlier is not None
        and clause.link in {"and", ","}
        and spoken.has_cue("future", within=earlier)
        and not token.norm.endswith(("ed", "ing"))
    ):
        return spoken.words(earlier.start, earlier.end)
    return None


def _is_assigned(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`electrician to check`, `landlord to renew that`: somebody, to, and the work."""
    tokens = spoken.tokens
    for at in range(mention.start - 1, max(clause.start, mention.start - 4), -1):
        if tokens[at].norm == "to":
            ahead = tokens[at - 1]
            finite = any(token.is_finite for token in tokens[clause.start : at])
            return ahead.tag in {"NN", "NNS", "NNP", "NNPS"} and not finite
    return False


def _is_order(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`Replace.`, `Re-caulk the tub, maintenance`: an action word that opens a note."""
    lead = [token for token in spoken.tokens[clause.start : mention.start] if token.norm not in ORDER_LEAD]
    words = set(spoken.norms(clause.start, mention.start))
    if lead or (words & {"it", "this", "that", "those"} and "a" not in words):
        return False
    if spoken.has_cue("addressee", "often", "imperative"):
        return False
    following = spoken.norms(mention.end, mention.end + 1)
    if mention.of("condition") and not set(following) & {"the", "your", "it", "this", "that", "these", "and"}:
        return False
    token = spoken.tokens[mention.start]
    return not token.norm.endswith(("ed", "ing")) and clause.end - clause.start <= 9


def _is_care(spoken: Spoken, clause: Clause, stances: Sequence[Stance], mention: Mention) -> bool:
    """Whether the resident is told to do it again and again: that is advice."""
    if spoken.has_cue("often"):
        return True
    mode = stances[mention.start].mode
    if mode is not Mode.INSTRUCTION:
        return False
    return not _is_order(spoken, mention, clause)


def _worked_on(scene: Scene, mention: Mention, clause: Clause, last_flaw: str | None) -> tuple[str, str]:
    """The component of the work: named after the action, before it, or the one that was spoken of."""
    spoken, bearers, stances, place = scene.spoken, scene.bearers, scene.stances, scene.place
    named = spoken.named_in(clause)
    named = tuple(one for one in named if stances[one.start].mode is not Mode.HYPOTHETICAL)
    after = [one for one in named if one.start >= mention.end and one.relation != "place"]
    if after:
        return after[0].component, f"'{spoken.words(after[0].start, after[0].end)}' follows it"
    before = [one for one in named if one.end <= mention.start and one.relation != "place"]
    if before:
        return before[-1].component, f"said of '{spoken.words(before[-1].start, before[-1].end)}'"
    later = [
        one
        for one in spoken.named
        if one.start >= mention.end and one.relation == "topic" and one.start - mention.end < 4
    ]
    if later:
        return later[0].component, f"'{spoken.words(later[0].start, later[0].end)}' follows it"
    subjects = bearers.subjects_of(clause)
    if subjects:
        return subjects[-1].component, "still about it"
    focus = last_flaw or place.subject
    return (focus, "the flaw spoken of before") if focus else (ROOM_GENERAL, "no component in focus")


def _party(spoken: Spoken, clause: Clause, owner_speaks: bool) -> Party | None:
    norms = set(spoken.norms(clause.start, clause.end))
    if norms & {"owner", "landlord", "owners"}:
        return "owner"
    if (
        norms & {"tenant", "tenants", "resident", "residents", "you"}
        and "send" not in norms
        and "bring" not in norms
        and "get" not in norms
    ):
        return "resident"
    if norms & STAFF or norms & {"my", "our"}:
        return "owner" if owner_speaks else "manager"
    return None
