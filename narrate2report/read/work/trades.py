"""People whose coming means work: the plumber, the gutter guy, our air man, the flooring company."""

from __future__ import annotations

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.negations import negation_before
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.modes import Mode
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.whereabouts import ROOM_GENERAL
from narrate2report.read.work.remedies import remedy
from narrate2report.read.work.worked_on import is_only_supposed, to_do, worked_on
from narrate2report.records.findings import Action

PEOPLE = frozenset(
    "person persons professional professionals guy guys man men fellow fellows fella bloke blokes chap chaps lad lads"
    " lady people folks company crew team contractor contractors fitter fitters specialist specialists tech techs"
    " technician technicians vendor installer restorer engineer mechanic".split()
)
NO_TRADE = frozenset(
    "management insurance phone moving delivery mail letting leasing housing cable security housekeeping power gas"
    " water electric utility credit parking office business deposit rental agency council night"
    " vacuum drain lease young old last next same other good nice poor".split()
)
"""Words before `company` or `people` that call nobody to work here."""

PRODUCTS = frozenset("vacuum drain glass oven pipe window toilet bowl hob steam".split())
"""Before `cleaner` these make a machine or a bottle of it."""

CALLED = frozenset(
    "get getting call calling send sending book booking have having need needs want phone ring ringing phoning radio"
    " order ordering contact contacting".split()
)
ARRIVES = frozenset("comes come".split())
FAMILY = frozenset("wife husband nephew son dad".split())
"""Who may do some work, and is met with as often for no work at all."""

NEEDED = frozenset("needed required wanted".split())
INFORMED = frozenset("told notified informed contacted alerted".split())
ALREADY = frozenset("called booked rung phoned ordered scheduled asked emailed texted".split())
SPEAKING = frozenset("tell ask let inform notify alert email text message".split())
TOLD_TO = frozenset("for to with by through".split())
NOUNS = frozenset({"NN", "NNP", "NNS", "VBG"})
LOOKS = frozenset("look see check diagnose".split())
COMES = frozenset("taking hauling coming due booked going gon scheduled here back".split())
SAYS = frozenset(
    "says said keeps kept thinks thought reckons knows told is was were has had did does used do are sounds looks seems"
    " works runs likes makes wants loves".split()
)
"""What a trade does that brings nobody here."""
LEADING = frozenset(
    "a an the so and my our your then but that there 's is licensed local same will be one job for".split()
)
DAYS = frozenset(
    "monday tuesday wednesday thursday friday saturday sunday mon tue tues wed thu thur thurs fri sat sun today"
    " tomorrow tonight asap next this first".split()
)
NOT_COMING = frozenset(
    {Mode.HYPOTHETICAL, Mode.QUESTION, Mode.ELSEWHERE, Mode.PAST, Mode.SEARCH, Mode.QUOTED, Mode.POLICY}
)
USUAL_WORK: dict[str, Action] = {
    "cleaner": "clean", "cleaners": "clean", "cleaning": "clean", "pest": "treat", "exterminator": "treat",
    "gutter": "clean", "eavestrough": "clean", "surveyor": "inspect", "sweep": "clean", "bug": "treat",
    "rodent": "treat", "colleague": "inspect", "rubbish": "clean", "junk": "clean",
    "hauler": "clean", "haulers": "clean", "hauling": "clean", "movers": "clean", "arborist": "repair",
}  # fmt: skip
"""What a trade does when nothing is said; any other repairs."""


def trades_in(spoken: Spoken) -> list[Mention]:
    """The trades named in a sentence: listed ones, and `guy` or `company` after what they see to."""
    found = [
        cue
        for cue in spoken.cues("trade")
        if not PRODUCTS & set(spoken.norms(max(0, cue.start - 1), cue.start))
        or "cleaner" not in spoken.norms(cue.start, cue.end)
    ]
    for at in range(1, len(spoken.tokens)):
        before = spoken.tokens[at - 1]
        named = any(one.end == at for one in spoken.named) or any(term.end == at for term in spoken.found.terms)
        if spoken.tokens[at].norm not in PEOPLE or before.norm in NO_TRADE or not (named or before.tag in NOUNS):
            continue
        start = at - 1
        while start and spoken.tokens[start - 1].tag in {"NN", "NNP"} and start > spoken.clause_of(at).start:
            start -= 1
        found.append(Mention(start, at + 1))
    spans = sorted(found, key=lambda one: (one.start, -one.end))
    return [
        one
        for index, one in enumerate(spans)
        if not any(other.start <= one.start and one.end <= other.end for other in spans[:index])
    ]


