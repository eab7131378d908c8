"""What was operated and how it did: works or fails. What was left alone is told by `untested`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.meant.outsiders import is_outside
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.modes import Mode
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.bearers import Bearer
from narrate2report.read.things.operated import is_device, is_operated
from narrate2report.read.trials.after_all import find_late_success
from narrate2report.read.trials.brief import check_of, from_ellipsis, from_notes, from_plurals
from narrate2report.read.trials.courses import find_courses
from narrate2report.read.trials.doers import alone_does, around_it, does_this, locked_by, put_into
from narrate2report.read.trials.exceptions import (
    ALL,
    EXCEPTING,
    find_exceptions,
    is_excepted_later,
    told_alike,
    told_apart,
)
from narrate2report.read.trials.flawed import is_flaw, is_flaw_of, is_flawed_way, is_flawed_way_of, is_part_of_flaw
from narrate2report.read.trials.given_off import find_given_off
from narrate2report.read.trials.in_vain import find_in_vain
from narrate2report.read.trials.members import LIT, find_members, picks_one
from narrate2report.read.trials.partly import find_partly, moved_in_vain, of_other_settings
from narrate2report.read.trials.strokes import find_strokes
from narrate2report.read.trials.told_by_sound import find_told_by_sound
from narrate2report.read.trials.trials import MENDED, Trials, is_means, worked_by
from narrate2report.read.trials.untested import find_untested
from narrate2report.read.trials.verdicts import (
    is_counted_short,
    is_explained,
    is_no_result,
    is_predicate,
)
from narrate2report.read.trials.water import find_drained, find_running_water

WEEKDAYS = frozenset("monday tuesday wednesday thursday friday saturday sunday".split())
"""`he comes on Wednesday` is no trial."""


CYCLED = frozenset({"dishwasher", "washer", "dryer"})
"""What one runs a cycle on."""

RUNS_ON = frozenset({"toilet", "toilet_tank"})
"""Of these, running is a flaw: `seat's tight, doesn't run`."""


def find_checks(scene: Scene, trials: Trials) -> list[Draft]:
    """Check drafts of a sentence. Marks in `spoken.used` the words of praise that belong to a result."""
    untested = find_untested(scene)
    drafts = list(untested)
    if is_explained(scene.spoken):
        return drafts
    for draft in (
        *trials.results(scene),
        *find_members(scene),
        *_from_verbs(scene),
        *_from_cues(scene),
        *from_plurals(scene),
        *from_notes(scene),
        *from_ellipsis(scene),
        *find_running_water(scene),
        *find_drained(scene),
        *find_late_success(scene),
        *find_told_by_sound(scene),
        *find_given_off(scene),
        *find_in_vain(scene),
    ):
        clause_at = scene.spoken.clause_of(draft.at)
        if draft.outcome == "fails" and any(other.at in clause_at for other in untested):
            continue  # haven't turned it on
        corrected = any(clause.link == "but" and clause.start <= draft.at for clause in scene.spoken.clauses)
        excepted = is_excepted_later(scene.spoken, draft.at)
        if not (corrected or excepted) and any(draft.component == other.component for other in untested):
            continue
        if not any(draft.component == other.component and draft.outcome == other.outcome for other in drafts):
            drafts.append(draft)
    drafts = [_of_one_ring(scene, draft) for draft in drafts]
    for draft in (*find_courses(scene, drafts), *find_strokes(scene)):
        known = [other for other in drafts if other.component == draft.component]
        after_all = draft.outcome == "fails" and all(one.at < draft.at and one.outcome == "works" for one in known)
        if not known or after_all:  # it's running, but a tissue won't stick to it
            drafts.append(draft)
    told = [
        draft
        for draft in drafts
        if not _overtaken(scene.spoken, draft, drafts) and not _told_of_part(scene, draft, drafts)
    ]
    just_before = trials.answered if scene.number - trials.answered_at <= 1 else None
    apart = told_apart(scene, just_before, trials.outcome)
    rest = apart or find_exceptions(scene, told) or find_partly(scene, told)
    rest = rest if told else rest or told_alike(scene, just_before, trials.outcome)
    return trials.settle(scene, [*told, *rest])


def _of_one_ring(scene: Scene, draft: Draft) -> Draft:
    """`the hob ... three of them light and the fourth one just clicks`: of one of several it is a ring of it."""
    spoken = scene.spoken
    named = any(one.component == draft.component for one in spoken.named)
    several = picks_one(spoken, draft.at) or _excepts_one(spoken, draft.at)
    if named or draft.component not in LIT or draft.outcome == "not_tested" or not several:
        return draft
    return replace(draft, component=LIT[draft.component])


def _told_of_part(scene: Scene, draft: Draft, drafts: Sequence[Draft]) -> bool:
    """`lighting each ring ... all four work`, of the hob: the result of the parts named is that of the whole."""
    named = {one.component for one in scene.spoken.named}
    if draft.component in named:
        return False
    return any(
        other.outcome == draft.outcome
        and other.component in named
        and other.component in scene.vocabulary.components
        and draft.component in scene.vocabulary.components[other.component].part_of
        for other in drafts
    )


def _overtaken(spoken: Spoken, draft: Draft, drafts: Sequence[Draft]) -> bool:
    """`it spins, but it isn't pulling`: the last word of one breath on a component is its result, where it is not
    said of one of several."""
    if draft.outcome == "works" and _excepts_one(spoken, draft.at):
        return False
    if draft.outcome == "works" and _fails_after_all(spoken, draft):
        return True
    if draft.outcome == "fails" and not MENDED & set(spoken.norms()) and not picks_one(spoken, draft.at):
        return any(
            one.component == draft.component
            and one.at > draft.at
            and one.outcome == "works"
            and not of_other_settings(spoken, draft.at, one.at)
            for one in drafts
        )
    return draft.outcome == "works" and any(
        other.component == draft.component
        and other.outcome == "fails"
        and other.at > draft.at
        and not picks_one(spoken, other.at)
        and not of_other_settings(spoken, draft.at, other.at)
        for other in drafts
    )


def _excepts_one(spoken: Spoken, at: int) -> bool:
    """`they're all lighting, except this back one, it clicks and won't light`: the others have passed."""
    said = set(spoken.norms(spoken.clause_of(at).start, spoken.clause_of(at).end))
    later = [one for one in spoken.clauses if one.start > at and one.link in EXCEPTING]
    return bool(ALL & said) and bool(later) and picks_one(spoken, later[0].start)


def _fails_after_all(spoken: Spoken, draft: Draft) -> bool:
    """`the fan spins, but it doesn't pull`: a flaw that means as much as a failed trial."""
    return any(
        term.start > draft.at
        and spoken.clause_of(term.start).link in {"but", "so"}
        and all(one.component == draft.component for one in spoken.named_in(spoken.clause_of(term.start)))
        and any(one.id == "not_working" and one.beside in {"", draft.component} for one in term.of("condition"))
        and not of_other_settings(spoken, draft.at, term.start)
        for term in spoken.found.terms
    )


def _from_verbs(scene: Scene) -> list[Draft]:
    """What only this component does: a toilet flushes, a fridge is cold."""
    spoken, drafts = scene.spoken, []
    named_at = spoken.named_tokens()
    for mention in spoken.terms("works"):
        senses = mention.of("works")
        if mention.start in named_at or not scene.is_said(mention.start):
            continue
        if senses[0].form == "verb" and not is_predicate(spoken, mention):
            continue
        if (
            is_outside(spoken, mention)
            or is_no_result(spoken, mention)
            or _did_not(spoken, mention)
            or _ran_something(spoken, mention)
        ):
            continue
        if _heads_a_place(spoken, mention) or _is_denied_with_flaw(spoken, mention):
            continue
        if (around := put_into(scene, mention)) is not None:
            drafts.append(check_of(scene, mention, around, "tried with what was put into it"))
            continue
        for bearer in scene.bearers.of(mention, adjective=False, noun=False):
            component = does_this(replace(bearer, component=_behind(scene, bearer)), senses, scene)
            component = component or around_it(scene, mention, bearer)
            component = locked_by(component, spoken, mention) or alone_does(scene, mention, bearer)
            if component:
                drafts.append(check_of(scene, mention, component, bearer.how))
    return drafts


def _is_denied_with_flaw(spoken: Spoken, mention: Mention) -> bool:
    """`hums but won't spin`, `ticks but nothing lights`: the denial is a part of the flaw before it, which says the
    same."""
    return spoken.norms(mention.start - 1, mention.start) in (["not"], ["nothing"]) and any(
        term.start < mention.start - 1 and term.end == mention.start and term.of("condition")
        for term in spoken.found.terms
    )


def _heads_a_place(spoken: Spoken, mention: Mention) -> bool:
    """`seal on the oven door`: a noun with its place that opens a clause, and no verb in its base form."""
    if mention.end - mention.start > 1 or mention.start != spoken.clause_of(mention.start).start:
        return False
    base = not spoken.tokens[mention.start].norm.endswith(("s", "ed", "ing"))
    return base and spoken.norms(mention.end, mention.end + 2) in (["on", "the"], ["of", "the"], ["round", "the"])


def _from_cues(scene: Scene) -> list[Draft]:
    """What is said of any working thing: works, comes on, is dead."""
    spoken, drafts = scene.spoken, []
    for cue in spoken.cues("operates", "fails"):
        fails = any(sense.id == "fails" for sense in cue.senses)
        if (fails and is_part_of_flaw(spoken, cue)) or is_outside(spoken, cue):
            continue
        passed = scene.mode(cue.start) is Mode.PAST and spoken.norms(cue.start, cue.end) == ["passed"]
        if not (scene.is_said(cue.start) or passed) or (
            not fails and (is_flaw(spoken, cue) or is_flawed_way(spoken, cue) or not is_predicate(spoken, cue))
        ):
            continue
        if any(other.start < cue.start < other.end for other in spoken.cues("operates", "fails")):
            continue
        if not fails and (is_no_result(spoken, cue) or is_counted_short(spoken, cue)):
            continue
        unwilling = spoken.norms(cue.start, cue.start + 2) == ["will", "not"]
        if unwilling and cue.start and spoken.tokens[cue.start - 1].norm in {"i", "we"}:
            continue
        if spoken.norms(cue.end, cue.end + 1) and spoken.tokens[cue.end].norm in WEEKDAYS:
            continue
        if _did_not(spoken, cue) or (not fails and _ran_something(spoken, cue)):
            continue
        for bearer in scene.bearers.of(cue, adjective=False, noun=False):
            moved = moved_in_vain(scene, cue) if fails and bearer.link == "focus" else None
            component = moved or _worked(_behind(scene, bearer), scene.vocabulary)
            if spoken.norms(cue.start, cue.start + 2) == ["ran", "a"] and component not in CYCLED:
                component = next((one for one, _ in reversed(scene.place.lately) if one in CYCLED), "")
            if component in RUNS_ON and spoken.norms(cue.start, cue.end)[0] in {"run", "runs", "ran", "running"}:
                continue
            tried = is_device(component, scene.vocabulary) if fails else is_operated(component, scene.vocabulary)
            flawed = is_flaw_of(spoken, cue, bearer.component) or is_flawed_way_of(spoken, cue, component)
            if tried and not flawed:
                drafts.append(check_of(scene, cue, component, bearer.how, fails=fails))
    return drafts


def _ran_something(spoken: Spoken, cue: Mention) -> bool:
    """`ran a rinse cycle`: done by the speaker, who is left out, to something that runs."""
    if spoken.norms(cue.end - 1, cue.end) == ["ran"] and spoken.norms(cue.end + 1, cue.end + 2) == ["back"]:
        return True
    opens = spoken.clause_of(cue.start).start == cue.start and spoken.norms(cue.start, cue.end) == ["ran"]
    return opens and spoken.norms(cue.end, cue.end + 1) in (["a"], ["the"], ["it"], ["one"], ["my"])


def _did_not(spoken: Spoken, mention: Mention) -> bool:
    """`I never ran the tap`, `they never opened a window`: what somebody left undone has not failed."""
    before = set(spoken.norms(max(spoken.clause_of(mention.start).start, mention.start - 4), mention.start))
    somebody = before & {"i", "we", "he", "she", "you"}
    they_did = "they" in before and spoken.tokens[mention.start].tag == "VBD"
    return bool(before & {"never", "not"}) and bool(somebody or they_did) and "it" not in before


def _behind(scene: Scene, bearer: Bearer) -> str:
    """`the disposal, I'm flipping the switch, it's running`: what the switch works, where it was taken in hand."""
    named = bearer.named
    if named is None:
        return bearer.component
    button = scene.spoken.tokens[named.end - 1].norm == "button"
    if not is_means(scene.spoken, named) and not button:
        return bearer.component
    if button and (whole := worked_by(scene, scene.spoken.clause_of(named.start))) is not None:
        return whole
    before = [
        one.component
        for one in scene.spoken.named
        if one.start < named.start and is_operated(one.component, scene.vocabulary)
    ]
    return (before or [scene.place.subject or bearer.component])[-1]


def _worked(component: str, vocabulary: Vocabulary) -> str:
    """What works when a part that nobody operates is the last thing named: `plate's in it, runs`."""
    term = vocabulary.components.get(component)
    if term is not None and not term.works and len(term.part_of) == 1:
        return term.part_of[0]
    return component
