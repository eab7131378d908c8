"""The answer that a question said aloud gets: `nope`, `it does not`, `neither does`, `a little`, `two, by the stove`.

Whether anything was asked is told by `asked`; what answers a trial by what it does (`there it goes`), by `answers`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from narrate2report.read.lexis.numbers import whole_number
from narrate2report.read.speech.clauses import LEADING, Clause
from narrate2report.read.speech.spoken import Spoken

NO = frozenset("no nope nah none nil nothing never".split())
YES = frozenset("yes yep yeah yup sure definitely certainly absolutely indeed".split())
NOT_TOLD = (
    "not that i can see", "not that i see", "not at all", "not a bit", "not a one", "not one", "not a thing",
    "no sign", "not here", "none at all", "none that i can see", "no sir", "no ma'am",
)  # fmt: skip
SO_IT_IS = (
    "afraid so",
    "i am afraid so",
    "looks that way",
    "looks like it",
    "sure is",
    "sure does",
    "for sure",
    "of course",
)
SOME = frozenset("some few couple several plenty lots little bit slight slightly faint faintly".split())
WITH_SOME = frozenset("a an just only maybe there 's is very quite of".split())
STANDS_FOR = frozenset("it they that this he she there these those one both neither all none".split())
AUXILIARIES = frozenset("do does did is 's are has have will can".split())


@dataclass(frozen=True)
class Reply:
    """A yes or a no, with how many where that is said, and where its clause ends."""

    yes: bool
    end: int
    quantity: int | None = None


def reply_of(spoken: Spoken) -> Reply | None:
    """The answer that a sentence opens with, if its first clause is one and no more."""
    clause = next(
        (one for one in spoken.clauses if set(spoken.norms(one.start, one.end)) - LEADING - {"oh", "ah"}), None
    )
    if clause is None:
        first = spoken.clauses[0] if spoken.clauses else None
        return Reply(yes=True, end=first.end) if first and {"yes", "right"} & set(spoken.norms(0, first.end)) else None
    if spoken.ends_with_question():
        return None
    said = [norm for norm in spoken.norms(clause.start, clause.end) if norm not in (LEADING | {"oh", "ah"}) - YES]
    if spoken.has_cue("found_none") and not spoken.named:
        return Reply(yes=False, end=clause.end)
    if "yes" in spoken.norms(0, clause.start):
        return Reply(yes=True, end=clause.start)
    words = " ".join(spoken.norms(clause.start, clause.end))
    if set(said) <= NO or any(words.startswith(one) for one in NOT_TOLD):
        return Reply(yes=False, end=clause.end)
    if set(said) <= YES or " ".join(token.norm for token in spoken.tokens if token.is_word) in SO_IT_IS:
        return Reply(yes=True, end=clause.end)
    return _elliptical(said, clause) or _amount(spoken, said, clause)


def _elliptical(said: Sequence[str], clause: Clause) -> Reply | None:
    """`it does`, `it does not`, `neither does`."""
    if len(said) not in {2, 3} or said[0] not in STANDS_FOR or said[1] not in AUXILIARIES:
        return None
    if said[2:] and said[2] != "not":
        return None
    return Reply(yes=len(said) == 2 and said[0] not in {"neither", "none"}, end=clause.end)


def _amount(spoken: Spoken, said: Sequence[str], clause: Clause) -> Reply | None:
    """`a little`, `two, by the stove`, `one on the left`."""
    if set(said) <= SOME | WITH_SOME and SOME & set(said):
        return Reply(yes=True, end=clause.end)
    found = whole_number(spoken.tokens, clause.start)
    if found is None or (found[1] != clause.end and spoken.tokens[found[1]].tag != "IN"):
        return None
    return Reply(yes=True, end=clause.end, quantity=found[0])
