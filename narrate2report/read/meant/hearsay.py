"""Where somebody's words begin: `my boss says ...`, `rumor has it ...`, `the note on the file claims ...`.

The speaker only passes on what others said, wrote or think; of this place it says nothing. Not so what a label, a
tester or the thing itself `says`, and what the speaker says.
"""

from __future__ import annotations

from typing import Final

from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken

REPORTING: Final = frozenset(
    "say says said claim claims claimed insist insists insisted swear swears swore write writes wrote report reported"
    " reports mention mentions mentioned complain complains complained reckon reckons reckoned warn warned warns tell"
    " tells told thinks thought email emailed texted believes believed figured figures alleged alleges noted"
    " flagged logged recorded".split()
)
TOLD: Final = frozenset("told warned informed advised".split())
"""Of the speaker: `I've been told`, `I was warned`."""

OWN: Final = frozenset("i we you who that which it this these those there".split())
"""Of these subjects the verb passes on nobody's words."""

INSTRUMENTS: Final = frozenset(
    "label sign tag plate sticker display screen meter tester gauge thermostat dial stamp date detector alarm light"
    " needle reading level clock panel timer experience nose gut eyes plan sheet agreement contract lease".split()
)
OPENINGS: Final = (
    ("rumor", "has", "it"), ("rumour", "has", "it"), ("word", "is"), ("word", "has", "it"), ("legend", "has", "it"),
    ("the", "story", "is"), ("story", "goes"), ("the", "story", "goes"), ("i", "hear", "that"), ("so", "i", "hear"),
    ("from", "what", "i", "hear"), ("from", "what", "i", "am", "told"), ("the", "complaint", "was"),
    ("her", "complaint", "was"), ("his", "complaint", "was"), ("their", "complaint", "was"), ("i", "have", "heard"),
    ("we", "have", "heard"), ("i", "heard", "that"), ("allegedly",),
)  # fmt: skip
"""Words that open what is going round."""

SPEAKERS: Final = frozenset("he she they he's she's".split())
GOES_ON: Final = frozenset("me us him her them".split())
MOVES: Final = frozenset("up down off on in out round there here away".split())
ADMITS: Final = frozenset("right indeed true correct".split())


def reported_at(spoken: Spoken, clause: Clause) -> int | None:
    """The token from which on a clause passes on what others say; None where it does not."""
    opened = _opening(spoken, clause)
    if opened is not None:
        return opened
    for at in range(clause.start, clause.end):
        token = spoken.tokens[at]
        if token.norm in TOLD and _was_told(spoken, clause, at):
            return at
        if token.norm in REPORTING and token.tag.startswith("VB") and _somebody_else(spoken, clause, at):
            return at
        if token.norm in {"goes", "go", "went"} and _quotes(spoken, clause, at):
            return at
        if token.norm == "saying" and at and spoken.tokens[at - 1].tag in {"NN", "NNS"}:
            return at
    return None


def quotes_before(spoken: Spoken, clause: Clause) -> bool:
    """`"the carpet's ruined," he tells me`: a clause that only tells whose words those before were."""
    norms = spoken.norms(clause.start, clause.end)
    told = len(norms) > 1 and norms[0] in SPEAKERS and norms[1] in REPORTING
    return told and clause.index > 0 and set(norms[2:]) <= GOES_ON


def is_admitted(spoken: Spoken, clause: Clause) -> bool:
    """`he says it was torn when he moved in, and he's right`: then the speaker says it too."""
    return any(admits(spoken, later) for later in spoken.clauses[clause.index + 1 :])


def admits(spoken: Spoken, clause: Clause) -> bool:
    """`and she's right`, `and sure enough`: what was said is so."""
    norms = spoken.norms(clause.start, clause.end)
    right = bool(ADMITS & set(norms)) and bool({"is", "'s", "are", "was", "were"} & set(norms))
    return (right or spoken.has_cue("settled", within=clause)) and not spoken.has_cue("negation", within=clause)


def _opening(spoken: Spoken, clause: Clause) -> int | None:
    for at in range(clause.start, min(clause.start + 3, clause.end)):
        if any(tuple(spoken.norms(at, at + len(words))) == words for words in OPENINGS):
            return at
    return None


def _was_told(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`I've been told`, `we were warned`, `I'm told`."""
    before = spoken.norms(max(clause.start, at - 3), at)
    return bool({"i", "we"} & set(before)) and bool({"been", "was", "were", "am", "'m", "are"} & set(before[-1:]))


def _somebody_else(spoken: Spoken, clause: Clause, at: int) -> bool:
    """Whether a person, or a paper, is the subject of a verb of saying."""
    before = at - 1
    while before >= clause.start and (spoken.tokens[before].tag in {"RB", "MD"} or spoken.tokens[before].norm == "did"):
        before -= 1
    if before < clause.start:
        return False
    subject = spoken.tokens[before]
    if subject.norm in OWN | INSTRUMENTS or subject.tag not in {"PRP", "NN", "NNS", "NNP", "NNPS"}:
        return False
    named = any(term.start <= before < term.end for term in spoken.found.terms if not term.of("room"))
    return not named and spoken.norms(at + 1, at + 2) != ["it"]


def _quotes(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`she goes, my oven's filthy`; `up she goes, and down` is said of a door."""
    if at > 1 and set(spoken.norms(at - 2, at - 1)) & MOVES:
        return False
    alone = at + 1 == clause.end and spoken.norms(at - 1, at)[:1] in (["she"], ["he"], ["they"])
    return alone and spoken.tokens[at + 1 : at + 2] != () and spoken.tokens[at + 1].text == ","
