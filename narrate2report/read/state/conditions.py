"""What was seen of a component: from the condition words of a sentence to condition drafts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.phrase_tree import Mention, Sense
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.meant.denial import deny
from narrate2report.read.meant.negations import none_there
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import bare_start
from narrate2report.read.speech.modes import Mode, Stance
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.state.ranking import bear, says_it
from narrate2report.read.state.told_within import told_within
from narrate2report.read.things.bearers import Bearer
from narrate2report.read.things.details import is_pre_existing, quantity_before, severity_of, size_of, where_of
from narrate2report.read.things.spots import is_amount
from narrate2report.read.things.whereabouts import ROOM_GENERAL

LASTING = frozenset({"repaired", "freshly_painted", "expired"})
"""Conditions that tell of the past and are still so."""

PUT_IN = frozenset("put did fitted installed laid hung got bought had".split())
"""`we did the decking new last summer`: what was new once somebody had put it in is told as new."""

FORESEEN = frozenset({"trip_hazard", "sharp_edge"})
"""Hazards that are told by what will come of them: `someone will catch a toe`."""


@dataclass(frozen=True)
class Flaw:
    """A condition word in a sentence with the component that bears it. Sound conditions are flaws of no weight."""

    mention: Mention
    condition: str
    form: str
    bearer: Bearer


def find_flaws(scene: Scene) -> tuple[Flaw, ...]:
    """Every condition word with its bearers, whatever the speaker means by it."""
    spoken, bearers, vocabulary = scene.spoken, scene.bearers, scene.vocabulary
    found: list[Flaw] = []
    named_at = spoken.named_tokens()
    for mention in spoken.terms("condition"):
        senses = mention.of("condition")
        if mention.start in named_at or mention.start in spoken.used or scene.says_nothing(mention):
            continue
        if _is_left_undone(spoken, mention) or is_amount(spoken, mention):
            continue
        adjective = any(sense.form in {"adjective", "verb"} for sense in senses)
        noun = any(sense.form == "noun" for sense in senses) and not _is_doing(spoken, mention)
        candidates = told_within(scene, mention, senses) or _what_it_is(spoken, mention, found)
        candidates = candidates or bearers.of(mention, adjective=adjective, noun=noun)
        if not any(one.direct for one in candidates) and _is_of_something_else(spoken, mention, senses, vocabulary):
            continue
        for sense, found_on in bear(mention, candidates, scene, noun=noun):
            bearer = _around_pipes(scene, sense, found_on)
            if _is_free_of_it(spoken, mention, bearer):
                if len(candidates) > 1:
                    continue
                default = vocabulary.conditions[sense.id].default or ROOM_GENERAL
                bearer = Bearer(default, "no component is named for it", False)
            if _is_borne(mention, sense, bearer, scene):
                praised = [one for one in senses if sense.form == "denies" and vocabulary.is_sound(one.id)]
                for told in (sense, *praised):  # smells fine: no odor, and good
                    found.append(Flaw(mention, told.id, told.form, bearer))
    return tuple(found)


NAMED_AS = frozenset("just only all really actually mostly probably a an some the old from".split())
"""What may stand between `are` and what it is."""


def _what_it_is(spoken: Spoken, mention: Mention, found: Sequence[Flaw]) -> tuple[Bearer, ...]:
    """`these white patches on the tiles are salt deposits`: what a flaw is said to be is where that flaw is."""
    clause = spoken.clause_of(mention.start)
    at = next((at for at in range(clause.start, mention.start) if spoken.tokens[at].norm in {"is", "are", "'s"}), None)
    if at is None or set(spoken.norms(at + 1, mention.start)) - NAMED_AS:
        return ()
    if not spoken.tokens[mention.end - 1].tag.startswith("NN"):
        return ()
    said = [one for one in found if one.form == "noun" and clause.start <= one.mention.start <= clause.start + 2]
    told = [one for one in said if one.mention.end <= at and one.bearer.component != ROOM_GENERAL]
    return tuple(replace(one.bearer, link="what it is", how=f"what the {one.condition} there is") for one in told)


def _is_free_of_it(spoken: Spoken, mention: Mention, bearer: Bearer) -> bool:
    """`mold on the grout, and none on the tiles`: what stands in a later clause that denies it there."""
    if bearer.named is None or bearer.named.start < mention.end:
        return False
    clause = spoken.clause_of(bearer.named.start)
    return mention.start < clause.start and none_there(spoken, clause) is not None


def _around_pipes(scene: Scene, sense: Sense, bearer: Bearer) -> Bearer:
    """`under the sink there's swelling in the base`: what pipes cannot have is of the cabinet that they are in."""
    named = bearer.named
    under = named is not None and scene.spoken.norms(named.start, named.start + 1)[0] in {"under", "beneath", "below"}
    if not under or not scene.vocabulary.excludes(sense.id, bearer.component):
        return bearer
    holder = "vanity" if scene.place.base in {"bathroom", "half_bath"} else "cabinet"
    return replace(bearer, component=holder)


SENSED = frozenset("hear see feel get find have".split())
"""`I don't hear anything`: what somebody fails to notice is told of the thing."""


def _is_left_undone(spoken: Spoken, mention: Mention) -> bool:
    """`I didn't turn it on`, `what we don't lock`: what somebody does not do is no fault of the thing."""
    norms = spoken.norms(mention.start, mention.start + 2)
    if norms not in (["do", "not"], ["did", "not"], ["will", "not"]) or not mention.start:
        return False
    if SENSED & set(spoken.norms(mention.start + 2, mention.end)):
        return False
    clause = spoken.clause_of(mention.start)
    if (
        mention.start == clause.start
        and clause.index
        and spoken.norms(mention.end, mention.end + 1) in (["nothing"], ["anything"])
    ):
        return True  # you smell gas, don't light nothing
    return spoken.tokens[mention.start - 1].norm in {"i", "we", "you"}


def _is_doing(spoken: Spoken, mention: Mention) -> bool:
    """`it's dripping down the wall`: what may be a noun elsewhere is a verb here, said of its subject."""
    before = spoken.norms(max(0, mention.start - 1), mention.start)
    return spoken.tokens[mention.start].norm.endswith("ing") and before in (["is"], ["'s"], ["are"], ["keeps"])


def _is_of_something_else(spoken: Spoken, mention: Mention, senses: Sequence[Sense], vocabulary: Vocabulary) -> bool:
    """`the creak in that old song`: a fault of a thing that is no part of a home."""
    if any(vocabulary.conditions[sense.id].class_ != "fault" for sense in senses):
        return False
    after = spoken.tokens[mention.end : mention.end + 4]
    if spoken.tokens[mention.start].is_verb or "one" in spoken.norms(mention.end, mention.end + 4):
        return False
    return len(after) > 1 and after[0].norm in {"in", "of", "on"} and any(t.tag in {"NN", "NNS"} for t in after[1:])


def _is_borne(mention: Mention, sense: Sense, bearer: Bearer, scene: Scene) -> bool:
    """Whether a component can have such a flaw, and the word tells of one."""
    if scene.vocabulary.excludes(sense.id, bearer.component):
        return False
    if any(does.id == bearer.component and does.form == "verb" for does in mention.of("works")) and not sense.beside:
        return False  # the burners burn
    unsaid = bearer.component == ROOM_GENERAL and not bearer.direct
    if (
        sense.form == "denies"
        and sense.id == "damp"
        and unsaid
        and not _is_here(mention, scene)
        and says_it(mention, scene)
    ):
        return False  # it's dry, and nothing that could be wet was spoken of
    if sense.id == "missing" and bearer.link == "focus" and _has_own_subject(mention, scene):
        return False  # that nest was taken away
    named = bearer.direct and bearer.named
    guessed = bearer.component == ROOM_GENERAL or not bearer.link
    # What is gone, and was not named, is nothing that belongs here.
    return sense.id != "missing" or not guessed or bool(named)


def _has_own_subject(mention: Mention, scene: Scene) -> bool:
    """Whether a noun that names nothing of ours is what the clause is about: `the screw is missing`."""
    clause = scene.spoken.clause_of(mention.start)
    lead = scene.spoken.tokens[bare_start(scene.spoken.tokens, clause) : mention.start]
    pointed = bool(lead) and lead[0].norm in {"the", "that", "this", "a", "those"}
    return pointed and any(token.tag in {"NN", "NNS"} and token.norm not in {"one", "other", "rest"} for token in lead)


def _is_here(mention: Mention, scene: Scene) -> bool:
    """`it's bone dry down here`: said of the room."""
    clause = scene.spoken.clause_of(mention.start)
    return scene.spoken.norms(mention.end, clause.end)[-1:] == ["here"]


DEFINITE = frozenset("the that this those these same".split())

STILL_TOLD = frozenset("still bigger worse smaller longer larger same grown grew better wider deeper there old".split())


def is_reference(spoken: Spoken, flaw: Flaw) -> bool:
    """`that gouge wasn't on the move-in`, `the dent I'm sending to our painter`: a flaw spoken of before.

    `the scuff is still there` is a finding of its own.
    """
    if flaw.form != "noun":
        return False
    clause = spoken.clause_of(flaw.mention.start)
    before = spoken.norms(max(clause.start, flaw.mention.start - 2), flaw.mention.start)
    return (
        bool(before)
        and before[0 if len(before) == 1 else -1] in DEFINITE
        and not STILL_TOLD & set(spoken.norms(clause.start, clause.end))
    )


def observe(scene: Scene, flaws: Sequence[Flaw]) -> list[Draft]:
    """Condition drafts of the flaws that the speaker says are there, are not there, or may be there."""
    stances, vocabulary = scene.stances, scene.vocabulary
    drafts: list[Draft] = []
    for flaw in flaws:
        if _only_tells_who(flaw, flaws):
            continue
        stance = stances[flaw.mention.start]
        sound = vocabulary.is_sound(flaw.condition)
        if not (
            _counts(flaw, stance)
            or _was_put_in(scene.spoken, flaw, stance)
            or _is_there_to_mend(scene.spoken, flaw, stance)
        ):
            continue
        draft = _draft(scene, flaw, sound, flaws)
        if draft is not None and not any(draft.same_statement(other) for other in drafts):
            drafts.append(draft)
    return drafts


TORN = frozenset("tear hole scratch fray gouge broken".split())


def _only_tells_who(flaw: Flaw, flaws: Sequence[Flaw]) -> bool:
    """`a rip down low where a cat went at it`: who did what was told, and no second flaw."""
    if flaw.condition != "pet_damage" or flaw.form == "noun":
        return False
    told = (one for one in flaws if one.bearer.component == flaw.bearer.component and one.mention != flaw.mention)
    return any(one.condition in TORN and one.form == "noun" for one in told)


def _counts(flaw: Flaw, stance: Stance) -> bool:
    if stance.mode is Mode.ASSERTED:
        return True
    if stance.mode is Mode.FUTURE and flaw.condition in FORESEEN:
        return True
    return stance.mode is Mode.PAST and flaw.condition in LASTING


def _was_put_in(spoken: Spoken, flaw: Flaw, stance: Stance) -> bool:
    """`I put it in new in February`, `we did all the decking new last summer`: by the speaker's side."""
    if stance.mode is not Mode.PAST or flaw.condition != "new":
        return False
    clause = spoken.clause_of(flaw.mention.start)
    norms = spoken.norms(clause.start, flaw.mention.start)
    dated = spoken.has_cue("past", within=clause)
    return dated and any(who in {"i", "we"} and did in PUT_IN for who, did in pairwise(norms))


