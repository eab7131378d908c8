"""How such things usually are or become, told beside what is here: `that's usually just the rollers, the dirt gets
in`, `what's normal wear? scuffs, faded paint, little nail holes, that's normal`, `it marks if you look at it`."""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from narrate2report.read.speech.clauses import Clause, bare_start
from narrate2report.read.speech.sayings import first_saying
from narrate2report.read.speech.spoken import Spoken

USUALLY: Final = frozenset("usually normally generally typically ordinarily mostly always".split())
BEING: Final = frozenset("is 's are 're".split())
NOUNS: Final = frozenset("DT NN NNS PRP$ JJ RB CD".split())
SO_OFTEN: Final = (("sometimes",), ("of", "the", "time"), ("times", "out", "of", "ten"), ("times", "in", "ten"))
"""`ninety percent of the time`, `nine times out of ten`."""

WEAR: Final = (["normal"], ["wear"], ["fair", "wear"], ["normal", "wear"], ["ordinary", "wear"], ["all", "normal"])
POINTS: Final = frozenset("the this that these those here there it my our your".split())
HERE: Final = frozenset("here this these now".split())


MISUSES: Final = frozenset(
    "yank force slam lean drop spill leave pull tug kick overload bang swing hang stand climb drag scrape soak flood"
    " overfill look breathe touch sneeze".split()
)


def _comes_of_misuse(spoken: Spoken, clause: Clause) -> bool:
    """`they fall off the track if you yank 'em`, `it marks if you so much as look at it`: nothing is wrong yet."""
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    if not following or following[0].link not in {"if", "when", "whenever"}:
        return False
    told = spoken.tokens[clause.start : clause.end]
    asked = spoken.norms(following[0].start, following[0].start + 8)
    does = any(first.norm in {"it", "they"} and second.tag == "NNS" for first, second in pairwise(told))
    present = does or any(token.tag in {"VBZ", "VBP"} for token in told)
    if any(token.tag == "VBD" for token in told):
        return False
    return present and "you" in asked and bool(MISUSES & set(asked))


def is_usual(spoken: Spoken, clause: Clause) -> bool:
    """Whether a clause tells what is behind such flaws for the most part, or which of them count as wear."""
    if HERE & set(spoken.norms(clause.start, clause.end)):
        return False
    if _comes_of_misuse(spoken, clause):
        return True
    told = any(_tells_the_usual(spoken, one) for one in spoken.clauses[: clause.index + 1])
    return told or _is_listed_as_wear(spoken, clause)


def _tells_the_usual(spoken: Spoken, clause: Clause) -> bool:
    """`that's usually just hair`, `ninety percent of the time that's hair`; `it usually sticks` is of this one."""
    start = bare_start(spoken.tokens, clause)
    norms = spoken.norms(start, clause.end)
    often = any(first_saying(said, SO_OFTEN) is not None for said in (spoken.norms(0, start), norms))
    if not often and USUALLY.isdisjoint(norms):
        return False
    at = next((here for here, norm in enumerate(norms) if norm in {"that", "it", "those"}), None)
    if at is None or (at and not often) or norms[at + 1 : at + 2] == [] or norms[at + 1] not in BEING:
        return False
    after = norms[at + 2 :]
    rest = at + 2 + bool(USUALLY & set(after[:1]))
    tags = {token.tag for token in spoken.tokens[start + rest : clause.end] if token.is_word}
    return bool(often or USUALLY & set(after[:1])) and bool(tags & {"NN", "NNS"}) and tags <= NOUNS


def _is_listed_as_wear(spoken: Spoken, clause: Clause) -> bool:
    """`scuffs, faded paint, little nail holes, that's normal`: two flaws or more, none of them anywhere."""
    last = spoken.clauses[-1]
    closing = spoken.norms(bare_start(spoken.tokens, last), last.end)
    judged = closing[:1] in (["that"], ["those"], ["it"]) and closing[1:2] and closing[1] in BEING
    if not judged or not any(closing[2 : 2 + len(words)] == words for words in WEAR) or clause is last:
        return False
    listed = spoken.tokens[: last.start]
    flaws = [one for one in spoken.terms("condition") if one.start < last.start]
    bare = not any(token.is_finite or token.tag in {"IN", "CD"} or token.norm in POINTS for token in listed)
    return len(flaws) > 1 and bare
