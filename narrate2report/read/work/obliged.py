"""Work told as what must become of a thing: `those have to be shifted`, `that needs to come up`, `it must come off`.

No word says who does it or how; such words are work only where a flaw was spoken of, and what is done follows from it.
"""

from __future__ import annotations

from typing import Final

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.pointing import POINTING

MUST: Final = frozenset("must gotta".split())
MUST_TO: Final = frozenset("has have need needs got ought going gon want wants".split())
"""Before `to` they tell what must be; `must` stands alone."""

BETWEEN: Final = frozenset("really all just also both probably definitely still then now".split())
PASSIVE: Final = frozenset("be get".split())
AWAY: Final = frozenset("up off down away".split())
"""Where things come that are taken off or out of the way."""

PERSONS: Final = frozenset("i we you he she somebody someone tenant tenants resident residents".split())
THINGS: Final = POINTING | frozenset("they these one ones all lot rest bit stuff thing things".split())
NO_MENDING: Final = frozenset(
    "pushed pulled lifted held pressed slammed shoved jiggled turned twisted kicked forced leaned opened closed shut"
    " locked used kept left told asked said seen heard known noted mentioned charged billed paid deducted discussed"
    " signed returned run flushed tested honest fair careful emptied watered fed plugged loved believed watched read"
    " drained descaled wound mounted screwed propped".split()
)
"""What one must do each time to make a thing go, or to get on with the record: it mends nothing."""


def must_be_done(spoken: Spoken, clause: Clause) -> Mention | None:
    """Where a clause tells what must become of something that it points to or names."""
    for at in range(clause.start + 1, clause.end - 1):
        verb = _behind_must(spoken, at, clause)
        if verb is None or not _is_of_things(spoken, clause, at):
            continue
        if spoken.tokens[verb].norm == "come":
            if AWAY & set(spoken.norms(verb + 1, verb + 2)) and verb + 1 < clause.end:
                return Mention(verb, verb + 2)
            continue
        if spoken.tokens[verb].norm not in PASSIVE:
            continue
        done = _past(spoken, verb + 1, clause)
        token = spoken.tokens[done] if done < clause.end else None
        if token is None or token.norm in NO_MENDING or token.tag not in {"VBN", "VBD"}:
            continue
        if spoken.norms(done + 1, done + 2) == ["to"] and done + 1 < clause.end:
            continue  # it has to be seen to be believed, it needs to be nudged to close
        return Mention(done, done + 1)
    return None


def _behind_must(spoken: Spoken, at: int, clause: Clause) -> int | None:
    """The verb that a word of duty leads to: of `have to be`, `'s got to come`, `must really be`."""
    norm = spoken.tokens[at].norm
    if norm in MUST_TO and spoken.norms(at + 1, at + 2) in (["to"], ["ta"]):
        behind = _past(spoken, at + 2, clause)
    elif norm in MUST:
        behind = _past(spoken, at + 1, clause)
    else:
        return None
    return behind if behind < clause.end else None


def _past(spoken: Spoken, at: int, clause: Clause) -> int:
    while at < clause.end and spoken.tokens[at].norm in BETWEEN:
        at += 1
    return at


def _is_of_things(spoken: Spoken, clause: Clause, at: int) -> bool:
    """Whether what stands before the word of duty is a thing: pointed to, named, or some other noun."""
    lead = spoken.tokens[clause.start : at]
    norms = {token.norm for token in lead}
    if PERSONS & norms or {"not", "never", "if"} & norms:
        return False
    return bool(THINGS & norms) or any(token.tag in {"NN", "NNS"} for token in lead)
