"""Words for flaws that tell how bad another one is, what a thing does not suffer, and what only looked like one."""

from __future__ import annotations

from narrate2report.read.phrase_tree import Mention
from narrate2report.read.spoken import Spoken

BAD = frozenset("nasty gross vile ugly rotten filthy mean sorry".split())


def is_how_bad(spoken: Spoken, mention: Mention) -> bool:
    """`a nasty scrape`: how bad the flaw is, and no dirt."""
    if mention.end - mention.start > 1 or spoken.tokens[mention.start].norm not in BAD:
        return False
    described = [token.tag for token in spoken.tokens[mention.end : mention.end + 1]] == ["JJ"]
    starts = {mention.end, mention.end + described}  # a nasty deep scrape
    return any(
        term.start in starts and any(sense.form == "noun" for sense in term.of("condition"))
        for term in spoken.terms("condition")
    )


LIKENED = (["looks", "like"], ["looked", "like"], ["look", "like"])


def only_looks_like(spoken: Spoken, mention: Mention) -> bool:
    """`it looks like mould but it wipes straight off`: taken for a flaw, and gone with a finger."""
    clause = spoken.clause_of(mention.start)
    before = spoken.norms(clause.start, mention.start)
    if not any(before[at : at + 2] in LIKENED for at in range(len(before))):
        return False
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    return (
        bool(following)
        and following[0].link in {"but", ",", "and"}
        and spoken.has_cue("comes_off", within=following[0])
    )


SUFFERED = frozenset(
    "scratch stain chip dent fade warp rot rust peel crack tear burn scuff mark swell fray tarnish".split()
)


def is_proof_against(spoken: Spoken, mention: Mention) -> bool:
    """`this quartz won't stain`: what such a thing does not suffer, and nothing that was looked at."""
    before = spoken.norms(max(0, mention.start - 2), mention.start)
    single = mention.end - mention.start == 1 and spoken.tokens[mention.start].norm in SUFFERED
    return single and before in (["will", "not"], ["can", "not"], ["would", "not"], ["should", "not"])
