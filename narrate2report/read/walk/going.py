"""Does the speaker go to a room: `hopping across to the bath`, `so it's off to the kitchen`, `up the stairs we go`?

Whoever speaks does something (`doing`), a preposition of direction leads to the room, and nothing is done to a thing on
the way. Or nothing is told but the way itself.
"""

from __future__ import annotations

from collections.abc import Collection

from narrate2report.read.lexis.phrase_tree import COMPONENT_ROLES
from narrate2report.read.speech.clauses import Clause, bare_start
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.walk.doing import BEING_THERE, GLANCES, own_verb
from narrate2report.read.walk.led_in import LEADING
from narrate2report.read.walk.ways import ARRIVING, DIRECTIONS, PASSED, before_name, names_a_thing

CALLING_BY = frozenset("swing stop drop pop call nip pass swinging stopping dropping popping calling nipping".split())
"""`gonna swing by the hall bath`."""

NO_WAY = frozenset(
    "hear hearing smell smelling notice noticing leave leaving put putting keep keeping store storing"
    " mention mentioning talk talking speak speaking refer referring listen listening compare comparing add adding send"
    " sending belong belonging lead leading run running connect use using want prefer like liking point"
    " pointing give giving write writing hang hanging apply paint painting plan planning save saving".split()
)
"""What is done in, to or about a room without going there."""

LOOKING = frozenset("look looking see seeing peer peering glance glancing".split())
LEADING_THE_EYE = frozenset("to into onto out through across toward towards".split())
"""With these only the eye goes there: `looking out to the yard`, and not `looking around the bath`."""

HEADING_FOR = frozenset("head heading headed make making leave leaving swap swapping".split())
"""`leaving the bath for the kitchen`."""

CROSSING = frozenset(
    "cross crossing crossed climb climbing climbed pass passing follow following take taking retrace retracing turn"
    " turning round rounding leave leaving".split()
)
"""What is done to the way itself: `crossing the corridor to`, `retracing my steps to`."""

CARRIED_ALONG = frozenset("me us you ye my our head nose face way self ourselves myself".split())
"""What may stand between the verb and the preposition: `popping my head in`, `puts me in`."""

TURNS = frozenset({"left", "right"})

REACHING = frozenset("make making made got".split())
"""With these so may `it`: `made it to`, and not `move it to`."""

LEADING_PAST = frozenset("through over across out up down round around past along by off from of".split())
"""Prepositions before what is passed: `through the door to the hall`, and not `at the door to the hall`."""

PAST_ANYTHING = frozenset("past through around round".split())
"""Behind these it may be any thing: `past the boiler`, `through the gap`."""

BRINGS = frozenset("puts brings takes gets leads lands put bring take lead land leaves".split())
"""`turning left puts me in the bath`: whatever it is that brings the speaker there."""

LOOKS = frozenset("look peek nosey gander glance squiz poke walk wander peep".split())
"""`I'll have a look in the laundry`, `a quick peek in the bath`: who looks in there goes there."""

BEFORE_A_LOOK = frozenset("and so now then a one just quick little last".split())

BY_THE_WAY = LEADING | frozenset("straight around round of from across past off left right".split())
"""What a clause may say that tells nothing but a way: `and around the corner to the dining room`."""

ONWARD = frozenset("on off back onward onwards".split())
"""What sets out, whatever was told before: `the light works, on to the kitchen`."""

SETTING_OUT = DIRECTIONS | ONWARD | {"past", "along"}
TELLS_MORE = frozenset("it they there these those same".split())
"""A clause about these tells of a thing: `it runs on, through to the kitchen` leads nobody there."""

ONCE = frozenset("before after once when until till unless".split())
"""Words that open a clause of something that is not yet so: `before we go in the living room`."""

AFTERWARDS = frozenset("once when after afterwards later until".split())
"""Words behind the room's name that put it off."""


def goes_there(spoken: Spoken, clause: Clause, name_start: int, name_end: int) -> bool:
    """Whether what the clause says around a room's name, tokens `name_start` to `name_end`, leads the speaker there."""
    at = before_name(spoken, clause, name_start)
    if at <= clause.start:
        return False
    if _is_brought(spoken, clause, at):
        return True
    if _is_put_off(spoken, clause, name_start):
        return False
    return (
        _is_the_way(spoken, clause, at - 1, name_end)
        or _is_a_look(spoken, clause, at - 1)
        or _walks(spoken, clause, at - 1, name_end)
    )


def _is_put_off(spoken: Spoken, clause: Clause, name_start: int) -> bool:
    """Whether what would lead to the room is not so yet: `I'll come back to the porch once the rain stops`."""
    opens = spoken.norms(clause.start, clause.start + 1)
    purpose = opens == ["to"] and spoken.tokens[clause.start + 1].tag == "VB"
    return purpose or bool(opens and opens[0] in ONCE) or bool(AFTERWARDS & set(spoken.norms(name_start)))


def _is_brought(spoken: Spoken, clause: Clause, at: int) -> bool:
    """`turning left out of the bedroom puts me in the bath`."""
    norms = spoken.norms(max(clause.start, at - 3), at)
    return (
        len(norms) == 3 and norms[0] in BRINGS and norms[1] in {"me", "us", "you"} and norms[2] in DIRECTIONS | ARRIVING
    )


