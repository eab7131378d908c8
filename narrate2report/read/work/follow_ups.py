"""Work to be done: who, what, on which component. Told apart from care that the resident is asked to take."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.negations import negation_before
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.modes import Mode
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.work.arranged import HITHER, called_about, is_asked_of_somebody, is_had_done
from narrate2report.read.work.chores import unnamed_work
from narrate2report.read.work.fitted import parts_fitted
from narrate2report.read.work.intentions import find_intended
from narrate2report.read.work.no_action import is_no_action
from narrate2report.read.work.plans import (
    NOTE_ITSELF,
    is_assigned,
    is_care,
    is_on_paper,
    is_promised,
    is_seen_about,
    planned_by,
)
from narrate2report.read.work.requested import is_begged, is_requested
from narrate2report.read.work.scheduled import find_scheduled
from narrate2report.read.work.trades import USUAL_WORK, trades_in, tradesmen_called
from narrate2report.read.work.under_way import opens_to_see, returns_to_see
from narrate2report.read.work.worked_on import NOT_TO_COME, RESIDENT, SUPPOSING, depends, party_of, to_do, worked_on
from narrate2report.records.findings import Action

NEEDS = frozenset("need needs wants want".split())
REGARDLESS = frozenset("either anyway anyways next on before tomorrow regardless this".split())
NOT_SUPPLIED = frozenset(
    "back knees hip holiday vacation coffee drink nap lunch break raise somebody someone video link bill invoice"
    " report copy email photo photos picture pictures note message deposit cheque check money pest quote word".split()
)
REFERRED = frozenset("one ones it them some another that those new spare pack set".split())
COUNTED_OUT = frozenset("a an new another one more two some only".split())
IS_WHAT_IT = (["is", "what", "it"], ["'s", "what", "it"], ["is", "all", "it"], ["'s", "all", "it"])
"""Before `needs` they look back to what is needed: `a drop of oil is all it needs`."""

WISHING = frozenset("they he she i we you tenant tenants resident residents people owner everyone who".split())
"""Those who want something because they would like it."""

UNSAID = frozenset("do doing done see sort sorted".split())
"""Words of work that say nothing of it."""

GOES = frozenset("go out".split())
"""Words at the end of `has to go`, `needs to come out`: what goes may be what only lies there."""

REKEYS = frozenset("rekey rekeying rekeyed re-key".split())
LOCKED = frozenset({"lock", "door", "sliding_door", "garage_door", "mailbox"})
NOT_WORK = frozenset(
    {Mode.HYPOTHETICAL, Mode.QUESTION, Mode.ELSEWHERE, Mode.PAST, Mode.SEARCH, Mode.QUOTED, Mode.POLICY}
)


def find_follow_ups(scene: Scene, *, flaw: str | None, owner_speaks: bool) -> list[Draft]:
    """Follow-up drafts: an action word that somebody will do, must do, or that the notes order."""
    drafts: list[Draft] = []
    if _says_back(scene.spoken):
        return []
    for mention in scene.spoken.found.terms:
        planned = _plan_of(scene, mention)
        if planned is None and flaw is not None and _is_all_that_is_said(scene, mention):
            planned = NOTE_ITSELF
        if planned is None:
            continue
        clause = scene.spoken.clause_of(mention.start)
        on = worked_on(scene, mention, clause, flaw)
        if REKEYS & set(scene.spoken.norms(mention.start, mention.end)) and on[0] not in LOCKED:
            on = "lock", "keys are cut anew for a lock"
        told = f"'{scene.spoken.words(mention.start, mention.end)}' is work, planned by '{planned}'"
        action = _action_of(scene.spoken, mention, clause)
        party = party_of(scene.spoken, clause, owner_speaks=owner_speaks)
        draft = to_do(scene, mention.start, on, told, action, party, confidence=0.7)
        goes = is_on_paper(mention) and bool(GOES & set(scene.spoken.norms(mention.end - 1, mention.end)))
        draft = replace(draft, unsaid=goes)
        if not any(_is_same_work(scene.spoken, one, draft, clause) for one in drafts):
            drafts.append(draft)
    if len(drafts) > 1:
        drafts = [one for one in drafts if not _is_guessed(scene.spoken, one)] or drafts
    return (
        drafts
        or _needed_parts(scene, flaw)
        or tradesmen_called(scene, flaw, owner_speaks=owner_speaks)
        or called_about(scene, flaw, owner_speaks=owner_speaks)
        or parts_fitted(scene, flaw, owner_speaks=owner_speaks)
        or find_scheduled(scene, flaw, owner_speaks=owner_speaks)
        or find_intended(scene, flaw, owner_speaks=owner_speaks)
        or _looked_into(scene, flaw, owner_speaks=owner_speaks)
        or unnamed_work(scene, flaw, owner_speaks=owner_speaks)
    )


def _is_guessed(spoken: Spoken, draft: Draft) -> bool:
    """`might need rewiring, I'll get it checked`: what may turn out to be needed, beside work that is planned."""
    clause = spoken.clause_of(draft.at)
    return bool({"might", "may", "maybe", "perhaps", "could"} & set(spoken.norms(clause.start, draft.at)))


def _looked_into(scene: Scene, flaw: str | None, *, owner_speaks: bool) -> list[Draft]:
    """`the disposal hums, I'll pull it and see`: what ails it will be looked for."""
    if flaw is None or scene.spoken.ends_with_question():
        return []
    for clause in scene.spoken.clauses:
        found = opens_to_see(scene.spoken, clause) or returns_to_see(scene.spoken, clause)
        if found is None or scene.mode(found.start) in NOT_TO_COME:
            continue
        on = worked_on(scene, found, clause, flaw)
        told = f"'{scene.spoken.words(clause.start, found.end)}' is a look at it to come"
        party = party_of(scene.spoken, clause, owner_speaks=owner_speaks)
        return [to_do(scene, found.start, on, told, "inspect", party, confidence=0.5)]
    return []


def _action_of(spoken: Spoken, mention: Mention, clause: Clause) -> Action:
    """What a word of work does; `the cleaner comes back and does it` cleans."""
    named: Action = mention.of("action")[0].id  # type: ignore[assignment]
    if is_on_paper(mention) and spoken.norms(mention.end, mention.end + 3) == ["for", "a", "new"]:
        return "replace"  # a ticket for a new seat
    told = any(one.start < mention.start for one in trades_in(spoken))
    if named == "supply" and told and "new" in spoken.norms(mention.end, mention.end + 3):
        return "replace"  # the plumber is bringing one new valve
    if not UNSAID & set(spoken.norms(mention.start, mention.start + 1)):
        return named
    since = spoken.clauses[clause.index - 1].start if clause.index and clause.link == "and" else clause.start
    trades = [one for one in trades_in(spoken) if since <= one.start < mention.start]
    whose = [norm for one in trades for norm in spoken.norms(one.start, one.end)]
    return next((USUAL_WORK[norm] for norm in whose if norm in USUAL_WORK), named)


def _is_same_work(spoken: Spoken, one: Draft, other: Draft, clause: Clause) -> bool:
    """`patch and touch up`, `it has to be fixed back, I'll have maintenance do it`: one work, in two words."""
    if one.component != other.component:
        return False
    if one.action == other.action or one.at in clause:
        return True
    joined = clause.link == "and" and other.at - one.at <= len(("patch", "and", "touch"))
    only_done = spoken.norms(other.at, other.at + 2) in (["do", "it"], ["do", "that"], ["see", "to"])
    only_done = only_done or spoken.tokens[other.at].norm in {"ticket", "request", "quote"}
    return joined or only_done


def _plan_of(scene: Scene, mention: Mention) -> str | None:
    """The words that plan the work that a mention names; None where it names none, or none to come."""
    spoken = scene.spoken
    senses = mention.of("action")
    if not senses or any(one.start <= mention.start < one.end for one in spoken.named):
        return None
    if _supplies_nothing(spoken, mention) or _streams_out(spoken, mention):
        return None
    clause = spoken.clause_of(mention.start)
    mode = scene.mode(mention.start)
    told = mode is Mode.HYPOTHETICAL and (is_on_paper(mention) or is_promised(spoken, mention))
    told = told or (mode is Mode.QUOTED and is_promised(spoken, mention))
    told = told or (mode is Mode.HYPOTHETICAL and _is_had_done_at_will(spoken, mention, clause))
    told = told or (mode in {Mode.QUOTED, Mode.PAST} and is_asked_of_somebody(spoken, mention, clause))
    told = told or (mode in {Mode.HYPOTHETICAL, Mode.SEARCH} and is_seen_about(spoken, mention, clause))
    told = told or (mode is Mode.QUESTION and is_requested(spoken, mention, clause))
    if (mode in NOT_WORK and not told) or _is_counted_noun(spoken, mention) or depends(scene, clause):
        return None
    if is_no_action(spoken, mention, clause) or _is_worked_on_itself(spoken, mention):
        return None
    if is_begged(spoken, mention, clause):
        return spoken.words(clause.start, mention.end)
    planned = planned_by(spoken, mention, clause)
    if planned == NOTE_ITSELF:
        alone = clause.end - clause.start == mention.end - mention.start
        if mention.of("works") or (mention.of("condition") and alone) or spoken.tokens[mention.start].norm == "look":
            return None
    charged = spoken.norms(clause.end - 2, clause.end) in (["on", "you"], ["on", "them"])
    if is_on_paper(mention) and (charged or spoken.has_cue("liability", "policy", within=clause)):
        return None  # a service call for a spoon in it is on you
    theirs = RESIDENT & set(spoken.norms(clause.start, mention.start)) and spoken.has_cue("often")
    if planned and (theirs or not is_assigned(spoken, mention, clause)):
        return None if is_care(spoken, mention, clause, scene.mode(mention.start)) else planned
    return planned


FRAGMENT = 8
SOME = frozenset("a an some another full quick good proper little".split())
STANDS = frozenset("here though but no not nice lovely looks all last recent new-looking".split())


def _is_all_that_is_said(scene: Scene, mention: Mention) -> bool:
    """`the wall is dented. Filler and a lick of paint.`: after a flaw, a noun of work with no verb and no other thing;
    `fresh paint in here` is how it looks."""
    spoken = scene.spoken
    some = bool(SOME & set(spoken.norms(mention.start - 1, mention.start))) if mention.start else False
    noun = some and any(sense.form == "noun" for sense in mention.of("action"))
    said = any(token.is_finite or token.tag in {"VBD", "VBN"} for token in spoken.tokens if token.is_word)
    brief = len(spoken.tokens) <= FRAGMENT and not spoken.named and not spoken.ends_with_question()
    return noun and brief and not said and not STANDS & set(spoken.norms()) and scene.is_said(mention.start)


def _is_worked_on_itself(spoken: Spoken, mention: Mention) -> bool:
    """`I want the waterproofing looked at`: the work is the verb right behind the noun."""
    noun = all(sense.form == "noun" for sense in mention.of("action"))
    return noun and any(other.start == mention.end and other.of("action") for other in spoken.found.terms)


def as_planned(spoken: Spoken, drafts: list[Draft], before: Sequence[Draft]) -> list[Draft]:
    """`the bolts need snugging. I'll do it before I leave.`: the work of the sentence before, and no second one."""
    if len(drafts) != 1 or len(before) != 1:
        return drafts
    first, _, third = (*spoken.norms(drafts[0].at, drafts[0].at + 3), "", "")[:3]
    if first not in UNSAID and (first, third) != ("get", "done"):
        return drafts
    same = drafts[0].component == before[0].component or not spoken.named
    same_work = replace(drafts[0], component=before[0].component, action=before[0].action, restates=True)
    return [same_work] if same else drafts


def _is_had_done_at_will(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`we can get that looked at`: `can get` supposes nothing where one has it done."""
    return is_had_done(spoken, mention, clause) and not SUPPOSING & set(spoken.norms())


