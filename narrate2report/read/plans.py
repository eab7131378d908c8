"""What makes an action word a plan: somebody will do it, it must be done, or a note orders it."""

from __future__ import annotations

from narrate2report.read.clauses import Clause
from narrate2report.read.denial import negation_before
from narrate2report.read.phrasebook import Mention
from narrate2report.read.spoken import Spoken
from narrate2report.read.stance import Mode

NOTE_ITSELF = "the note itself"
"""The planning words of an order that opens a note: `Replace.`"""

ORDER_LEAD = frozenset("a the and then full good so that one 's is it this those are just".split())
POINTED = frozenset("it this that those".split())
OBJECTS = frozenset("the your it this that these and".split())
LONGEST_ORDER = 9
"""Words of a clause that can still be an order in a note."""


def planned_by(spoken: Spoken, mention: Mention, clause: Clause) -> str | None:
    """The words that plan the action; None where it is only spoken of, denied, or already done."""
    if negation_before(spoken, clause, mention.start) or _is_own_look(spoken, mention, clause):
        return None
    token = spoken.tokens[mention.start]
    before = spoken.norms(clause.start, mention.start)
    past = token.norm.endswith("ed")
    if past and before[-1:] and before[-1] in {"get", "gets", "getting"}:
        return spoken.words(mention.start - 1, mention.end)
    if past and before[-1:] and before[-1] in {"i", "we", "they", "was", "were", "been", "just", "and"}:
        return None
    for cue in spoken.cues("future", within=clause):
        if cue.start < mention.start or cue.start >= mention.end:
            return spoken.words(cue.start, cue.end)
    if mention.of("action")[0].form == "phrase":
        return spoken.words(mention.start, mention.end)
    if is_assigned(spoken, mention, clause):
        return spoken.words(clause.start, mention.start)
    if is_order(spoken, mention, clause):
        return NOTE_ITSELF
    return _planned_before(spoken, mention, clause)


def _planned_before(spoken: Spoken, mention: Mention, clause: Clause) -> str | None:
    """`I'll patch that and touch up the paint`: the plan of the clause before goes on."""
    if not clause.index or clause.link not in {"and", ","}:
        return None
    earlier = spoken.clauses[clause.index - 1]
    bare = not spoken.tokens[mention.start].norm.endswith(("ed", "ing"))
    if bare and spoken.has_cue("future", within=earlier):
        return spoken.words(earlier.start, earlier.end)
    return None


def _is_own_look(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`let me check the gasket`, `I'm going to look at it`: the walk itself, and no work to come."""
    if mention.of("action")[0].id != "inspect":
        return False
    before = set(spoken.norms(clause.start, mention.start))
    return bool(before & {"i", "me"}) and not before & {"have", "get", "send", "someone", "somebody", "back"}


def is_assigned(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`electrician to check`, `landlord to renew that`: somebody, to, and the work."""
    tokens = spoken.tokens
    for at in range(mention.start - 1, max(clause.start, mention.start - 4), -1):
        if tokens[at].norm == "to":
            finite = any(token.is_finite for token in tokens[clause.start : at])
            return tokens[at - 1].tag in {"NN", "NNS", "NNP", "NNPS"} and not finite
    return False


def is_order(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`Replace.`, `Re-caulk the tub, maintenance`: an action word that opens a note."""
    words = spoken.norms(clause.start, mention.start)
    if set(words) - ORDER_LEAD or (set(words) & POINTED and "a" not in words):
        return False
    if spoken.has_cue("addressee", within=clause) or spoken.has_cue("often", "imperative"):
        return False
    following = set(spoken.norms(mention.end, mention.end + 1))
    if mention.of("condition") and not following & OBJECTS:
        return False
    bare = not spoken.tokens[mention.start].norm.endswith(("ed", "ing"))
    return bare and clause.end - clause.start <= LONGEST_ORDER


def is_care(spoken: Spoken, mention: Mention, clause: Clause, mode: Mode) -> bool:
    """Whether the resident is told to do it, now or again and again: that is advice and no work order."""
    if spoken.has_cue("often"):
        return True
    return mode is Mode.INSTRUCTION and not is_order(spoken, mention, clause)
