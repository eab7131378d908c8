"""The result of a trial that is told in pieces: `pressing it ... nothing`, `smoke alarm, button, whoop`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.outsiders import is_outside
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Named, Spoken
from narrate2report.read.things.operated import is_operated
from narrate2report.read.trials.answers import (
    HEARD,
    answer_of,
    asks_if_heard,
    is_mere_word,
    is_only_sorry,
    is_others_noise,
    is_plain,
    is_started,
    is_told,
    wakes,
)
from narrate2report.read.trials.courses import only_tried_of
from narrate2report.read.trials.members import LIT, counts_only
from narrate2report.read.trials.waited import (
    BOTH,
    HEADING,
    begins_with_start,
    goes_on_badly,
    only_named,
    told_together,
)
from narrate2report.records.findings import Outcome

WAITED = 2
"""For how many sentences a trial waits for its answer."""

SHORT, SHORTEST = 8, 3
"""Tokens of a sentence that says once more what was just answered: `No, nothing at all.`, `No flame.`"""

MEANS = frozenset("switch range_knob door_knob control_panel".split())
"""What one takes in hand to try something else."""

TAKEN = frozenset(
    "hit flip flipping flipped throw press push pushing pressing flick use using turn turning hold holding pressed"
    " pushed turned flicked tap tapped hitting held".split()
)
"""`hit the switch`, `turning the knob`: what follows is a means."""

PLUGS = frozenset("plug plugged plugging".split())
"""What this is done to is tried by what is put in it: `I plugged my phone in and it's charging`."""

SECOND_GO = frozenset(
    {("once", "more"), ("more", "time"), ("another", "go"), ("another", "try"), ("second", "go"), ("second", "try"),
     ("more", "long"), ("more", "strong"), ("it", "longer"), ("it", "harder"), ("time", "longer")}
)  # fmt: skip
"""Pairs that tell of trying the same thing again."""

TRIES = frozenset(
    "try see test check press push run turn flip hit flush get grab light open put plug ring hold click pull crank"
    " reach fetch do give have listen start switch just go poke prod use find show feel shut close wind".split()
)
"""After `let me` they begin a trial; `let me straighten that` begins work."""

MENDED = frozenset("new battery batteries reset changed replaced fresh bulb wrench".split())
"""With these it is no second go of the same thing but the trial of a thing put right."""


@dataclass
class Trials:
    """A trial that was begun and not yet answered, and the last that was."""

    tried: str | None = None
    since: int = field(default=-WAITED - 1)
    answered: str | None = None
    answered_at: int = field(default=-WAITED - 1)
    outcome: Outcome | None = None
    again: bool = False
    headed: bool = False
    """Whether what is tried was only named: `Doorbell.`"""

    def results(self, scene: Scene) -> list[Draft]:
        """The answered trials of a sentence, the last answer of each component; an open one waits for more."""
        begun = _begins(scene)
        if begun is not None and not any(is_operated(one.component, scene.vocabulary) for one in scene.spoken.named):
            scene.place.subject = _meant_by(scene, begun) or scene.place.subject
        recent = scene.number - self.answered_at <= WAITED + 1
        norms = scene.spoken.norms()
        once_more = _once_more(norms)
        if begun is None and recent and once_more is not None:
            begun = Mention(once_more, once_more + 1)
        if (
            once_more is None
            and begun is None
            and {"one", "other"} & set(norms[1:3])
            and norms[0] in {"the", "this", "that"}
        ):
            self.again, self.answered = False, None
        self.again = (self.again or once_more is not None) and recent and not MENDED & set(norms)
        if self.again and self.answered and once_more is not None:
            scene.place.subject = self.answered
        drafts = self._late_answer(scene) if begun is None else _answers(scene, begun)
        waited = self.headed and begun is None and not begins_with_start(scene, drafts)
        if waited:
            drafts = [draft for draft in drafts if draft.outcome == "fails"]  # `Panel. Okay.` praises it
        self.headed = False
        if drafts:
            self.tried = None
        elif begun is not None:
            self.tried, self.since = _tried(scene, scene.spoken.clauses[-1], 0, begun), scene.number
        elif (headed := only_named(scene)) is not None:
            self.tried, self.since, self.headed = headed, scene.number, True
        elif scene.spoken.named:
            self.tried = None
        return drafts

    def settle(self, scene: Scene, drafts: Sequence[Draft]) -> list[Draft]:
        """The results of a sentence, marked where they stand for the one just before; the last is remembered."""
        recent = scene.number - self.answered_at <= WAITED + 1
        length = len(scene.spoken.tokens)
        named = any(one.relation == "topic" for one in scene.spoken.named)
        bare = length <= (SHORTEST if named else SHORT)
        drafts = sorted(drafts, key=lambda one: one.at)
        settled = [
            replace(one, retries=self.again or (bare and one.outcome == self.outcome))
            if recent and one.component == self.answered and one.outcome != "not_tested"
            else one
            for one in drafts
        ]
        if settled:
            self.answered, self.answered_at, self.outcome = settled[-1].component, scene.number, settled[-1].outcome
        return settled

    def _late_answer(self, scene: Scene) -> list[Draft]:
        """`Pressing it again. Nothing at all.`: a sentence that is nothing but the answer to the one before, or begins
        with one that is plain: `Loud enough, and it's good till next year.`"""
        spoken = scene.spoken
        tried = self.tried if scene.number - self.since <= WAITED else None
        if tried is None and scene.number - self.answered_at <= WAITED and scene.place.subject == self.answered:
            tried = self.answered
        said = [clause for clause in spoken.clauses if not is_only_sorry(spoken, clause)]
        said = [clause for clause in said if not is_mere_word(spoken, clause)] or said
        plain = bool(said) and is_plain(spoken, said[0]) and is_told(scene, said[0])
        tried = scene.place.subject if tried is None and plain else tried
        if tried is None or spoken.named or not is_operated(tried, scene.vocabulary):
            return []
        if tried in HEARD and len(said) == 1 and asks_if_heard(spoken, said[0]):
            return [_told(scene, None, said[0], tried, "works")]
        answers = [(clause, answer_of(spoken, clause)) for clause in (said[:1] if plain else said)]
        if self.tried == tried and counts_only(spoken):
            return [_told(scene, None, said[0], LIT.get(tried, tried), "works")]
        if said and is_told(scene, said[0]) and self.tried == tried and is_started(spoken, said[0], tried):
            good = tried in HEARD or not goes_on_badly(scene, said[0])
            return [_told(scene, None, said[0], tried, "works")] if good else []
        if not answers or any(answer is None or not is_told(scene, clause) for clause, answer in answers):
            return []
        clause, answer = answers[-1]
        if is_others_noise(scene, clause, tried):
            return []
        return [_told(scene, None, clause, tried, answer)] if answer else []


def _meant_by(scene: Scene, begun: Mention) -> str | None:
    """`I flush it`: what a trial is of, where the verb says so and nothing else does."""
    term = scene.vocabulary.rooms.get(scene.room.partition(".")[0])
    if any(cue.start == begun.start for cue in scene.spoken.cues("operates", "response", "fails")):
        return None  # running: of anything
    return only_tried_of(scene.spoken, begun.start, (*term.expects, *term.owns)) if term is not None else None


def _answers(scene: Scene, begun: Mention) -> list[Draft]:
    """The answers within the sentence that tells of the trial."""
    spoken, answered, since = scene.spoken, dict[str, Draft](), 0
    for clause in spoken.clauses:
        answer = answer_of(spoken, clause)
        if clause.start <= begun.start or answer is None or not is_told(scene, clause):
            continue
        component = _tried(scene, clause, since, begun) or next(reversed(answered), None)
        if component and is_others_noise(scene, clause, component):
            continue
        if BOTH & set(spoken.norms(clause.start, clause.end)):
            answered |= {one: _told(scene, begun, clause, one, answer) for one in told_together(scene, clause)}
        if component and not _is_broken_off(scene, begun, clause) and is_operated(component, scene.vocabulary):
            answered[component] = _told(scene, begun, clause, component, answer)
            since = clause.end
    return list(answered.values())


def is_means(spoken: Spoken, one: Named) -> bool:
    """`now hit the switch`, `pressing the button`: what these work is tried, and not they."""
    button = spoken.tokens[one.end - 1].norm in {"button", "buttons"}
    taken = TAKEN & set(spoken.norms(max(0, one.start - 3), one.start))
    return bool(taken) and (button or one.component in MEANS)


def _once_more(norms: Sequence[str]) -> int | None:
    """Where a second go is told: `press it again`, `I push more long`, `one more time`."""
    for at, norm in enumerate(norms):
        if norm == "again" or tuple(norms[at : at + 2]) in SECOND_GO:
            return at
    return None


def _told(scene: Scene, begun: Mention | None, clause: Clause, component: str, answer: Outcome) -> Draft:
    spoken = scene.spoken
    spoken.used.update(range(clause.start, clause.end))
    words = spoken.words(begun.start, begun.end) if begun is not None else "the sentence before"
    return Draft(
        kind="check",
        room=scene.room,
        component=component,
        at=clause.start,
        outcome=answer,
        because=(f"tried ('{words}'), answered '{spoken.words(clause.start, clause.end)}'",),
        confidence=0.7,
    )


def _begins(scene: Scene) -> Mention | None:
    spoken = scene.spoken
    for cue in spoken.cues("trial"):
        if spoken.norms(cue.end, cue.end + 2)[1:] == ["ears"]:
            continue  # plug your ears
        goes_by_itself = cue.start and spoken.tokens[cue.start - 1].norm in {"it", "'s", "is", "are"}
        names = cue.start in spoken.named_tokens() and spoken.tokens[cue.start].norm not in {"button", "press", "push"}
        alone = cue.start == 0 and spoken.clauses[0].end == 1  # Flush ... goes down strong
        state = (spoken.tokens[cue.start].tag == "JJ" and not alone) or _begins_work(spoken, cue)
        if not goes_by_itself and not names and not state and not is_outside(spoken, cue):
            return cue
    for cue in spoken.cues("operates"):
        if spoken.tokens[cue.start].norm == "ran" and {"i", "we"} & set(spoken.norms(max(0, cue.start - 2), cue.start)):
            return cue  # I ran a load this morning
    aloud = {one.component for one in spoken.named if one.relation == "topic"} & HEARD
    if aloud and any(clause.index and wakes(spoken, clause) for clause in spoken.clauses):
        return Mention(0, 1)
    return _trailing_off(spoken)


def _begins_work(spoken: Spoken, cue: Mention) -> bool:
    """`let me straighten that out ... okay, better`: what is done to a thing, and no trial of it."""
    after = spoken.tokens[cue.end : cue.end + 1]
    if spoken.norms(cue.start, cue.end) != ["let", "me"] or not after:
        return False
    return after[0].tag in {"VB", "VBP", "NN", "JJ"} and after[0].norm not in TRIES


def _trailing_off(spoken: Spoken) -> Mention | None:
    """`doorbell ... yep, I can hear it`: a component named, a pause, and an answer."""
    for clause in spoken.clauses[1:]:
        before = spoken.clauses[clause.index - 1]
        named = spoken.named_in(before)
        if spoken.has_cue("search") or "my" in spoken.norms(before.start, before.end):
            continue
        headed = bool(named) and named[-1].end == before.end and before.end - before.start <= HEADING
        plain = clause.link in {",", ""} and headed and clause.end - clause.start == 1
        plain = plain and spoken.norms(clause.start, clause.end) not in (["no"], ["nope"])  # the stove, no. Look at it
        if named and (clause.link == "..." or (plain and spoken.has_cue("no_response", "sounds", within=clause))):
            return Mention(before.start, before.end)
    return None


def _is_broken_off(scene: Scene, begun: Mention | None, clause: Clause) -> bool:
    """`let me see, the button's missing, yes`: what was seen in between is what the answer is about."""
    start = begun.end if begun is not None else 0
    return any(
        start <= mention.start < clause.start and not sense.beside
        for mention, sense in scene.flaws()
        if mention.start not in scene.spoken.used
    )


BUTTONS = frozenset("button buttons switch switches".split())


def worked_by(scene: Scene, clause: Clause) -> str | None:
    """`pushed the button on the microwave`, `remote, press, up she goes`: what they work is what is tried."""
    spoken = scene.spoken
    if {one.component for one in spoken.named_in(spoken.clauses[0])} == {"garage_remote"}:
        return "garage_door"
    for one, whole in pairwise(spoken.named):
        on_it = spoken.norms(one.end, whole.start)
        button = spoken.tokens[one.end - 1].norm in BUTTONS and whole.start < clause.end
        if button and on_it[:1] in (["on"], ["of"], ["for"], ["to"]) and len(on_it) <= len(("on", "the")):
            return whole.component if is_operated(whole.component, scene.vocabulary) else None
    return None


def _tried(scene: Scene, clause: Clause, since: int, begun: Mention) -> str | None:
    """The component an answer is about: what heads the sentence (`split system: cooling ... yep`, `smoke alarm, let
    me get the broom`), else what is named where the trial begins, else first since the answer before, else what is
    in focus."""
    spoken = scene.spoken
    named = [
        one
        for one in spoken.named
        if one.start < clause.end and one.relation == "topic" and is_operated(one.component, scene.vocabulary)
    ]
    if (worked := worked_by(scene, clause)) is not None:
        return worked
    verb = begun.start if begun.senses and spoken.tokens[begun.start].norm != "button" else -1
    tried = [one for one in named if not is_means(spoken, one) and not one.start <= verb < one.end]
    later = [one for one in tried if one.start >= since]
    if tried and not later and since:
        return None
    if tried and (not later or spoken.norms(tried[0].end, tried[0].end + 1) == [":"]):
        return (tried[0] if spoken.norms(tried[0].end, tried[0].end + 1) == [":"] else tried[-1]).component
    if later:
        begins = spoken.clause_of(begun.start)
        heads = [one for one in later if one.end <= begun.start and spoken.clause_of(one.start).end == one.end]
        where = heads[-1:] or [one for one in later if one.start in begins] or later
        return where[0].component
    if spoken.tokens[begun.start].norm in PLUGS and not [one for one in named if one.component != "outlet"]:
        return "outlet"
    held = [one for one in spoken.named if _is_worked_on(spoken, one) and one.start in spoken.clause_of(begun.start)]
    held = [one for one in held if one.start > begun.start and is_operated(one.component, scene.vocabulary)]
    return held[0].component if held else scene.place.subject or (named[-1].component if named else None)


def _is_worked_on(spoken: Spoken, one: Named) -> bool:
    """`a go on the oven`, `press this one for the garage door`."""
    return one.relation == "of" or "for" in spoken.norms(max(0, one.start - 2), one.start)
