"""Does the speaker go to a room, or take it up next: `hopping across to the bath`, `we'll take the kitchen next`?

No verb of going needs to be known for that: whoever speaks does something, a preposition of direction leads to the
room, and nothing is done to a thing on the way.
"""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.lexis.phrase_tree import COMPONENT_ROLES
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.walk.led_in import LEADING

DIRECTIONS = frozenset("to into onto through across over out up down round around".split())
"""Prepositions that lead somewhere with any verb: `hopping across to`."""

ARRIVING = frozenset("in inside at on".split())
"""Prepositions that tell where somebody is, or with a verb of going where to."""

BEING_THERE = frozenset(
    "am 'm are 're be being stand standing stood come coming go going get getting step stepping head heading walk"
    " walking pop popping nip nipping duck ducking poke poking stick sticking arrive arriving finish finishing start"
    " starting begin beginning end ending look looking back".split()
)
"""With these `in the kitchen` tells that the speaker is there or goes there."""

CALLING_BY = frozenset("swing stop drop pop call nip pass swinging stopping dropping popping calling nipping".split())
"""`gonna swing by the hall bath`."""

SPEAKER = frozenset(
    "sir madam ahead i we let us 's will 'll am 'm are 're going gonna to just now so then and if can shall me have 've"
    " got gotta want wanna might should need lets".split()
)
"""All that may stand before what the speaker does."""

NO_WAY = frozenset(
    "hear hearing smell smelling notice noticing leave leaving put putting keep keeping store storing"
    " mention mentioning talk talking speak speaking refer referring listen listening compare comparing add adding send"
    " sending belong belonging lead leading run running connect use using want prefer like liking point"
    " pointing give giving write writing hang hanging apply paint painting plan planning save saving".split()
)
"""What is done in, to or about a room without going there."""

CARRIED_ALONG = frozenset("me us you my our head nose face way it self ourselves myself".split())
"""What may stand between the verb and the preposition: `popping my head in`, `puts me in`, `made it to`."""

REACHED = frozenset("made got".split())
"""Past verbs that tell of having just come there: `made it to the top bedroom`."""

BRINGS = frozenset("puts brings takes gets leads lands put bring take lead land leaves".split())
"""`turning left puts me in the bath`: whatever it is that brings the speaker there."""

SO_CALLED = frozenset("call calls called be is was".split())
"""`in what they call the guest bedroom`, `into what would be the office`."""

TAKEN_UP = frozenset(
    "do doing take taking get getting tackle tackling hit hitting cover covering tick ticking knock knocking finish"
    " finishing start starting begin beginning try trying inspect inspecting photograph film filming record recording"
    " crack visit visiting have open opening unlock unlocking show showing see seeing check checking view"
    " viewing".split()
)
"""What one does with a room that is next: `let's get the bathroom out of the way`."""

BY_AND_BY = (
    (), ("next",), ("now",), ("then",), ("first",), ("quickly",), ("too",), ("quick",), ("please",), ("here",),
    ("open",), ("up",),
    ("out", "of", "the", "way"), ("off", "the", "list"), ("over", "with"), ("done",), ("done", "next"), ("now", "then"),
)  # fmt: skip
"""All that may follow the room that is taken up."""

ONLY = frozenset("only just leaves leaving".split())
"""Before the room that is left over: `only the loo left`."""

NOW = frozenset("now time next then".split())
"""After a room that a clause only names: `bedroom now`, `bathroom time`."""

ONCE = frozenset("before after once when until till unless".split())
"""Words that open a clause of something that is not yet so: `before we go in the living room`."""

AFTERWARDS = frozenset("once when after afterwards later until".split())
"""Words behind the room's name that put it off."""

GLANCES = frozenset("have take do get grab give having taking doing getting".split())
LOOKS = frozenset("look peek nosey gander glance squiz poke walk wander peep".split())
"""`I'll have a look in the laundry`, `a quick peek in the bath`: who looks in there goes there."""

ON_THE_WAY = frozenset("corner stairs steps landing way left right straight around round of from across past".split())
"""What is passed: `and around the corner to the dining room`."""


def goes_there(spoken: Spoken, clause: Clause, name_start: int) -> bool:
    """Whether what stands in the clause before the room's name, from token `name_start` on, leads the speaker there."""
    at = before_name(spoken, clause, name_start)
    if at <= clause.start:
        return False
    leads = spoken.tokens[at - 1].norm
    if _is_brought(spoken, clause, at):
        return True
    if is_put_off(spoken, clause, name_start):
        return False
    if leads in {"to", "into", "onto", "through"} and _is_bare(spoken, at - 1):
        return True
    if leads in ARRIVING | {"round", "around", "into"} and _is_a_look(spoken.norms(clause.start, at - 1)):
        return True
    verb = _own_verb(spoken, clause, at - 1)
    if verb is None or _speaks_of_a_thing(spoken, clause, at):
        return False
    does, between = spoken.tokens[verb].norm, spoken.norms(verb + 1, at - 1)
    if leads == "by" or (leads in ARRIVING and between[-1:] == ["by"]):
        return does in CALLING_BY and not between
    if does in GLANCES and LOOKS & set(between) and leads in ARRIVING | DIRECTIONS | {"at"}:
        return True
    if does in NO_WAY or not _is_free(spoken, verb + 1, at - 1):
        return False
    if leads in ARRIVING:
        return does in BEING_THERE or bool(set(between) & DIRECTIONS)
    return leads in DIRECTIONS


