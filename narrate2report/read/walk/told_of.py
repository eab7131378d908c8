"""Is a room only spoken of: denied, put off, pointed at, or told of from another one: `the bathroom above leaked`?"""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.speech.clauses import Clause, bare_start
from narrate2report.read.speech.spoken import Spoken

BESIDE = frozenset(
    "from than as like off by near toward towards behind beside between of same facing opposite above over"
    " below outside until before after with for off past upstairs nearest closest".split()
)
"""Right before a room's name these tell where else something is: `the leak came from the bath`."""

PASSED_OVER = frozenset("the a this our your my first second third fourth last next other".split())
"""What may stand between such a word and the name: `above the second bedroom`."""

CALLED_BY_A_ROOM = frozenset("side key keys end wall half".split())
"""What is called by the room next to it: `the bedroom side`."""

DOORS_OF_A_ROOM = (["slider"], ["door"], ["doors"], ["sliding"])

DOINGS = frozenset("does says said handles sends takes wants keeps charges closes calls bills will".split())
"""What people in an office do: `the office does the charges`."""

ABOVE = frozenset("above below underneath overhead".split())
OTHER_FLOORS = frozenset("upstairs downstairs above below".split())
NEXT_TO = frozenset("near beside behind opposite across".split())
POINTING = frozenset("the this that your our".split())

OFF_FROM_HERE = frozenset(
    {("the", "other", "side"), ("next", "door"), ("over", "there"), ("that", "way"), ("down", "there")}
)
"""Where a room is that is only pointed out: `the bedroom is the other side`."""

HERE = frozenset({("in", "here"), ("this", "one"), ("this", "room")})
"""Ends of a clause that tell that the speaker stands elsewhere than in the room a sentence begins with."""

OUTWARD = frozenset("out over onto down on".split())

DID_THERE = frozenset("found saw noticed checked tested tried ran opened turned looked smelled smelt heard".split())
"""What a speaker has just done in the room that a note begins with: `garage found the screen`."""

SHOWN = frozenset("is 's has comes needs wants looks smells feels seems got appears".split())
"""Verbs with which a speaker who stands in a room tells of it: `the kitchen looks fine`."""


def is_ruled_out(spoken: Spoken, mention: Mention) -> bool:
    """`I have one like it in my store room`, `we are not going into the attic`, `the hall we did already`."""
    clause = spoken.clause_of(mention.start)
    before = spoken.norms(clause.start, mention.start)
    if before[-2:] == ["in", "my"] or {"not", "never", "like", "unlike"} & set(before):
        return True
    if "already" in spoken.norms(clause.start, clause.end):
        return True
    if spoken.norms(clause.end - 1, clause.end) == ["last"] and "will" in before:
        return True  # we'll do the garage last
    around = [*spoken.clauses[max(0, clause.index - 1) : clause.index + 1], *_said_of_it_later(spoken, clause)]
    put_off = any(spoken.has_cue("not_entering", within=one) for one in around)
    return put_off or _something_goes(spoken, clause.start, mention.start) or _is_outside_of(spoken, mention)


def has_a_door(spoken: Spoken, end: int) -> bool:
    """`the patio's slider`: a door that is spoken of from this side."""
    return spoken.norms(end, end + 1) == ["'s"] and spoken.norms(end + 1, end + 2) in DOORS_OF_A_ROOM


def is_called_by(spoken: Spoken, mention: Mention, end: int) -> bool:
    """`the bedroom side`, `the office is putting a new counter in`: a place or people, and no room."""
    following = spoken.tokens[end] if end < len(spoken.tokens) else None
    if following is None:
        return False
    before = spoken.norms(max(0, mention.start - 1), mention.start)
    if following.norm in DOINGS or (following.norm in CALLED_BY_A_ROOM and before != ["now"]):
        return True
    return before == ["the"] and spoken.tokens[mention.start].norm == "office" and following.is_word


def is_beside(spoken: Spoken, mention: Mention) -> bool:
    """`a mark near the second bedroom`, `the paint is peeling outside the bathroom`: what is told of is elsewhere."""
    clause = spoken.clause_of(mention.start)
    close = [norm for norm in spoken.norms(clause.start, mention.start)[-3:] if norm not in PASSED_OVER]
    if (close and close[-1] in BESIDE) or _is_next_to(spoken, clause, mention.start):
        return True
    cut_off = mention.start - clause.start <= 1 and not clause.link and clause.start > 0
    return cut_off and spoken.tokens[clause.start - 1].norm in BESIDE


