"""Does a walk enter the room that a sentence names, or does it only speak of it: `the tub upstairs`?"""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.lexis.numbers import whole_number
from narrate2report.read.lexis.phrase_tree import COMPONENT_ROLES, Mention
from narrate2report.read.speech.clauses import Clause, bare_start
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.walk.arriving import arrives, goes_through_its_door
from narrate2report.read.walk.going import goes_there, is_put_off, is_taken_up
from narrate2report.read.walk.led_in import LEADING, is_introduced, opens
from narrate2report.read.walk.room_numbers import ORDINALS

NOT_ENTERED = frozenset(
    "from than as like off by near toward towards behind beside between of same facing opposite above over"
    " below outside until before after with for off past upstairs".split()
)

PASSED_OVER = frozenset("the a this our your my first second third fourth last next other".split())
"""Words between what leads into a room and its name: `let's do the second bedroom`."""

ENTERING = frozenset("into onto next now inside".split())

TOWARDS = frozenset("in to through out down up at on".split())

MOVING = frozenset(
    "do doing go going come coming move moving head heading walk walking step stepping back over on start"
    " starting next now we are through down up out am done finally last let off we're here cross crossing pop popping"
    " nip nipping duck ducking carry carrying wander wandering retracing proceed proceeding continue continuing climb"
    " climbing return returning".split()
)

KEPT = frozenset("keeping leaving storing putting holding".split())

INDEFINITE = frozenset("everything nothing something everyone everybody nobody".split())

DOINGS = frozenset("does says said handles sends takes wants keeps charges closes calls bills does will".split())
"""What people in an office do: `the office does the charges`."""

LEADING_OUT = frozenset("the a an our your out to onto into through on".split())


def is_entered(spoken: Spoken, mention: Mention, end: int) -> bool:
    """Whether the walk goes into the room of `mention`, whose name (with its number) ends before token `end`."""
    clause = spoken.clause_of(mention.start)
    before = spoken.norms(clause.start, mention.start)
    if _is_beside(spoken, mention):
        return False
    close = [word for word in before[-3:] if word not in PASSED_OVER]
    if _is_denied(spoken, mention, clause):
        return False
    heads_noun = any(other.start == end and other.of(*COMPONENT_ROLES) for other in spoken.found.terms)
    if _has_a_door(spoken, end):
        return False
    if heads_noun and spoken.tokens[end - 1].norm in {"closet", "cupboard"}:
        return False  # the linen closet shelf, said from the hall
    if not heads_noun and is_introduced(spoken, mention, end):
        return True
    if not heads_noun and (
        goes_there(spoken, clause, mention.start)
        or arrives(spoken, end)
        or goes_through_its_door(spoken, clause, mention.start)
        or is_taken_up(spoken, clause, mention.start, end)
    ):
        return True
    if (close and close[-1] in NOT_ENTERED) or _is_cut_off(spoken, clause, mention):
        return False
    if _is_a_place_beside(spoken, end, heads_noun, before) or _is_staffed(spoken, mention, end, heads_noun, before):
        return False
    if opens(spoken, mention):
        if _is_only_told_of(spoken, end, clause):
            return False
        return _is_named_alone(spoken, mention, end, heads_noun) and not _is_elsewhere(spoken, end, clause)
    if heads_noun or _leads_there(spoken, mention, end) or _goes_on(spoken, mention, clause):
        return False
    if _is_a_clause(spoken, mention, end, clause, before):
        return True
    next_token = spoken.tokens[end] if end < len(spoken.tokens) else None
    if next_token is not None and next_token.norm == "here" and close[-1:] == ["in"]:
        return True
    put_off = is_put_off(spoken, clause, mention.start)
    leading = not put_off and all(word in LEADING for word in before)
    moving = not put_off and bool(set(before) & MOVING) and "from" not in before
    moving = moving and not OTHERS & set(before) and not _a_thing_is_there(spoken, clause, mention)
    elsewhere = close[-1:] in (["into"], ["onto"]) and _a_thing_is_there(spoken, clause, mention)
    enters = bool(close) and not elsewhere and (close[-1] in ENTERING or (close[-1] in TOWARDS | MOVING and moving))
    return enters or (leading and (bool(before) or next_token is None))


def _has_a_door(spoken: Spoken, end: int) -> bool:
    """`the patio's slider`: a door that is spoken of from this side."""
    of_it = spoken.norms(end, end + 1) == ["'s"]
    return of_it and spoken.norms(end + 1, end + 2) in (["slider"], ["door"], ["doors"], ["sliding"])


def _is_beside(spoken: Spoken, mention: Mention) -> bool:
    """`just outside the laundry`: beside another room, and not out of doors."""
    said = spoken.norms(mention.start, mention.end) == ["outside"]
    named = spoken.norms(mention.end, mention.end + 1) in (["the"], ["this"], ["that"], ["your"])
    return said and named and any(other.start in {mention.end + 1, mention.end + 2} for other in spoken.terms("room"))


