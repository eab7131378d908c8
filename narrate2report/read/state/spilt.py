"""What lies on a thing and belongs elsewhere: `makeup on the carpet`, `there's porridge all down the wall`.

No word of it tells of a flaw. A substance of the vocabulary's `matter`, a preposition that lays it on a component, and
no verb that does anything: then it is a stain where it soaks in, dirt or residue where it can be wiped off.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Named, Spoken
from narrate2report.read.things.whereabouts import ROOM_GENERAL

SOAKS: Final = frozenset({"carpet", "curtain", "furniture", "wallpaper"})
"""What takes up whatever is spilt on it."""

DYES: Final = frozenset(
    "ink wine coffee tea dye marker crayon polish lipstick makeup mascara foundation curry turmeric blood biro".split()
)
"""Last words of substances that stain hard surfaces too."""

STICKS: Final = frozenset("gum tape sticker wax glue putty syrup jam honey candy jelly slime hairspray sap".split())

BELONGS: Final = frozenset("paint putty soap food sticker tape".split())
"""Last words of what may well be on a thing of its own: only where it lies `all over` it is it told of."""

LAYS: Final = frozenset("on over down up across along around round onto into in inside under through".split())
SPREAD: Final = frozenset(
    "all over dried splashed spattered splattered stuck smeared spilled spilt ground trodden baked caked right still"
    " everywhere dripped dribbled rubbed squashed".split()
)
POINTS: Final = frozenset("the this that these those its a an both one two every each your my our".split())
EXISTS: Final = frozenset("is 's are there got have has see find some".split())
"""Verbs and words that only say that it is there."""


def find_spilt(scene: Scene) -> Iterator[Draft]:
    """The stains and soil that only a substance and its place tell of."""
    spoken = scene.spoken
    for matter in spoken.cues("matter"):
        clause = spoken.clause_of(matter.start)
        if not scene.is_said(matter.start) or spoken.has_cue("negation", within=clause):
            continue
        if _tells_a_flaw(spoken, clause) or not _is_only_there(spoken, clause, matter):
            continue
        one = next((one for one in spoken.named_in(clause) if one.start >= matter.end), None)
        if one is None or one.component == ROOM_GENERAL or not _lies_on(spoken, matter, one, clause):
            continue
        words = spoken.words(matter.start, one.end)
        yield Draft.of_named(one, scene.room, _condition(spoken, matter, one), f"'{words}'", confidence=0.65)
        return


def _tells_a_flaw(spoken: Spoken, clause: Clause) -> bool:
    """Whether the clause has a word for a flaw of any thing; `down` is one of blinds alone."""
    return any(not sense.beside for term in spoken.terms("condition", within=clause) for sense in term.of("condition"))


def _is_only_there(spoken: Spoken, clause: Clause, matter: Mention) -> bool:
    """Whether nothing before it in the clause does more than to say that it is there: no `I wiped the jam`."""
    return all(
        not (token.is_finite or token.is_verb) or token.norm in EXISTS
        for token in spoken.tokens[clause.start : matter.start]
    )


def _lies_on(spoken: Spoken, matter: Mention, one: Named, clause: Clause) -> bool:
    between = spoken.tokens[matter.end : one.start]
    laid = [token.norm for token in between]
    if not LAYS & set(laid) or any(
        token.norm not in LAYS | SPREAD | POINTS | EXISTS and token.tag not in {"JJ", "NN", "NNS", "IN", "CD"}
        for token in between
    ):
        return False
    if spoken.tokens[matter.end - 1].norm in BELONGS and not {"all", "everywhere"} & set(laid):
        return False
    return not any(token.is_finite for token in spoken.tokens[one.end : clause.end])  # the soap in the dish is new


def _condition(spoken: Spoken, matter: Mention, one: Named) -> str:
    last = spoken.tokens[matter.end - 1].norm
    if last in STICKS:
        return "residue"
    return "stain" if one.component in SOAKS or last in DYES else "dirty"
