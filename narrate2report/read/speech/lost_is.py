"""`The countertops quartz`, `closet rods down`: the 's of `the countertop's quartz` as a recogniser writes it.

The sound of `rod's down` and `rods down` is one, and whoever wrote it down chose the plural. A plural of which
something is told with no verb at all is read as one thing that is so; the text keeps its letters.
"""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.lexis.inflect import noun_forms
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.lexis.words import FINITE, Token
from narrate2report.read.speech.clauses import LEADING, MARKS

PLURAL_WORDS = frozenset(
    "all both two three four five six these those some many several no any few most other more".split()
)
"""Before a noun they tell that there are several."""

WHERE = frozenset("down off out up here there".split())
"""What alone tells how a thing is: `the shelf's down`, `the clicker's here`."""

LOWERED = frozenset("blind shade shutter curtain seat lid window".split())
"""`blinds down` are let down, and none of them has fallen."""

FEW_SINGULARS = {"shelves": "shelf", "halves": "half", "knives": "knife"}

CLOSING = frozenset("and but so too also again still except".split())
"""What follows when that is all that is told."""

OF_THE_CLAUSE = frozenset("NN NNS NNP NNPS JJ VBN VBG CD POS".split())
"""Tags of words that a name is made up of before its last word."""

DETERMINERS = frozenset("DT PRP$".split())


class LostIs:
    """Supplies the verb that was heard as an ending."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        components = vocabulary.components.values()
        names = {
            name
            for one in components
            for name in (*one.say, *one.else_, *(w for near in one.near.values() for w in near))
        }
        works = {phrase.split()[0] for one in components for phrase in one.works}
        flawed = {word for one in vocabulary.conditions.values() for word in (*one.nouns, *one.verbs, *one.adjectives)}
        last = frozenset(name.split()[-1] for name in names) - works - flawed - FINITE
        things = sorted(word for word in last if len(word) > len("is"))
        self._one = dict(zip(things, things, strict=True)) | {noun_forms(thing)[-1]: thing for thing in things}
        self._one |= {plural: one for plural, one in FEW_SINGULARS.items() if one in things}
        told = (*vocabulary.descriptions.material, *vocabulary.descriptions.types)
        self._made_of = frozenset(tuple(word.split()) for word in told if " " in word)
        self._made = frozenset(word.split()[0] for word in told) | {"the"}

    def plain(self, tokens: Sequence[Token]) -> Sequence[Token]:
        """The tokens with the verb in its place, wherever one is lost; the same tokens where none is."""
        lost = [at for at in range(len(tokens) - 1) if self._is_lost(tokens, at) or self._is_made_of(tokens, at)]
        if not lost:
            return tokens
        told: list[Token] = []
        for at, token in enumerate(tokens):
            if at in lost:
                told.append(token._replace(norm=self._one[token.norm], tag="NN"))
                told.append(Token("'s", "'s", "VBZ", token.end, token.end))
            else:
                told.append(token)
        return told

    def _is_lost(self, tokens: Sequence[Token], at: int) -> bool:
        token = tokens[at]
        if token.tag not in {"NNS", "VBZ", "NNPS"} or token.norm in FINITE:
            return False
        if self._one.get(token.norm, token.norm) == token.norm:
            return False
        if not _opens(tokens, at):
            return False
        return _is_verb_twice(tokens, at) or (self._is_told(tokens, at) and not _has_verb(tokens, at))

    def _is_made_of(self, tokens: Sequence[Token], at: int) -> bool:
        """`floor sheet vinyl`: of two words, what it is made of and no other part of its name."""
        if tokens[at].norm not in self._one or tokens[at].norm in FINITE:
            return False
        made = tuple(token.norm for token in tokens[at + 1 : at + 3])
        ends = at + 3 >= len(tokens) or tokens[at + 3].text in MARKS
        return ends and made in self._made_of and _opens(tokens, at)

    def _is_told(self, tokens: Sequence[Token], at: int) -> bool:
        """Whether what follows can only be told of it. A tagger that takes the noun for a verb missed one there."""
        following = tokens[at + 1]
        after = tokens[at + 2] if at + 2 < len(tokens) else None
        ends = after is None or after.text in MARKS or after.norm in CLOSING
        if following.norm in {"in", "off"} and after is not None and after.norm in {"it", "its"}:
            return True
        side = [token.norm for token in tokens[at + 2 : at + 5]] in (["on", "the", "left"], ["on", "the", "right"])
        if following.norm in WHERE:
            return (ends or side) and not (following.norm in {"up", "down"} and self._one[tokens[at].norm] in LOWERED)
        if following.norm in {"okay", "ok"}:
            return ends or (after is not None and after.tag == "IN")
        if tokens[at].tag == "VBZ":
            return following.norm in self._made or (following.norm == "on" and after is not None and after.tag == "DT")
        return False


def _is_verb_twice(tokens: Sequence[Token], at: int) -> bool:
    """`the door stops screwed to the wall`: the tagger takes the noun for a verb, and the next word is one too."""
    apart = at and tokens[at - 1].tag in {"NN", "NNS"}
    return bool(apart) and tokens[at].tag == "VBZ" and tokens[at + 1].tag == "VBN"


def _opens(tokens: Sequence[Token], at: int) -> bool:
    """Whether the name that ends at a token opens its clause, and is of one thing."""
    begin = at
    while begin and tokens[begin - 1].tag in OF_THE_CLAUSE and tokens[begin - 1].norm not in PLURAL_WORDS:
        begin -= 1
    if begin and tokens[begin - 1].norm in PLURAL_WORDS:
        return False
    if begin and tokens[begin - 1].tag in DETERMINERS:
        begin -= 1
    while begin and tokens[begin - 1].norm in LEADING:
        begin -= 1
    return not begin or tokens[begin - 1].text in MARKS


def _has_verb(tokens: Sequence[Token], at: int) -> bool:
    """Whether something else is the verb of what the noun opens: `the rods there are bent`."""
    for token in tokens[at + 1 :]:
        if token.text in MARKS or token.norm in {"and", "but", "so"}:
            return False
        if token.is_finite:
            return True
    return False
