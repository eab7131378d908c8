"""Words that open a second look at what was just said: `no, that's`, `nope`, `wait`, `not a scratch, a seam`.

What the second look makes of it is told by `second_looks`.
"""

from __future__ import annotations

from dataclasses import dataclass

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.speech.clauses import LEADING, MARKS
from narrate2report.read.speech.spoken import Spoken

OPENERS = ("slip", "withdrawal", "second_look")

SIGHS = LEADING | MARKS | {"ah", "oh", "hmm", "ha", "eh"}

FIRM = frozenset("no nope nah not wrong mistake mistaken sorry correction back bad error misread forget alarm".split())
"""With one of these the opening takes something back; without, it only pauses: `wait`, `let me look closer`."""

POINTING = frozenset("that it this they these those".split())
BEING = frozenset("is 's are 're was were".split())
MERELY = frozenset("just only really actually all merely simply probably more like kind sort of".split())

TAKEN_FOR = ("looks like", "look like", "looked like", "thought", "could be", "might be", "figured", "going to say")
"""Before `but it's only`: what was first taken for a flaw."""


@dataclass(frozen=True)
class Opening:
    """Words that announce a correction: where they begin, where what follows them begins, and whether they take
    something back or only pause."""

    start: int
    end: int
    firm: bool


def opening_of(spoken: Spoken, pausing: Opening | None) -> Opening | None:
    """The opening of a sentence; `pausing` is the one that the sentence before ended with: `Oh, wait.`"""
    own = _own_opening(spoken)
    if pausing is None:
        return own
    if own is None or own.start > 1:
        return Opening(0, 0, pausing.firm)
    return Opening(own.start, own.end, own.firm or pausing.firm)


def _own_opening(spoken: Spoken) -> Opening | None:
    """The first opening in a sentence: one clause after the other that holds nothing but such words, and the words
    themselves where more follows in their clause."""
    if _names_anew(spoken):
        return Opening(0, 0, firm=True)
    if (merely := _merely(spoken)) is not None:
        return Opening(merely, merely, firm=True)
    start, at, firm = -1, 0, False
    for clause in spoken.clauses:
        if start < 0 or at < clause.start:
            at = clause.start
        while at < clause.end:
            cue = next((one for one in spoken.cues(*OPENERS) if one.start == at and not _denies(spoken, one)), None)
            if cue is not None:
                start = at if start < 0 else start
                firm = firm or bool(FIRM & set(spoken.norms(cue.start, cue.end)))
                at = cue.end
            elif spoken.tokens[at].norm in SIGHS:
                at += 1
            else:
                break
        if start >= 0 and at < clause.end:
            return Opening(start, at, firm)
    return Opening(start, len(spoken.tokens), firm) if start >= 0 else None


def _names_anew(spoken: Spoken) -> bool:
    """`not a scratch, a seam`, `no tear, it's a leaf`: what it is not, and what it is."""
    if len(spoken.clauses) < 2 or not {"not", "no"} & set(spoken.norms(0, 1)):
        return False
    first, second = spoken.clauses[:2]
    lead = spoken.norms(0, 2) in (["not", "a"], ["not", "an"])
    flawed = any(term.start == 1 + lead and term.end == first.end for term in spoken.terms("condition"))
    opens = spoken.norms(second.start, second.start + 2)
    pointed = opens[0] in POINTING and opens[1:] and opens[1] in BEING
    return flawed and (bool(pointed) or (lead and opens[0] in {"a", "an", "just", "the", "more"}))


def _merely(spoken: Spoken) -> int | None:
    """`that looks like a burn, but it's only chocolate`: where what it is begins."""
    for clause in spoken.clauses[1:]:
        norms = spoken.norms(clause.start, clause.end)
        at = 1 if norms[0] == "but" else 0
        if clause.link != "but" or norms[at : at + 1] == [] or norms[at] not in POINTING:
            continue
        taken = " ".join(spoken.norms(spoken.clauses[0].start, clause.start))
        if norms[at + 2 : at + 3] and norms[at + 2] in MERELY and any(words in taken for words in TAKEN_FOR):
            return clause.start + at
    return None


def _denies(spoken: Spoken, cue: Mention) -> bool:
    """`no leak underneath`, `it's not cracked`: a denial without a mark or a new subject after it is no word of its
    own."""
    if spoken.norms(cue.end - 1, cue.end) not in (["no"], ["nope"], ["not"]) or cue.end == len(spoken.tokens):
        return False
    following = spoken.tokens[cue.end]
    return following.text not in MARKS and following.norm not in POINTING | SIGHS
