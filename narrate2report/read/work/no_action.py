"""Words of work that tell of none: what is clean already, a can of paint, what was done before."""

from __future__ import annotations

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.pointing import determines
from narrate2report.read.things.whereabouts import ROOM_GENERAL

STUFF = frozenset("oil wax paint sand weed weeds dust bleach primer".split())
"""Nouns as well as verbs: a thing that lies there, unless an article or a need stands before it."""

WORK_NOUNS = frozenset("job jobs work up down".split())
NEEDED = frozenset("a an some fresh new good more of the wants needs want need".split())
BE = frozenset("is 's are 're was were looks look so very nice super all".split())
NOUNS = frozenset({"NN", "NNS", "NNP"})


def is_no_action(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """Whether the words of work say here what something is, or what was done."""
    return (
        _is_a_state(spoken, mention, clause)
        or _is_stuff(spoken, mention, clause)
        or _was_done(spoken, mention, clause)
        or _is_in_already(spoken, mention, clause)
        or _is_leaving(spoken, mention, clause)
        or _is_ordered_to_eat(spoken, mention, clause)
        or _does_a_room(spoken, mention)
        or _is_done_on_the_way(spoken, mention, clause)
        or _comes_out_itself(spoken, mention, clause)
    )


def _is_a_state(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`the hob's clean`, `that's a clean filter`: how it is; `a clean` that it needs is a noun."""
    if mention.end - mention.start > 1 or spoken.tokens[mention.start].tag != "JJ" or mention.start == clause.start:
        return False
    followed = mention.end < clause.end and spoken.tokens[mention.end].tag in NOUNS
    before = spoken.norms(clause.start, mention.start)
    attributed = bool(before) and before[-1] in {"a", "an", "the", "very", "nice", "good", "so"}
    return (followed and attributed) or (bool(before) and before[-1] in BE)


def _is_stuff(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`paint cans`, `a little sand`, `I smell weed`, `our work orders`: a thing and no work."""
    token = spoken.tokens[mention.start]
    if mention.end - mention.start > 1 or token.tag not in NOUNS:
        return False
    after = next((one for one in spoken.tokens[mention.end : mention.end + 1] if one.is_word), None)
    before = spoken.norms(clause.start, mention.start)
    if spoken.norms(mention.end, mention.end + 1) in (["+"], ["&"]):
        return False
    if after is not None and after.norm in {"is", "are"} and all(one.form == "verb" for one in mention.of("action")):
        return True  # the drying rod is bent
    if token.norm == "coat":
        return after is not None and after.tag in NOUNS  # coat hooks
    if token.norm in STUFF:
        if after is not None and after.tag in NOUNS and after.norm not in WORK_NOUNS:
            return True
        alone = after is None and not set(before[-2:]) & NEEDED
        return alone and not set(before) & {"wants", "needs", "want", "need"}
    return token.norm == "orders" and before[-1:] == ["work"]


def _was_done(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`the oven had a good clean`, `the fitter already did that`, `we rebuilt it then`."""
    before = spoken.norms(clause.start, mention.start)
    if any(sense.form == "noun" for sense in mention.of("action")) and "had" in before[-5:]:
        return True
    if spoken.norms(mention.start, mention.start + 1) in (["did"], ["does"], ["redid"], ["rebuilt"], ["rehung"]):
        return "be" not in before and "get" not in before and "have" not in before
    return spoken.norms(clause.end - 1, clause.end) == ["now"] and "'m" in before and "i" in before


def _is_in_already(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`the new battery is in`: what was new is there."""
    named = spoken.norms(mention.start, mention.start + 1) == ["new"]
    if not named:
        return False
    after = spoken.norms(mention.end, clause.end)
    if spoken.norms(mention.start - 2, mention.start) in (["'s", "a"], ["is", "a"]):
        return spoken.norms(mention.start - 4, mention.start - 2) != ["so", "that"]  # it's a new one
    return after[:2] in (["is", "in"], ["'s", "in"], ["is", "on"], ["'s", "on"], ["are", "in"], ["are", "on"])


def _is_leaving(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`I've got to go`, `somebody has to go up there`, `the smell must go out`: nothing is to be replaced."""
    if spoken.norms(mention.end - 1, mention.end) != ["go"]:
        return False
    before = spoken.norms(max(clause.start, mention.start - 2), mention.start)
    return mention.end < clause.end or bool({"i", "we", "you", "he", "she", "somebody", "someone", "who"} & set(before))


def _does_a_room(spoken: Spoken, mention: Mention) -> bool:
    """`I'll do those rooms next`, `let's do these two together`: the walk goes on, and no thing is named."""
    norms = spoken.norms(mention.start, mention.end)
    if norms[:1] != ["do"] or not determines(spoken, mention.end - 1):
        return False
    return not any(one.start - mention.end in {0, 1} and one.component != ROOM_GENERAL for one in spoken.named)


ON_THE_WAY = (["on", "the", "way"], ["on", "my", "way"], ["on", "our", "way"], ["at", "the", "end"])


def _is_done_on_the_way(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`I won't test that now, we'll do it on the way out`, `the meter's outside, so I'll do that after`: put off, where
    the sentence tells of no flaw."""
    if spoken.norms(mention.start, mention.end) not in (["do", "it"], ["do", "that"], ["do", "those"], ["do", "them"]):
        return False
    after = spoken.norms(mention.end, clause.end)
    if after[:3] in ON_THE_WAY:
        return True
    flawed = any(not one.of("component") and one.start < mention.start for one in spoken.terms("condition"))
    return not flawed and after in (["after"], ["afterwards"])


def _comes_out_itself(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`the handle is coming out`: what comes out of some things is a flaw of theirs; `the carpet is coming out`."""
    named = {one.component for one in spoken.named_in(clause)}
    flaws = [term for term in spoken.terms("condition", within=clause) if term.start == mention.start]
    return any(sense.beside in named for term in flaws for sense in term.of("condition"))


EATEN = frozenset("lunch dinner breakfast pizza food coffee takeaway takeout tea sandwich".split())


def _is_ordered_to_eat(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`I was going to order some lunch`: nothing for the home."""
    ordered = spoken.norms(mention.start, mention.start + 1) in (["order"], ["ordering"], ["ordered"], ["get"])
    return ordered and bool(EATEN & set(spoken.norms(mention.end, min(clause.end, mention.end + 4))))
