"""Work in words that name no kind of work: `that gets done today`, `somebody has to fish that out`, `I'll report it`.

Such words are work only where a flaw was spoken of shortly before, and its remedy follows from the flaw.
"""

from __future__ import annotations

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.negations import negation_before
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.modes import Mode
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.pointing import POINTING
from narrate2report.read.work.obliged import must_be_done
from narrate2report.read.work.remedies import to_mend
from narrate2report.read.work.worked_on import NOT_TO_COME, worked_on

WANTS = frozenset("needs need needing wants want wanting gets requires".split())
BE = frozenset("be get getting being".split())
SOMEBODY = frozenset("somebody someone".split())
OWN = frozenset("i we they".split())
BOUND = frozenset("needs has should must will 's 'll got ought better to going gon na have need".split())
ADVERBS = frozenset("really just all also definitely both still badly probably then properly re".split())
NO_WORK = frozenset(
    "use used using keep kept keeping say said see seen tell told know known watch watched charge charged bill billed"
    " pay paid leave left return returned count counted cover covered note noted mention remember live lived"
    " believe explain call called ask asked come be bring hot warm cold stuck wet dirty worse better old tired going"
    " getting closing opening turning coming worn broken mounted painted thing things anything something letting"
    " signed lost stolen saying looking hit hurt rid moved move pushing pulling holding pressing".split()
)
"""Verbs that nobody mends anything with."""

BIDDEN = frozenset("bring fix grab get look sort nip pop see".split())
"""Verbs that bid somebody: `somebody bring a spanner`."""

PASSED_ON = frozenset("report flag log raise mention pass escalate chase".split())
PASSING_ON = frozenset("reporting flagging logging raising passing escalating chasing".split())
REPORTED = frozenset("reported flagged logged raised escalated".split())
RUNG_THROUGH = frozenset("put ring phone call ringing phoning calling putting pass passing send sending".split())
LISTS = frozenset("'s my his her their our repair punch snag snagging work works the maintenance job jobs todo".split())
JOBS = frozenset("insurance warranty maintenance landlord owner owner's plumbing two-man".split())


def unnamed_work(scene: Scene, flaw: str | None, *, owner_speaks: bool) -> list[Draft]:
    """At most one follow-up: a repair of the flaw that was spoken of, in words that do not say how."""
    spoken = scene.spoken
    if (flaw is None and not spoken.named) or spoken.ends_with_question() or spoken.has_cue("often"):
        return []
    for clause in spoken.clauses:
        if flaw is None:
            found = _is_listed(spoken, clause) or _done_to(spoken, clause)
            if found is not None and not any(one.relation == "topic" for one in spoken.named_in(clause)):
                continue
        else:
            found = _done_to(spoken, clause) or must_be_done(spoken, clause) or _somebody_must(spoken, clause)
            found = found or _passed_on(spoken, clause)
            found = found or _is_a_job(spoken, clause) or _is_listed(spoken, clause)
        proposed = _would_mend(spoken, clause) if found is None and flaw is not None else None
        found = proposed if found is None else found
        if found is None or negation_before(spoken, clause, found.start):
            continue
        plain = proposed is not None or (_will_get(spoken, found.start - 1) and "if" not in spoken.norms())
        mode = scene.mode(found.start)
        charged = mode is Mode.POLICY and not spoken.has_cue("policy", "liability", within=clause)  # ..., it's on them
        if not plain and not charged and mode in NOT_TO_COME:
            continue
        on = worked_on(scene, found, clause, flaw)
        told = f"'{spoken.words(clause.start, found.end)}' plans work"
        return [to_mend(scene, clause, found.start, on, told, owner_speaks=owner_speaks, confidence=0.5)]
    return []


