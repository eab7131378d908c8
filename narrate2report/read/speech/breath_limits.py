"""Where nobody breathes, whatever else speaks for it: between words that only together say something.

What was learned from some speakers may be wrong of another; grammar is the same for all.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

from narrate2report.read.lexis.words import Token

NOUNS = frozenset({"NN", "NNS", "NNP", "NNPS"})
BEFORE_NOUNS = frozenset({"JJ", "JJR", "JJS", "VBN", "VBG", "CD"})
ARTICLES = frozenset("the a an my your our their his her its every".split())

THINKING = frozenset("think thinking thought guess guessing believe suppose bet hope say says said know sure".split())
THOUGHT = frozenset("it there that this these those they he she we i you the a an my some".split())

WELL = frozenset("fine good great well nice smooth smoothly perfect".split())
NOUN_PHRASE = NOUNS | BEFORE_NOUNS | {"DT", "PRP$"}
SUBORDINATING = frozenset("what which that if when where because how whether".split())
ASKED = frozenset({"PRP", "DT", "EX", "WP"})
BEING = frozenset("is are was were 's am be".split())


def holds_together(tokens: Sequence[Token], at: int, begin: int, numbered: Collection[int]) -> bool:
    """Whether no mark can stand before token `at` of a statement that begins at `begin`.

    `numbered` are the tokens at which a room ends that may have a number.
    """
    return (
        _lacks_its_noun(tokens, at)
        or _is_counted(tokens, at, numbered)
        or _is_thought(tokens, at)
        or _is_its_verb(tokens, at, begin)
        or _is_how_it_works(tokens, at)
        or _is_room_number(tokens, at, numbered)
    )


def _lacks_its_noun(tokens: Sequence[Token], at: int) -> bool:
    """`a cracked` before `cover`, `two small` before `places`: an article, a number still wait for their noun."""
    if tokens[at].tag not in NOUNS:
        return False
    before = at - 1
    while before > 0 and tokens[before].tag in BEFORE_NOUNS:
        before -= 1
    described = tokens[at - 1].tag == "JJ" and tokens[at - 2].tag == "CD" and at > 1
    return tokens[before].norm in ARTICLES or (described and tokens[at - 2].norm != "one")


def _is_counted(tokens: Sequence[Token], at: int, numbered: Collection[int]) -> bool:
    """`two` before `small places`."""
    number = tokens[at - 1]
    counts = number.tag == "CD" and number.norm != "one" and at - 1 not in numbered
    follows = tokens[at].tag in NOUNS or (
        tokens[at].tag == "JJ" and at + 1 < len(tokens) and tokens[at + 1].tag in NOUNS
    )
    return counts and follows


def _is_thought(tokens: Sequence[Token], at: int) -> bool:
    """`I am thinking` before `it is mold`: what is thought belongs to who thinks it, and stays in doubt."""
    return tokens[at - 1].norm in THINKING and tokens[at].norm in THOUGHT


def _is_its_verb(tokens: Sequence[Token], at: int, begin: int) -> bool:
    """`every sink` before `has`: a subject waits for its verb, unless the verb asks."""
    token = tokens[at]
    if not (token.is_finite and token.is_verb) or tokens[at - 1].tag not in NOUNS:
        return False
    if at + 1 < len(tokens) and tokens[at + 1].tag in ASKED:
        return False
    subject = at - 1
    while subject > begin and tokens[subject].tag in NOUN_PHRASE:
        subject -= 1
    return tokens[subject].norm in SUBORDINATING or not any(one.is_finite for one in tokens[begin:at])


def _is_how_it_works(tokens: Sequence[Token], at: int) -> bool:
    """`flushes` before `fine`."""
    before = tokens[at - 1]
    does = before.tag in {"VBZ", "VBP"} or (before.tag == "NNS" and at > 1 and tokens[at - 2].tag == "NN")
    return tokens[at].norm in WELL and does and before.norm not in BEING


def _is_room_number(tokens: Sequence[Token], at: int, numbered: Collection[int]) -> bool:
    """`bedroom` before `one` `walls`; not before what may be counted, `two windows`, `one outlet`."""
    if at not in numbered or tokens[at].tag != "CD":
        return False
    following = tokens[at + 1].tag if at + 1 < len(tokens) else ""
    return following != "NN" if tokens[at].norm == "one" else following != "NNS"
