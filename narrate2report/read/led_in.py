"""What leads into a room: `okay, on into the hall bath`, `through this door is the kitchen`."""

from __future__ import annotations

from narrate2report.read.phrase_tree import Mention
from narrate2report.read.spoken import Spoken

LEADING = frozenset(
    "okay ok so now and then next right alright well the a an our my your this here 's is we are i am be come"
    " coming go going in into to on onto back over through out down up first last lastly stop finally moving let us"
    " start starting with at it also just good great move step stepping walk walking head heading done yes"
    " yep um uh for of that other then inside second third that's big little nice large small lovely cute"
    " cozy tiny spacious huge bright main own".split()
)

LEADING_ADJECTIVES = frozenset("big little nice large small main own whole other".split())
DETERMINED = frozenset("the a an our your my this that".split())
THROUGH = frozenset("through around round off past to on down up after behind beyond".split())
"""A clause that begins so, and ends with a room, leads into it: `through this door is the kitchen`."""


def opens(spoken: Spoken, mention: Mention) -> bool:
    """Whether only words that lead to a room stand before its name."""
    return all(token.norm in LEADING or not token.is_word for token in spoken.tokens[: mention.start])


def is_introduced(spoken: Spoken, mention: Mention, end: int) -> bool:
    """`That brings us to the kitchen`, `to the left is your bedroom`, `you will see the kitchen here`."""
    tokens, clause = spoken.tokens, spoken.clause_of(mention.start)
    at = mention.start
    while at > clause.start and (tokens[at - 1].norm in DETERMINED | LEADING_ADJECTIVES or tokens[at - 1].tag == "JJ"):
        at -= 1
    after = tokens[end].norm if end < clause.end else ""
    if end < clause.end and after not in {"here", "now", "next", "then", "please"}:
        return False
    before = spoken.clauses[clause.index - 1] if clause.index and at == clause.start else clause
    for cue in spoken.cues("entering", within=before):
        if cue.end in {at, before.end} and (spoken.norms(cue.start, cue.end) != ["see"] or after == "here"):
            return True
    stands = tokens[at - 1].norm in {"is", "'s", "are"} if at > clause.start else False
    return stands and tokens[clause.start].norm in THROUGH and at - clause.start > 1