def _is_cut_off(spoken: Spoken, clause: Clause, mention: Mention) -> bool:
    """`the paint is peeling outside the bathroom`, where `outside` is a room itself and ends its clause."""
    determined = mention.start - clause.start <= 1 and not clause.link and clause.start > 0
    return determined and spoken.tokens[clause.start - 1].norm in NOT_ENTERED


def _is_denied(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`I have one like it in my store room`, `we are not going into the attic`."""
    before = spoken.norms(clause.start, mention.start)
    if before[-2:] == ["in", "my"] or {"not", "never", "like", "unlike"} & set(before):
        return True
    if "already" in spoken.norms(clause.start, clause.end):
        return True  # the hall we did already
    if spoken.norms(clause.end - 1, clause.end) == ["last"] and "will" in before:
        return True  # we'll do the garage last
    around = [*spoken.clauses[max(0, clause.index - 1) : clause.index + 1], *_said_of_it_later(spoken, clause)]
    return any(spoken.has_cue("not_entering", within=one) for one in around) or _something_goes(
        spoken, clause.start, mention.start
    )


def _said_of_it_later(spoken: Spoken, clause: Clause) -> Sequence[Clause]:
    """`the kitchen we'll see afterwards`, `the bathroom's locked so I can't get in`: what is said of it later on."""
    following = spoken.clauses[clause.index + 1 : clause.index + 3]
    starts = [(one, bare_start(spoken.tokens, one)) for one in following]
    own = [one for one, start in starts if {"i", "we"} & set(spoken.norms(start, start + 2))]
    return [one for one in own if not spoken.has_term("room", within=one)]


ABOVE = frozenset("above below underneath overhead".split())
OTHER_FLOORS = frozenset("upstairs downstairs above below".split())


def _is_elsewhere(spoken: Spoken, end: int, clause: Clause) -> bool:
    """`the bathroom above leaked`, `the bathroom is upstairs`, `the bedroom is bigger than this`: only told of."""
    norms = spoken.norms(end, clause.end)
    if norms[:1] and norms[0] in ABOVE:
        return True
    is_so = bool(norms[:1]) and norms[0] in {"is", "'s", "are"}
    beside = norms[1:2] and norms[1] in {"near", "beside", "behind", "opposite", "across"}
    if is_so and beside and norms[2:3] in (["the"], ["this"], ["that"], ["your"], ["our"]):
        return True
    if is_so and {tuple(norms[1:3]), tuple(norms[1:4])} & OFF_FROM_HERE:
        return True
    compared = (
        is_so and "than" in norms and any(token.tag in {"JJR", "RBR"} for token in spoken.tokens[end : clause.end])
    )
    return compared or (is_so and bool(norms[1:2]) and norms[1] in OTHER_FLOORS)


OFF_FROM_HERE = {("the", "other", "side"), ("next", "door"), ("over", "there"), ("that", "way"), ("down", "there")}
"""Where a room is that is only pointed out: `the bedroom is the other side`."""

WAYS = frozenset(
    "tour walk stop way side left right hand step steps door end back front room one thing bit direction arch"
    " stairs corner round inspection recording camera".split()
)
"""Nouns that tell of the walk itself: `the tour goes on to the kitchen`."""


FOUND = frozenset("got have has had see saw found notice noticed".split())


def _a_thing_is_there(spoken: Spoken, clause: Clause, mention: Mention) -> bool:
    """`spare bulbs are in the hall closet`, `there's wear on the way to the bath`: nobody walks, a thing is there."""
    tokens = spoken.tokens
    rooms = {at for term in spoken.terms("room", "rooms") for at in range(term.start, term.end)}
    verb = next((at for at in range(clause.start, mention.start) if tokens[at].is_finite), None)
    if verb is None:
        return False
    if any(token.norm in KEPT for token in tokens[verb : mention.start]):
        return True  # I'm keeping the spare key in the office
    existing = tokens[verb].norm in FOUND or (verb > clause.start and tokens[verb - 1].norm == "there")
    inside = range(verb, mention.start) if existing else range(clause.start, verb)
    return any(
        tokens[at].tag in {"NN", "NNS"} and tokens[at].norm not in WAYS | LEADING and at not in rooms for at in inside
    )


def _is_a_place_beside(spoken: Spoken, end: int, heads_noun: bool, before: Sequence[str]) -> bool:
    """`the bedroom side`, `on the kitchen wall`: a place that is called by the room next to it."""
    aside = end < len(spoken.tokens) and spoken.tokens[end].norm in {"side", "key", "keys", "end", "wall", "half"}
    return aside and not heads_noun and list(before[-1:]) != ["now"]


def _is_staffed(spoken: Spoken, mention: Mention, end: int, heads_noun: bool, before: Sequence[str]) -> bool:
    """`the office is putting a new counter in`: people, and no room."""
    if end >= len(spoken.tokens):
        return False
    following = spoken.tokens[end]
    if following.norm in DOINGS:
        return True
    staffed = list(before[-1:]) == ["the"] and spoken.tokens[mention.start].norm == "office"
    return staffed and following.is_word and not heads_noun


def _is_named_alone(spoken: Spoken, mention: Mention, end: int, heads_noun: bool) -> bool:
    """`Bedroom, the carpet is new`, and not `the bedroom people`: no other noun belongs to the name of the room."""
    tokens = spoken.tokens
    if end >= len(tokens) or tokens[end].tag not in {"NN", "NNS"} or heads_noun or mention.end != end:
        return True
    apart = tokens[end].norm in INDEFINITE or any(cue.start == end for cue in spoken.cues("outsider"))
    return apart or tokens[end].norm in ORDINALS or whole_number(tokens, end) is not None


def _goes_on(spoken: Spoken, mention: Mention, clause: Clause) -> bool:
    """`the same stuff runs through the living room and the kitchen`: the second of two that are spoken of."""
    goes_on = clause.link in {"and", "or"} and any(
        term.of("room") and spoken.clause_of(term.start).index == clause.index - 1 for term in spoken.found.terms
    )
    return goes_on and not {"into", "to"} & set(spoken.norms(0, mention.start))


def _is_a_clause(spoken: Spoken, mention: Mention, end: int, clause: Clause, before: Sequence[str]) -> bool:
    """`Okay, the kitchen, ...`, `the small one, bedroom two, ...`: named between two commas, and no thing of another
    place before it."""
    ends = end + (spoken.norms(end, end + 1) == ["next"])
    alone = ends == clause.end and mention.start - clause.start <= 1 and not {"a", "an", "one"} & set(before)
    return alone and not any(_names_a_thing(spoken, earlier) for earlier in spoken.clauses[: clause.index])


def _is_only_told_of(spoken: Spoken, end: int, clause: Clause) -> bool:
    """`the kitchen had tile`, `the bedroom is noisy because of the fan in here`, `bedroom two uses this one`: something
    is told of a room, and not that one comes to it."""
    if end >= clause.end or not spoken.tokens[end].is_finite:
        return False
    verb = spoken.tokens[end]
    after = spoken.norms(end + 1, clause.end)
    if verb.norm == "looks" and after[:1] in (["out"], ["over"], ["onto"], ["down"], ["on"]):
        return True  # the bedroom looks out over this too
    because = [one for one in spoken.clauses[clause.index + 1 :] if one.link == "because"]
    here = any(tuple(spoken.norms(one.end - 2, one.end)) in CONTRASTED for one in because)
    if here or after[-2:] in (["this", "one"], ["this", "room"]) or (verb.norm in {"is", "'s"} and "own" in after[1:3]):
        return True
    if any(term.start == end for term in spoken.terms("works")):
        return False  # loft hatch opens
    return (verb.tag == "VBD" and verb.norm not in DID_THERE) or (verb.tag == "VBZ" and verb.norm not in SHOWN)


DID_THERE = frozenset("found saw noticed checked tested tried ran opened turned looked smelled smelt heard".split())
"""What a speaker has just done in the room that a note begins with: `garage found the screen`."""

CONTRASTED = {("in", "here"), ("this", "one"), ("this", "room")}
"""Ends of a clause that tell that the speaker stands elsewhere than in the room it begins with."""

SHOWN = frozenset("is 's has comes needs wants looks smells feels seems got appears".split())
"""Verbs with which a speaker who stands in a room tells of it: `the kitchen looks fine`."""


OTHERS = frozenset(
    "somebody someone anybody he she they people neighbor neighbour neighbors neighbours kids hear hearing".split()
)
"""`I can hear somebody walking in the living room`: not the speaker goes there."""


def _leads_there(spoken: Spoken, mention: Mention, end: int) -> bool:
    """`the slider out to the balcony is stiff`: a door that is spoken of from this side."""
    tokens, at = spoken.tokens, mention.start
    while at > 0 and tokens[at - 1].norm in LEADING_OUT:
        at -= 1
    door = any(term.end == at and term.of(*COMPONENT_ROLES) for term in spoken.found.terms)
    return door and end < len(tokens) and tokens[end].is_finite and "to" in spoken.norms(at, mention.start)


def _names_a_thing(spoken: Spoken, clause: Clause) -> bool:
    return any(sense.id != "room_general" for term in spoken.named_terms(clause) for sense in term.of(*COMPONENT_ROLES))


def _something_goes(spoken: Spoken, start: int, end: int) -> bool:
    """`the same stuff runs through the kitchen`: a thing goes there, and nobody walks."""
    tokens = spoken.tokens
    return any(
        tokens[at].tag == "VBZ" and tokens[at].norm not in {"'s", "is"} and tokens[at - 1].tag in {"NN", "NNS"}
        for at in range(start + 1, end)
    )
