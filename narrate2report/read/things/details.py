"""How many, how large, how bad, where, and whether it was there before: the speaker's own words."""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.lexis.numbers import UNITS, find_size, whole_number
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.lexis.words import Token
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import BEARING_PREPOSITIONS, PLACE_PREPOSITIONS, Spoken
from narrate2report.records.findings import Severity, Size

WHERE_WORDS = frozenset(
    "left right upper lower top bottom front back rear middle center centre corner low high inside outside".split()
)
MAX_WHERE_WORDS = 9
MAX_SIZE_WORDS = 10
SIZE_OPENERS = frozenset("it that this about maybe roughly around close almost nearly say probably i".split())
"""Words with which a size begins that is told after its flaw."""
NUMBER_REACH = 6
"""Words before a noun in which its number may stand."""


def quantity_before(spoken: Spoken, at: int, clause: Clause) -> int | None:
    """The number said of the noun at token `at`: `two bent slats`, `three of the slats`."""
    tokens = spoken.tokens
    found, here = None, max(clause.start, at - NUMBER_REACH)
    while here < at:
        number = whole_number(tokens, here)
        if number is None or number[1] > at or (here and tokens[here - 1].norm == "number"):  # number four
            here += 1
            continue
        value, here = number
        if _counts_the_noun(tokens, here, at):
            found = value
    return found


def _counts_the_noun(tokens: Sequence[Token], end: int, at: int) -> bool:
    """Whether a number that ends at `end` counts the noun at `at`, and measures nothing in between."""
    if tokens[end].norm in UNITS or (tokens[end].norm in {"o'clock", "of"} and end + 1 > at):
        return False
    between = tokens[end:at]
    return not any(token.is_finite or (token.tag in {"IN", "CC", ","} and token.norm != "of") for token in between)


def severity_of(spoken: Spoken, mention: Mention, clause: Clause) -> Severity | None:
    """The word that says how bad, close before the flaw or right after it; `little` in a `little lift` is none."""
    named = spoken.named_tokens()
    for cue in spoken.cues("slight", "moderate", "severe", within=clause):
        if cue.start in named:
            continue
        within = mention.start < cue.start < mention.end and cue.end - cue.start > 1  # gone a bit yellow
        if mention.start - 4 <= cue.start < mention.start or cue.start == mention.end or within:
            for level in ("slight", "moderate", "severe"):
                if any(sense.id == level for sense in cue.senses):
                    return level
    return None


def size_of(spoken: Spoken, mention: Mention, until: int) -> Size | None:
    """The first size said from shortly before the flaw up to the next one."""
    clause = spoken.clause_of(mention.start)
    return find_size(spoken.tokens[max(clause.start, mention.start - 5) : until], spoken.text)


def size_alone(spoken: Spoken) -> Size | None:
    """`It's close to two inches now.`: the size of what was told just before, and nothing else."""
    words = [token.norm for token in spoken.tokens if token.is_word]
    if not words or len(words) > MAX_SIZE_WORDS or words[0] not in SIZE_OPENERS:
        return None
    if spoken.named or spoken.terms("condition", "component"):
        return None
    return find_size(spoken.tokens, spoken.text)


def where_of(spoken: Spoken, mention: Mention, clause: Clause) -> str | None:
    """The speaker's words for the place of a flaw: `on the front edge`, `by the balcony door`."""
    tokens = spoken.tokens
    for at in range(mention.end, clause.end):
        norm = tokens[at].norm
        if (
            norm in PLACE_PREPOSITIONS | BEARING_PREPOSITIONS and norm not in {"of", "with", "for", "to", "all"}
        ) or norm in WHERE_WORDS:
            end = min(clause.end, at + MAX_WHERE_WORDS)
            for stop in range(at + 1, end):
                if tokens[stop].is_finite:
                    end = stop
                    break
            return spoken.words(at, end) if _is_place(tokens[at:end]) else None
        if tokens[at].is_finite:
            return None
    return None


def _is_place(words: Sequence[Token]) -> bool:
    """`at all` and `in it anymore` are no places: a place is named by a noun or a side."""
    return any(token.tag.startswith("NN") or token.tag == "CD" or token.norm in WHERE_WORDS for token in words)


def is_pre_existing(spoken: Spoken, clause: Clause) -> bool:
    """Whether the speaker says that it was there before."""
    return spoken.has_cue("pre_existing", within=clause) or any(
        spoken.has_cue("pre_existing", within=later) and not spoken.has_term("condition", within=later)
        for later in spoken.clauses[clause.index + 1 :]
    )
