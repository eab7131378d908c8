"""Condition words that are said of persons and their things, and not of the home: `I'm fine`, `my hands are dirty`."""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.doings import PERSONS
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken

BEING = frozenset("is 's are has have was".split())

SIDES = frozenset("side end".split())
"""`the two on the street side open`: only which."""

READINGS = frozenset("says shows reads".split())
"""What an instrument does: `my tester says open ground`."""


IN_ONES_VIEW = frozenset("life lifetime opinion view experience mind".split())
"""`never seen one so dirty in my life`, `good in my opinion`: what is the speaker's, and says nothing of it."""


def is_the_speakers(spoken: Spoken, mention: Mention) -> bool:
    """`my hands are dirty`, `a stain on my shirt`, `that chirping you hear is my phone`: nothing of the place."""
    clause = spoken.clause_of(mention.start)
    if _is_of_the_body(spoken, mention):
        return True
    if spoken.norms(max(0, mention.start - 1), mention.start) == ["my"]:
        return True  # my toast
    owned = spoken.tokens[mention.end : mention.end + 2]
    done = spoken.tokens[mention.end - 1].tag in {"VBD", "VBN"}
    if done and [token.norm for token in owned[:1]] == ["my"] and owned[1:] and not _is_named(spoken, mention.end + 1):
        return True  # I burned my toast
    if spoken.named_in(clause):
        return False
    for at in range(clause.start, len(spoken.tokens) - 1):
        if spoken.tokens[at].norm != "my" or spoken.tokens[at + 1].tag not in {"NN", "NNS"}:
            continue
        if spoken.tokens[at + 1].norm in IN_ONES_VIEW:
            continue
        before = spoken.norms(at - 1, at)
        if at < mention.start:
            return mention.start - at > 2 and spoken.norms(at + 2, at + 3)[0] in BEING
        on_it = before in (["on"], ["in"], ["of"]) and at in clause
        return on_it or (before in (["is"], ["'s"]) and at - mention.end < 4)
    return False


def _is_named(spoken: Spoken, at: int) -> bool:
    return any(one.start <= at < one.end for one in spoken.named)


BODY: Final = frozenset(
    "back knee knees hand hands head heart arm arms feet foot eyes ears nose brain memory shoulder shoulders hip throat"
    " voice english spanish shirt pants jacket boots shoes glasses wife husband dog mother father patience mood".split()
)


def _is_of_the_body(spoken: Spoken, mention: Mention) -> bool:
    """`my back is broken from bending under sinks`: told of the speaker, whatever else is named."""
    clause = spoken.clause_of(mention.start)
    before = spoken.norms(clause.start, mention.start)
    mine = [at for at, norm in enumerate(before[:-1]) if norm == "my" and before[at + 1] in BODY]
    return bool(mine) and before[-1] in BEING | {"are", "'re"}


def is_called(spoken: Spoken, mention: Mention) -> bool:
    """`Mark, can you hold the tape`: somebody's name, at the head of a sentence that asks something of him."""
    if mention.start or mention.end != 1 or len(spoken.tokens) < 4 or spoken.tokens[1].text != ",":
        return False
    asked = spoken.norms(2, 4)
    return asked[0] in {"can", "could", "would", "will", "do"} and asked[1] == "you"


def is_about_people(spoken: Spoken, mention: Mention) -> bool:
    """`so we're good there`, `I'm fine`: said of persons and not of the place."""
    if mention.end - mention.start > 1 and spoken.norms(mention.end - 1, mention.end) == ["with"]:
        return False  # I'm happy with the oven
    clause = spoken.clause_of(mention.start)
    unwilling = spoken.norms(mention.start, mention.start + 2) == ["will", "not"]
    if unwilling and mention.start > clause.start and spoken.tokens[mention.start - 1].norm in {"i", "we"}:
        return True
    norms = spoken.norms(max(clause.start, mention.start - 4), mention.start)
    return any(
        norm in PERSONS
        and following in {"am", "are", "is", "'s", "was", "were"}
        and norms[at + 2 :] in ([], ["all"], ["not"], ["just"], ["both"])
        for at, (norm, following) in enumerate(pairwise(norms))
    )


def is_outside(spoken: Spoken, mention: Mention) -> bool:
    """`resident not present`, `that's the deposit gone`: the nearest noun before it is no part of a home."""
    if any(sense.id == "pet_damage" for sense in mention.of("condition")):
        return False
    if spoken.norms(max(0, mention.start - 2), mention.start) in (["of", "the"], ["of", "that"], ["of", "this"]):
        return False  # a photo of the crack
    done = spoken.tokens[mention.start].tag == "VBD" and mention.end - mention.start == 1
    if done and any(one.start - mention.end == 1 for one in spoken.named):
        return False  # the last tenant scratched the window
    clause = spoken.clause_of(mention.start)
    if _is_done_to(spoken, mention, clause):
        return False
    last_named = max((one.end for one in spoken.named if one.end <= mention.start), default=clause.start)
    return any(
        max(clause.start, last_named) <= cue.start
        and cue.end <= mention.start
        and mention.start - cue.end <= 2
        and spoken.tokens[cue.end].norm not in READINGS | SIDES
        for cue in spoken.cues("outsider", within=clause)
    )


def _is_done_to(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`the last tenants put a hole in this wall`: what others did, and to what."""
    does = any(
        token.tag in {"VBD", "VBN", "VBP"}
        for token in spoken.tokens[max(clause.start, mention.start - 3) : mention.start]
    )
    return does and any(
        0 < one.start - mention.end <= 2 and spoken.tokens[mention.end].norm in {"in", "on"} for one in spoken.named
    )