def _is_next_to(spoken: Spoken, clause: Clause, name_start: int) -> bool:
    """`it's next to the bathroom`, and not `next, to the bathroom`."""
    norms = [norm for norm in spoken.norms(clause.start, name_start) if norm not in PASSED_OVER - {"next"}]
    return norms[-2:] == ["next", "to"] and norms[-3:-2] != [] and norms[-3] in {"is", "'s", "right", "are"}


def is_told_from_elsewhere(spoken: Spoken, mention: Mention, end: int) -> bool:
    """Whether a sentence that begins with a room's name tells something of it, and not that one comes to it."""
    clause = spoken.clause_of(mention.start)
    return _is_elsewhere(spoken, end, clause) or _is_only_told_of(spoken, end, clause)


def _said_of_it_later(spoken: Spoken, clause: Clause) -> Sequence[Clause]:
    """`the kitchen we'll see afterwards`, `the bathroom's locked so I can't get in`: what is said of it later on."""
    following = spoken.clauses[clause.index + 1 : clause.index + 3]
    starts = [(one, bare_start(spoken.tokens, one)) for one in following]
    own = [one for one, start in starts if {"i", "we"} & set(spoken.norms(start, start + 2))]
    return [one for one in own if not spoken.has_term("room", within=one)]


def _something_goes(spoken: Spoken, start: int, end: int) -> bool:
    """`the same stuff runs through the kitchen`: a thing goes there, and nobody walks."""
    tokens = spoken.tokens
    return any(
        tokens[at].tag == "VBZ" and tokens[at].norm not in {"'s", "is"} and tokens[at - 1].tag in {"NN", "NNS"}
        for at in range(start + 1, end)
    )


def _is_outside_of(spoken: Spoken, mention: Mention) -> bool:
    """`just outside the laundry`: beside another room, and not out of doors."""
    said = spoken.norms(mention.start, mention.end) == ["outside"]
    named = said and spoken.norms(mention.end, mention.end + 1)[:1] in (["the"], ["this"], ["that"], ["your"])
    return named and any(other.start in {mention.end + 1, mention.end + 2} for other in spoken.terms("room"))


def _is_elsewhere(spoken: Spoken, end: int, clause: Clause) -> bool:
    """`the bathroom above leaked`, `the bathroom is upstairs`, `the bedroom is bigger than this`."""
    norms = spoken.norms(end, clause.end)
    if norms[:1] and norms[0] in ABOVE:
        return True
    if not norms[:1] or norms[0] not in {"is", "'s", "are"}:
        return False
    where = norms[1:]
    if len(where) > 1 and where[0] in NEXT_TO and where[1] in POINTING:
        return True
    if {tuple(where[:2]), tuple(where[:3])} & OFF_FROM_HERE or (where and where[0] in OTHER_FLOORS):
        return True
    return "than" in norms and any(token.tag in {"JJR", "RBR"} for token in spoken.tokens[end : clause.end])


def _is_only_told_of(spoken: Spoken, end: int, clause: Clause) -> bool:
    """`the kitchen had tile`, `the bedroom is noisy because of the fan in here`, `bedroom two uses this one`."""
    if end >= clause.end or not spoken.tokens[end].is_finite:
        return False
    verb, after = spoken.tokens[end], spoken.norms(end + 1, clause.end)
    if verb.norm == "looks" and after[:1] and after[0] in OUTWARD:
        return True  # the bedroom looks out over this too
    because = [one for one in spoken.clauses[clause.index + 1 :] if one.link == "because"]
    here = any(tuple(spoken.norms(one.end - 2, one.end)) in HERE for one in because)
    if here or tuple(after[-2:]) in HERE - {("in", "here")} or (verb.norm in {"is", "'s"} and "own" in after[1:3]):
        return True
    if any(term.start == end for term in spoken.terms("works")):
        return False  # loft hatch opens
    return (verb.tag == "VBD" and verb.norm not in DID_THERE) or (verb.tag == "VBZ" and verb.norm not in SHOWN)
