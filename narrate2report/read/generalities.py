"""What holds of any such thing and is told to explain: `bleach takes the colour out of this floor`, `it's the steam
that makes the paint peel`, `nail holes I fill for free`. None of it is a finding, whatever flaw it names."""

from __future__ import annotations

from typing import Final

from narrate2report.read.clauses import LEADING, Clause
from narrate2report.read.spoken import Spoken

EFFECTS: Final = frozenset(
    "ruin rot stain leave take eat clog scratch mark turn crack burn melt warp swell fade kill attract breed make cause"
    " discolor discolour bleach dull pit rust corrode etch spoil soften split dent bring invite draw wreck destroy"
    " damage trap block choke gum cloud".split()
)
"""What a thing does to a home where it is let: of one that did, the verb stands in the past."""

CAUSES: Final = frozenset("make cause ruin rot stain crack kill bring clog warp turn get start leave eat".split())
"""`it's the damp that makes it smell`."""

NO_SUBJECT: Final = frozenset("the this that these those my our your his her their its it there here one some".split())
"""Words that point at a thing of this place: what they open is no rule."""

HAVES: Final = frozenset(
    "see count found find have got notice had can did could saw noticed counted think counting am".split()
)
"""`nail holes I can see four of`: told of holes that are there."""

ANYTHING: Final = frozenset("anything anybody anyone whatever whoever".split())
SENSED: Final = frozenset("hear smell feel".split())
OBJECT_WORDS: Final = frozenset("the this that these those it them your my our any a an up".split())
BY_DESIGN: Final = (
    "on purpose", "by design", "supposed to look", "meant to look", "made to look", "supposed to be like",
    "meant to be like", "comes like that", "made that way", "made like that", "came like that",
)  # fmt: skip
"""A look that was wanted: `these boards are distressed on purpose`."""

LOOKS_OF: Final = frozenset("color colour pattern grain finish style look design nature veining texture".split())
"""`that's the colour of the grout`, `it's only the grain`: what a thing looks like where nothing is wrong with it."""


def is_general(spoken: Spoken, clause: Clause) -> bool:
    """Whether a clause tells what such things do, or what is done about such flaws, wherever they are."""
    return (
        _names_the_cause(spoken, clause)
        or _tells_effects(spoken, clause)
        or _of_anything(spoken, clause)
        or _fronts_a_rule(spoken, clause)
        or _who_mends(spoken, clause)
        or _might_be_sensed(spoken, clause)
        or is_by_design(spoken, clause)
    )


def _bare(spoken: Spoken, clause: Clause) -> int:
    """Where what the clause says begins."""
    at = clause.start
    while at < clause.end and (spoken.tokens[at].norm in LEADING or not spoken.tokens[at].is_word):
        at += 1
    return at


def _names_the_cause(spoken: Spoken, clause: Clause) -> bool:
    """`it's the damp that causes it`: the clause with the cause, and that with its effect."""
    verb = spoken.tokens[clause.start + 1] if clause.start + 1 < clause.end else None
    if spoken.norms(clause.start, clause.start + 1) in (["that"], ["which"], ["what"]) and verb is not None:
        before = spoken.clauses[clause.index - 1] if clause.index else None
        return verb.tag == "VBZ" and _stem(verb.norm) in CAUSES and before is not None and _is_named(spoken, before)
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    return bool(following) and _is_named(spoken, clause) and _names_the_cause(spoken, following[0])


def _is_named(spoken: Spoken, clause: Clause) -> bool:
    norms = spoken.norms(_bare(spoken, clause), clause.end)
    return norms[:3] in (["it", "'s", "the"], ["it", "is", "the"], ["that", "'s", "the"], ["it", "'s", "all"])


def _stem(norm: str) -> str:
    """`makes` to `make`, `does` to `do`, `catches` to `catch`."""
    for ending in ("es", "s"):
        if norm.endswith(ending) and norm[: -len(ending)] in EFFECTS | CAUSES:
            return norm[: -len(ending)]
    return norm


def _tells_effects(spoken: Spoken, clause: Clause) -> bool:
    """`standing water ruins this wood`, `a wet carpet rots the pad`, `candles will leave soot`: a thing that is not
    pointed at, and what it does, in the present or with `will`."""
    tokens, start = spoken.tokens, _bare(spoken, clause)
    if start >= clause.end or tokens[start].norm in NO_SUBJECT or tokens[start].tag in {"CD", "PRP", "EX", "VBD", "WP"}:
        return False
    pointed = tokens[start].norm not in {"a", "an"}
    for at in range(start + 1, min(clause.end - 1, start + 6)):
        if pointed and any(mention.start < at < mention.end + 2 for mention in spoken.named_terms(clause)):
            return False  # door does not latch
        if tokens[at].text in {",", ":"} or tokens[at].norm in {"with", "from", "has", "is", "'s", "are", "was"}:
            return False
        modal = tokens[at].norm in {"will", "can", "'ll"} and tokens[at + 1].tag == "VB"
        verb = at + 1 if modal else at
        follows = tokens[verb + 1].norm if verb + 1 < clause.end else ""
        acts_on = bool(follows) and (follows in OBJECT_WORDS or tokens[verb + 1].tag in {"NN", "NNS", "JJ"})
        present = tokens[verb].tag in {"VBZ", "VBP"} or (tokens[verb].tag in {"NNS", "NN"} and follows in OBJECT_WORDS)
        if (
            not (modal or present)
            or not acts_on
            or _stem(tokens[verb].norm) not in EFFECTS
            or _is_in_phrase(spoken, verb)
        ):
            continue
        return any(tokens[one].tag in {"NN", "NNS", "NNP", "VBG"} for one in range(start, at))
    return False


