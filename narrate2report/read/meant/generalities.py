"""What holds of any such thing and is told to explain: `bleach takes the colour out of this floor`, `it's the steam
that makes the paint peel`, `nail holes I fill for free`. None of it is a finding, whatever flaw it names."""

from __future__ import annotations

from typing import Final

from narrate2report.read.meant.by_design import is_by_design
from narrate2report.read.meant.kinds import is_of_a_kind
from narrate2report.read.meant.usual import is_usual
from narrate2report.read.speech.clauses import Clause, bare_start
from narrate2report.read.speech.spoken import Spoken

EFFECTS: Final = frozenset(
    "ruin rot stain leave take eat clog scratch mark turn crack burn melt warp swell fade kill attract breed make cause"
    " discolor discolour bleach dull pit rust corrode etch spoil soften split dent bring invite draw wreck destroy"
    " damage trap block choke gum cloud stink foul chew strip loosen shatter jam wear rip tear bend".split()
)
"""What a thing does to a home where it is let: of one that did, the verb stands in the past."""

CAUSES: Final = frozenset("make cause ruin rot stain crack kill bring clog warp turn get start leave eat".split())
"""`it's the damp that makes it smell`."""

MODALS: Final = frozenset("will can 'll could might would may".split())

NO_SUBJECT: Final = frozenset("the this that these those my our your his her their its it there here one some".split())
"""Words that point at a thing of this place: what they open is no rule."""

HAVES: Final = frozenset(
    "see count found find have got notice had can did could saw noticed counted think counting am".split()
)
"""`nail holes I can see four of`: told of holes that are there."""

ANYTHING: Final = frozenset("anything anybody anyone whatever whoever".split())
SENSED: Final = frozenset("hear smell feel".split())
OBJECT_WORDS: Final = frozenset("the this that these those it them your my our any a an up".split())


def is_general(spoken: Spoken, clause: Clause) -> bool:
    """Whether a clause tells what such things do, or what is done about such flaws, wherever they are."""
    return (
        _names_the_cause(spoken, clause)
        or _tells_effects(spoken, clause)
        or _of_anything(spoken, clause)
        or _fronts_a_rule(spoken, clause)
        or _who_mends(spoken, clause)
        or _might_be_sensed(spoken, clause)
        or _of_homes(spoken, clause)
        or _of_any_such(spoken, clause)
        or _is_summed_up(spoken, clause)
        or is_by_design(spoken, clause)
        or is_of_a_kind(spoken, clause)
        or is_usual(spoken, clause)
        or _follows_a_rule(spoken, clause)
    )


YOU_GET: Final = frozenset("get have end wind will".split())


def _follows_a_rule(spoken: Spoken, clause: Clause) -> bool:
    """`tablets eat the flapper, and then you've got a toilet that runs`: what comes of what such things do."""
    start = bare_start(spoken.tokens, clause)
    joined = clause.index and clause.link in {"and", "then", ",", ""}
    if not joined or spoken.norms(start, start + 1) != ["you"] or not YOU_GET & set(spoken.norms(start + 1, start + 2)):
        return False
    return is_general(spoken, spoken.clauses[clause.index - 1])


def _names_the_cause(spoken: Spoken, clause: Clause) -> bool:
    """`it's the damp that causes it`: the clause with the cause, and that with its effect."""
    verb = spoken.tokens[clause.start + 1] if clause.start + 1 < clause.end else None
    if spoken.norms(clause.start, clause.start + 1) in (["that"], ["which"], ["what"]) and verb is not None:
        before = spoken.clauses[clause.index - 1] if clause.index else None
        return verb.tag == "VBZ" and _stem(verb.norm) in CAUSES and before is not None and _is_named(spoken, before)
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    return bool(following) and _is_named(spoken, clause) and _names_the_cause(spoken, following[0])


def _is_named(spoken: Spoken, clause: Clause) -> bool:
    norms = spoken.norms(bare_start(spoken.tokens, clause), clause.end)
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
    tokens, start = spoken.tokens, bare_start(spoken.tokens, clause)
    if start >= clause.end or tokens[start].norm in NO_SUBJECT or tokens[start].tag in {"CD", "PRP", "EX", "VBD", "WP"}:
        return False
    pointed = tokens[start].norm not in {"a", "an"}
    for at in range(start + 1, min(clause.end - 1, start + 6)):
        if pointed and any(
            mention.start < at < mention.end + 2 and not _is_only_where(spoken, start, mention.start)
            for mention in spoken.named_terms(clause)
        ):
            return False  # door does not latch
        if tokens[at].text in {",", ":"} or tokens[at].norm in {"with", "from", "has", "is", "'s", "are", "was"}:
            return False
        modal = tokens[at].norm in MODALS and tokens[at + 1].tag == "VB"
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


def _is_only_where(spoken: Spoken, start: int, at: int) -> bool:
    """`tablets in the tank eat ...`: a component that only tells where the thing is."""
    return at - start > 1 and any(token.tag == "IN" for token in spoken.tokens[start + 1 : at])