def _is_there_to_mend(spoken: Spoken, flaw: Flaw, stance: Stance) -> bool:
    """`I'll fill those nail holes`: what will be mended is there."""
    before = spoken.norms(max(0, flaw.mention.start - 2), flaw.mention.start)
    return stance.mode is Mode.FUTURE and flaw.form == "noun" and bool({"those", "these"} & set(before))


def _draft(scene: Scene, flaw: Flaw, sound: bool, flaws: Sequence[Flaw]) -> Draft | None:
    spoken, room, mention = scene.spoken, scene.room, flaw.mention
    clause = spoken.clause_of(mention.start)
    denial = deny(spoken, mention, sound=sound, denies=flaw.form == "denies")
    condition, assertion = flaw.condition, denial.assertion
    words = spoken.words(mention.start, mention.end)
    because = [f"'{words}' means {condition.replace('_', ' ')}", flaw.bearer.how]
    if denial.cue:
        because.append(f"{assertion} because of '{denial.cue}'")
    if condition == "patched" and assertion == "absent":
        return None
    if sound and assertion == "absent":
        denied = scene.vocabulary.denied_praise(
            condition, spoken.norms(mention.start, mention.end), flaw.bearer.component
        )
        if denied is None:
            return None
        condition, assertion = denied, "present"
    after = [other.mention.start for other in flaws if other.mention.start > mention.start]
    until = min([*after, spoken.clauses[-1].end])
    counted = mention.start if flaw.form == "noun" or flaw.bearer.named is None else flaw.bearer.named.start
    quantity = quantity_before(spoken, counted, clause) if not sound or condition == "present" else None
    if quantity is None and flaw.form != "noun":
        quantity = quantity_before(spoken, mention.start, clause)
    return Draft(
        kind="condition",
        room=flaw.bearer.room or (flaw.bearer.named.room if flaw.bearer.named else None) or room,
        component=flaw.bearer.component,
        at=mention.start,
        because=tuple(because),
        condition=condition,
        assertion=assertion,
        quantity=quantity if assertion != "absent" else None,
        where=None if sound else where_of(spoken, mention, clause),
        size=None if sound or assertion == "absent" else size_of(spoken, mention, until),
        severity=None if sound or assertion == "absent" else severity_of(spoken, mention, clause),
        pre_existing=not sound and assertion != "absent" and is_pre_existing(spoken, clause),
        confidence=0.6 if assertion == "possible" or not flaw.bearer.direct else 0.85,
    )
