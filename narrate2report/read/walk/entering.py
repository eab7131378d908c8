"""Does a walk enter the room that a sentence names, or does it only speak of it: `the tub upstairs`?"""

from __future__ import annotations

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.walk.arriving import has_come_there
from narrate2report.read.walk.going import goes_there
from narrate2report.read.walk.led_in import is_introduced
from narrate2report.read.walk.named import is_headed, is_named_alone
from narrate2report.read.walk.taking_up import is_taken_up
from narrate2report.read.walk.told_of import has_a_door, is_beside, is_called_by, is_ruled_out
from narrate2report.read.walk.ways import heads_a_noun


def is_entered(spoken: Spoken, mention: Mention, end: int) -> bool:
    """Whether the walk goes into the room of `mention`, whose name (with its number) ends before token `end`.

    Asked in this order: is it ruled out, is the speaker led or gone there, does it only tell where a thing is, is the
    room named as a heading.
    """
    if is_ruled_out(spoken, mention) or has_a_door(spoken, end):
        return False
    if heads_a_noun(spoken, end):
        shelf = spoken.tokens[end - 1].norm in {"closet", "cupboard"}  # the linen closet shelf, said from the hall
        return not shelf and not is_beside(spoken, mention) and is_headed(spoken, mention, end)
    clause = spoken.clause_of(mention.start)
    if (
        is_introduced(spoken, mention, end)
        or goes_there(spoken, clause, mention.start, end)
        or is_taken_up(spoken, clause, mention.start, end)
        or has_come_there(spoken, mention, end)
    ):
        return True
    if is_beside(spoken, mention) or is_called_by(spoken, mention, end):
        return False
    return is_headed(spoken, mention, end) or (
        is_named_alone(spoken, mention, end) and not _is_one_of_two(spoken, mention)
    )


def _is_one_of_two(spoken: Spoken, mention: Mention) -> bool:
    """`the same stuff runs through the living room and the kitchen`: the second of two that are spoken of."""
    clause = spoken.clause_of(mention.start)
    before = any(spoken.clause_of(term.start).index == clause.index - 1 for term in spoken.terms("room"))
    return clause.link in {"and", "or"} and before and not {"into", "to"} & set(spoken.norms(0, mention.start))
