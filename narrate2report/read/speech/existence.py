"""That something is there, said after it: `one crack is there in the basin`, as `there is one crack in the basin`."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from narrate2report.read.lexis.inflect import noun_forms
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.lexis.words import FINITE, Token
from narrate2report.read.speech.clauses import MARKS

Rewrite = Callable[[Sequence[Token], int], tuple[int, list[Token]] | None]
"""Given tokens and a place: how many tokens are replaced there, and by what; None where the rule does not hold."""

LONGEST = 8
"""Tokens between the first word of what is there and `is there`: longer ones hold a statement of their own."""

OPENERS = frozenset("and but so because whether if that here also then when as".split())
"""Words after which a statement begins without a mark."""

NO_SUBJECT = frozenset(
    "is are was were am do does did can could will would has have had should must i we you he she it they this that"
    " there who what where which whether if when any not no never only just also and but so or because".split()
)
"""With these no name of a flaw begins: `is there any crack`, `it is there`."""

FOCUS = frozenset("also only still already itself".split())
"""Said beside `there` for emphasis: `the crack is also there`, `is there only`."""

TROUBLE = frozenset("problem problems issue issues complaint".split())
"""`leakage problem`: the leakage."""

GUESSED = frozenset("must may might could".split())
"""`some swelling must be there`: it is guessed."""

VERBS = FINITE | GUESSED
BREAKS_OFF = NO_SUBJECT - VERBS - {"and", "or", "any"}
"""Within what is named: another statement has begun."""

HAVE = frozenset("has have got".split())
POINTING = frozenset("the this that these those".split())

BEING_THERE = frozenset("is 's are".split())
NOT_FOUND = frozenset("there visible seen found coming present".split())


def understood(norm: str, before: Token) -> Token:
    """A word that is not said, in front of one that is."""
    tag = "VBZ" if norm in {"does", "is", "has"} else {"there": "EX", "the": "DT"}.get(norm, "VBP")
    return Token(norm, norm, tag, before.start, before.start)


class FlawNames(NamedTuple):
    """The words that each name a flaw, and the names of components that end in one of them."""

    words: frozenset[str]
    things: frozenset[str]

    def end(self, words: Sequence[str]) -> bool:
        """Whether words end in the name of a flaw: `nail hole`; and not of a component: `drain hole`."""
        return bool(words) and words[-1] in self.words and " ".join(words[-2:]) not in self.things


def flaw_names(vocabulary: Vocabulary) -> FlawNames:
    """The names of flaws in both numbers, without words that alone name a component."""
    flaws = [term for condition, term in vocabulary.conditions.items() if not vocabulary.is_sound(condition)]
    nouns = {noun for term in flaws for noun in term.nouns if " " not in noun}  # standing water is one, water is none
    things = {" ".join(name.split()[-2:]) for term in vocabulary.components.values() for name in term.names}
    return FlawNames(
        frozenset(form for noun in nouns - things for form in noun_forms(noun)),
        frozenset(form for thing in things if thing.split()[-1] in nouns for form in noun_forms(thing)),
    )


def there_first(names: FlawNames) -> Rewrite:
    """`dampness is there on this wall`, `some swelling must be there`, `any leakage is not there`."""

    def rule(tokens: Sequence[Token], at: int) -> tuple[int, list[Token]] | None:
        if at and tokens[at - 1].text not in MARKS and tokens[at - 1].norm not in OPENERS:
            return None
        first = tokens[at]
        denied = first.norm == "any"
        if not first.is_word or (first.norm in NO_SUBJECT and not denied) or first.tag in {"IN", "TO", "MD"}:
            return None
        verb = _verb_after(tokens, at)
        if verb is None or not _is_flaw(tokens[at:verb], names):
            return None
        return _denied(tokens, at, verb) or _asserted(tokens, at, verb)

    return rule


def subject_last(names: FlawNames) -> Rewrite:
    """`has a hole the carpet`: there is a hole on the carpet."""

    def rule(tokens: Sequence[Token], at: int) -> tuple[int, list[Token]] | None:
        if tokens[at].norm not in HAVE or (at and tokens[at - 1].text not in MARKS):
            return None
        for here in range(at + 1, min(at + LONGEST, len(tokens) - 1)):
            if tokens[here].text in MARKS or tokens[here].tag == "IN" or tokens[here].norm in BREAKS_OFF:
                return None
            if tokens[here + 1].norm in POINTING and names.end([token.norm for token in tokens[at + 1 : here + 1]]):
                on = understood("on", tokens[here + 1])._replace(tag="IN")
                return here + 1 - at, [*tokens[at : here + 1], on]
        return None

    return rule


def _is_flaw(named: Sequence[Token], names: FlawNames) -> bool:
    """Whether what is named is a flaw: `many cracks`, `leakage problem`, `hole in the door`, `rust or loose bolt`."""
    heads = [at for at, token in enumerate(named) if token.tag == "IN" or token.norm in {"or", "and"}]
    for until in (*heads, len(named)):
        words = [token.norm for token in named[:until] if token.norm not in FOCUS]
        while words and words[-1] in TROUBLE:
            words.pop()
        if names.end(words):
            return True
        if until in heads and named[until].tag == "IN":
            break
    return False


def _asserted(tokens: Sequence[Token], at: int, verb: int) -> tuple[int, list[Token]] | None:
    """`one crack is there`: `there is one crack`; what must be there only might be."""
    guessed = tokens[verb].norm in GUESSED | {"will"} and [one.norm for one in tokens[verb + 1 : verb + 2]] == ["be"]
    if tokens[verb].norm not in BEING_THERE and not guessed:
        return None
    end = verb + 2 if guessed else verb + 1
    while end < len(tokens) and tokens[end].norm in FOCUS:
        end += 1
    if end >= len(tokens) or tokens[end].norm != "there":
        return None
    is_so = understood(tokens[verb].norm, tokens[at])
    modal = tokens[verb] if tokens[verb].norm == "will" else tokens[verb]._replace(norm="might")
    being = [modal, tokens[verb + 1]] if guessed else [is_so]
    first = tokens[at]._replace(text=tokens[at].text.lower())  # no name
    return end + 1 - at, [understood("there", tokens[at]), *being, first, *tokens[at + 1 : verb]]


def _denied(tokens: Sequence[Token], at: int, verb: int) -> tuple[int, list[Token]] | None:
    """`any leakage is not there`, `leakage is not there`: `there is no leakage`."""
    norms = [token.norm for token in tokens[verb : verb + 3]]
    found = NOT_FOUND if tokens[at].norm == "any" else {"there"}
    if norms[:1] and norms[0] in BEING_THERE and norms[1:2] == ["not"] and set(norms[2:]) & found:
        no = tokens[verb + 1]._replace(norm="no", tag="DT")
        first = at + 1 if tokens[at].norm == "any" else at
        named = [tokens[first]._replace(text=tokens[first].text.lower()), *tokens[first + 1 : verb]]
        return verb + 3 - at, [understood("there", tokens[at]), understood("is", tokens[at]), no, *named]
    return None


def _verb_after(tokens: Sequence[Token], at: int) -> int | None:
    """Where the verb stands that ends what is named from here on."""
    for here in range(at, min(at + LONGEST, len(tokens))):
        token = tokens[here]
        if token.text in MARKS or (token.norm in BREAKS_OFF and here > at):
            return None
        if token.norm in VERBS:
            return here
    return None