def _is_the_way(spoken: Spoken, clause: Clause, leads: int, name_end: int) -> bool:
    """`onwards, to the kitchen`, `so it's off to the bath`, `up the stairs we go`: the clause tells of the way and of
    nothing else; its last preposition is token `leads`."""
    lead, start = spoken.tokens[leads].norm, clause.start
    if lead in DIRECTIONS and _we_go(spoken, name_end):
        return _tells_a_way(spoken, start, leads)
    if lead not in {"to", "into", "onto", "through"}:
        return False
    start += spoken.tokens[start].norm == "so"
    if spoken.norms(start, min(start + 2, leads)) in (["it", "'s"], ["it", "is"]):
        start += 2
        if spoken.tokens[start].norm not in ONWARD:
            return False  # it's next to the kitchen
    return _tells_a_way(spoken, start, leads) and _goes_on(spoken, clause)


def _we_go(spoken: Spoken, at: int) -> bool:
    """`up the stairs we go`: who goes is said behind the name that ends before token `at`, and no more."""
    norms = spoken.norms(at, at + 3)
    ends = len(norms) < 3 or not spoken.tokens[at + 2].is_word
    return ends and norms[:2] in (["we", "go"], ["i", "go"], ["we", "head"], ["we", "come"])


def _tells_a_way(spoken: Spoken, start: int, end: int) -> bool:
    """Whether from token `start` to `end` nothing is named but what one passes: `around the corner`."""
    passable, led, named = _rooms(spoken), False, False
    for at in range(start, end):
        token = spoken.tokens[at]
        if led and token.norm in PASSED:
            continue
        if named and token.is_finite:
            return False  # the stairs go up to the attic
        if not (token.norm in BY_THE_WAY or token.tag in {"RB", "RP", "UH"} or not token.is_word or at in passable):
            return False
        led = led or token.norm in LEADING_PAST
        named = named or at in passable
    return True


def _rooms(spoken: Spoken) -> set[int]:
    """The tokens that name rooms."""
    return {at for term in spoken.terms("room", "rooms") for at in range(term.start, term.end)}


def _goes_on(spoken: Spoken, clause: Clause) -> bool:
    """`out the back slider, which glides, to the courtyard`, `finished there, on to the next`: whether what was told
    before this clause is no thing that leads on itself, as in `the tile runs on, into the kitchen`."""
    earlier = spoken.clauses[: clause.index]
    if not earlier or clause.link == "so":
        return True
    norms = spoken.norms(bare_start(spoken.tokens, clause), clause.end)
    if norms[0] in ONWARD or spoken.tokens[earlier[0].start].norm in SETTING_OUT:
        return True
    told = any(spoken.tokens[one.start].norm in TELLS_MORE for one in earlier)
    return not told and "from" not in norms and not names_a_thing(spoken, 0, clause.start)


def _is_a_look(spoken: Spoken, clause: Clause, leads: int) -> bool:
    """`a quick look in the bath`, and nothing else."""
    told = [norm for norm in spoken.norms(clause.start, leads) if norm not in BEFORE_A_LOOK]
    looks = len(told) == 1 and told[0] in LOOKS
    return looks and spoken.tokens[leads].norm in ARRIVING | {"round", "around", "into"}


def _walks(spoken: Spoken, clause: Clause, leads: int, name_end: int) -> bool:
    """`stepping over the threshold into the dining room`: the speaker does something, and it leads there."""
    verb = own_verb(spoken, clause, leads)
    if verb is None:
        return False
    does, between, lead = spoken.tokens[verb].norm, spoken.norms(verb + 1, leads), spoken.tokens[leads].norm
    if "you" in spoken.norms(clause.start, verb) and not _ends_there(spoken, clause, name_end):
        return False
    if lead == "by" or (lead in ARRIVING and between[-1:] == ["by"]):
        return does in CALLING_BY and not between
    if does in GLANCES and LOOKS & set(between) and lead in ARRIVING | DIRECTIONS:
        return not names_a_thing(spoken, verb, leads)
    if (does in NO_WAY and lead != "for") or not _is_free(spoken, verb, leads):
        return False
    if lead in ARRIVING:
        return does in BEING_THERE or bool(set(between) & DIRECTIONS)
    if lead == "for":
        return does in HEADING_FOR
    return lead in DIRECTIONS and not (does in LOOKING and lead in LEADING_THE_EYE)


def _ends_there(spoken: Spoken, clause: Clause, name_end: int) -> bool:
    """`you're in the front bedroom`, and not `you're in the kitchen a lot`."""
    return name_end >= clause.end or spoken.norms(name_end, clause.end) in (["now"], ["here"], ["then"], ["again"])


def _is_free(spoken: Spoken, verb: int, end: int) -> bool:
    """Whether between the verb and the preposition at token `end` nothing stands but what is passed on the way:
    `crossing the corridor to`, `out through the back door to`."""
    tokens, passable = spoken.tokens, _rooms(spoken)
    things = {at for term in spoken.terms(*COMPONENT_ROLES) for at in range(term.start, term.end)}
    last = "across" if tokens[verb].norm in CROSSING else ""
    for at in range(verb + 1, end):
        norm, tag = tokens[at].norm, tokens[at].tag
        if tag in {"IN", "TO", "RP"} or norm in DIRECTIONS:
            last = norm
            continue
        along = tag == "RB" or norm in CARRIED_ALONG | TURNS or (norm == "it" and tokens[verb].norm in REACHING)
        passed = last in PAST_ANYTHING or (last in LEADING_PAST and _is_passed(spoken, at, passable))
        if not (along or passed or norm in {"the", "a", "an", "'"} or (tag == "JJ" and at not in things)):
            return False
    return True


def _is_passed(spoken: Spoken, at: int, passable: Collection[int]) -> bool:
    """`the hall`, `the baby gate`: whether token `at` is of a room or of the name of what one goes through."""
    names = at in passable or spoken.tokens[at].norm in PASSED
    return names or (spoken.tokens[at].tag == "NN" and spoken.tokens[at + 1].norm in PASSED)
