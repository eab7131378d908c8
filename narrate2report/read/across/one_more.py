"""One more of the flaw that was told last, with no word for it: `here's another one`, `and a bigger one by the door`.

Takes the drafts of the sentence and the conditions of the one before; leaves `the other one` and `same here` to
`left_out`, and another thing of a kind to those who find its own flaws.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.whereabouts import ROOM_GENERAL

COUNTABLE: Final = frozenset(
    "scratch scuff gouge dent chip crack hole nail_hole tear burn stain mark patched paint_drip cobweb".split()
)
"""Flaws of which there may be one more."""

LEADS: Final = frozenset(
    "and also plus then so oh yeah yes okay but there here is 's are there's here's got have has 've you i we see can"
    " it over down up on in the this that side".split()
)
"""All that may stand before it: `also here is one bigger`; `I'll bring another one` has a verb of its own."""

SIZES: Final = frozenset(
    "bigger smaller larger longer deeper shorter wider worse lighter fainter similar second third identical matching"
    " big small large long deep little tiny huge nasty".split()
)


def find_one_more(scene: Scene, drafts: Sequence[Draft], before: Sequence[Draft]) -> list[Draft]:
    """The flaw told last, once more, for each clause that only says that there is another one."""
    spoken, found = scene.spoken, list[Draft]()
    for clause in spoken.clauses:
        end = _ends_at(spoken, clause)
        if end is None or not scene.is_said(clause.start):
            continue
        own = [one for one in drafts if one.kind == "condition" and one.at < clause.start]
        flaw = next(iter([*before, *own][-1:]), None)
        if flaw is None or flaw.condition not in COUNTABLE or flaw.assertion != "present" or flaw.room != scene.room:
            continue
        named = next((one for one in spoken.named_in(clause) if one.start >= end and one.relation == "of"), None)
        component = named.component if named and named.component != ROOM_GENERAL else flaw.component
        words = spoken.words(clause.start, end)
        place = spoken.words(end, clause.end) if clause.end > end else None
        again = replace(
            flaw, component=component, at=end - 1, quantity=1, where=place, size=None, severity=None, also=()
        )
        found.append(again.with_reason(f"'{words}': one more of what was told last"))
    return found


def _ends_at(spoken: Spoken, clause: Clause) -> int | None:
    """The token after the words for one more, if the clause says nothing but that, and where."""
    flaws = spoken.terms("condition", within=clause)
    if spoken.has_term("works", within=clause) or any(not one.beside for term in flaws for one in term.of("condition")):
        return None
    norms = spoken.norms(clause.start, clause.end)
    at = next((at for at in range(len(norms)) if _length(norms[at:])), None)
    if at is None or set(norms[:at]) - LEADS:
        return None
    end = clause.start + at + _length(norms[at:])
    after = spoken.tokens[end : clause.end]
    told = any(token.is_finite or token.tag in {"VB", "TO"} or token.norm in {"of", "for"} for token in after)
    return None if told or (after and after[0].tag not in {"IN", "RB"}) else end


def _length(norms: Sequence[str]) -> int:
    """How many words there are in `another one`, `one more`, `a bigger one`, `one bigger`, where they begin with it."""
    if norms[:1] == ["another"]:
        return 2 if norms[1:2] == ["one"] else 1
    if norms[:2] == ["one", "more"] or (norms[:1] == ["one"] and norms[1:2] and norms[1] in SIZES):
        return 2
    return 3 if norms[:1] == ["a"] and norms[2:3] == ["one"] and norms[1] in SIZES else 0
