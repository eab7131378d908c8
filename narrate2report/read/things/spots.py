"""Words of a flaw that only tell how much there is of another: `spots of mold`, `a film of grease`."""

from __future__ import annotations

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.speech.spoken import Spoken

SPREAD = frozenset(
    "stain residue patched mark debris discoloration paint_drip dust soap_scum mineral_deposit dirty".split()
)
"""Flaws whose nouns can be an amount of something."""

BETWEEN = 3
"""Words that may stand before what there is some of: `patches of that black mold`."""

THAT = frozenset({"it", "them", "that", "this"})


def is_amount(spoken: Spoken, mention: Mention) -> bool:
    """Whether a word for a flaw only tells how much there is of what follows."""
    senses = mention.of("condition")
    if not {sense.id for sense in senses} <= SPREAD or all(sense.form == "adjective" for sense in senses):
        return False
    of = next((at for at in (mention.end - 1, mention.end) if spoken.norms(at, at + 1) == ["of"]), None)
    if of is None:
        return False
    after = of + 1
    own = {sense.id for sense in senses}
    told = any(
        after <= term.start <= after + BETWEEN and not own & {sense.id for sense in term.of("condition")}
        for term in spoken.terms("condition", within=spoken.clause_of(mention.start))
    )
    return told or (bool(THAT & set(spoken.norms(after, after + 1))) and _ends_there(spoken, after))


def _ends_there(spoken: Spoken, at: int) -> bool:
    """`spots of it over the shower`: what it is was said before."""
    following = spoken.tokens[at + 1 : at + 2]
    return not following or following[0].tag not in {"NN", "NNS", "JJ"}
