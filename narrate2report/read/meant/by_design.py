"""A look that was wanted and is no flaw: `these boards are distressed on purpose`, `the rust is the finish`."""

from __future__ import annotations

from typing import Final

from narrate2report.read.speech.clauses import Clause, bare_start
from narrate2report.read.speech.spoken import Spoken

BY_DESIGN: Final = (
    "on purpose", "by design", "supposed to look", "meant to look", "made to look", "supposed to be like",
    "meant to be like", "comes like that", "made that way", "made like that", "came like that", "how it comes",
    "how they come", "how these come", "how it is made", "how they are made", "at the factory", "half the charm",
    "part of the charm", "part of the look", "part of the design", "all part of the charm", "gives it character",
    "adds character",
)  # fmt: skip
"""A look that was wanted: `these boards are distressed on purpose`."""

LOOKS_OF: Final = frozenset(
    "color colour pattern grain finish style look design nature veining texture patina crackle charm".split()
)
"""`that's the colour of the grout`, `it's only the grain`: what a thing looks like where nothing is wrong with it."""

BEING: Final = frozenset("is 's are 're".split())
BEFORE_LOOKS: Final = frozenset("the a just only all part of its their whole natural".split())


def is_by_design(spoken: Spoken, clause: Clause) -> bool:
    """`they are supposed to look worn`, and what was said just before `on purpose` or `that's only the grain`."""
    if says_design(spoken, clause):
        return True
    tells = spoken.has_term("condition", within=clause) or spoken.has_cue("slip", within=clause)
    if not tells or spoken.has_cue("negation", within=clause):
        return False  # that ain't mildew, it's the pattern
    if _goes_on(spoken, clause):
        return True
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    if not following:
        return False
    listed = following[0].link in {"and", "or"} and not _is_told(spoken, clause)
    if spoken.named_in(following[0]) and not (listed or _points_back(spoken, following[0])):
        return False
    return (listed or following[0].link in {",", "...", "but", ""}) and says_design(spoken, following[0])


def _goes_on(spoken: Spoken, clause: Clause) -> bool:
    """`meant to look old and beat up`: the second half of a list."""
    listed = clause.link in {"and", "or", ","} and clause.index and not _is_told(spoken, clause)
    return bool(listed) and says_design(spoken, spoken.clauses[clause.index - 1])


def _is_told(spoken: Spoken, clause: Clause) -> bool:
    return any(
        token.is_finite and (at == 0 or token.tag != "VBD")
        for at, token in enumerate(spoken.tokens[clause.start : clause.end])
    )


def _points_back(spoken: Spoken, clause: Clause) -> bool:
    opens = spoken.norms(bare_start(spoken.tokens, clause), clause.end)[:1]
    return opens in (["it"], ["that"], ["they"], ["those"], ["this"])


def says_design(spoken: Spoken, clause: Clause) -> bool:
    """Whether a clause says that a thing is meant to look so, or only looks like what it is."""
    norms = spoken.norms(bare_start(spoken.tokens, clause), clause.end)
    said = f" {' '.join(norms)} "
    if any(f" {words} " in said for words in BY_DESIGN):
        return "not" not in norms
    if any(norm in {"gone", "off", "wrong", "worn", "not"} for norm in norms):
        return False
    lead = norms[:5]
    named = any(norm in LOOKS_OF for norm in lead)
    points = lead[:1] in (["it"], ["that"], ["this"], ["they"], ["those"])
    if lead[2:3] in (["a"], ["an"]) and lead[3:4] not in (["natural"], ["color"]) and lead[4:5] == ["color"]:
        return False  # it's a tan color: what it is like
    return (named and points and lead[1:2] in (["'s"], ["is"], ["are"], ["'re"])) or _is_the_look(norms)


def _is_the_look(norms: list[str]) -> bool:
    """`the rust is the finish`, `those hairlines are crackle`."""
    being = next((at for at, norm in enumerate(norms) if norm in BEING), None)
    if being is None or norms[-1] not in LOOKS_OF:
        return False
    return set(norms[being + 1 : -1]) <= BEFORE_LOOKS
