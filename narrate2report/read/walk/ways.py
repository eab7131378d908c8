"""The words with which a way is told: where it leads, what is passed on it, and from where on its goal is named."""

from __future__ import annotations

from narrate2report.read.lexis.phrase_tree import COMPONENT_ROLES
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken

DIRECTIONS = frozenset("to into onto through across over out up down round around toward towards".split())
"""Prepositions that lead somewhere with any verb: `hopping across to`."""

ARRIVING = frozenset("in inside at on".split())
"""Prepositions that tell where somebody is, or with a verb of going where to."""

PASSED = frozenset(
    "door doors doorway slider gate arch archway threshold step steps stair stairs landing corner passage ladder lift"
    " elevator way stop left right back front top bottom end side".split()
)
"""What one goes through, over, up or along, and what tells the turn taken there: `over the threshold into`."""

TAKEN_UP = frozenset(
    "do doing take taking get getting tackle tackling hit hitting cover covering tick ticking knock knocking finish"
    " finishing start starting begin beginning try trying inspect inspecting photograph film filming record recording"
    " crack visit visiting have open opening unlock unlocking show showing see seeing check checking view"
    " viewing".split()
)
"""What one does with a room that is next: `let's get the bathroom out of the way`."""

DESCRIBING = frozenset({"DT", "PRP$", "JJ", "JJR", "JJS", "VBN", "CD", "POS"})
"""Tags of what may stand before a name and belong to it: `my two little bedrooms`."""

SO_CALLED = frozenset("call calls called be is was".split())
"""`in what they call the guest bedroom`, `into what would be the office`."""


def before_name(spoken: Spoken, clause: Clause, name_start: int) -> int:
    """The token from which on a room is named, with what describes it: `what they call the spare room`."""
    tokens, at = spoken.tokens, name_start
    while at > clause.start and tokens[at - 1].tag in DESCRIBING and tokens[at - 1].norm not in TAKEN_UP:
        at -= 1
    if at > clause.start and tokens[at - 1].norm in SO_CALLED:
        earlier = range(at - 1, max(clause.start, at - 6) - 1, -1)
        return next((back for back in earlier if tokens[back].norm == "what"), at)
    return at


def heads_a_noun(spoken: Spoken, end: int) -> bool:
    """`the kitchen light`: a thing is called by the room whose name ends before token `end`."""
    return any(other.start == end for other in spoken.terms(*COMPONENT_ROLES))


def names_a_thing(spoken: Spoken, start: int, end: int) -> bool:
    """`the light works`, and not `behind this door`, `to finish off`: whether tokens `start` to `end` name a thing, and
    not only what one passes."""
    return any(
        sense.id != "room_general"
        for term in spoken.terms(*COMPONENT_ROLES)
        if start <= term.start < end
        and not spoken.tokens[term.end - 1].is_verb
        and spoken.tokens[term.end - 1].norm not in PASSED
        for sense in term.of(*COMPONENT_ROLES)
    )
