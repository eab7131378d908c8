"""Whether a flaw is only perhaps there: `might be a crack`, `a crack, I think`, but not `a crack, maybe an inch`."""

from __future__ import annotations

from narrate2report.read.lexis.numbers import UNITS
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken

TIMES = frozenset("second seconds minute minutes hour hours".split())
MEASURES = (frozenset(UNITS) | TIMES) - {"in"}
"""Words for a size or a time; `in` tells where as well: `might be a crack in the window`."""

AMOUNTS = frozenset("half quarter about inch foot couple size big long".split())
OPENS_DOUBT = frozenset("i maybe perhaps possibly could might".split())
"""What a doubt of what follows opens with: a doubt of what came before ends its clause with such a word."""


def doubted_by(spoken: Spoken, mention: Mention, clause: Clause) -> str | None:
    """The words that make a condition doubtful, if any do."""
    for cue in spoken.cues("hedge", within=clause):
        if cue.start < mention.start and not _is_about_amount(spoken, cue.end):
            return spoken.words(cue.start, cue.end)
    return _doubted_after(spoken, mention, clause) or _doubted_by_clause_before(spoken, clause)


def _doubted_after(spoken: Spoken, mention: Mention, clause: Clause) -> str | None:
    """`a crack, could be`: said in its clause, or in the next one where that has no flaw of its own before."""
    for later in spoken.clauses[clause.index : clause.index + 2]:
        for cue in spoken.cues("hedge_after", within=later):
            own = any(term.start < cue.start for term in spoken.terms("condition", within=later))
            if (
                not _doubts_what_follows(spoken, cue, later)
                and cue.start >= mention.end
                and (later.index == clause.index or not own)
                and not _is_about_amount(spoken, cue.end)
            ):
                return spoken.words(cue.start, cue.end)
    return None


def _doubts_what_follows(spoken: Spoken, cue: Mention, clause: Clause) -> bool:
    if cue.end < clause.end:
        return spoken.norms(cue.start, cue.end)[0] in OPENS_DOUBT
    # without marks it opens what follows
    return clause.index + 1 < len(spoken.clauses) and not spoken.clauses[clause.index + 1].link


def _doubted_by_clause_before(spoken: Spoken, clause: Clause) -> str | None:
    """`I think there could be, I don't know, a crack`; `maybe a scratch or a crack`."""
    if not clause.index:
        return None
    before = spoken.clauses[clause.index - 1]
    hedge = next(spoken.cues("hedge", within=before), None)
    if hedge is None or _is_about_amount(spoken, hedge.end):
        return None
    flawed = spoken.has_term("condition", within=before)
    bare = not any(spoken.tokens[at].is_finite for at in range(clause.start, clause.end))
    goes_on = (clause.link == "" and not flawed) or (clause.link in {"or", "and"} and bare)
    return spoken.words(hedge.start, hedge.end) if goes_on else None


def _is_about_amount(spoken: Spoken, at: int) -> bool:
    """`maybe half an inch`: the doubt is about the size and not about the flaw."""
    if at > 1 and spoken.tokens[at - 2].norm in MEASURES:
        return True
    following = spoken.tokens[at : at + 3]
    return any(token.tag == "CD" or token.norm in AMOUNTS or token.norm in MEASURES for token in following)