def _done_to(spoken: Spoken, clause: Clause) -> Mention | None:
    """`that gets done today`, `this wants raking out`, `needs to be freed`, `could do with sticking down`."""
    tokens = spoken.tokens
    for at in range(clause.start, clause.end - 1):
        wants = tokens[at].norm in WANTS or spoken.norms(at, at + 3) == ["could", "do", "with"]
        wants = wants or _will_get(spoken, at) or _has_it_done(spoken, clause, at) or _is_to_be(spoken, clause, at)
        if not wants or tokens[at].tag in {"NN", "NNS"}:
            continue
        verb = at + (3 if tokens[at].norm == "could" else 1)
        passive = tokens[at].norm == "gets" or _will_get(spoken, at)
        if _will_get(spoken, at) and any(term.start == at + 1 for term in spoken.terms("condition")):
            continue  # it'll get stained again
        if _is_to_be(spoken, clause, at):
            passive, verb = True, at + 2
        elif spoken.norms(verb, verb + 1) == ["to"]:
            if not set(spoken.norms(verb + 1, verb + 2)) & BE:
                continue
            passive, verb = True, verb + 2
        while verb < clause.end and (tokens[verb].norm in ADVERBS or tokens[verb].norm in POINTING):
            verb += 1
        if verb >= clause.end or tokens[verb].norm in NO_WORK or _is_addressed(spoken, clause, at):
            continue
        participle = passive and verb > at + 1 and tokens[verb].norm.endswith("ed") and tokens[verb].tag != "VB"
        if (moved := _needs_thing_done(spoken, clause, at)) is not None:
            return Mention(moved, moved + 1)
        if participle or tokens[verb].tag in ({"VBN", "VBD"} if passive else {"VBG", "VBN", "VBD"}):
            return Mention(verb, verb + 1)
    return None


def _needs_thing_done(spoken: Spoken, clause: Clause, at: int) -> int | None:
    """The verb of `it needs the strike plate moving over`, `wants its hinge adjusted`."""
    tokens = spoken.tokens
    if tokens[at].norm not in {"needs", "need", "wants"} or spoken.norms(at + 1, at + 2)[:1] not in WHICH:
        return None
    for verb in range(at + 3, min(clause.end, at + 6)):
        if tokens[verb].tag in {"VBG", "VBN", "VBD"} and tokens[verb].norm not in NO_WORK - {"moved", "moving"}:
            return verb if tokens[verb - 1].tag in {"NN", "NNS"} else None
    return None


WHICH = (["the"], ["its"], ["that"], ["those"], ["a"], ["their"])


def _will_get(spoken: Spoken, at: int) -> bool:
    """`it'll get rubbed down`: passive, and to come."""
    before = spoken.norms(at - 1, at) if at else []
    return spoken.tokens[at].norm == "get" and before in (["will"], ["'ll"])


