"""Praise that praises nothing: `ceiling fan, okay, low, medium, high, all three work`, `it got cleaned, and it didn't
come out`."""

from __future__ import annotations

from typing import Final

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.speech.sayings import first_saying
from narrate2report.read.speech.spoken import Spoken

BREATHS: Final = frozenset("okay ok alright right".split())
STAYED: Final = (
    ("not", "come", "out"), ("not", "come", "off"), ("not", "shift"), ("not", "help"), ("still", "there"),
    ("not", "go", "away"), ("not", "lift"), ("will", "not", "budge"), ("no", "use"), ("is", "staying"),
    ("'s", "staying"),
)  # fmt: skip
"""What is said of a stain that was cleaned in vain."""


def is_a_breath(spoken: Spoken, mention: Mention) -> bool:
    """`ceiling fan, okay, low, medium, high, all three work`: between what is looked at and how it is."""
    clause = spoken.clause_of(mention.start)
    if not BREATHS & set(spoken.norms(mention.start, mention.end)) or clause.end - clause.start > 1:
        return False
    before, after = spoken.clauses[max(0, clause.index - 1)], spoken.clauses[clause.index + 1 : clause.index + 4]
    headed = any(one.end == before.end for one in spoken.named_in(before)) and clause.index > 0
    named = any(spoken.named_in(one) for one in after[:1])
    return headed and len(after) > 1 and not named


def is_cleaned_in_vain(spoken: Spoken, mention: Mention) -> bool:
    """`it got cleaned, and it didn't come out`: the next clauses tell that it stayed."""
    if not any(sense.id == "clean" for sense in mention.of("condition")):
        return False
    return first_saying(spoken.norms(mention.end), STAYED) is not None


def is_how_bad_it_is(spoken: Spoken, mention: Mention) -> bool:
    """`not bad, but it's there`, `a stain on the carpet, not bad`: how bad a flaw is, and no praise."""
    clause = spoken.clause_of(mention.start)
    if spoken.norms(mention.start, mention.end)[:1] != ["not"] or spoken.norms(clause.start, mention.start):
        return False
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    there = bool(following) and following[0].link == "but" and not spoken.named_in(following[0])
    told = any(one.start < clause.start and not one.of("component") for one in spoken.terms("condition"))
    return mention.end == clause.end and (there or (told and clause.index > 0))


def is_new_to_come(spoken: Spoken, mention: Mention) -> bool:
    """`so that's a new door`: what will have to be bought for what was found."""
    clause = spoken.clause_of(mention.start)
    if not any(sense.id == "new" for sense in mention.of("condition")):
        return False
    lead = spoken.norms(clause.start, mention.start)
    return (clause.link == "so" or lead[:1] == ["so"]) and lead[-3:] in (["that", "'s", "a"], ["that", "is", "a"])
