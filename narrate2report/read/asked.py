"""A question said aloud, and the answer that the speaker gives it: `does it lock? It does not`, `a smell? A little`.

What is asked of a flaw or of a trial waits for the next sentences; a question to the resident is not waited for.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from narrate2report.read.clauses import LEADING, Clause
from narrate2report.read.conditions import Flaw
from narrate2report.read.draft import Draft
from narrate2report.read.modes import Mode
from narrate2report.read.numbers import whole_number
from narrate2report.read.openings import BEING, MERELY, POINTING
from narrate2report.read.scene import Scene
from narrate2report.read.second_looks import is_trifle
from narrate2report.read.spoken import Spoken
from narrate2report.read.untested import is_operated
from narrate2report.read.whereabouts import ROOM_GENERAL

WAITS = 2
"""For how many sentences a question waits for its answer."""

NO = frozenset("no nope nah none nil nothing never".split())
YES = frozenset("yes yep yeah yup sure definitely certainly absolutely indeed".split())
NOT_TOLD = (
    "not that i can see", "not that i see", "not at all", "not a bit", "not a one", "not one", "not a thing",
    "no sign", "not here", "none at all", "none that i can see", "no sir", "no ma'am",
)  # fmt: skip
SO_IT_IS = (
    "afraid so",
    "i am afraid so",
    "looks that way",
    "looks like it",
    "sure is",
    "sure does",
    "for sure",
    "of course",
)
SOME = frozenset("some few couple several plenty lots little bit slight slightly faint faintly".split())
WITH_SOME = frozenset("a an just only maybe there 's is very quite of".split())
STANDS_FOR = frozenset("it they that this he she there these those one both neither all none".split())
AUXILIARIES = frozenset("do does did is 's are has have will can".split())
LONG_AGO = frozenset("was were had did".split())
DOUBTFUL = 0.6
"""How sure it is what a flaw was asked of where the question names nothing; a no to that is left alone."""

SPOKEN_TO = frozenset({"you", "your", "anybody", "anyone", "somebody", "who"})


@dataclass(frozen=True)
class Answer:
    """A yes or a no, with how many where that is said, and where its clause ends."""

    yes: bool
    end: int
    quantity: int | None = None


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
        given = answer_of(scene.spoken) if scene.spoken.tokens and not any(own) else None
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

    def _settled(self, scene: Scene, given: Answer, known: Sequence[Draft]) -> list[Draft]:
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


def answer_of(spoken: Spoken) -> Answer | None:
    """The answer that a sentence opens with, if its first clause is one and no more."""
    clause = next(
        (one for one in spoken.clauses if set(spoken.norms(one.start, one.end)) - LEADING - {"oh", "ah"}), None
    )
    if clause is None:
        first = spoken.clauses[0] if spoken.clauses else None
        return Answer(yes=True, end=first.end) if first and {"yes", "right"} & set(spoken.norms(0, first.end)) else None
    if spoken.ends_with_question():
        return None
    said = [norm for norm in spoken.norms(clause.start, clause.end) if norm not in (LEADING | {"oh", "ah"}) - YES]
    if spoken.has_cue("found_none") and not spoken.named:
        return Answer(yes=False, end=clause.end)
    if "yes" in spoken.norms(0, clause.start):
        return Answer(yes=True, end=clause.start)
    words = " ".join(spoken.norms(clause.start, clause.end))
    if set(said) <= NO or any(words.startswith(one) for one in NOT_TOLD):
        return Answer(yes=False, end=clause.end)
    if set(said) <= YES or " ".join(token.norm for token in spoken.tokens if token.is_word) in SO_IT_IS:
        return Answer(yes=True, end=clause.end)
    return _elliptical(said, clause) or _amount(spoken, said, clause)


def _elliptical(said: Sequence[str], clause: Clause) -> Answer | None:
    """`it does`, `it does not`, `neither does`."""
    if len(said) not in {2, 3} or said[0] not in STANDS_FOR or said[1] not in AUXILIARIES:
        return None
    if said[2:] and said[2] != "not":
        return None
    return Answer(yes=len(said) == 2 and said[0] not in {"neither", "none"}, end=clause.end)


def _amount(spoken: Spoken, said: Sequence[str], clause: Clause) -> Answer | None:
    """`a little`, `two, by the stove`, `one on the left`."""
    if set(said) <= SOME | WITH_SOME and SOME & set(said):
        return Answer(yes=True, end=clause.end)
    found = whole_number(spoken.tokens, clause.start)
    if found is None or (found[1] != clause.end and spoken.tokens[found[1]].tag != "IN"):
        return None
    return Answer(yes=True, end=clause.end, quantity=found[0])


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
