"""Is a room's name said by itself, as a heading: `Okay, the kitchen`, `second door on the right, bedroom B`?"""

from __future__ import annotations

from narrate2report.read.lexis.numbers import whole_number
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.walk.doing import BEING_THERE
from narrate2report.read.walk.led_in import is_a_way, opens
from narrate2report.read.walk.room_numbers import ORDINALS
from narrate2report.read.walk.told_of import is_told_from_elsewhere
from narrate2report.read.walk.ways import before_name, heads_a_noun, names_a_thing

INDEFINITE = frozenset("everything nothing something everyone everybody nobody".split())
"""Words that begin anew behind a room's name: `bedroom, everything works`."""

TURNING_TO_IT = frozenset(
    "okay ok right alright well so then now next also first last lastly finally ah oh yes this that is 's it".split()
)
"""All that may stand before a room that a clause only names: `so that's the kitchen again`."""

THEN_SAID = frozenset({(), ("next",), ("now",), ("then",), ("again",), ("really",), ("actually",), ("here",)})
"""All that may follow it there: `well, the porch really`."""


def is_headed(spoken: Spoken, mention: Mention, end: int) -> bool:
    """`Bedroom, the carpet is new`, and not `the bedroom people` nor `the bedroom is bigger than this`: the sentence
    begins with the room's name."""
    if not opens(spoken, mention) or is_told_from_elsewhere(spoken, mention, end):
        return False
    return _is_whole(spoken, mention, end)


def is_named_alone(spoken: Spoken, mention: Mention, end: int) -> bool:
    """`Okay, the kitchen, ...`: a clause names the room and tells nothing else, and none before it tells of a thing."""
    clause = spoken.clause_of(mention.start)
    at = before_name(spoken, clause, mention.start)
    earlier = spoken.clauses[: clause.index]
    if not set(spoken.norms(clause.start, at)) <= TURNING_TO_IT:
        return False
    if tuple(spoken.norms(end, clause.end)) not in THEN_SAID and not _is_told_empty(spoken, end, clause):
        return False
    before = spoken.tokens[clause.start - 1]
    if earlier and not clause.link and before.is_verb and before.norm not in BEING_THERE:
        return False  # shall I paint the bathroom?
    if any(is_a_way(spoken, one) for one in earlier[-1:]):
        return True  # right beside it, a smaller bedroom
    if {"a", "an", "one"} & set(spoken.norms(at, mention.start)):
        return False  # a hall, a kitchen
    return clause.link == "so" or _is_told_empty(spoken, end, clause) or not names_a_thing(spoken, 0, clause.start)


def _is_told_empty(spoken: Spoken, end: int, clause: Clause) -> bool:
    """`the second bedroom is empty`, said on where no full stop is written: seen by who comes in."""
    return spoken.norms(end, clause.end) in (["is", "empty"], ["'s", "empty"])


def _is_whole(spoken: Spoken, mention: Mention, end: int) -> bool:
    """Whether no other noun belongs to the name: `the bedroom people`."""
    tokens = spoken.tokens
    if end >= len(tokens) or tokens[end].tag not in {"NN", "NNS"} or mention.end != end:
        return True
    apart = tokens[end].norm in INDEFINITE or any(cue.start == end for cue in spoken.cues("outsider"))
    return apart or heads_a_noun(spoken, end) or tokens[end].norm in ORDINALS or whole_number(tokens, end) is not None
