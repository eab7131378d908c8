"""Condition words that tell of somebody's doing: `you clean it`, `I've lifted it`, `I'll have it replaced`."""

from __future__ import annotations

from itertools import pairwise

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.speech.spoken import Spoken

PERSONS = frozenset("i we you he she".split())
PLANNED = frozenset("get gets getting be needs need have having".split())

DOERS = frozenset("i you we they to will please must should can could would".split())

GOT = frozenset("buy buys bring brings order orders get gets make makes need needs want wants".split())

ORDERED = frozenset("order ordered coming arriving landing bought way due".split())
"""A new one of which this is said is not there yet: `new dishwasher's on order`."""

PAYS = frozenset("spring springing ask asked asking pay paying budget quote saving".split())
REMEDIED = frozenset("repaired new patched freshly_painted".split())

SOON = frozenset("today tonight tomorrow monday tuesday wednesday thursday friday saturday sunday asap".split())


def is_somebodys_verb(spoken: Spoken, mention: Mention) -> bool:
    """`they burn nice and blue`: a noun of the vocabulary that is a verb here."""
    if mention.end - mention.start > 1 or not mention.start:
        return False
    token, before = spoken.tokens[mention.start], spoken.tokens[mention.start - 1]
    if token.tag in {"VB", "VBP"} and before.norm in {"i", "you", "we"}:
        return True
    if {s.form for s in mention.of("condition")} != {"noun"}:
        return False
    return spoken.tokens[mention.start].tag in {"VB", "VBP"} and spoken.tokens[mention.start - 1].tag == "PRP"


def is_listed_work(spoken: Spoken, mention: Mention) -> bool:
    """`patch and touch up`: two works in a row, without an article."""
    if not mention.of("action") or (mention.start and spoken.tokens[mention.start - 1].norm in {"a", "the", "one"}):
        return False
    follows = spoken.norms(mention.end, mention.end + 1) == ["and"]
    return follows and any(term.start == mention.end + 1 and term.of("action") for term in spoken.found.terms)


def is_own_doing(spoken: Spoken, mention: Mention) -> bool:
    """`I've lifted it`: what the speaker did on the walk is no flaw."""
    before = spoken.norms(max(0, mention.start - 2), mention.start)
    tried = spoken.norms(mention.start, mention.start + 1) in (["scrubbed"], ["wiped"], ["rubbed"])
    if tried and before[-1:] in (["i"], ["we"], ["he"], ["she"], ["they"], ["you"]):
        return True
    if before[-1:] in (["i"], ["we"]) and any(sense.id == "paint_drip" for sense in mention.of("condition")):
        return True  # and I painted over it all
    return before in (["i", "have"], ["we", "have"], ["i", "'ve"]) and any(
        sense.form in {"verb", "adjective"} and sense.id in {"peeling", "warp", "dent", "bent"}
        for sense in mention.of("condition")
    )


