"""What the speaker does on the way, said or left unsaid who: `gonna swing by`, `hopping across`, `went ahead`.

No list of verbs of going is needed for that: what stands behind `I`, `let's` or `gonna`, or begins a clause as a verb,
is done by the speaker. Only what is told as done (`walked over`) and what `you` do is known by its verb.
"""

from __future__ import annotations

from narrate2report.read.speech.clauses import Clause, bare_start
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.walk.ways import TAKEN_UP

SPEAKER = frozenset(
    "sir madam ahead i we let us 's will 'll am 'm are 're going gonna to just now so then and if can shall me have 've"
    " got gotta want might should need lets".split()
)
"""All that may stand before what the speaker does."""

CALLS_FOR_A_VERB = frozenset({("let", "'s"), ("let", "us"), ("let", "me"), ("i", "will"), ("we", "will")})
"""What follows is done, whatever the tagger takes it for: `let's mosey into`."""

BEING_THERE = frozenset(
    "am 'm are 're be being stand standing stood come coming go going get getting step stepping head heading walk"
    " walking pop popping nip nipping duck ducking poke poking stick sticking arrive arriving enter entering finish"
    " finishing start starting begin beginning end ending look looking back".split()
)
"""With these `in the kitchen` tells that the speaker is there or goes there."""

GLANCES = frozenset("have take do get grab give having taking doing getting".split())
"""`I'll have a look in the laundry`."""

GONE = frozenset("made got went came walked stepped headed moved popped nipped hopped crossed climbed".split())
"""Past verbs that tell of having just come there: `made it to the top bedroom`, `walked over to the kitchen`."""

LONG_AGO = frozenset("yesterday ago week month year".split())
"""`went down there last week`: not on this walk."""

YOURS = frozenset("are 're come step walk enter arrive end finish stand look looking standing".split())
"""What whoever is shown around does as the speaker does: `you come out in the hall`, `you're in the front bedroom`."""

YOU_TOO = frozenset("you are 're will 'll now then so and just also".split())
"""All that may stand before that: `you can go in there` and `when you come in` tell of another time."""

GOING_ON = frozenset("coming going heading moving stepping walking carrying".split())
COMES_BY_ITSELF = frozenset("noise sound air sun sunlight daylight cold heat traffic music dust".split())
"""What may come through to a room without anybody going there."""


def own_verb(spoken: Spoken, clause: Clause, until: int) -> int | None:
    """The last verb before token `until` that the speaker does, or whoever is shown around."""
    asked = spoken.norms(clause.start, clause.start + 3) == ["do", "you", "want"]  # do you want to go into the lounge?
    start = clause.start + (2 if asked else _opens_with_a_slip(spoken, clause))
    own = _last_verb(spoken, clause, start, until)
    if own is None or asked or "you" not in spoken.norms(clause.start, own):
        return own
    shown = spoken.tokens[own].norm in YOURS and set(spoken.norms(clause.start, own)) <= YOU_TOO
    return own if shown else None


def _opens_with_a_slip(spoken: Spoken, clause: Clause) -> bool:
    """`Bride coming through to the living room`, of "right": whether a sentence opens with a bare noun of which nothing
    is known, and goes on as the speaker does. Somebody's name may stand there too."""
    first = spoken.tokens[clause.start]
    found = (*spoken.found.terms, *spoken.found.cues)
    return (
        clause.index == 0
        and first.tag in {"NN", "NNP"}
        and first.norm not in COMES_BY_ITSELF
        and bool(GOING_ON & set(spoken.norms(clause.start + 1, clause.start + 2)))
        and not any(one.start == clause.start for one in found)
    )


def _last_verb(spoken: Spoken, clause: Clause, start: int, until: int) -> int | None:
    """The last verb in a row of what the speaker does: `I'm gonna go and have`; none where something else is told."""
    tokens = spoken.tokens
    own: int | None = None
    for at in range(start, until):
        token = tokens[at]
        helps = token.norm in SPEAKER or (token.norm == "you" and own is None)
        if helps or not token.is_word or token.tag in {"UH", "CC", "RB"}:
            own = at if token.norm in BEING_THERE | GLANCES else own
            continue
        if own is not None and own > start and tokens[own].norm not in SPEAKER:
            return own
        if not _is_done(spoken, clause, at):
            return None if own is None or tokens[own].norm in SPEAKER - GLANCES else own
        own = at
    return own


def _is_done(spoken: Spoken, clause: Clause, at: int) -> bool:
    """Whether the word at token `at`, with only words of the speaker before it, says what the speaker does."""
    token, before = spoken.tokens[at], tuple(spoken.norms(max(clause.start, at - 2), at))
    if any(term.start == at for term in spoken.terms("component")):
        return False  # slider out to the balcony
    if token.tag in {"VB", "VBG", "VBP"} or token.norm in BEING_THERE | TAKEN_UP or before in CALLS_FOR_A_VERB:
        return True
    if token.tag in {"VBN", "VBD"} and before[-1:] in (("have",), ("'ve",)):
        return True
    if token.norm in GONE and not LONG_AGO & set(spoken.norms(at, clause.end)):
        return bool({"i", "we"} & set(before)) or _nobody_else_goes(spoken, clause)
    return False


def _nobody_else_goes(spoken: Spoken, clause: Clause) -> bool:
    """`went ahead and walked over`, and not `the dog got out and went into`: the clause before tells of nobody else."""
    if clause.link not in {"and", ","} or not clause.index:
        return True
    earlier = spoken.clauses[clause.index - 1]
    told = spoken.tokens[bare_start(spoken.tokens, earlier) : earlier.end]
    return not any(token.is_finite for token in told) or told[0].norm in {"i", "we"} or told[0].is_verb
