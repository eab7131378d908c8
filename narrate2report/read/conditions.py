"""What was seen of a component: from the condition words of a sentence to condition drafts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from narrate2report.read.bearers import ROOM_GENERAL, Bearer
from narrate2report.read.denial import deny, negation_before
from narrate2report.read.details import is_pre_existing, quantity_before, severity_of, size_of, where_of
from narrate2report.read.draft import Draft
from narrate2report.read.phrasebook import Mention, Sense
from narrate2report.read.scene import Scene
from narrate2report.read.spoken import Spoken
from narrate2report.read.stance import Mode, Stance
from narrate2report.read.vocabulary import Vocabulary

DENIED_PRAISE = {"clean": "dirty", "present": "missing"}
"""What denying a sound condition comes to; denying any other praise names no flaw."""

LASTING = frozenset({"repaired", "freshly_painted"})
"""Conditions that tell of the past and are still so."""


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
    named_at = {at for one in spoken.named for at in range(one.start, one.end)}
    for mention in spoken.found.terms:
        senses = mention.of("condition")
        if not senses or mention.start in named_at or mention.start in spoken.used or _is_interjection(spoken, mention):
            continue
        if (
            _is_particle(spoken, mention)
            or _is_done(spoken, mention)
            or _is_about_people(spoken, mention)
            or _is_outside(spoken, mention)
        ):
            continue
        adjective = any(sense.form in {"adjective", "verb"} for sense in senses)
        noun = any(sense.form == "noun" for sense in senses)
        candidates = _told_within(spoken, mention, senses, vocabulary) or bearers.of(
            mention, adjective=adjective, noun=noun
        )
        for bearer in candidates or (Bearer("", "nothing in focus", False),):
            found.extend(_as_flaws(mention, senses, bearer, vocabulary))
    return tuple(found)


PLANNED = frozenset("get gets getting be needs need have having".split())


def _is_planned(spoken: Spoken, mention: Mention) -> bool:
    """`that has to get redone`, `I'll have it replaced`: a repair that is still to come."""
    if not any(sense.id == "repaired" for sense in mention.of("condition")):
        return False
    clause = spoken.clause_of(mention.start)
    before = spoken.norms(max(clause.start, mention.start - 4), mention.start)
    return bool(set(before) & PLANNED) and not {"has", "been", "already"} & set(before[-2:])


PARTICLES = frozenset("in up out off on down".split())


def _is_particle(spoken: Spoken, mention: Mention) -> bool:
    """`down in the corner`: of the small words only the last of a clause says something (`lamp out`, `rod in`)."""
    small = mention.end - mention.start == 1 and spoken.tokens[mention.start].norm in PARTICLES
    is_there = spoken.norms(mention.start, mention.end) in (["is", "there"], ["are", "there"])
    return (small or is_there) and mention.end != spoken.clause_of(mention.start).end


DOERS = frozenset("i you we they to will please must should can could would not".split())


def _is_done(spoken: Spoken, mention: Mention) -> bool:
    """`you clean it`, `to seal`: a word that is a verb of somebody's doing here."""
    if mention.end - mention.start > 1 or not mention.start:
        return False
    token, before = spoken.tokens[mention.start], spoken.tokens[mention.start - 1]
    forms = {sense.form for sense in mention.of("condition")}
    if token.tag in {"VB", "VBP"} and before.norm in DOERS and "adjective" in forms:
        return True
    if forms == {"verb"} and token.tag in {"NN", "NNS"} and before.norm in {"a", "the", "an", "my"}:
        return True
    if (
        token.text[0].isupper()
        and not token.text.isupper()
        and before.tag != "."
        and mention.start not in {c.start for c in spoken.clauses}
    ):
        return True
    return before.norm in {",", "bye", "hi"} and token.text[0].isupper() and not token.text.isupper()


def _is_about_people(spoken: Spoken, mention: Mention) -> bool:
    """`so we're good there`, `I'm fine`: said of persons and not of the place."""
    clause = spoken.clause_of(mention.start)
    norms = spoken.norms(max(clause.start, mention.start - 4), mention.start)
    return any(
        norm in PERSONS
        and following in {"am", "are", "is", "'s", "was", "were"}
        and norms[at + 2 :] in ([], ["all"], ["not"], ["just"], ["both"])
        for at, (norm, following) in enumerate(zip(norms, norms[1:], strict=False))
    )


def _is_outside(spoken: Spoken, mention: Mention) -> bool:
    """`resident not present`, `that's the deposit gone`: the nearest noun before it is no part of a home."""
    clause = spoken.clause_of(mention.start)
    last_named = max((one.end for one in spoken.named if one.end <= mention.start), default=clause.start)
    return any(
        max(clause.start, last_named) <= cue.start and cue.end <= mention.start and mention.start - cue.end <= 2
        for cue in spoken.cues("outsider", within=clause)
    )


