"""Orders that open with no word of order: `press both once a month`, `you don't touch that valve`, `so do strap it`."""

from __future__ import annotations

from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken

ROUTINE = frozenset(
    "press test push check run open shut close empty clean wipe wash rinse bleed oil spray vacuum dust sweep defrost"
    " drain flush change replace do leave give turn pull light squeegee mop soak salt descale air water mow clear try"
    " disconnect crack"
    " move put lift roll get pop hang keep".split()
)
"""Verbs of care that a resident takes."""

HANDLED = frozenset(
    "touch use open turn unscrew move paint hang put park light block cover leave drill run flush pour adjust store"
    " overload slam force climb smoke cook grill throw wash unplug take pull remove disconnect"
    " nail stick tape cut drag".split()
)
OBJECTS = frozenset("it them that those these this the your both all any every one out a an some".split())
LEADING = frozenset("and so just then also now or but always only please kindly".split())
NO_PART = frozenset({"VBD", "VBN", "VBG", "VBZ"})


def unmarked_order(spoken: Spoken, clause: Clause) -> int | None:
    """Where a clause gives an order that only its surroundings tell; None where it gives none."""
    at = clause.start
    while at < clause.end and spoken.tokens[at].norm in LEADING:
        at += 1
    if at + 1 >= min(clause.end + 1, len(spoken.tokens)) or spoken.ends_with_question():
        return None
    if _forbids(spoken, clause, at) or _bans(spoken, clause, at):
        return at
    if _tenants_do(spoken, at) or _is_to_be_done(spoken, clause):
        return at
    if spoken.norms(at, at + 2) == ["get", "yourself"]:
        return at
    verb = at
    if spoken.norms(at, at + 1) == ["do"] and spoken.tokens[at + 1].tag in {"VB", "VBP"}:
        if spoken.norms(at + 1, at + 2) == ["not"]:
            return None
        verb = at + 1
    opens = spoken.tokens[verb].norm in ROUTINE or verb > at
    if not opens or spoken.tokens[verb].tag in NO_PART or not set(spoken.norms(verb + 1, verb + 3)) & OBJECTS:
        return None
    return at if _is_called_for(spoken, clause) or (verb > at and spoken.has_cue("addressee")) else None


TENANTS = frozenset({"tenants", "residents", "occupiers", "renters"})
DONE_BY_THEM = frozenset(
    "change replace clean mow cut water empty test wash wipe bleed descale sweep shovel defrost weed vacuum".split()
)
OURS = frozenset("we us our owner landlord office management i caretaker".split())
"""Whose job it is, if it is not the resident's."""

MUST_BE = frozenset("should must has have needs need ought".split())
PARTS_OF_BE = frozenset("to be always only never all".split())


def _tenants_do(spoken: Spoken, at: int) -> bool:
    """`tenants change the batteries themselves`: whose job it is, told of all who live there."""
    verb = spoken.norms(at + 1, at + 2)
    return spoken.tokens[at].norm in TENANTS and bool(verb) and verb[0] in DONE_BY_THEM


def _is_to_be_done(spoken: Spoken, clause: Clause) -> bool:
    """`windows should be locked whenever you go out`: what is to be done each time, and no work to come."""
    if not spoken.has_cue("often") or OURS & set(spoken.norms()):
        return False
    begged = spoken.has_cue("addressee") and not OURS & set(spoken.norms())
    for at in range(clause.start + 1, clause.end - 2):
        if begged and spoken.tokens[at].norm in {"gets", "get"} and spoken.tokens[at + 1].tag in {"VBN", "VBD"}:
            return True  # the lint trap gets emptied after each load, please
        if spoken.tokens[at].norm not in MUST_BE:
            continue
        verb = at + 1
        while verb < clause.end and spoken.tokens[verb].norm in PARTS_OF_BE:
            verb += 1
        if "be" in spoken.norms(at + 1, verb) and verb < clause.end:
            return spoken.tokens[verb].tag in {"VBN", "VBD", "JJ"} or spoken.tokens[verb].norm in {"shut", "kept"}
    return False


def _is_called_for(spoken: Spoken, clause: Clause) -> bool:
    """Whether the order comes round again, or is begged: `... once a month`, `... when you shower`, `..., please`."""
    if spoken.has_cue("often") or any(
        spoken.norms(one.start, one.end) == ["before", "you"] for one in spoken.cues("condition")
    ):
        return True
    for later in spoken.clauses[clause.index + 1 : clause.index + 3]:
        norms = spoken.norms(later.start, later.end)
        if (
            later.link == "or"
            and {"you", "it", "they"} & set(norms[:3])
            and {"will", "'ll", "get", "gets"} & set(norms[:4])
        ):
            return True
        if norms[:1] == ["please"] and len(norms) == 1:
            return True
        if norms[:2] in (["when", "you"], ["while", "you"], ["whenever", "you"]):
            return True
    norms = spoken.norms(clause.start, clause.end)
    return "yourself" in norms and "month" in norms


def _forbids(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`you don't touch the valve`, `you never paint over it`: said of what the resident is to leave alone."""
    norms = spoken.norms(at, clause.end)
    if norms[:3] in (["you", "do", "not"],) or norms[:2] == ["you", "never"]:
        verb = norms[3:4] if norms[1] == "do" else norms[2:3]
        told = clause.link in {"if", "because", "when", "that", "which", "where", "since", "why"}
        return bool(verb) and verb[0] in HANDLED and not told
    return False


def _bans(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`no cutting directly on it`, `no smoking out here`; `no peeling on it` denies a flaw."""
    norms = spoken.norms(at, clause.end)
    if norms[:1] != ["no"] or len(norms) < 3 or spoken.tokens[at + 1].tag not in {"VBG", "NN"}:
        return False
    if not norms[1].endswith("ing") or any(
        term.start == at + 1 and term.of("condition", "component") for term in spoken.found.terms
    ):
        return False
    return norms[-1] in {"it", "here", "there", "them", "that", "this", "these", "those"} and norms[1] not in SEEN_ONLY


SEEN_ONLY = frozenset(
    "lifting sagging bubbling buckling warning ceiling building parking anything wiring showing".split()
)
