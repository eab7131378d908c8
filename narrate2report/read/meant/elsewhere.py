"""What is said of another place: `the carpet in the common corridor`, `half the toilets in this complex`."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import Final

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.stories import tells_a_story
from narrate2report.read.speech.clauses import Clause, bare_start
from narrate2report.read.speech.sayings import first_saying
from narrate2report.read.speech.spoken import Spoken

WHOLE: Final = frozenset("complex building property development block place".split())
QUANTIFIED: Final = frozenset("half all every most any each several".split())
WHERE: Final = frozenset("in at across down over".split())
NUMBERED: Final = frozenset("building block tower".split())
"""`the machine in building two`."""

MY_OWN: Final = frozenset("own home house apartment flat".split())
RELATIVES: Final = frozenset(
    "sister brother mother father mum mom dad gran granny grandma grandmother nan nana grandpa grandfather cousin aunt"
    " uncle friend mate buddy daughter son niece nephew wife husband boss neighbor".split()
)
HOMES: Final = frozenset("place house flat apartment condo kitchen bathroom".split())
HERE: Final = frozenset("this here it that these".split())
NEIGHBOURS: Final = frozenset("guy man lady woman couple people folks family fella bloke kid kids".split())
BEYOND: Final = frozenset("downstairs upstairs below above opposite across".split())
UNITS: Final = frozenset("unit apartment flat house".split())
NOT_OURS: Final = (
    ("not", "part", "of", "this"), ("not", "this", "unit"), ("not", "our", "unit"), ("not", "in", "this", "unit"),
    ("not", "your", "unit"), ("different", "unit"), ("different", "flat"), ("another", "unit"), ("another", "address"),
    ("another", "report"), ("another", "flat"), ("another", "building"), ("another", "property"), ("thank", "goodness"),
    ("thank", "god"), ("thank", "heavens"),
)  # fmt: skip


def elsewhere_at(spoken: Spoken, clause: Clause) -> int | None:
    """The token from which on a clause speaks of another place that no word of the vocabulary names."""
    tells = (_of_the_whole_house, _put_off_us, _of_anothers, tells_a_story)
    return clause.start if any(one(spoken, clause) for one in tells) else None


def reach_of_place(spoken: Spoken, clause: Clause, cue: Mention) -> int:
    """Where words for another place begin to reach: their whole clause, if they tell where its subject is, or end it.

    `the carpet in the common corridor is stained`; but `it leaks all the way to the unit next door`.
    """
    told = any(token.is_finite for token in spoken.tokens[clause.start : cue.start])
    where = spoken.norms(cue.start, cue.start + 1)[0] in WHERE
    if not where or (told and cue.end != clause.end):
        return cue.start
    back = {"to", "from", "into", "onto", "as", "than", "like"} & set(spoken.norms(max(0, cue.start - 2), cue.start))
    return cue.start if back else clause.start


def _of_the_whole_house(spoken: Spoken, clause: Clause) -> bool:
    """`every blind in this complex is broken`, `the dryer in building two`."""
    norms = spoken.norms(clause.start, clause.end)
    for at in range(1, len(norms) - 1):
        if norms[at] != "in":
            continue
        numbered = norms[at + 1] in NUMBERED and spoken.tokens[clause.start + at + 2 : clause.end][:1]
        if numbered and (numbered[0].tag in {"CD", "NNP"} or len(numbered[0].text) == 1):
            return True
        if norms[at + 1] in {"this", "the", "our"} and norms[at + 2 : at + 3] and norms[at + 2] in WHOLE:
            return bool(QUANTIFIED & set(norms[:at]))
    return False


def _put_off_us(spoken: Spoken, clause: Clause) -> bool:
    """What the next clause says is not ours: `the corridor's carpet is stained, that's not part of this`."""
    for later in spoken.clauses[clause.index + 1 : clause.index + 2]:
        norms = spoken.norms(later.start, later.end)
        if first_saying(norms, NOT_OURS) is not None:
            thanks = "thank" in norms
            return not thanks or bool({"ours", "us"} & set(spoken.norms(later.start)))
    return False


def _of_anothers(spoken: Spoken, clause: Clause) -> bool:
    """`my mother's place had ...`, `the guy downstairs has ...`, `I did a unit this morning where ...`."""
    start = bare_start(spoken.tokens, clause)
    norms = spoken.norms(start, clause.end)
    if norms[:2] == ["my", "own"]:
        return bool(spoken.named_terms(clause)) and any(token.is_finite for token in spoken.tokens[start : clause.end])
    if norms[:2] in (["in", "my"], ["at", "my"]) and norms[2:3] and norms[2] in RELATIVES:
        return True
    if norms[:1] == ["my"] and not RELATIVES.isdisjoint(norms[1:2]) and norms[2:]:
        if norms[2] == "'s":
            return not HOMES.isdisjoint(norms[3:5])
        if spoken.tokens[start + 2].tag == "VBD" and HERE.isdisjoint(norms):
            return True
    if norms[:1] == ["the"] and not NEIGHBOURS.isdisjoint(norms[1:2]) and _lives_elsewhere(spoken, start + 2):
        return True
    if _is_numbered_unit(spoken, clause):
        return True
    if norms[:1] in (["somebody"], ["someone"]) and _lives_elsewhere(spoken, start + 1):
        return True
    if norms[:1] == ["i"] and norms[1:2] in (["had"], ["have"]) and ("my", "own") in pairwise(norms):
        return True  # I had a crack in my own hall tile
    did = norms[:1] in (["i"], ["we"]) and norms[1:2] in (["did"], ["walked"], ["turned"], ["inspected"], ["cleaned"])
    return did and norms[2:3] in (["a"], ["one"], ["another"]) and not UNITS.isdisjoint(norms[3:5])


def _lives_elsewhere(spoken: Spoken, at: int) -> bool:
    """`... downstairs`, `... in fourteen`, `... in number nine`: where somebody of another home lives."""
    norms = spoken.norms(at, at + 3)
    if not BEYOND.isdisjoint(norms[:1]):
        return True
    numbered = norms[1:2] == ["number"] or not UNITS.isdisjoint(norms[1:2])
    number = spoken.tokens[at + 1 + numbered : at + 2 + numbered]
    return norms[:1] in (["in"], ["at"], ["from"]) and bool(number) and number[0].tag == "CD"


UNIT: Final = re.compile(r"\d{1,3}[a-k]", re.IGNORECASE)


def _is_numbered_unit(spoken: Spoken, clause: Clause) -> bool:
    """`the ceiling in 4B is stained`: a unit with a number and a letter, right after a thing."""
    for one in spoken.named_terms(clause):
        unit = spoken.tokens[one.end + 1 : one.end + 2]
        if spoken.norms(one.end, one.end + 1) == ["in"] and unit and UNIT.fullmatch(unit[0].text):
            return True
    return False