PERSONS = frozenset("i we you he she".split())


INTERJECTIONS = frozenset(
    "okay ok good great fine right alright perfect lovely nice excellent beautiful wonderful gone".split()
)


def _is_interjection(spoken: Spoken, mention: Mention) -> bool:
    """`Okay, ...`, `let it run ... good`: a word of praise alone in its clause that is said of nothing.

    As a sentence of its own (`Counter: quartz. No chips. Good.`) it is a remark, unless it is `okay`.
    """
    clause = spoken.clause_of(mention.start)
    if spoken.norms(clause.start, clause.end) == ["all", "right"] and clause.link != ":":
        return True
    named = any(one.end == mention.start for one in spoken.named)
    if spoken.tokens[mention.start].tag == "UH" and mention.end - mention.start == 1 and not named:
        return True
    if not set(spoken.norms(clause.start, clause.end)) <= INTERJECTIONS or clause.link == ":":
        return False
    if (
        clause.index
        and not any(t.is_finite for t in spoken.tokens[: clause.start])
        and spoken.named_in(spoken.clauses[clause.index - 1])
    ):
        return False
    return len(spoken.clauses) > 1 or bool({"okay", "ok", "right", "alright"} & set(spoken.norms()))


def _told_within(
    spoken: Spoken, mention: Mention, senses: Sequence[Sense], vocabulary: Vocabulary
) -> tuple[Bearer, ...]:
    """`caulk is pulling away`: a phrase that names its own component."""
    for sense in senses:
        default = vocabulary.conditions[sense.id].default
        words = " ".join(spoken.norms(mention.start, mention.end)).removeprefix("the ")
        if default and mention.end - mention.start > 2 and words.startswith(default.replace("_", " ")):
            return (Bearer(default, f"'{spoken.words(mention.start, mention.end)}' names it", True),)
    return ()


def _as_flaws(mention: Mention, senses: Sequence[Sense], bearer: Bearer, vocabulary: Vocabulary) -> list[Flaw]:
    """The meaning of a condition word for one bearer: what it means only of this component goes first."""
    only = [sense for sense in senses if sense.beside and sense.beside == bearer.component]
    plain = [sense for sense in senses if not sense.beside]
    flaws = []
    for sense in only[:1] or plain[:1]:
        component, how = _fitting(sense.id, bearer, vocabulary)
        flaws.append(Flaw(mention, sense.id, sense.form, Bearer(component, how, bearer.direct, bearer.named)))
    return flaws


def _fitting(condition: str, bearer: Bearer, vocabulary: Vocabulary) -> tuple[str, str]:
    """The component a condition is put on: the usual one where the focus cannot bear it."""
    default = vocabulary.conditions[condition].default
    if not bearer.component:
        return default or ROOM_GENERAL, "no component in focus"
    if default and (not bearer.direct or bearer.component == ROOM_GENERAL):
        if vocabulary.afflicts(condition, bearer.component) is False:
            return default, f"usual of {default.replace('_', ' ')}, not of what was in focus"
    faulty = vocabulary.conditions[condition].class_ == "fault"
    if faulty and not bearer.direct and vocabulary.afflicts(condition, bearer.component) is False:
        for owner in vocabulary.components[bearer.component].part_of:
            if vocabulary.afflicts(condition, owner):
                return owner, f"usual of {owner.replace('_', ' ')}, whose part was in focus"
    return bearer.component, bearer.how


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
    spoken, stances, room, vocabulary = scene.spoken, scene.stances, scene.room, scene.vocabulary
    drafts: list[Draft] = []
    for flaw in flaws:
        stance = stances[flaw.mention.start]
        sound = vocabulary.is_sound(flaw.condition)
        if not _counts(flaw, stance):
            continue
        draft = _draft(spoken, flaw, room, sound, flaws)
        if draft is not None and not any(draft.same_statement(other) for other in drafts):
            drafts.append(draft)
    return drafts


def _counts(flaw: Flaw, stance: Stance) -> bool:
    if stance.mode is Mode.ASSERTED:
        return True
    return stance.mode is Mode.PAST and flaw.condition in LASTING


