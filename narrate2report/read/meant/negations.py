"""Which word of a clause denies what comes after it."""

from __future__ import annotations

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken


def negation_before(spoken: Spoken, clause: Clause, at: int) -> str | None:
    """The nearest denial in the clause before token `at` that is one, and is not part of a longer phrase."""
    cue = denial_before(spoken, clause, at)
    return spoken.words(cue.start, cue.end) if cue else None


def denial_before(spoken: Spoken, clause: Clause, at: int) -> Mention | None:
    """The same with its place among the tokens."""
    spared = {here for cue in spoken.cues("not_negation", within=clause) for here in range(cue.start, cue.end)} | {
        here
        for term in spoken.terms("condition", "works", within=clause)
        if term.end - term.start > 1 and not term.start <= at < term.end
        for here in range(term.start, term.end)
    }
    best = _none_of_them(spoken, clause, at)
    excepted = max(
        (cue.end for cue in spoken.cues("exception", within=clause) if cue.end <= at and not _is_thing(spoken, cue)),
        default=-1,
    )
    for cue in spoken.cues("negation", within=clause):
        if cue.start < at < cue.end and spoken.tokens[cue.start].norm in {"no", "not"}:
            best = Mention(cue.start, at, cue.senses)  # the socket does not have power
        if cue.start < at and cue.end <= at and cue.start not in spared and cue.start > excepted:
            with_it = {"with", "because", "about"} & set(spoken.norms(cue.end, at))
            best = None if with_it or _is_slip(spoken, clause, cue) else cue
    for cue in spoken.cues("not_tested", within=clause):
        done = {"i", "we"} & set(spoken.norms(max(clause.start, cue.start - 2), cue.start))
        if cue.start < at < cue.end and spoken.tokens[cue.start].norm == "not" and not done:
            best = Mention(cue.start, at, cue.senses)  # the toilet does not run on
    return best


def _none_of_them(spoken: Spoken, clause: Clause, at: int) -> Mention | None:
    """`tiles, none chipped`, `handles, none of them missing`: what stands before the flaw denies it of all."""
    opens = next((here for here in range(clause.start, at) if spoken.tokens[here].norm == "none"), None)
    if opens is None or set(spoken.norms(opens + 1, at)) - {"of", "them", "'em", "is", "are", "'s", "were", "was"}:
        return None
    return Mention(opens, opens + 1)


NONE = (
    ("none",),
    ("nothing",),
    ("not", "any"),
    ("no", "such", "thing"),
    ("hardly", "any"),
    ("hardly", "anything"),
    ("barely", "any"),
    ("not", "so", "much"),
)
"""How a clause opens that says of another place only that there is nothing of it there."""

LAID = frozenset("on in along around round at inside over".split())
"""Prepositions that lead to that place."""


def none_there(spoken: Spoken, clause: Clause) -> str | None:
    """`mold on the grout, and none on the tiles`: the words with which a clause denies of its own place what the
    clause before it told."""
    start = clause.start + (spoken.norms(clause.start, clause.start + 1) in (["and"], ["but"], ["though"]))
    for words in NONE:
        end = start + len(words)
        if tuple(spoken.norms(start, end)) == words and end < clause.end and spoken.tokens[end].norm in LAID:
            return spoken.words(start, end)
    return None


def _is_thing(spoken: Spoken, cue: Mention) -> bool:
    """`not one bar is loose`: a bar, and no exception."""
    return cue.start > 0 and spoken.tokens[cue.start - 1].tag in {"CD", "DT"}


def _is_slip(spoken: Spoken, clause: Clause, cue: Mention) -> bool:
    """`there's a burn no two burns`: a number put right, without the marks that would tell."""
    counted = cue.end < clause.end and spoken.tokens[cue.end].tag == "CD"
    return (
        counted
        and spoken.norms(cue.start, cue.end) == ["no"]
        and spoken.has_term("condition", within=Clause(clause.index, clause.start, cue.start, clause.link))
    )