def _says_back(spoken: Spoken) -> bool:
    """`filter's you, swab and duct are us, the lock's me`: who does what, said once more at the end."""
    shared = 0
    for clause in spoken.clauses:
        norms = spoken.norms(clause.start, clause.end)
        if norms[-1:] in (["you"], ["us"], ["me"]) and norms[-2:-1] in (["'s"], ["is"], ["are"]):
            shared += "that" not in norms
    return shared > 1


def _streams_out(spoken: Spoken, mention: Mention) -> bool:
    """`water's coming out the bottom`, `it's coming out cold`; `the carpet's coming out either way` is work."""
    if spoken.norms(mention.start, mention.end) != ["coming", "out"]:
        return False
    return mention.end < spoken.clause_of(mention.start).end and not REGARDLESS & set(
        spoken.norms(mention.end, mention.end + 1)
    )


def _supplies_nothing(spoken: Spoken, mention: Mention) -> bool:
    """`later I send you the video`: nothing of the home is supplied."""
    if mention.of("action")[0].id != "supply":
        return False
    clause = spoken.clause_of(mention.start)
    if any(trade.start in clause and trade.start >= mention.end for trade in trades_in(spoken)):
        return True
    person = spoken.tokens[mention.end : mention.end + 1]
    if person and person[0].tag == "NNP" and HITHER & set(spoken.norms(mention.end + 1, mention.end + 2)):
        return True  # I'm sending Ann round
    after = spoken.norms(mention.start + 1, mention.end + 6)
    if spoken.norms(mention.start, mention.start + 1) == ["owe"]:
        return False
    if set(after) & NOT_SUPPLIED or spoken.tokens[mention.start].tag == "VBD":
        return True
    return not (set(after) & REFERRED or spoken.named or mention.end == spoken.clause_of(mention.start).end)


