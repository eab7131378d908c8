"""Work asked for: in the form of a question, or with a `please`."""

from __future__ import annotations

from typing import Final

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.speech.clauses import LEADING, Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.work.trades import trades_in
from narrate2report.read.work.worked_on import OWN_SELVES, RESIDENT

ASKED_FOR = frozenset("repair replace secure supply touch_up clean".split())
ASKED = (
    ["can", "you"], ["could", "you"], ["would", "you"], ["will", "you"], ["can", "we"], ["could", "we"],
    ["can", "somebody"], ["can", "someone"], ["would", "somebody"], ["would", "someone"], ["will", "somebody"],
    ["will", "someone"], ["could", "somebody"], ["could", "someone"], ["are", "you", "able", "to"],
    ["can", "maintenance"], ["could", "maintenance"],
    ["any", "chance", "of"], ["any", "chance", "you"], ["any", "chance", "we"], ["how", "about", "we"],
    ["how", "about", "you"], ["why", "do", "not", "we"], ["shall", "we"], ["should", "we"],
)  # fmt: skip
"""How work is asked for in the form of a question."""


def is_requested(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`would somebody please get this lock re-keyed?`, `can you guys bring a new screen?`: an order in other form."""
    lead = [norm for norm in spoken.norms(clause.start, mention.start) if norm not in {"so", "and", "hey", "please"}]
    if not any(lead[: len(words)] == words for words in ASKED) or spoken.has_cue("often", "condition"):
        return False
    action = mention.of("action")[0].id
    if action == "inspect" and lead[1:2] == ["maintenance"]:
        return True
    return action in ASKED_FOR and (action != "clean" or bool(trades_in(spoken)))


BEGGING: Final = frozenset("please kindly".split())
CARED_ABOUT: Final = OWN_SELVES | RESIDENT | frozenset("your yours never always not before after when while".split())
"""Beside one of these a `please` asks the resident, or for care."""

HAD_DONE: Final = frozenset("get have".split())
ON_PAPER: Final = frozenset("put raise log open file make create write in a an another".split())
"""What leads up to a ticket: `please put in a work order`."""


def is_begged(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`please fix it`, `change all four, please`, `please put in a ticket for that`: one piece of work, asked politely.

    A wipe or a word asked for so is care.
    """
    norms = set(spoken.norms())
    if not BEGGING & norms or CARED_ABOUT & norms or spoken.has_cue("often", "condition"):
        return False
    sense = mention.of("action")[0]
    if sense.id not in ASKED_FOR - {"clean", "supply"} or sense.form == "noun":
        return False
    lead = set(spoken.norms(clause.start, mention.start)) - LEADING
    if sense.form == "phrase":
        return lead <= ON_PAPER
    if spoken.tokens[mention.start].norm in {"secure", "seal", "sort", "do"}:
        return False
    had = bool(lead & HAD_DONE)
    return (had and spoken.tokens[mention.start].tag in {"VBN", "VBD"}) or not lead
