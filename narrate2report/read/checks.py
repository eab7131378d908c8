"""What was operated and how it did: works, fails, or was not tested."""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.bearers import ROOM_GENERAL, Bearer
from narrate2report.read.clauses import Clause
from narrate2report.read.denial import negation_before
from narrate2report.read.draft import Draft
from narrate2report.read.phrasebook import Mention, Sense
from narrate2report.read.place import Place
from narrate2report.read.scene import Scene
from narrate2report.read.spoken import Spoken
from narrate2report.read.stance import Mode
from narrate2report.read.vocabulary import Vocabulary
from narrate2report.records.findings import Outcome

LEFT_ALONE = frozenset({"surfaces", "handed_over", "general", "furnished"})
"""Groups of components that nobody operates."""

WEEKDAYS = frozenset("monday tuesday wednesday thursday friday saturday sunday".split())
"""`he comes on Wednesday` is no trial."""

BARE = frozenset("come run turn work start operate function test".split())
"""Bare verbs that open a clause as an order or invitation: `come on in`."""

INFINITIVE = frozenset("to will can please you i we would should must let may might could".split())
ADVERBS = frozenset(
    "good fine well okay ok great perfectly perfect smoothly nicely properly normally quickly fast".split()
)


def find_checks(scene: Scene) -> list[Draft]:
    """Check drafts of a sentence. Marks in `spoken.used` the words of praise that belong to a result."""
    spoken = scene.spoken
    untested = _not_tested(scene)
    drafts: list[Draft] = list(untested)
    for draft in (
        *_from_verbs(scene),
        *_from_cues(scene),
        *_from_plurals(scene),
        *_from_trial(scene),
    ):
        later = any(clause.link == "but" and clause.start <= draft.at for clause in spoken.clauses)
        if not later and any(draft.component == other.component for other in untested):
            continue
        if not any(draft.component == other.component and draft.outcome == other.outcome for other in drafts):
            drafts.append(draft)
    return [draft for draft in drafts if not _overtaken(draft, drafts)]


def _overtaken(draft: Draft, drafts: Sequence[Draft]) -> bool:
    """`it spins, but it isn't pulling`: the last word of one breath on a component is its result."""
    return draft.outcome == "works" and any(
        other.component == draft.component and other.outcome == "fails" and other.at > draft.at for other in drafts
    )


def _from_verbs(scene: Scene) -> list[Draft]:
    """What only this component does: a toilet flushes, a fridge is cold."""
    spoken, bearers, stances, place, room, vocabulary = (
        scene.spoken,
        scene.bearers,
        scene.stances,
        scene.place,
        scene.room,
        scene.vocabulary,
    )
    drafts = []
    named_at = {at for one in spoken.named for at in range(one.start, one.end)}
    for mention in spoken.found.terms:
        senses = mention.of("works")
        if not senses or mention.start in named_at or stances[mention.start].mode is not Mode.ASSERTED:
            continue
        if senses[0].form == "verb" and not _is_predicate(spoken, mention):
            continue
        for bearer in bearers.of(mention, adjective=False, noun=False):
            component = _does_this(bearer, senses, place, vocabulary)
            if component:
                drafts.append(_result(spoken, mention, component, room, bearer.how))
    return drafts


def _does_this(bearer: Bearer, senses: Sequence[Sense], place: Place, vocabulary: Vocabulary) -> str | None:
    doers = [sense.id for sense in senses]
    if bearer.component in doers:
        return bearer.component
    part = next((one for one in doers if bearer.component in vocabulary.components[one].part_of), None)
    if part and not bearer.direct:
        return part
    for owner in vocabulary.components[bearer.component].part_of if bearer.component in vocabulary.components else ():
        if owner in doers and not bearer.direct:
            return owner
    if bearer.component in {"", ROOM_GENERAL}:
        return next((one for one, _ in reversed(place.lately) if one in doers), None)
    return None