def _is_in_phrase(spoken: Spoken, at: int) -> bool:
    """`water stains the ...`: the second word of a flaw, and no verb; `hair clogs this drain` has one."""
    if spoken.tokens[at].tag in {"NNS", "VBZ"} and spoken.norms(at + 1, at + 2) in (["this"], ["your"], ["my"]):
        return False
    return any(term.start < at < term.end for term in spoken.terms("condition"))


def _of_anything(spoken: Spoken, clause: Clause) -> bool:
    """`anything bigger than a nail hole, we'll talk`, `anything torn comes off the deposit`."""
    norms = spoken.norms(_bare(spoken, clause), clause.end)
    if norms[:1] and norms[0] in ANYTHING:
        return not spoken.ends_with_question()
    return "than" in norms and norms[:1] in (["bigger"], ["larger"], ["worse"]) and "is" not in norms


def _fronts_a_rule(spoken: Spoken, clause: Clause) -> bool:
    """`nail holes I fill for free`, `big anchors, we're going to have words`: flaws of a kind, and what I, we or you
    do about them."""
    tokens, start = spoken.tokens, _bare(spoken, clause)
    flaws = [term for term in spoken.terms("condition", within=clause) if tokens[term.end - 1].tag == "NNS"]
    if not flaws or any(tokens[at].norm in NO_SUBJECT or tokens[at].tag == "CD" for at in range(start, flaws[0].end)):
        return False
    if any(tokens[at].tag not in {"JJ", "JJR", "NN", "NNS", "RB"} for at in range(start, flaws[0].end)):
        return False
    rest = flaws[0].end
    if rest < len(tokens) and tokens[rest].text == ",":
        rest += 1
    said = spoken.norms(rest, rest + 2)
    if said[:1] not in (["i"], ["we"], ["you"]) or len(said) < 2 or HAVES & set(spoken.norms(rest + 1, rest + 4)):
        return False
    return tokens[rest + 1].tag in {"VBP", "VB", "MD"} or said[1] in {"'re", "are"}


def _who_mends(spoken: Spoken, clause: Clause) -> bool:
    """`we have a man who fills those holes`."""
    if spoken.norms(clause.start, clause.start + 1) != ["who"] or clause.start + 1 >= clause.end:
        return False
    return spoken.tokens[clause.start + 1].tag in {"VBZ", "VBP"} and bool(
        {"those", "these", "them", "such", "that", "any"} & set(spoken.norms(clause.start + 1, clause.end))
    )


def _might_be_sensed(spoken: Spoken, clause: Clause) -> bool:
    """`you might hear a knocking when the heat comes on`."""
    norms = spoken.norms(_bare(spoken, clause), clause.end)
    return (
        norms[:1] == ["you"]
        and norms[1:2] in (["might"], ["may"], ["will"], ["'ll"])
        and bool(SENSED & set(norms[2:4]))
    )


def is_by_design(spoken: Spoken, clause: Clause) -> bool:
    """`they are supposed to look worn`, and what was said just before `on purpose` or `that's only the grain`."""
    if says_design(spoken, clause):
        return True
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    if not following or (spoken.named_in(following[0]) and not _points_back(spoken, following[0])):
        return False
    if spoken.has_cue("negation", within=clause):
        return False  # that ain't mildew, it's the pattern
    return following[0].link in {",", "...", "but", ""} and says_design(spoken, following[0])


def _points_back(spoken: Spoken, clause: Clause) -> bool:
    return spoken.norms(_bare(spoken, clause), clause.end)[:1] in (["it"], ["that"], ["they"], ["those"], ["this"])


def says_design(spoken: Spoken, clause: Clause) -> bool:
    """Whether a clause says that a thing is meant to look so, or only looks like what it is."""
    norms = spoken.norms(_bare(spoken, clause), clause.end)
    said = f" {' '.join(norms)} "
    if any(f" {words} " in said for words in BY_DESIGN):
        return "not" not in norms
    lead = norms[:5]
    named = next((at for at, norm in enumerate(lead) if norm in LOOKS_OF), None)
    return (
        named is not None
        and lead[:1] in (["it"], ["that"], ["this"], ["they"], ["those"])
        and lead[1:2] in (["'s"], ["is"], ["are"], ["'re"])
        and not any(norm in {"gone", "off", "wrong", "worn"} for norm in norms)
    )
