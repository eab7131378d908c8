"""Which component a verb of working is said of, where it is one that only some things do: a toilet flushes, a fridge is
cold, and what the bulb is in heats.
"""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.lexis.phrase_tree import Mention, Sense
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.bearers import Bearer
from narrate2report.read.things.whereabouts import ROOM_GENERAL
from narrate2report.read.trials.brief import ADVERBS
from narrate2report.read.trials.courses import COURSES, only_tried_of


def around_it(scene: Scene, mention: Mention, bearer: Bearer) -> str | None:
    """`the bulb inside the microwave's gone, but it heats a mug`: what a part that cannot do such a thing is in."""
    spoken = scene.spoken
    doers = {sense.id for sense in mention.of("works")}
    before = spoken.norms(max(0, mention.start - 2), mention.start)
    does = before[-1:] != [] and before[-1] in IT and spoken.tokens[mention.start].tag == "VBZ"
    is_doing = before[:1] != [] and before[0] in IT and before[1:] in (["is"], ["'s"])
    is_doing = is_doing and spoken.tokens[mention.start].norm.endswith("ing")
    if bearer.link != "carried" or not (does or is_doing):
        return None
    if bearer.named is not None:
        lit = spoken.norms(bearer.named.start, bearer.named.end)
        if (whole := next((one for one in lit[:-1] if one in doers), None)) is not None:
            return whole  # the oven light comes on and she's heating
    around = [one for one in spoken.named if one.relation != "topic" and one.component in doers]
    return around[-1].component if around and around[-1].end <= mention.start else None


PROBES = frozenset(
    "tester plug charger phone lamp meter probe kettle radio dryer bulb key mug cup bowl glass pan".split()
)
"""What one puts into a thing to try it."""


def put_into(scene: Scene, mention: Mention) -> str | None:
    """`I stuck my tester in both outlets and they're live`: what something was put into, where it is one that does
    this."""
    spoken, clause = scene.spoken, scene.spoken.clause_of(mention.start)
    said = [norm for norm in spoken.norms(clause.start, mention.start) if norm not in {"and", "so", "then", "all"}]
    if not clause.index or not said or said[0] not in IT | {"they", "both"} or spoken.named_in(clause):
        return None
    before = spoken.clauses[clause.index - 1]
    named = [one for one in spoken.named_in(before) if one.relation != "topic"]
    tried = {"i", "we"} & set(spoken.norms(0, before.end)) and PROBES & set(spoken.norms(before.start, before.end))
    doers = {sense.id for sense in mention.of("works")}
    return named[-1].component if tried and named and named[-1].component in doers else None


def alone_does(scene: Scene, mention: Mention, bearer: Bearer) -> str | None:
    """`preheats`: of the oven alone, whatever was spoken of last; `works` is said of anything."""
    room = scene.vocabulary.rooms.get(scene.room.partition(".")[0])
    anything = any(cue.start == mention.start for cue in scene.spoken.cues("operates", "fails", "response"))
    if bearer.link != "focus" or scene.spoken.named or room is None or anything:
        return None
    clause = scene.spoken.clause_of(mention.start)
    before = scene.spoken.norms(clause.start, mention.start)
    long = clause.end - mention.end > 1  # takes about two weeks
    verb = scene.spoken.tokens[mention.start].tag == "VBZ" or _opens_with_verb(scene.spoken, mention)
    if long or not verb or not set(before) <= {"it", "she", "he", "and", "then"}:
        return None
    if scene.place.subject in COURSES:
        return None  # fills and empties: a stage of what runs
    return only_tried_of(scene.spoken, mention.start, (*room.expects, *room.owns))


def _opens_with_verb(spoken: Spoken, mention: Mention) -> bool:
    """`Flushes fine.`: a verb with its adverb at the head of a sentence, which is as easily taken for a plural."""
    return not mention.start and spoken.tokens[0].tag == "NNS" and bool(ADVERBS & set(spoken.norms(1, 2)))


IT = frozenset({"it", "she", "he"})

DRAINED_BY = frozenset({"bathtub", "shower"})
LOCKED_BY = {"window": "window_lock", "door": "lock", "sliding_door": "lock"}


def locked_by(component: str | None, spoken: Spoken, mention: Mention) -> str | None:
    """`window opens, locks`, `runs hot, drains fine`: what locks is its lock, what drains its drain, and that is a
    trial of its own."""
    if component in DRAINED_BY and spoken.tokens[mention.start].norm in {"drains", "drain", "drained", "empties"}:
        return "drain"
    locks = mention.end == mention.start + 1 and spoken.tokens[mention.start].norm in {"lock", "locks", "locking"}
    return LOCKED_BY.get(component or "", component) if locks else component


RUN_FROM = frozenset({"faucet", "shower_head"})
RUN_INTO = frozenset({"sink", "drain", "bathtub", "shower"})
"""`hot's hot, and it goes down quick`: the water of these goes down what is under them."""


def does_this(bearer: Bearer, senses: Sequence[Sense], scene: Scene) -> str | None:
    """The bearer where it is one that does such a thing, else what it is a part of or what is a part of it."""
    place, vocabulary = scene.place, scene.vocabulary
    doers = [sense.id for sense in senses]
    if bearer.component in doers:
        return bearer.component
    part = next((one for one in doers if bearer.component in vocabulary.components[one].part_of), None)
    if part and not bearer.direct:
        return part
    for owner in vocabulary.components[bearer.component].part_of if bearer.component in vocabulary.components else ():
        if owner in doers and not bearer.direct:
            return owner
    if bearer.component in RUN_FROM and not bearer.direct:
        doers = [one for one in doers if one in RUN_INTO]
    if bearer.component in {"", ROOM_GENERAL} or (bearer.component in RUN_FROM and not bearer.direct):
        here = [one.component for one in scene.spoken.named]
        return next((one for one in (*here, *(one for one, _ in reversed(place.lately))) if one in doers), None)
    return None