def is_taken_up(spoken: Spoken, clause: Clause, name_start: int, end: int) -> bool:
    """Whether the room is what the speaker does next, or all that is left to be done."""
    at = before_name(spoken, clause, name_start)
    if at > clause.start + 1 and spoken.tokens[at - 1].norm in {"off", "up"} and spoken.tokens[at - 2].norm in TAKEN_UP:
        at -= 1  # ticking off bedroom two
    after = tuple(spoken.norms(end, clause.end))
    taken = at > clause.start and spoken.tokens[at - 1].norm in TAKEN_UP
    if taken and after in BY_AND_BY and _own_verb(spoken, clause, at) == at - 1:
        return True
    lead = [
        norm for norm in spoken.norms(clause.start, at) if norm not in {"and", "so", "then", "now", "okay", "right"}
    ]
    if after in {("left",), ("remaining",), ("to", "go"), ("remains",)}:
        return not lead or set(lead) <= ONLY | {"that", "is", "'s", "there", "with", "us"}
    return len(after) == 1 and after[0] in NOW and not lead


def is_put_off(spoken: Spoken, clause: Clause, name_start: int) -> bool:
    """Whether what would lead to the room is not so yet: `I'll come back to the porch once the rain stops`."""
    opens = spoken.norms(clause.start, clause.start + 1)
    purpose = opens == ["to"] and spoken.tokens[clause.start + 1].tag == "VB"
    return purpose or bool(opens and opens[0] in ONCE) or bool(AFTERWARDS & set(spoken.norms(name_start)))


def _is_a_look(norms: Sequence[str]) -> bool:
    """`a quick look`, and nothing else."""
    told = [
        norm
        for norm in norms
        if norm not in {"and", "so", "now", "then", "a", "one", "just", "quick", "little", "last"}
    ]
    return len(told) == 1 and told[0] in LOOKS


def _is_bare(spoken: Spoken, until: int) -> bool:
    """`onwards, to the kitchen`, `so into the utility`: nothing is said before it but where it goes on."""
    clause = spoken.clause_of(until)
    start = clause.start if clause.link == "so" else 0
    rooms = {at for term in spoken.terms("room", "rooms") for at in range(term.start, term.end)}
    return all(
        token.norm in LEADING | ON_THE_WAY or token.tag in {"RB", "RP", "UH"} or not token.is_word or at in rooms
        for at, token in enumerate(spoken.tokens[start:until], start)
    )


def before_name(spoken: Spoken, clause: Clause, name_start: int) -> int:
    """The token from which on a room is named, with what describes it: `what they call the spare room`."""
    tokens, at = spoken.tokens, name_start
    while at > clause.start and (
        tokens[at - 1].tag in {"DT", "PRP$", "JJ", "JJR", "JJS", "VBN", "CD", "POS"}
        and tokens[at - 1].norm not in TAKEN_UP
    ):
        at -= 1
    if at > clause.start and tokens[at - 1].norm in SO_CALLED:
        return next(
            (back for back in range(at - 1, max(clause.start, at - 6) - 1, -1) if tokens[back].norm == "what"), at
        )
    return at


def _own_verb(spoken: Spoken, clause: Clause, until: int) -> int | None:
    """The last verb before token `until` that the speaker does, said or left unsaid: `gonna swing`, `hopping`."""
    tokens = spoken.tokens
    own: int | None = None
    for at in range(clause.start, until):
        token = tokens[at]
        if token.norm in SPEAKER or not token.is_word or token.tag in {"UH", "CC"} or token.tag == "RB":
            if token.norm in BEING_THERE | GLANCES:
                own = at
            continue
        if own is not None and own > clause.start and tokens[own].norm not in SPEAKER:
            break
        done = token.tag in {"VBN", "VBD"} and spoken.norms(at - 1, at) in (["have"], ["'ve"])
        if done or token.tag in {"VB", "VBG", "VBP"} or token.norm in REACHED | BEING_THERE | TAKEN_UP:
            own = at
            continue
        helps = own is None or tokens[own].norm in SPEAKER - GLANCES
        return None if helps else own
    return own


def _speaks_of_a_thing(spoken: Spoken, clause: Clause, until: int) -> bool:
    """`slider out to the balcony is stiff`."""
    things = spoken.terms(*COMPONENT_ROLES, within=clause)
    return any(one.end <= until and spoken.tokens[one.end - 1].norm not in CARRIED_ALONG for one in things)


def _is_free(spoken: Spoken, start: int, end: int) -> bool:
    """Whether no thing stands between the verb and the preposition."""
    return all(
        token.norm in CARRIED_ALONG or token.tag in {"RB", "IN", "RP", "TO", "JJ"} or token.norm in DIRECTIONS
        for token in spoken.tokens[start:end]
    )


def _is_brought(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`turning left out of the bedroom puts me in the bath`."""
    norms: Sequence[str] = spoken.norms(max(clause.start, at - 3), at)
    return (
        len(norms) == 3 and norms[0] in BRINGS and norms[1] in {"me", "us", "you"} and norms[2] in DIRECTIONS | ARRIVING
    )