def tradesmen_called(scene: Scene, flaw: str | None, *, owner_speaks: bool) -> list[Draft]:
    """`get the electrician on that one`, `the plumber comes Thursday`: a trade is called, the work goes unsaid."""
    spoken = scene.spoken
    if spoken.has_cue("often"):
        return []
    for trade in trades_in(spoken):
        clause = spoken.clause_of(trade.start)
        mode = scene.mode(trade.start)
        wished = mode is Mode.HYPOTHETICAL and "like" in spoken.norms(clause.start, trade.start)
        wished = wished or (mode in {Mode.QUOTED, Mode.PAST} and _comes_after(scene, clause))
        if (
            (mode in NOT_COMING and not wished)
            or is_only_supposed(scene, clause)
            or negation_before(spoken, clause, trade.start)
        ):
            continue
        if not is_called(spoken, trade, clause) and not _comes_after(scene, clause):
            continue
        component, how = _seen_to(scene, trade, clause, flaw)
        listed = _listed_after(spoken, clause)
        named = any(one.start in clause and one.start >= trade.end for one in spoken.named)
        listed = list(dict.fromkeys([component, *listed] if named or not listed else listed))
        told, action = f"'{spoken.words(clause.start, trade.end)}'", _trades_action(scene, trade, clause)
        return [
            to_do(scene, trade.start, (one, how), told, action, "owner" if owner_speaks else "manager", confidence=0.6)
            for one in listed
        ]
    return []


def _seen_to(scene: Scene, trade: Mention, clause: Clause, flaw: str | None) -> tuple[str, str]:
    """What the trade is called for: what is named after it, pointed to, or what its own name says (`gutter guy`)."""
    spoken = scene.spoken
    after = next(
        (
            one
            for one in spoken.named
            if one.start >= trade.end and one.start in clause and spoken.tokens[one.start - 1].norm != "by"
        ),
        None,
    )
    if after is not None and (after.relation == "topic" or _is_for(spoken, trade, after.start)):
        return after.component, f"'{spoken.words(after.start, after.end)}' is named"
    own = next((one for one in spoken.named if trade.start <= one.start < trade.end), None)
    groups = scene.vocabulary.components
    if own is not None and flaw is not None and groups[own.component].group == groups[flaw].group:
        return flaw, "the flaw spoken of before"
    if own is not None:
        return own.component, f"'{spoken.words(trade.start, trade.end)}'"
    if (first := spoken.tokens[trade.start].norm) in groups:
        return first, f"'{spoken.words(trade.start, trade.end)}'"  # carpet cleaners
    component, how = worked_on(scene, trade, clause, flaw)
    return (flaw, "the flaw spoken of before") if component == ROOM_GENERAL and flaw else (component, how)


def _is_for(spoken: Spoken, trade: Mention, named: int) -> bool:
    """`the appliance man out here for the dryer`: what stands after `for` is what the trade sees to."""
    near = spoken.norms(max(trade.end, named - 3), named)
    return spoken.norms(trade.end, trade.end + 1) in (["for"], ["on"]) or bool({"for", "about"} & set(near))


def is_called(spoken: Spoken, trade: Mention, clause: Clause) -> bool:
    """Whether a trade is called, has a job, is said to come, or is noted with nothing more: `boiler man, Friday`."""
    before = spoken.norms(clause.start, trade.start)
    if {"been", "before", "until", "till", "when", "while"} & set(before[-2:]):
        return False  # that must have been the movers; I've ten minutes before the painters get here
    told = tells_past(spoken, clause.start, trade.start)
    told_to = [norm for norm in before if norm not in {"the", "a", "my", "our", "an"}][-1:]
    if set(before) & ALREADY and ("have" in before or "'ve" in before or "already" in before):
        return True
    if (set(before) & CALLED or "job" in before) and not told:
        return True
    if told_to and told_to[0] in TOLD_TO and not told:
        return not clause.index or any(token.is_verb for token in spoken.tokens[clause.start : trade.start])
    if _is_spoken_to(before, spoken.norms(trade.end, clause.end)) and not told:
        return True
    if "from" in before[-2:] and {"hear", "waiting"} & set(before):
        return True  # waiting to hear back from the locksmith
    if before and set(before[-2:]) & ARRIVES and not told:
        return True
    if set(before) - LEADING:
        return False
    return _is_rung_before(spoken, clause) or _comes(spoken, trade, clause)


def _comes_after(scene: Scene, clause: Clause) -> bool:
    """`the carpet man reckons he can patch it, he's coming Tuesday`, `the cleaners missed that, so they're coming
    back`: that a trade comes is told of `he` or `they`."""
    spoken = scene.spoken
    for later in spoken.clauses[clause.index + 1 :]:
        lead = [norm for norm in spoken.norms(later.start, later.end) if norm not in LEADING]
        if scene.mode(later.start) in NOT_COMING - {Mode.QUOTED} or lead[:1] not in (["he"], ["she"], ["they"]):
            continue
        if {"coming", "come", "back"} & set(lead[1:4]) and not {"came", "not", "could", "would"} & set(lead):
            return True
    return False


def _is_spoken_to(before: list[str], after: list[str]) -> bool:
    """`I'll tell the electrician to see it`, `I'd like the builder to see this`, `I'll let the plumber know`."""
    who = {"i", "we"} & set(before[:2])
    wished = "like" in before[-2:] and bool({"would", "'d"} & set(before)) and after[:1] == ["to"]
    told = bool({"will", "'ll", "must", "going", "gon"} & set(before)) and bool(SPEAKING & set(before[-3:]))
    return bool(who) and (wished or told)


