"""What leads into a room: `okay, on into the hall bath`, `through this door is the kitchen`."""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.lexis.phrase_tree import COMPONENT_ROLES, Mention
from narrate2report.read.speech.clauses import Clause, bare_start
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.walk.ways import PASSED, names_a_thing

LEADING = frozenset(
    "okay ok so now and then next right alright well the a an our my your this here 's is we are i am be come"
    " coming go going in into to on onto back over through out down up first last lastly stop finally moving let us"
    " start starting with at it also just good great move step stepping walk walking head heading done yes"
    " yep um uh for of that other then inside second third that's big little nice large small lovely cute"
    " cozy tiny spacious huge bright main own inside righto right-o grand mate onwards onward".split()
)

LEADING_ADJECTIVES = frozenset("big little nice large small main own whole other".split())
DETERMINED = frozenset("the a an our your my this that kind sort of".split())
THROUGH = frozenset(
    "through around round off past to on down up after behind beside beyond opposite across straight here there".split()
)
"""A clause that begins so, and ends with a room, leads into it: `through this door is the kitchen`."""

WHERE_ABOUT = frozenset("in at next".split())
SIDES = frozenset("front back end top bottom rear far door left right".split())
"""After such a word they tell the way too: `at the back is the kitchen`, `next door is the bath`."""

STANDING = frozenset("is 's are have got find comes stands sits lies".split())
FLOORS = frozenset("ground first second third top upper lower floor upstairs downstairs".split())
"""What tells in a heading on which floor a room is: `ground floor bathroom`."""

WAY_ENDS = frozenset("left right ahead end back front hand side corner hall corridor landing door arch here".split())

NEXT = frozenset("next first last second third other this that".split())
"""What the next room, door or stop is told with: `second door on the right`."""

HITHER = frozenset("it that this here us me".split())
"""From where a way may be told: `right beside it`."""


def opens(spoken: Spoken, mention: Mention) -> bool:
    """Whether only words that lead to a room stand before its name: `generally, the whole flat`."""
    at, first = mention.start, spoken.clauses[0]
    while at > 0 and (spoken.tokens[at - 1].tag in {"JJ", "VBN"} or spoken.tokens[at - 1].norm in FLOORS):
        at -= 1
    adverb = first.end == 1 and at > 1 and spoken.tokens[0].tag == "RB"
    return all(token.norm in LEADING or not token.is_word for token in spoken.tokens[1 if adverb else 0 : at])


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
    return _tells_the_way(spoken, clause, at)


def _tells_the_way(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`in front of you is the salon`, `on your right hand you've the study`, `to your left the bath`: a clause that
    opens with the way there, before the room's name from token `at` on."""
    tokens, start = spoken.tokens, bare_start(spoken.tokens, clause)
    if start < at and tokens[start].norm in {"then", "now"}:
        start += 1
    if clause.index and clause.link == "" and tokens[start].norm in {"you", "we"}:
        start = spoken.clauses[clause.index - 1].start
    if at - start < 2 or tokens[at].norm == "of":
        return False  # at the end of the corridor
    opening = spoken.norms(start, at)
    if spoken.norms(at - 1, at)[0] in STANDING and _points_on(spoken.norms(start, at - 1)):
        return True
    about = opening[0] in WHERE_ABOUT and SIDES & set(opening[1:3])
    if not about and opening[0] not in THROUGH:
        return False
    passed = [term for term in spoken.terms(*COMPONENT_ROLES) if start <= term.start < at]
    if any(tokens[term.end - 1].norm not in PASSED for term in passed):
        return False  # behind this wall is the kitchen
    named = tokens[at].norm in DETERMINED and not any(
        token.is_verb and token.norm not in WAY_ENDS for token in tokens[start:at]
    )
    return opening[-1] in STANDING or (named and opening[-1] in WAY_ENDS)


def _points_on(norms: Sequence[str]) -> bool:
    """`first door on the left`, `next up on my list`: what stands before `is the bathroom`."""
    told = [norm for norm in norms if norm not in {"the", "and", "so", "then", "now"}]
    if not told or told[0] not in NEXT:
        return False
    door = len(told) > 1 and told[1] in {"door", "doorway", "room", "one", "stop", "thing", "up"}
    return door or told == ["next"]


def is_a_way(spoken: Spoken, clause: Clause) -> bool:
    """`right beside it`, `second door on the right`: a clause that tells where the next room is, and nothing else."""
    start = bare_start(spoken.tokens, clause)
    norms = spoken.norms(start, clause.end)
    if len(norms) < 2 or any(token.is_verb for token in spoken.tokens[start : clause.end]):
        return False
    if names_a_thing(spoken, start, clause.end):
        return False
    about = norms[0] in WHERE_ABOUT and SIDES & set(norms[1:3])
    if not about and norms[0] not in THROUGH and not _points_on(norms):
        return False
    return norms[-1] in WAY_ENDS | HITHER
