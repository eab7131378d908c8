"""A sentence in clauses: the stretches within which a cue can reach a word.

Boundaries are marks, joining words and, where the recogniser gave no marks, the places where a new subject
starts. Clauses are short: a list of three flaws is three of them, joined by `,` and `and`.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from narrate2report.read.lexis.numbers import UNITS
from narrate2report.read.lexis.words import Token

MARKS = frozenset({",", ";", ":", "—", "–", "...", "…", ".", "?", "!", "(", ")", "/", "->", ">", "-", "•", "*", "|"})
JOINERS = frozenset(
    "and or but so because although though except unless while whereas plus then if when whenever until which".split()
)
NOMINATIVE = frozenset("i we they he she".split())
ADVERBS = frozenset("just also still only really always never".split())
PARTICLES = frozenset("on off out up down in".split())
OPENING = frozenset("the this that these those all both every each there".split())
PRONOUNS = frozenset("i you we they he she it there this that these those one".split())
TAKES_CLAUSE = frozenset(
    "if when that because so and but or what where which who how like as than think see say said know"
    " sure until unless guess bet says told whether though although while since before after hope wish"
    " believe means mean everything all anything something than".split()
)
DETERMINERS = frozenset("the a an this that these those my our your his her its their both all one two three".split())

LEADING = frozenset(
    "and so only just then also now okay ok well but or please kindly again yes oh right alright look um uh"
    " plus then last lastly finally".split()
)
"""Words before what a clause says: `okay, and now ...`."""


@dataclass(frozen=True)
class Clause:
    """Tokens `start` to `end` (exclusive); `link` is the mark or word that joins it to the clause before."""

    index: int
    start: int
    end: int
    link: str

    def __contains__(self, at: int) -> bool:
        return self.start <= at < self.end


def bare_start(tokens: Sequence[Token], clause: Clause) -> int:
    """Where what a clause says begins, after `okay, and now`."""
    at = clause.start
    while at < clause.end and (tokens[at].norm in LEADING or not tokens[at].is_word):
        at += 1
    return at


@dataclass(frozen=True)
class TermBounds:
    """Where components and rooms are named: the tokens they start at and the tokens right after them."""

    starts: frozenset[int]
    ends: frozenset[int]
    predicates: frozenset[int]
    """Tokens at which a condition or a working verb stands."""


def split_clauses(
    tokens: Sequence[Token], terms: TermBounds, fixed: Collection[int], breaks: Collection[int] = ()
) -> tuple[Clause, ...]:
    """The clauses of a sentence. At `fixed` tokens (inside a matched phrase) nothing is split; at `breaks` a phrase
    begins that ends what was said before.
    """
    starts: list[tuple[int, str]] = []
    link, begin = "", 0
    for at, token in enumerate(tokens):
        if token.text in MARKS or not token.text.strip("."):
            link = token.text[:1] if token.text != "..." else "..."
            begin = -1
        elif begin == -1:
            starts.append((at, token.norm if token.norm in JOINERS else link))
            begin = at
        elif at == 0:
            starts.append((0, token.norm if token.norm in JOINERS else ""))
            begin = 0
        elif at in breaks or (at not in fixed and token.norm in JOINERS and at > begin and not _in_number(tokens, at)):
            starts.append((at, token.norm))
            begin = at
        elif at not in fixed and (
            _starts_subject(tokens, at, begin, terms)
            or _starts_anew(tokens, at, begin, terms)
            or _follows_here(tokens, at, begin)
        ):
            starts.append((at, ""))
            begin = at
    clauses = []
    for index, (start, joined) in enumerate(starts):
        end = starts[index + 1][0] if index + 1 < len(starts) else len(tokens)
        while end > start and tokens[end - 1].text in MARKS:
            end -= 1
        clauses.append(Clause(index, start, end, joined))
    return tuple(clauses)


def _in_number(tokens: Sequence[Token], at: int) -> bool:
    """`one and a half`, `a hundred and two`."""
    before = tokens[at - 1]
    after = [token.norm for token in tokens[at + 1 : at + 3]]
    return before.tag == "CD" and bool(after) and (after == ["a", "half"] or tokens[at + 1].tag == "CD")


def _follows_here(tokens: Sequence[Token], at: int, begin: int) -> bool:
    """`over here the counter has a scratch`: a pointing hand first, and then what is said."""
    lead = [token.norm for token in tokens[begin:at] if token.norm not in LEADING]
    return (
        len(lead) == 2 and lead[1] in {"here", "there"} and lead[0] in HITHER and tokens[at].norm in OPENING | COUNTED
    )


HITHER = frozenset({"over", "down", "up", "in", "out", "back", "right", "under"})

SAID_IN_PASSING = frozenset({"okay", "ok", "alright"})
FOUND = frozenset({"got", "found", "see", "saw", "notice"})
COUNTED = frozenset("a an some one two three another".split())
GOES = {(who, goes) for who in ("it", "she", "he", "we", "they", "you") for goes in ("go", "goes")}
HEADING = 3
"""Words of a name at the head of a note: `exhaust fan nothing`."""

BEFORE_ONE = frozenset("neither either each every no any which".split())
"""`neither one latches`: the number goes with the word before it."""


def _starts_anew(tokens: Sequence[Token], at: int, begin: int, terms: TermBounds) -> bool:
    """`... on the floor okay the mirror has a crack`, `no scuffs got a burn on the carpet`: said on without a mark."""
    before, token = tokens[at - 1], tokens[at]
    if at - 1 == begin and before.norm in SAID_IN_PASSING:
        return at - 1 > 0 and tokens[at - 2].text not in MARKS
    told = at in terms.ends or at - 1 in terms.predicates or before.tag in {"NN", "NNS"}
    if token.norm in SAID_IN_PASSING:
        following = tokens[at + 1] if at + 1 < len(tokens) else None
        goes_on = following is not None and following.is_word and following.norm not in {"except", "but", "both", "all"}
        return told and goes_on and before.tag not in {"IN", "DT"}
    if token.norm == "nothing" and at in terms.ends and begin + HEADING >= at:
        return at + 1 == len(tokens) or tokens[at + 1].text in MARKS  # disposal nothing, not a hum
    if token.norm == "there" and at - 1 >= begin:
        return tuple(one.norm for one in tokens[at + 1 : at + 3]) in GOES  # test there it goes
    follows = at + 1 < len(tokens) and tokens[at + 1].norm in COUNTED
    return (
        told
        and token.norm in FOUND
        and follows
        and before.norm not in NOMINATIVE | {"who", "that", "which", "have", "'ve"}
    )


def _starts_subject(tokens: Sequence[Token], at: int, begin: int, terms: TermBounds) -> bool:
    """Whether a new statement starts here although nothing marks it, as in unpunctuated speech."""
    if at <= begin or at + 1 >= len(tokens):
        return False
    before, token, after = tokens[at - 1], tokens[at], tokens[at + 1]
    if before.norm in TAKES_CLAUSE or before.norm in JOINERS or before.norm in DETERMINERS:
        return False
    if token.norm in NOMINATIVE and (after.is_finite or after.norm in ADVERBS or after.is_verb):
        return not _is_auxiliary(before)
    if before.tag == "TO" or (before.norm in {"not", *BEFORE_ONE} and token.norm in COUNTED):
        return False
    if token.norm == "who" and after.is_finite and before.tag in {"NN", "NNS", "NNP", ","}:
        return True
    if token.norm in PRONOUNS and (after.is_finite or after.norm in ADVERBS):
        if before.tag == "IN" and not (before.norm in PARTICLES and after.norm in {"is", "'s", "has", "was"}):
            return False
        if (
            token.norm in {"there", "it"}
            and before.norm in PARTICLES
            and not any(t.is_finite for t in tokens[begin:at])
        ):
            return False  # the carpet in there is worn
        return not _is_auxiliary(before)
    if at in terms.ends and (token.norm in OPENING or (token.tag == "CD" and after.tag in {"NN", "NNS"})):
        return token.norm != "one" or after.tag in {"NN", "NNS"}
    predicated = any(t.is_finite for t in tokens[begin:at]) or any(begin <= one < at for one in terms.predicates)
    acts = before.is_verb and at - 1 not in terms.predicates
    if token.norm == "no" and (after.tag in {"NN", "NNS", "JJ"} or at + 1 in terms.predicates):
        listed = predicated or tokens[begin].norm == "no"
        return listed and not acts and before.tag != "IN" and before.norm not in {"'s", "is", "there"}
    if token.tag == "CD" and after.tag in {"NN", "NNS"} and after.norm not in UNITS:
        counted = any(one in terms.predicates for one in range(at + 1, min(len(tokens), at + 4)))
        return predicated and counted and (before.tag in {"NN", "NNS", "RP"} or at - 1 in terms.predicates)
    particle = (
        before.norm in PARTICLES
        and at - 2 >= begin
        and tokens[at - 2].is_verb
        and at - 2 not in terms.predicates
        and at - 1 not in terms.ends
    )
    if acts or (before.tag == "IN" and not particle) or not predicated:
        return False
    noun = at + 1 if token.norm in DETERMINERS else at
    if noun == at and before.tag in {"MD", "RB"} and before.norm not in {*PARTICLES, "also"}:
        return False
    if noun == at + 1 and after.tag == "CD" and token.norm in OPENING:
        noun += 1
    if noun not in terms.starts or (
        before.tag in {"JJ", "CD"}
        and not any(t.is_finite for t in tokens[max(begin, at - 3) : at - 1])
        and at - 1 not in terms.predicates
    ):
        return False
    if before.tag in {"DT", "PRP$", "POS"} or (before.tag == "CD" and at - 2 >= begin and tokens[at - 2].is_finite):
        return False
    if before.tag in {"JJ", "VBN"} and at - 2 >= begin and tokens[at - 2].tag in {"DT", "PRP$"}:
        return False
    if before.tag == "JJ" and at - 1 == begin:
        return False
    for one in range(noun + 1, min(len(tokens), noun + 4)):
        if tokens[one].is_finite or one in terms.predicates:
            return True
        if tokens[one].text in MARKS or tokens[one].tag in {"IN", "CC"}:
            return False
    return False


def _is_auxiliary(token: Token) -> bool:
    return token.norm in {
        "do",
        "does",
        "did",
        "is",
        "are",
        "was",
        "were",
        "can",
        "could",
        "will",
        "would",
        "have",
    }