def _is_rung_before(spoken: Spoken, clause: Clause) -> bool:
    """`I'll ring | the roofer about that one`: the call stands at the end of the clause before."""
    if not clause.index or clause.link:
        return False
    earlier = spoken.clauses[clause.index - 1]
    calls = bool(set(spoken.norms(earlier.end - 1, earlier.end)) & CALLED)
    return calls and not tells_past(spoken, earlier.start, earlier.end)


def tells_past(spoken: Spoken, start: int, end: int) -> bool:
    """Whether what stands there was done already: `I had a man in`; `I gotta get one` is still to come."""
    return any(
        spoken.tokens[at].tag == "VBD" and spoken.norms(at + 1, at + 2) not in (["to"], ["ta"])
        for at in range(start, end)
    )


def _comes(spoken: Spoken, trade: Mention, clause: Clause) -> bool:
    """`the plumber opens that wall`, `plumber Thurs`, `roofer to have a look`, `the mason will come`."""
    if trade.end == clause.end:
        if FAMILY & set(spoken.norms(trade.start, trade.end)):
            return False  # hold on, that's my wife
        lead = [norm for norm in spoken.norms(clause.start, trade.start) if norm not in {"so", "and", "then"}]
        if {"the", "my", "our"} & set(lead[-1:]) and {"'s", "is"} & set(lead):
            return False  # that's the maintenance man: who somebody is
        if (
            not lead
            and spoken.norms(trade.end, trade.end + 1) == ["and"]
            and tells_past(spoken, trade.end, len(spoken.tokens))
        ):
            return False  # my dad and me did these floors
        return lead[:2] in (["that", "'s"], ["that", "is"], ["that", "will"]) or not clause.index
    after = spoken.tokens[trade.end]
    if after.norm in {"for", "to", "on"} or after.norm in DAYS:
        return True
    rest = set(spoken.norms(trade.end, clause.end))
    if after.norm in {"booked", "coming", "due", "scheduled"} | NEEDED:
        return True
    if {"is", "'s", "will", "be", "'ll"} & {after.norm} and NEEDED & set(spoken.norms(trade.end + 1, trade.end + 4)):
        return True  # electrician is required for this one
    if after.norm in {"is", "'s", "are"}:
        follows = spoken.tokens[trade.end + 1 : trade.end + 2]
        begins = any(token.tag == "VBG" for token in follows) or bool(rest & {"in", "out", "round", "over", "by"})
        case = "on" in rest and bool(rest & {"it", "that", "this", "them", "those"})
        return bool(rest & COMES) or case or (begins and bool(rest & DAYS))
    if after.norm in {"has", "have"} and rest & (ALREADY | INFORMED):
        return "been" in rest
    if after.norm in {"has", "needs", "have"} and spoken.norms(trade.end + 1, trade.end + 2) == ["to"]:
        return True  # the cleaner has to do the oven again
    over = after.norm in {"has", "have"} and rest & {"done", "finished", "been", "cleaned", "fixed"}
    if after.norm in SAYS or over:
        return False
    return (
        after.tag in {"VBZ", "VBP", "VB", "MD"}
        and after.norm not in {"could", "would", "might"}
        and not rest & {"say", "tell", "know"}
    )


def _trades_action(scene: Scene, trade: Mention, clause: Clause) -> Action:
    """What the trade does: an action word of its clause, else what it usually does, else what mends the flaw."""
    spoken = scene.spoken
    named = [mention for mention in spoken.found.terms if mention.start in clause and mention.of("action")]
    nouns = [one for one in named if spoken.tokens[one.start].tag in {"NN", "VBG"} and one.end <= trade.start]
    for mention in [one for one in named if one.start >= trade.end] or nouns:
        if mention.of("action")[0].id != "supply":
            return mention.of("action")[0].id  # type: ignore[return-value]
    if LOOKS & set(spoken.norms(trade.end, clause.end)) or LOOKS & set(spoken.norms(clause.end + 1, clause.end + 4)):
        return "inspect"
    own = spoken.norms(trade.start, trade.end)
    return next((USUAL_WORK[norm] for norm in own if norm in USUAL_WORK), remedy(scene, clause))


def _listed_after(spoken: Spoken, clause: Clause) -> list[str]:
    """`handyman for the towel bar, the seat and the drain`: the rest of the list."""
    found: list[str] = []
    for later in spoken.clauses[clause.index + 1 :]:
        inside = spoken.named_in(later)
        lead = spoken.norms(later.start, later.start + 2)
        start = later.start + (2 if lead in (["that", "'s"], ["that", "is"]) else 0)
        says = any(token.is_finite for token in spoken.tokens[start : later.end])
        if later.link not in {",", "and"} or not inside or says:
            break
        found += [one.component for one in inside if one.relation == "topic"]
    return found
