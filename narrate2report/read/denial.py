"""Whether a flaw is said to be there, not to be there, or perhaps to be there."""

from __future__ import annotations

import itertools
from dataclasses import dataclass

from narrate2report.read.clauses import Clause
from narrate2report.read.numbers import UNITS
from narrate2report.read.phrase_tree import COMPONENT_ROLES, Mention
from narrate2report.read.spoken import Spoken
from narrate2report.records.findings import Assertion

OPENS_NEW = frozenset(
    "a an the some one two three four five there it is 's i this that these my also only just".split()
)
TIMES = frozenset("second seconds minute minutes hour hours".split())
MEASURES = (frozenset(UNITS) | TIMES) - {"in"}
"""Words for a size or a time; `in` tells where as well: `might be a crack in the window`."""

LIST_LINKS = frozenset({",", "and", "or", "nor", "plus"})
OR_LINKS = frozenset({"or", "nor"})
LONGEST_ITEM = 3
"""Words of an item of a list that no `or` marks as one: `no rust, grease, odd smells`."""


@dataclass(frozen=True)
class Denial:
    """The assertion of one flaw, with the words that decided it."""

    assertion: Assertion
    cue: str = ""


def deny(spoken: Spoken, mention: Mention, *, sound: bool = False, denies: bool = False) -> Denial:
    """Read the assertion of a condition that is said of this place now.

    Hedges do not make praise doubtful: `I think it's fine` is the speaker's finding.
    """
    clause = spoken.clause_of(mention.start)
    denied = _denied_by(spoken, mention, clause, listed=not sound or clause.link in OR_LINKS)
    if denies:
        refused = negation_before(spoken, clause, mention.start)
        return Denial("present" if refused else "absent", spoken.words(mention.start, mention.end))
    if denied and not _excepted(spoken, clause):
        return Denial("absent", denied)
    if denied:
        return Denial("present", f"{denied} ... except")
    if sound:
        return Denial("present")
    doubt = _doubted_by(spoken, mention, clause)
    return Denial("possible", doubt) if doubt else Denial("present")


def negation_before(spoken: Spoken, clause: Clause, at: int) -> str | None:
    """The nearest denial in the clause before token `at` that is one, and is not part of a longer phrase."""
    cue = _denial_before(spoken, clause, at)
    return spoken.words(cue.start, cue.end) if cue else None


def _denial_before(spoken: Spoken, clause: Clause, at: int) -> Mention | None:
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


def _denied_by(spoken: Spoken, mention: Mention, clause: Clause, *, listed: bool = True) -> str | None:
    """The words that deny a flaw; without `listed` a list goes on with no denial: `no hole, no stain, all clean`."""
    own = negation_before(spoken, clause, mention.start)
    if own:
        return own
    after = next((cue for cue in spoken.cues("negation_after", within=clause) if cue.start >= mention.end), None)
    if after is not None:
        return spoken.words(after.start, after.end)
    if (returned := _never_came_back(spoken, clause)) is not None:
        return returned
    following = [later for later in spoken.clauses[clause.index + 1 : clause.index + 2] if later.start >= mention.end]
    if (
        following
        and following[0].link in {":", "-"}
        and spoken.has_cue("negation_after", "negation", within=following[0])
    ):
        flawed = spoken.has_term("condition", within=following[0])
        if not flawed:
            return spoken.words(following[0].start, following[0].end)
    return _denied_with_list(spoken, mention, clause) if listed else None


def _never_came_back(spoken: Spoken, clause: Clause) -> str | None:
    """`the damp patch, which we had treated, has not come back`: a clause that opens with the denial of it."""
    for later in spoken.clauses[clause.index + 1 : clause.index + 3]:
        for cue in spoken.cues("negation_after", within=later):
            whole = cue.start == later.start and cue.end == later.end and not later.link
            returns = spoken.tokens[cue.end - 1].norm in {"back", "returned", "reappeared"}
            if (returns and cue.start - later.start <= 2) or (whole and later.index == clause.index + 1):
                return spoken.words(cue.start, cue.end)
    return None


def _denied_with_list(spoken: Spoken, mention: Mention, clause: Clause) -> str | None:
    """`no chips or cracks`: a bare item goes on with the denial of the item before it."""
    if clause.index == 0 or clause.link not in LIST_LINKS:
        return None
    lead = [norm for norm in spoken.norms(clause.start, mention.start) if norm not in {"and", "or", "nor", "any"}]
    if set(lead) & OPENS_NEW or any(spoken.tokens[at].is_finite for at in range(clause.start, mention.start)):
        return None
    if any(term.start < mention.start for term in spoken.terms(*COMPONENT_ROLES, within=clause)):
        return None
    if clause.link != "or" and any(spoken.tokens[at].is_finite for at in range(mention.end, clause.end)):
        return None
    if any(cue.start == mention.end for cue in spoken.cues("severe", "moderate", "slight", within=clause)):
        return None
    before = spoken.clauses[clause.index - 1]
    flaws = spoken.terms("condition", within=before)
    if flaws:
        return _denied_by(spoken, flaws[-1], before)
    return _denied_by_opening(spoken, clause)