def _is_to_be(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`two nail holes, to be filled`, `that one's to be looked at`; `it has to be` stands behind a verb of its own."""
    return spoken.norms(at, at + 2) == ["to", "be"] and (
        at == clause.start or spoken.norms(at - 1, at)[0] in {"is", "are", "'s", "due", "and"}
    )


def _has_it_done(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`I'll get it fitted`, `we're having those seen to`."""
    if spoken.tokens[at].norm not in {"get", "getting", "have", "having"}:
        return False
    ahead = {"will", "'ll", "am", "'m", "are", "'re", "going"} & set(spoken.norms(max(clause.start, at - 3), at))
    return bool(ahead and OWN & set(spoken.norms(clause.start, at)) and set(spoken.norms(at + 1, at + 2)) & POINTING)


def _is_addressed(spoken: Spoken, clause: Clause, at: int) -> bool:
    return bool({"you", "your"} & set(spoken.norms(clause.start, at)))


def _somebody_must(spoken: Spoken, clause: Clause) -> Mention | None:
    """`somebody needs to fish that out`, `someone's got to get behind there`."""
    norms = spoken.norms(clause.start, clause.end)
    if not norms or not set(norms[:2]) & SOMEBODY:
        return None
    start = next(at for at, norm in enumerate(norms) if norm in SOMEBODY) + 1
    at = start
    while at < len(norms) and (norms[at] in BOUND or norms[at] in ADVERBS):
        at += 1
    if at >= len(norms):
        return None
    verb = spoken.tokens[clause.start + at]
    if at == start and (verb.tag == "VBD" or verb.norm not in BIDDEN):
        return None
    if verb.tag not in {"VB", "VBP"} or verb.norm in NO_WORK - {"move", "get", "come"}:
        return None
    if any(term.start <= clause.start + at < term.end for term in spoken.terms("condition")):
        return None  # someone will catch a toe
    return Mention(clause.start + at, clause.start + at + 1)


def _passed_on(spoken: Spoken, clause: Clause) -> Mention | None:
    """`I'll report that`, `I'm ringing that through to the emergency line`, `I'll flag it to the office`."""
    norms = spoken.norms(clause.start, clause.end)
    for at, norm in enumerate(norms):
        have = {"have", "'ve"} & set(norms[max(0, at - 2) : at]) and set(norms[:at]) & OWN
        lead = [one for one in norms[:at] if one not in {"already", "and", "so", "been"}]
        if norm in REPORTED and not lead and norms[at + 1 : at + 2] in (["to"], ["with"], ["already"]):
            return Mention(clause.start + at, clause.start + at + 1)
        if norm in REPORTED and have and set(norms[at + 1 : at + 2]) & POINTING:
            return Mention(clause.start + at, clause.start + at + 1)
    if not set(norms[:3]) & OWN or not {"will", "'ll", "'m", "am", "are", "going", "gon"} & set(norms[:4]):
        return None
    for at, norm in enumerate(norms):
        pointed = bool(set(norms[at + 1 : at + 2]) & POINTING) or (
            clause.start + at + 1 >= clause.end and bool(set(spoken.norms(clause.end, clause.end + 1)) & POINTING)
        )
        chased = norms[at + 2 : at + 3] == ["for"]
        named = any(0 < one.start - clause.start - at <= len(("flag", "the")) for one in spoken.named_in(clause))
        if norm in {"flag", "report", "flagging", "reporting"} and named:
            return Mention(clause.start + at, clause.start + at + 1)
        if (norm in PASSED_ON or norm in PASSING_ON) and pointed and not chased:
            return Mention(clause.start + at, clause.start + at + 1)
        written = norm in {"write", "log", "writing"} and norms[at + 2 : at + 3] == ["up"]
        filed = norm in {"put", "putting"} and norms[at + 2 : at + 5] in (
            ["in", "the", "system"],
            ["on", "the", "system"],
        )
        if pointed and (written or filed):
            return Mention(clause.start + at, clause.start + at + 1)
        called_in = norms[at + 2 : at + 3] == ["in"] and norm.startswith(("call", "phon", "ring"))
        if norm in RUNG_THROUGH and pointed and (called_in or norms[at + 2 : at + 3] in (["through"], ["on"])):
            return Mention(clause.start + at, clause.start + at + 1)
    return None


def _would_mend(spoken: Spoken, clause: Clause) -> Mention | None:
    """`two screws and some glue would fix it`, `a new washer should sort that`: what would mend it."""
    for at in range(clause.start + 2, clause.end - 1):
        modal = spoken.tokens[at - 1].norm in {"will", "'ll", "would", "'d", "should", "ought"}
        if not modal or spoken.tokens[at].norm not in CURES or not POINTING & set(spoken.norms(at + 1, at + 2)):
            continue
        lead = spoken.norms(clause.start, at - 1)
        if spoken.tokens[at - 2].tag in {"NN", "NNS", "NNP"} and not UNMENDED & set(lead):
            return Mention(lead.index("new") + clause.start, at) if "new" in lead else Mention(at, at + 1)
    return None


CURES = frozenset("fix sort cure solve mend do hold settle".split())
UNMENDED = frozenset("nothing no not never nobody you they".split())


def _is_a_job(spoken: Spoken, clause: Clause) -> Mention | None:
    """`that's an insurance job`, `that's a job for the landlord`."""
    norms = spoken.norms(clause.start, clause.end)
    if norms[:1] not in (["that"], ["it"], ["this"], ["so"], ["those"]) or "job" not in norms:
        return None
    at = norms.index("job")
    if norms[at - 1] in JOBS or norms[at + 1 : at + 2] == ["for"]:
        return Mention(clause.start + at, clause.start + at + 1)
    return None


def _is_listed(spoken: Spoken, clause: Clause) -> Mention | None:
    """`it's on the painter's list`, `I'm adding that to Sam's list`: somebody has it to do."""
    norms = spoken.norms(clause.start, clause.end)
    if "list" not in norms:
        return None
    at = norms.index("list")
    if {"not", "never"} & set(norms[:at]):
        return None
    named = any(one.end <= clause.start + at for one in spoken.named_in(clause))
    if not (named or POINTING & set(norms[:at])):
        return None
    lead = max((here for here in range(max(0, at - 4), at) if norms[here] in {"on", "to"}), default=at)
    whose = (LISTS if named else LISTS - {"the"}) & set(norms[lead:at])
    return Mention(clause.start + at, clause.start + at + 1) if whose else None