def _from_cues(scene: Scene) -> list[Draft]:
    """What is said of any working thing: works, comes on, is dead."""
    spoken, bearers, stances, room, vocabulary = (
        scene.spoken,
        scene.bearers,
        scene.stances,
        scene.room,
        scene.vocabulary,
    )
    drafts = []
    taken = {at for mention in spoken.found.terms if mention.of("condition") for at in range(mention.start, mention.end)
             if not any(sense.beside for sense in mention.of("condition"))}  # fmt: skip
    for cue in spoken.cues("operates", "fails"):
        kinds = {sense.id for sense in cue.senses}
        fails = "fails" in kinds
        if stances[cue.start].mode is not Mode.ASSERTED or (cue.start in taken and not fails):
            continue
        if any(other.start < cue.start < other.end for other in spoken.cues("operates", "fails")):
            continue
        if cue.end < len(spoken.tokens) and spoken.tokens[cue.end].norm in WEEKDAYS:
            continue
        if not fails and not _is_predicate(spoken, cue):
            continue
        for bearer in bearers.of(cue, adjective=False, noun=False):
            component = _worked(bearer.component, vocabulary)
            amiss = any(
                sense.beside == bearer.component
                for mention in spoken.found.terms
                if mention.start == cue.start
                for sense in mention.of("condition")
            )
            if _is_operated(component, vocabulary) and not amiss:
                drafts.append(_result(spoken, cue, component, room, bearer.how, fails=fails))
    return drafts


def _worked(component: str, vocabulary: Vocabulary) -> str:
    """What works when a part that nobody operates is the last thing named: `plate's in it, runs`."""
    term = vocabulary.components.get(component)
    if term is not None and not term.works and len(term.part_of) == 1:
        return term.part_of[0]
    return component


def _is_operated(component: str, vocabulary: Vocabulary) -> bool:
    return component in vocabulary.components and vocabulary.components[component].group not in LEFT_ALONE


def _is_predicate(spoken: Spoken, mention: Mention) -> bool:
    """Whether a verb is said of something as a fact, and not wanted, allowed or done by somebody."""
    before = spoken.norms(max(0, mention.start - 1), mention.start)
    if before and before[0] == "not":
        return True
    if before and before[0] in INFINITIVE:
        return False
    first = spoken.tokens[mention.start]
    if mention.start == spoken.clause_of(mention.start).start and first.norm in BARE:
        return False
    return not _done_by_somebody(spoken, mention)


def _done_by_somebody(spoken: Spoken, mention: Mention) -> bool:
    """`the plumber opens that wall`: the word before the verb is a noun that names no component."""
    clause = spoken.clause_of(mention.start)
    at = mention.start - 1
    while at >= clause.start and spoken.tokens[at].tag in {"RB", "RBR"}:
        at -= 1
    if at < clause.start or spoken.tokens[at].tag not in {"NN", "NNS", "NNP", "NNPS"}:
        return False
    if any(one.start <= at < one.end for one in spoken.named):
        return False
    return not any(term.start <= at < term.end for term in spoken.found.terms)


def _result(spoken: Spoken, mention: Mention, component: str, room: str, how: str, *, fails: bool = False) -> Draft:
    clause = spoken.clause_of(mention.start)
    denied = negation_before(spoken, clause, mention.start)
    outcome: Outcome = "fails" if fails or denied else "works"
    for at in range(mention.end, min(mention.end + 2, clause.end)):
        if spoken.tokens[at].norm in ADVERBS:
            spoken.used.add(at)
    words = spoken.words(mention.start, mention.end)
    because = [f"'{words}' tells of a trial", how]
    if denied:
        because.append(f"fails because of '{denied}'")
    return Draft(
        kind="check",
        room=room,
        component=component,
        at=mention.start,
        outcome=outcome,
        because=tuple(because),
    )


