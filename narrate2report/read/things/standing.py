"""Words that stand for one or some of several named before: `the left one`, `the one by the door`.

Says only whether a stretch of a sentence is no more than that; what is said of the one is for the finders.
"""

from __future__ import annotations

from narrate2report.read.speech.clauses import LEADING, Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.walk.place import Place

HEADS = frozenset(
    "one ones other others second third fourth first last left right rest both none neither hot cold mate partner twin"
    " neighbour neighbor top bottom middle side half".split()
)
"""What stands for one or some of several."""

STANDING = HEADS | frozenset(
    "the this that these those its of them 'em all upper lower front back rear big bigger small smaller large little"
    " near far outer inner left-hand right-hand 's hand each two three".split()
)
"""All that `the two on the left` may hold before its place."""

LEADS_TO = frozenset("on in by over under near at next beside behind below above to for with up".split())
"""Before the place of one: `the one by the door`."""

LONGEST_PLACE = 5
"""Words of a place: `over by the kitchen door`."""


OTHERWISE = frozenset({"right", "hot", "cold", "that", "this", "all", "now"})
"""Alone before praise these are something else: `right, good`, `hot, cold, perfect`."""


def stands_for_one(spoken: Spoken, start: int, end: int) -> bool:
    """Whether tokens only say which of several: `the one by the door`, `the right`, `none of the others`."""
    while start < end and spoken.tokens[start].norm in LEADING - HEADS:
        start += 1
    norms = spoken.norms(start, end)
    if any(start <= one.start < end and one.relation == "topic" for one in spoken.named):
        return False
    at = next((here for here, norm in enumerate(norms) if norm not in STANDING), len(norms))
    place = norms[at:]
    if not HEADS & set(norms[:at]) or len(place) > LONGEST_PLACE:
        return False
    return not place or place[0] in LEADS_TO


def is_said_of_one(spoken: Spoken, at: int) -> bool:
    """`Left: ok.`, `other okay`: whether what begins at token `at` is told of one of several, named just before it."""
    clause = spoken.clause_of(at)
    if at > clause.start and not set(spoken.norms(clause.start, at)) <= OTHERWISE:
        return stands_for_one(spoken, clause.start, at)
    before = spoken.clauses[clause.index - 1] if clause.index else None
    if before is None or clause.link not in {",", ":"} or not stands_for_one(spoken, before.start, before.end):
        return False
    return clause.link == ":" or not set(spoken.norms(before.start, before.end)) <= OTHERWISE


def both_of(spoken: Spoken, clause: Clause, place: Place) -> tuple[str, ...]:
    """`washer and dryer, those stay. Both of them are fine.`: the two components that were spoken of together."""
    lately = place.lately[-2:]
    said = "both" in spoken.norms(clause.start, clause.end) and not spoken.named_in(clause)
    together = len(lately) == 2 and lately[0][1] == lately[1][1]
    return tuple(one for one, _ in lately) if said and together else ()


EXCEPTING = (["otherwise"], ["other", "than", "that"], ["apart", "from", "that"], ["aside", "from", "that"])


def is_otherwise(spoken: Spoken, clause: Clause) -> bool:
    """`limescale round the drain, otherwise good`: what follows is no longer said of what was excepted."""
    opens = [norm for norm in spoken.norms(clause.start, clause.start + 4) if norm not in {"and", "but"}]
    return any(opens[: len(words)] == words for words in EXCEPTING)
