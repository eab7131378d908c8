"""What work does that goes unnamed: what is missing is supplied, what is dirty is cleaned, what is loose is secured."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from typing import Final

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.work.worked_on import party_of, to_do
from narrate2report.records.findings import Action

ANOTHER: Final = frozenset("new fresh another replacement spare spares".split())
"""Words for what takes the place of something."""

BY_FLAW: Final[dict[str, Action]] = {
    "missing": "supply",
    "burned_out": "replace",
    "loose": "secure",
    "expired": "replace",
}
LYING_THERE: Final = frozenset("debris dust cobweb pest".split())
"""What goes by itself, and takes nothing with it that would have to be replaced."""

NOT_THERE: Final[dict[str, Action]] = {one: BY_FLAW[one] for one in ("missing", "burned_out", "expired")}
"""Of flaws told sentences before, those of which work makes something new."""

CLEANED: Final = frozenset("dirty stain grease dust mineral_deposit debris residue cobweb".split())
LOOKED_AT: Final = frozenset("look looked inspect assess quote survey check checked".split())


def remedy(scene: Scene, clause: Clause) -> Action:
    """What work that goes unnamed in `clause` does, by its words and by the flaw told before it."""
    spoken = scene.spoken
    norms = spoken.norms(clause.start, clause.end)
    told = {
        sense.id
        for term, sense in scene.flaws()
        if (term.start < clause.start or not clause.index) and not sense.beside and not scene.says_nothing(term)
    }
    if len(told) == 1 and (only := next(iter(told))) in BY_FLAW:
        return BY_FLAW[only]
    if ANOTHER & set(norms) or ("one" in norms and {"a", "an"} & set(norms[: norms.index("one")][:2])):
        return "replace"
    if LOOKED_AT & set(norms):
        return "inspect"
    return "clean" if CLEANED & told else "repair"


def to_mend(
    scene: Scene, clause: Clause, at: int, on: tuple[str, str], told: str, *, owner_speaks: bool, confidence: float
) -> Draft:
    """The draft of work that goes unnamed in `clause`, on a component (with how it was found), told by these words."""
    party = party_of(scene.spoken, clause, owner_speaks=owner_speaks)
    action = remedy(scene, clause)
    return replace(to_do(scene, at, on, told, action, party, confidence), unsaid=action == "repair")


def as_flawed(draft: Draft, suffers: Collection[str]) -> Draft:
    """`the hob is thick with grease. That needs to come up.`: work that goes unnamed does what the flaws of its thing
    ask for that were told in the sentences before."""
    if not draft.unsaid or not suffers:
        return draft
    if draft.action == "replace":  # they left food in it: all that has to go
        return replace(draft, action="clean" if set(suffers) <= LYING_THERE else "replace")
    if set(suffers) <= CLEANED:
        return replace(draft, action="clean")
    only = next(iter(suffers)) if len(suffers) == 1 else ""
    return replace(draft, action=NOT_THERE.get(only, draft.action))