def _not_tested(scene: Scene) -> list[Draft]:
    spoken, bearers, stances, place, room, vocabulary = (
        scene.spoken,
        scene.bearers,
        scene.stances,
        scene.place,
        scene.room,
        scene.vocabulary,
    )
    for cue in spoken.cues("not_tested"):
        clause = spoken.clause_of(cue.start)
        if stances[cue.start].mode in {Mode.HYPOTHETICAL, Mode.QUESTION, Mode.ELSEWHERE, Mode.POLICY}:
            continue
        if cue.start and spoken.tokens[cue.start - 1].norm in {
            "does",
            "do",
            "did",
            "will",
            "would",
            "is",
            "are",
        }:
            continue
        inside = [one.component for one in spoken.named_in(clause)]
        carried = [one.component for one in bearers.subjects_of(clause)]
        following = [
            one.component
            for later in spoken.clauses[clause.index + 1 :]
            if clause.link == ":" or later.link == ":"
            for one in spoken.named_in(later)
        ]
        focus = [place.subject] if place.subject else []
        earlier = [one.component for one in reversed(spoken.named) if one.start < cue.start and one.relation == "topic"]
        candidates = next(
            (
                found
                for group in (
                    (inside, earlier[:1], carried, following, focus)
                    if clause.link == "" and clause.index
                    else (inside, carried, following, earlier, focus)
                )
                if (found := [one for one in group if _is_operated(one, vocabulary)])
            ),
            [],
        )
        return [
            Draft(
                kind="check", room=room, component=component, at=cue.start, outcome="not_tested",
                because=(f"'{spoken.words(cue.start, cue.end)}': not operated",), confidence=0.8,
            )
            for component in dict.fromkeys(candidates)
        ]  # fmt: skip
    return []


def _from_plurals(scene: Scene) -> list[Draft]:
    """`window locks.`: two words that may be a plural, and with nothing more said of it are a noun and its verb."""
    spoken, stances, room = scene.spoken, scene.stances, scene.room
    drafts = []
    for one in spoken.named:
        clause = spoken.clause_of(one.start)
        last = spoken.tokens[one.end - 1].norm
        if (
            last != "locks"
            or one.end != clause.end
            or one.end - one.start < 2
            or stances[one.start].mode is not Mode.ASSERTED
        ):
            continue
        if not any(mention.start in clause for mention in spoken.found.terms if mention.of("condition")):
            because = (
                f"'{spoken.words(one.start, one.end)}' tells of a trial",
                f"said of '{spoken.words(one.start, one.end)}'",
            )
            drafts.append(
                Draft(
                    kind="check",
                    room=room,
                    component=one.component,
                    at=one.start,
                    outcome="works",
                    because=because,
                )
            )
    return drafts


def _from_trial(scene: Scene) -> list[Draft]:
    """`pressing it ... nothing`, `let me try ... there it goes`: a trial and its answer."""
    spoken, stances, place, room, vocabulary = scene.spoken, scene.stances, scene.place, scene.room, scene.vocabulary
    begun = next(spoken.cues("trial"), None) or _trailing_off(spoken)
    if begun is None:
        return []
    drafts: list[Draft] = []
    for clause in spoken.clauses:
        if clause.start <= begun.start or stances[clause.start].mode is not Mode.ASSERTED:
            continue
        answer = _answer(spoken, clause)
        if answer is None:
            continue
        tried = [one.component for one in spoken.named if one.start < clause.start] or (
            [place.subject] if place.subject else []
        )
        for component in tried[:1]:
            if _is_operated(component, vocabulary):
                drafts.append(
                    Draft(
                        kind="check", room=room, component=component, at=clause.start, outcome=answer,
                        because=(f"tried ('{spoken.words(begun.start, begun.end)}'), answered"
                                 f" '{spoken.words(clause.start, clause.end)}'",), confidence=0.7,
                    )
                )  # fmt: skip
    return drafts[-1:]


def _trailing_off(spoken: Spoken) -> Mention | None:
    """`doorbell ... yep, I can hear it`: a component named, a pause, and an answer."""
    for clause in spoken.clauses[1:]:
        before = spoken.clauses[clause.index - 1]
        if clause.link == "..." and spoken.named_in(before):
            return Mention(before.start, before.end, ())
    return None


def _answer(spoken: Spoken, clause: Clause) -> Outcome | None:
    """The result that a short clause gives, if it is one."""
    length = clause.end - clause.start
    for kind, outcome in (("no_response", "fails"), ("response", "works")):
        for cue in spoken.cues(kind, within=clause):
            if length - (cue.end - cue.start) <= (1 if cue.end - cue.start > 1 else 0):
                return outcome  # type: ignore[return-value]
    return None