def _denied_by_opening(spoken: Spoken, clause: Clause) -> str | None:
    """`no sign of birds, wasps or wet`: the list may open with things that are no flaws of a home."""
    later = itertools.takewhile(lambda item: item.link in LIST_LINKS, spoken.clauses[clause.index :])
    items = list(later)
    if not any(item.link in OR_LINKS for item in items) and not all(_is_item(spoken, item) for item in items):
        return None
    for before in reversed(spoken.clauses[: clause.index]):
        if spoken.has_term(*COMPONENT_ROLES, within=before):
            return None
        cue = _denial_before(spoken, before, before.end)
        if cue is not None and before.end - before.start == 1 and not before.index:
            return None  # no, cold
        if cue is not None:
            told = any(spoken.tokens[at].is_finite for at in range(cue.end + 1, before.end))
            return None if told else spoken.words(cue.start, cue.end)
        if before.link not in LIST_LINKS or not _is_bare(spoken, before):
            return None
    return None


def _is_bare(spoken: Spoken, clause: Clause) -> bool:
    """Whether a clause is no statement of its own."""
    opens = OPENS_NEW & set(spoken.norms(clause.start, clause.end))
    return not opens and not any(spoken.tokens[at].is_finite for at in range(clause.start, clause.end))


def _is_item(spoken: Spoken, clause: Clause) -> bool:
    """Whether a clause is a thing and no more: nouns, with a word that describes them at most."""
    inside = [token for token in spoken.tokens[clause.start : clause.end] if token.norm not in LIST_LINKS]
    return 0 < len(inside) <= LONGEST_ITEM and all(token.tag.startswith(("NN", "VBG", "JJ")) for token in inside)


def _excepted(spoken: Spoken, clause: Clause) -> bool:
    """`not a scratch except by the handle`: the exception names a place and no other flaw."""
    if clause.index + 1 < len(spoken.clauses):
        following = spoken.clauses[clause.index + 1]
        if spoken.has_cue("exception", within=following) or spoken.has_cue("exception", within=clause):
            return not spoken.has_term("condition", within=following)
    return False


def _doubted_by(spoken: Spoken, mention: Mention, clause: Clause) -> str | None:
    for cue in spoken.cues("hedge", within=clause):
        if cue.start < mention.start and not _is_about_amount(spoken, cue.end):
            return spoken.words(cue.start, cue.end)
    for later in spoken.clauses[clause.index : clause.index + 2]:
        for cue in spoken.cues("hedge_after", within=later):
            if cue.end < later.end and spoken.norms(cue.start, cue.end)[0] in {
                "i",
                "maybe",
                "perhaps",
                "possibly",
                "could",
                "might",
            }:
                continue
            if (
                cue.end == later.end
                and later.index + 1 < len(spoken.clauses)
                and not spoken.clauses[later.index + 1].link
            ):
                continue  # without marks it opens what follows
            own = any(term.start < cue.start for term in spoken.terms("condition", within=later))
            if (
                cue.start >= mention.end
                and (later.index == clause.index or not own)
                and not _is_about_amount(spoken, cue.end)
            ):
                return spoken.words(cue.start, cue.end)
    if clause.link == "" and clause.index:
        before = spoken.clauses[clause.index - 1]
        flawed = spoken.has_term("condition", within=before)
        leading = next(spoken.cues("hedge", within=before), None)
        if leading is not None and not flawed and not _is_about_amount(spoken, leading.end):
            return spoken.words(leading.start, leading.end)
    if clause.link in {"or", "and"} and clause.index:
        before = spoken.clauses[clause.index - 1]
        bare = not any(spoken.tokens[at].is_finite for at in range(clause.start, clause.end))
        hedge = next(spoken.cues("hedge", within=before), None)
        if bare and hedge is not None and not _is_about_amount(spoken, hedge.end):
            return spoken.words(hedge.start, hedge.end)
    return None


def _is_about_amount(spoken: Spoken, at: int) -> bool:
    """`maybe half an inch`: the doubt is about the size and not about the flaw."""
    if at > 1 and spoken.tokens[at - 2].norm in MEASURES:
        return True
    following = spoken.tokens[at : at + 3]
    return any(
        token.tag == "CD"
        or token.norm in {"half", "quarter", "about", "inch", "foot", "couple", "size", "big", "long"}
        or token.norm in MEASURES
        for token in following
    )
