"""Whether a flaw is said to be there, not to be there, or perhaps to be there."""

from __future__ import annotations

import itertools
from dataclasses import dataclass

from narrate2report.read.lexis.phrase_tree import COMPONENT_ROLES, Mention
from narrate2report.read.meant.hedges import doubted_by
from narrate2report.read.meant.negations import denial_before, negation_before
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.records.findings import Assertion

OPENS_NEW = frozenset(
    "a an the some one two three four five there it is 's i this that these my also only just you we they"
    " he she".split()
)
STREWN = frozenset("full covered coated caked thick filled packed crawling littered stuffed smothered".split())
"""`the tracks haven't been done, full of dead flies`: what a thing is full of goes on with no denial."""
LIST_LINKS = frozenset({",", "and", "or", "nor", "plus"})
BEFORE_NOW = frozenset("last before at when".split())
"""After `was not there` they tell that it is new: `wasn't there last time`."""

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
    doubt = doubted_by(spoken, mention, clause)
    return Denial("possible", doubt) if doubt else Denial("present")


def _denied_by(spoken: Spoken, mention: Mention, clause: Clause, *, listed: bool = True) -> str | None:
    """The words that deny a flaw; without `listed` a list goes on with no denial: `no hole, no stain, all clean`."""
    own = negation_before(spoken, clause, mention.start)
    if own:
        return own
    after = next((cue for cue in spoken.cues("negation_after", within=clause) if cue.start >= mention.end), None)
    if after is not None and not set(spoken.norms(after.end, after.end + 1)) & BEFORE_NOW:
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
    if set(lead) & (OPENS_NEW | STREWN) or any(
        spoken.tokens[at].is_finite for at in range(clause.start, mention.start)
    ):
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
        cue = denial_before(spoken, before, before.end)
        if cue is not None and cue.end == before.end and spoken.norms(cue.start, cue.end) == ["no"]:
            return None  # no, cold; flick, no, dead bulb
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
