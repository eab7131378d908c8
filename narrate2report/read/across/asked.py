"""A question said aloud, and the answer that the speaker gives it: `does it lock? It does not`, `a smell? A little`.

What is asked of a flaw or of a trial waits for the next sentences; a question to the resident is not waited for.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from narrate2report.read.across.openings import BEING, MERELY, POINTING
from narrate2report.read.across.replies import AUXILIARIES, Reply, reply_of
from narrate2report.read.across.second_looks import is_trifle
from narrate2report.read.drafts.draft import Draft
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.modes import Mode
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.state.conditions import Flaw
from narrate2report.read.things.operated import is_operated
from narrate2report.read.things.whereabouts import ROOM_GENERAL

WAITS = 2
"""For how many sentences a question waits for its answer."""

LONG_AGO = frozenset("was were had did".split())
DOUBTFUL = 0.6
"""How sure it is what a flaw was asked of where the question names nothing; a no to that is left alone."""

SPOKEN_TO = frozenset({"you", "your", "anybody", "anyone", "somebody", "who"})


@dataclass
class Asked:
    """What was asked, until it is answered or forgotten: flaws as what would be denied, trials as what would pass."""

    flaws: tuple[Draft, ...] = ()
    trials: tuple[Draft, ...] = ()
    denied: tuple[Draft, ...] = ()
    """What was answered with a no, and may yet be told for what it is: `No. It's jam.`"""
    at: int = field(default=-WAITS - 1)

    def sift(self, scene: Scene, flaws: Sequence[Flaw]) -> tuple[Flaw, ...]:
        """The flaws of a sentence without those that are none after a no: `Is that a crack? No, a hair.`, `No, jam.`"""
        spoken = scene.spoken
        if not self.denied and not (self.flaws and spoken.norms(0, 1)[0:1] in (["no"], ["nah"], ["nope"])):
            return tuple(flaws)
        matter = {at for cue in spoken.cues("matter") for at in range(cue.start, cue.end)}
        return tuple(
            flaw
            for flaw in flaws
            if not is_trifle(spoken, flaw.condition, flaw.mention.start)
            and (flaw.mention.start not in matter or scene.vocabulary.conditions[flaw.condition].class_ == "soil")
        )

    def of_what(self, number: int) -> str | None:
        """The component that sentence `number` asked about."""
        asked = [one.component for one in self.flaws if one.component != ROOM_GENERAL]
        return asked[-1] if asked and self.at == number else None

    def answer(self, scene: Scene, flaws: Sequence[Flaw], known: Sequence[Draft]) -> list[Draft]:
        """What this sentence answers, besides what is `known` of it already; remembers what it asks itself."""
        found: list[Draft] = []
        own = _asked_flaws(scene, flaws), _asked_trials(scene)
        if scene.number - self.at > WAITS:
            self.flaws, self.trials, self.denied = (), (), ()
        given = reply_of(scene.spoken) if scene.spoken.tokens and not any(own) else None
        if given is not None and (self.flaws or self.trials):
            found = self._settled(scene, given, known)
            self.denied, self.flaws, self.trials = (() if given.yes else self.flaws), (), ()
        elif any(own):
            self.flaws, self.trials, self.denied = (*self.flaws, *own[0]), (*self.trials, *own[1]), ()
            self.at = scene.number
        elif known or scene.spoken.named or scene.spoken.moved:
            self.flaws, self.trials = (), ()
        if given is None and not any(own):
            found += self._left_over(scene, known)
        return found

    def _settled(self, scene: Scene, given: Reply, known: Sequence[Draft]) -> list[Draft]:
        words = f"asked, and answered '{scene.spoken.words(0, given.end)}'"
        told = [
            replace(one, at=0, assertion="present" if given.yes else "absent", quantity=given.quantity)
            for one in self.flaws
            if given.yes or (one.confidence > DOUBTFUL and not known)
        ] + [replace(one, at=0, outcome="works" if given.yes else "fails") for one in self.trials]
        found = [one.with_reason(words) for one in told if not any(_is_same(one, draft) for draft in known)]
        if not given.yes and self.flaws and (matter := _matter(scene.spoken, given.end)):
            found += _residue(self.flaws[-1], matter, known)
        return found

    def _left_over(self, scene: Scene, known: Sequence[Draft]) -> list[Draft]:
        """`Is that a burn? No. It's chewing gum.`"""
        denied, self.denied = self.denied, ()
        matter = _matter(scene.spoken, 0) if denied else None
        return [] if matter is None else _residue(denied[-1], matter, known)


def _residue(asked: Draft, matter: tuple[int, str], known: Sequence[Draft]) -> list[Draft]:
    """What lies there in place of the flaw that was asked for."""
    at, words = matter
    if any(draft.kind == "condition" and draft.assertion != "absent" for draft in known):
        return []
    left = replace(asked, at=at, condition="residue", assertion="present", confidence=0.6)
    return [left.with_reason(f"asked for {asked.condition}, and it is '{words}'")]


def _is_same(one: Draft, known: Draft) -> bool:
    """Whether the sentence says by itself what it answers; what it only holds possible, the answer settles."""
    if one.kind != known.kind or one.condition != known.condition or known.assertion == "possible":
        return False
    return one.kind == "condition" or one.component == known.component


def _asked_flaws(scene: Scene, flaws: Sequence[Flaw]) -> tuple[Draft, ...]:
    spoken = scene.spoken
    if (SPOKEN_TO | LONG_AGO) & set(spoken.norms()):
        return ()
    return tuple(
        Draft(
            kind="condition",
            room=scene.room,
            component=_asked_of(scene, flaw),
            at=flaw.mention.start,
            because=(f"'{spoken.words(flaw.mention.start, flaw.mention.end)}' was asked for",),
            condition=flaw.condition,
            assertion="absent",
            confidence=0.7 if flaw.bearer.direct or _is_fragment(spoken) else DOUBTFUL,
            also=(spoken.sentence,),
        )
        for flaw in flaws
        if scene.mode(flaw.mention.start) is Mode.QUESTION and not scene.vocabulary.is_sound(flaw.condition)
    )


def _asked_of(scene: Scene, flaw: Flaw) -> str:
    """What a flaw is asked of: what the question names, `what's this by the outlet, is that a stain?`; where it asks
    what there is at all, what such a flaw usually is of."""
    default = scene.vocabulary.conditions[flaw.condition].default
    if flaw.bearer.direct or not flaw.bearer.component:
        return flaw.bearer.component or default or ROOM_GENERAL
    named = [one.component for one in scene.spoken.named if one.end <= flaw.mention.start]
    if named:
        return named[-1]
    asks_at_all = "there" in scene.spoken.norms() or _is_fragment(scene.spoken)
    return default if asks_at_all and default == ROOM_GENERAL else flaw.bearer.component


def _is_fragment(spoken: Spoken) -> bool:
    """`Leaks?`, `any mold on the grout?`"""
    return not any(token.is_finite for token in spoken.tokens)


def _asked_trials(scene: Scene) -> tuple[Draft, ...]:
    """`does the window lock?`: what would work, if the answer is yes."""
    spoken = scene.spoken
    if not spoken.ends_with_question() or SPOKEN_TO & set(spoken.norms()):
        return ()
    asked: dict[str, Draft] = {}
    for mention in (*spoken.terms("works"), *spoken.cues("operates")):
        clause = spoken.clause_of(mention.start)
        verbs = AUXILIARIES & set(spoken.norms(clause.start, mention.start))
        if scene.mode(mention.start) is not Mode.QUESTION or not verbs or mention.start in spoken.named_tokens():
            continue
        if spoken.norms(mention.start - 1, mention.start) in (["a"], ["an"], ["the"], ["any"], ["some"]):
            continue  # is that a burn?
        for bearer in scene.bearers.of(mention, adjective=False, noun=False):
            if is_operated(bearer.component, scene.vocabulary):
                asked[bearer.component] = Draft(
                    kind="check",
                    room=scene.room,
                    component=bearer.component,
                    at=mention.start,
                    because=(f"'{spoken.words(mention.start, mention.end)}' was asked", bearer.how),
                    outcome="works",
                    confidence=0.7,
                    also=(spoken.sentence,),
                )
    return tuple(asked.values())


def _matter(spoken: Spoken, at: int) -> tuple[int, str] | None:
    """`that's jam`, `it's only toothpaste`, `soap`: what lies there, if it is something that may be left anywhere."""
    for clause in spoken.clauses:
        if clause.start < at:
            continue
        norms = spoken.norms(clause.start, clause.end)
        lead = 2 if norms[:1] and norms[0] in POINTING and norms[1:2] and norms[1] in BEING else 0
        rest = [norm for norm in norms[lead:] if norm not in MERELY | {"a", "some", "dried", "old", "bit", "of"}]
        cue = next((one for one in spoken.cues("matter", within=clause)), None)
        if cue is not None and rest and cue.end - cue.start == len(rest):
            return cue.start, spoken.words(cue.start, cue.end)
    return None