def _is_counted_noun(spoken: Spoken, mention: Mention) -> bool:
    """`one anchor left in`, `a screw anchor`: a thing and no work."""
    if not mention.start or any(sense.form != "verb" for sense in mention.of("action")):
        return False
    before = [token.tag for token in spoken.tokens[max(0, mention.start - 2) : mention.start]]
    noun = mention.end - mention.start == 1 and spoken.tokens[mention.start].tag in {"NN", "NNS"}
    return noun and (before[-1] in {"CD", "DT"} or before in (["DT", "NN"], ["DT", "JJ"], ["CD", "NN"]))


def _is_work(mention: Mention) -> bool:
    """Whether a noun tells of work or of a flaw, so that it is no part to be had: `needs a clean`."""
    return bool(mention.of("condition")) or any(sense.form != "verb" for sense in mention.of("action"))


def _sticks(mention: Mention) -> bool:
    return any(sense.id in {"sticking", "not_working"} for sense in mention.of("condition"))


def _needed_parts(scene: Scene, flaw: str | None) -> list[Draft]:
    """`it still needs a door`: what is needed is replaced; `it only needs a battery`: it is supplied with one."""
    spoken = scene.spoken
    for at, token in enumerate(spoken.tokens):
        clause = spoken.clause_of(at)
        if token.norm not in NEEDS or scene.mode(at) in NOT_WORK or negation_before(spoken, clause, at):
            continue
        if flaw and token.norm == "needs" and spoken.norms(at - 3, at) in IS_WHAT_IT:
            on = worked_on(scene, Mention(at, at + 1), clause, flaw)
            return [to_do(scene, at, on, f"'{spoken.words(clause.start, at + 1)}'", "repair", None, confidence=0.5)]
        noun = at + (2 if spoken.norms(at + 1, at + 2) in (["is"], ["'s"]) else 1)
        begin = noun
        while noun < clause.end and (
            spoken.tokens[noun].norm in COUNTED_OUT or (noun > begin and spoken.tokens[noun].tag == "CD")
        ):
            noun += 1
        if noun == begin or noun >= clause.end:
            continue
        part = next((one for one in spoken.named if one.start == noun), None)
        soiled = any(one.id == "dirty" for m in spoken.found.terms if m.start == at for one in m.of("condition"))
        if token.norm in {"want", "wants"} and WISHING & set(spoken.norms(max(clause.start, at - 2), at)):
            continue  # they want a bath instead
        if any(noun in range(one.start, one.end) for one in trades_in(spoken)):
            continue
        if spoken.tokens[noun].norm in NOT_SUPPLIED or (not part and spoken.tokens[noun].tag not in {"NN", "NNS"}):
            continue
        if part is None and any(_is_work(m) and m.start == noun for m in spoken.found.terms):
            continue
        if any(m.start == at and m.end > noun and _sticks(m) for m in spoken.found.terms):
            continue  # it needs a thump
        done = [one.id for m in spoken.found.terms if m.start == noun for one in m.of("action")]
        owner, how = worked_on(scene, Mention(at, at + 1), clause, flaw)
        on = part.component if part else owner, how
        action: Action = "clean" if soiled else "replace" if part else done[0] if done else "supply"  # type: ignore[assignment]
        return [to_do(scene, at, on, f"'{spoken.words(at, noun + 1)}'", action, None, confidence=0.65)]
    return []