def _draft(spoken: Spoken, flaw: Flaw, room: str, sound: bool, flaws: Sequence[Flaw]) -> Draft | None:
    mention = flaw.mention
    clause = spoken.clause_of(mention.start)
    denial = deny(spoken, mention, sound=sound, denies=flaw.form == "denies")
    condition, assertion = flaw.condition, denial.assertion
    words = spoken.words(mention.start, mention.end)
    because = [f"'{words}' means {condition.replace('_', ' ')}", flaw.bearer.how]
    if denial.cue:
        because.append(f"{assertion} because of '{denial.cue}'")
    if sound and assertion == "absent":
        if condition not in DENIED_PRAISE:
            return None
        condition, assertion = DENIED_PRAISE[condition], "present"
    after = [other.mention.start for other in flaws if other.mention.start > mention.start]
    until = min([*after, spoken.clauses[-1].end])
    counted = mention.start if flaw.form == "noun" or flaw.bearer.named is None else flaw.bearer.named.start
    quantity = quantity_before(spoken, counted, clause) if not sound or condition == "present" else None
    if quantity is None and flaw.form != "noun":
        quantity = quantity_before(spoken, mention.start, clause)
    return Draft(
        kind="condition",
        room=flaw.bearer.named.room if flaw.bearer.named and flaw.bearer.named.room else room,
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


LEAVERS = frozenset("they tenant tenants somebody someone he she people residents".split())


def left_behind(scene: Scene) -> list[Draft]:
    """`there's a dresser they left down here`: things left in a home that should be empty."""
    spoken, stances, room, vocabulary = scene.spoken, scene.stances, scene.room, scene.vocabulary
    for clause in spoken.clauses:
        norms = spoken.norms(clause.start, clause.end)
        at = next(
            (at for at, norm in enumerate(norms) if norm == "left" and set(norms[max(0, at - 2) : at]) & LEAVERS), None
        )
        if at is None or stances[clause.start + at].mode not in {Mode.ASSERTED, Mode.PAST}:
            continue
        inside = [
            term
            for term in spoken.found.terms
            if clause.index - 1 <= spoken.clause_of(term.start).index <= clause.index
        ]
        if (
            any(term.of("condition") for term in inside)
            or at + 1 >= len(norms)
            or norms[at + 1] in {"it", "this", "that"}
        ):
            continue
        groups = {vocabulary.components[one.component].group for one in spoken.named}
        if "handed_over" in groups or norms[at + 1 : at + 2] == ["us"]:
            continue
        words = spoken.words(clause.start, clause.end)
        return [
            Draft(
                kind="condition", room=room, component=ROOM_GENERAL, at=clause.start + at, condition="debris",
                assertion="present", because=(f"left behind: '{words}'",), confidence=0.6,
            )
        ]  # fmt: skip
    return []


ANSWERS: dict[str, str] = {"no": "missing", "none": "missing", "nil": "missing", "yes": "present"}
"""What a note's one-word answer after a component means: `anti-tip: yes`, `stopper: none`."""


def _answered(spoken: Spoken, room: str) -> list[Draft]:
    drafts = []
    for one in spoken.named:
        clause = spoken.clause_of(one.start)
        rest = spoken.norms(one.end, clause.end)
        following = spoken.clauses[clause.index + 1 : clause.index + 2]
        if not rest and following and following[0].link in {":", "-"}:
            rest = spoken.norms(following[0].start, following[0].end)
        if len(rest) == 1 and rest[0] in ANSWERS and one.relation == "topic":
            drafts.append(
                Draft(
                    kind="condition", room=room, component=one.component, at=one.start, condition=ANSWERS[rest[0]],
                    assertion="present", because=(f"'{rest[0]}' answers '{spoken.words(one.start, one.end)}'",),
                )
            )  # fmt: skip
    return drafts


def missing_parts(scene: Scene) -> list[Draft]:
    """`the microwave has no plate`, `no racks`: a denied component is missing, if no flaw of it is denied."""
    spoken, stances, room, vocabulary = scene.spoken, scene.stances, scene.room, scene.vocabulary
    drafts = _answered(spoken, room)
    flaw_starts = {mention.start for mention in spoken.found.terms if mention.of("condition", "works")}
    for one in spoken.named:
        clause = spoken.clause_of(one.start)
        group = vocabulary.components[one.component].group
        close = negation_before(spoken, clause, one.start)
        if (
            close not in {"no", "No", "without", "without a", "no sign of", "No sign of"}
            or one.component == ROOM_GENERAL
        ):
            continue
        gap = spoken.norms(clause.start, one.start)
        near = [norm for norm in gap[-3:] if norm in {"no", "without", "of"}]
        if not near or any(at in flaw_starts for at in range(clause.start, clause.end)):
            continue
        if stances[one.start].mode is not Mode.ASSERTED or (
            group in {"surfaces", "handed_over"} and one.component != "remote_control"
        ):
            continue
        drafts.append(
            Draft(
                kind="condition", room=room, component=one.component, at=one.start, condition="missing", assertion="present",
                because=(f"'{spoken.words(one.start, one.end)}' after '{close}'",), confidence=0.7,
            )
        )  # fmt: skip
    return drafts