def _is_in_phrase(spoken: Spoken, at: int) -> bool:
    """`water stains the ...`: the second word of a flaw, and no verb; `hair clogs this drain` has one."""
    if spoken.tokens[at].tag in {"NNS", "VBZ"} and spoken.norms(at + 1, at + 2) in (["this"], ["your"], ["my"]):
        return False
    return any(term.start < at < term.end for term in spoken.terms("condition"))


def _of_anything(spoken: Spoken, clause: Clause) -> bool:
    """`anything bigger than a nail hole, we'll talk`, `anything torn comes off the deposit`."""
    norms = spoken.norms(bare_start(spoken.tokens, clause), clause.end)
    if norms[:1] and norms[0] in ANYTHING:
        verb = spoken.tokens[clause.end - len(norms) + 1 : clause.end]
        done = norms[0] == "whoever" and bool(verb) and verb[0].tag == "VBD"
        return not done and not spoken.ends_with_question()  # whoever took the shelf down left holes
    return "than" in norms and norms[:1] in (["bigger"], ["larger"], ["worse"]) and "is" not in norms


def _fronts_a_rule(spoken: Spoken, clause: Clause) -> bool:
    """`nail holes I fill for free`, `big anchors, we're going to have words`: flaws of a kind, and what I, we or you
    do about them."""
    tokens, start = spoken.tokens, bare_start(spoken.tokens, clause)
    flaws = [term for term in spoken.terms("condition", within=clause) if tokens[term.end - 1].tag == "NNS"]
    if not flaws or any(tokens[at].norm in NO_SUBJECT or tokens[at].tag == "CD" for at in range(start, flaws[0].end)):
        return False
    if any(tokens[at].tag not in {"JJ", "JJR", "NN", "NNS", "RB", "VBN", "VBD"} for at in range(start, flaws[0].end)):
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
    norms = spoken.norms(bare_start(spoken.tokens, clause), clause.end)
    return (
        norms[:1] == ["you"]
        and norms[1:2] in (["might"], ["may"], ["will"], ["'ll"])
        and bool(SENSED & set(norms[2:4]))
    )


HOMES: Final = frozenset("flats apartments units houses homes buildings condos".split())
ROOMS: Final = frozenset("bathrooms kitchens bedrooms basements garages cellars attics".split())
MOSTLY: Final = frozenset("always usually often never mostly".split())


def _of_homes(spoken: Spoken, clause: Clause) -> bool:
    """`flats on the ground floor get damp bathrooms`, `kitchens are always where I find it`: of all of their kind."""
    start = bare_start(spoken.tokens, clause)
    opens = set(spoken.norms(start, start + 1))
    always = MOSTLY & set(spoken.norms(start + 1, start + 4))
    told = any(token.tag in {"VBP", "VB", "MD"} for token in spoken.tokens[start + 1 : clause.end])
    return told and bool(opens & HOMES or (opens & ROOMS and always))


def _of_any_such(spoken: Spoken, clause: Clause) -> bool:
    """`a worktop can be stained and still be fair wear`: of any such thing, and of none in particular."""
    start = bare_start(spoken.tokens, clause)
    if spoken.norms(start, start + 1) not in (["a"], ["an"], ["any"]):
        return False
    named = next((term for term in spoken.named_terms(clause) if term.start == start + 1), None)
    return named is not None and spoken.norms(named.end, named.end + 1) in (["can"], ["could"], ["may"], ["might"])


CALLED: Final = (
    ("those", "are", "the", "things"), ("these", "are", "the", "things"), ("things", "like", "that"),
    ("i", "'d", "want", "to", "know"), ("i", "would", "want", "to", "know"), ("i", "'d", "like", "to", "know"),
    ("that", "'s", "your", "bond"), ("that", "'s", "your", "deposit"), ("there", "goes", "your"),
    ("that", "'s", "the", "sort", "of", "thing", "we"), ("that", "'s", "the", "kind", "of", "thing", "we"),
    ("that", "'s", "what", "we", "look"), ("that", "'s", "what", "i", "look"),
    ("that", "'s", "a", "whole", "new"), ("you", "are", "buying", "a"), ("you", "are", "paying", "for", "a"),
)  # fmt: skip
"""How the clause goes on that sums up what was listed: what such things are, or who pays for them."""


def _is_summed_up(spoken: Spoken, clause: Clause) -> bool:
    """`a wobbly tap, a dead bulb, those are the things people forget`, `four burns and you're buying a counter`: listed
    with no verb and no word that points, and then called what they are."""
    if _points_or_tells(spoken, clause) or not spoken.has_term("condition", within=clause):
        return False
    for later in spoken.clauses[clause.index + 1 :]:
        norms = spoken.norms(bare_start(spoken.tokens, later), later.end)
        if any(tuple(norms[: len(words)]) == words for words in CALLED):
            return True
        if _points_or_tells(spoken, later):
            return False
    return False


def _points_or_tells(spoken: Spoken, clause: Clause) -> bool:
    start = bare_start(spoken.tokens, clause)
    pointing = NO_SUBJECT - {"one", "some"}
    return bool(set(spoken.norms(start, start + 1)) & pointing) or any(
        token.is_finite and token.tag != "VBD" for token in spoken.tokens[start : clause.end]
    )