def is_planned(spoken: Spoken, mention: Mention) -> bool:
    """`that has to get redone`, `I'll have it replaced`: a repair that is still to come."""
    told = {sense.id for sense in mention.of("condition")}
    if not told & REMEDIED:
        return False
    clause = spoken.clause_of(mention.start)
    if spoken.norms(mention.start - 2, mention.start) == ["to", "be"] and mention.start >= 2:
        return True  # two nail holes, to be filled and painted
    if spoken.norms(clause.end - 1, clause.end) == ["please"] and spoken.norms(mention.start, mention.end) == ["new"]:
        return True  # new fan please
    if is_also_to_be_done(spoken, mention.start):
        return True
    if not told & {"repaired", "new"}:
        return False
    if spoken.norms(mention.start - 2, mention.start) == ["for", "a"] and PAYS & set(spoken.norms(0, mention.start)):
        return True  # the owner might spring for a new carpet
    before = spoken.norms(max(clause.start, mention.start - 4), mention.start)
    if "having" in spoken.norms(clause.start, mention.start):
        return True
    fresh = any(sense.id == "new" for sense in mention.of("condition"))
    if fresh and GOT & set(spoken.norms(max(clause.start, mention.start - 2), mention.start)):
        return True
    dated = SOON & set(spoken.norms(mention.end, min(len(spoken.tokens), mention.end + 6)))
    if fresh and dated and not any(token.is_finite for token in spoken.tokens[clause.start : clause.end]):
        return True
    after = spoken.norms(mention.end, clause.end)
    if fresh and ORDERED & set(after[3:] if after[:3] == ["all", "the", "way"] else after):
        return True  # a new one is on its way; but new all the way round
    listed = clause.link == "and" and clause.index and mention.start - clause.start <= 1
    if listed:
        earlier = spoken.clauses[clause.index - 1]
        before += spoken.norms(earlier.start, earlier.end)
    swapped = any(
        term.of("action") and term.start in clause and term.end <= mention.start for term in spoken.found.terms
    )
    if swapped and {"can", "could", "will", "must", "should"} & set(spoken.norms(clause.start, mention.start)):
        return True
    return bool(set(before) & PLANNED) and not {"has", "been", "already"} & set(before[-2:])


TO_BE = frozenset({("to", "be"), ("must", "be"), ("will", "be"), ("should", "be")})


def is_also_to_be_done(spoken: Spoken, start: int) -> bool:
    """`it has to be taken out and cleaned`: a second participle of work that is to be done."""
    clause = spoken.clause_of(start)
    if (
        clause.link != "and"
        or not clause.index
        or start - clause.start > 1
        or not spoken.norms(start)[0].endswith("ed")
    ):
        return False
    earlier = spoken.clauses[clause.index - 1]
    return any(
        (first, second) in TO_BE and spoken.tokens[earlier.start + at + 2].tag == "VBN"
        for at, (first, second) in enumerate(pairwise(spoken.norms(earlier.start, earlier.end - 1)))
    )


def is_to_come_off(spoken: Spoken, mention: Mention) -> bool:
    """`they all have to come off`: what is to be taken down."""
    if spoken.norms(mention.start, mention.start + 1) != ["come"]:
        return False
    before = spoken.norms(max(0, mention.start - 2), mention.start)
    clause = spoken.clause_of(mention.start)
    if spoken.tokens[mention.start].tag in {"VBP", "VB"} and SOON & set(spoken.norms(mention.end, clause.end)):
        return True  # those pots come off the ledge today
    return before[-1:] in (["will"], ["must"]) or before in (
        ["have", "to"],
        ["has", "to"],
        ["need", "to"],
        ["needs", "to"],
    )


def is_done(spoken: Spoken, mention: Mention) -> bool:
    """`you clean it`, `to seal`: a word that is a verb of somebody's doing here."""
    if mention.end - mention.start > 1:
        return False
    if not mention.start:
        verb = all(sense.form == "verb" for sense in mention.of("condition"))
        return verb and spoken.tokens[0].tag in {"NN", "NNS", "NNP"} and len(spoken.tokens) > 2
    token, before = spoken.tokens[mention.start], spoken.tokens[mention.start - 1]
    forms = {sense.form for sense in mention.of("condition")}
    if token.tag in {"VB", "VBP"} and before.norm in DOERS and "adjective" in forms:
        return True
    if (
        forms == {"verb"}
        and token.tag in {"NN", "NNS"}
        and before.norm in {"a", "the", "an", "my", "that", "this", "our", "your"}
    ):
        return True
    clause = spoken.clause_of(mention.start)
    if (
        token.tag == "VB"
        and "verb" in forms
        and PERSONS & set(spoken.norms(max(clause.start, mention.start - 3), mention.start))
    ):
        return True
    if (
        token.text[0].isupper()
        and not token.text.isupper()
        and before.tag != "."
        and mention.start not in {c.start for c in spoken.clauses}
    ):
        return True
    return before.norm in {",", "bye", "hi"} and token.text[0].isupper() and not token.text.isupper()
