"""What somebody said or one expected, and what the speaker finds: `they told me it leaks, and it does`, `I thought the
fan was dead. It isn't.`

What is claimed of a flaw or a trial waits for a short sentence that leaves the claim out; nothing else is an answer.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from narrate2report.read.across.replies import AUXILIARIES
from narrate2report.read.drafts.draft import Draft
from narrate2report.read.meant.denial import deny
from narrate2report.read.meant.negations import negation_before
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.modes import Mode
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.state.conditions import Flaw
from narrate2report.read.things.operated import is_operated
from narrate2report.records.findings import Outcome

CLAIMED = frozenset({Mode.QUOTED, Mode.HYPOTHETICAL, Mode.PAST})
"""How a claim is meant, where it is not asserted."""

CHARGED = frozenset("pay pays charge charges charged deposit bill billed".split())
"""With these it is a rule, and nobody's claim."""

IT = frozenset("it they that this".split())
THEY = frozenset("they he she that it".split())
TRUE = frozenset("right true correct".split())
ASIDE = frozenset(
    "and but well yes yep yeah no nope so today now actually really just still either though sure enough oh or"
    " right okay of course indeed definitely".split()
)
"""Words around the two or three that answer: `but today it doesn't`."""
LEFT_TO_STAND = AUXILIARIES | {"did"}
BEING = frozenset("is are 's 're was were".split())
CONFIRMED = (["i", "can", "confirm"], ["that", "is", "confirmed"], ["as", "they", "said"])


@dataclass(frozen=True)
class Claim:
    """What would be told if it is so, and whether the claim was that it is not."""

    told: Draft
    denied: bool
    tag: str
    """Of the word that claims it: what is left out after `it doesn't` is a verb, after `it isn't` is none."""

    def fits(self, answer: Answer) -> bool:
        """Whether the answer can leave out just these words."""
        done = self.tag in {"VB", "VBZ", "VBP", "VBD", "MD"}
        either = self.tag == "NNS"  # `the tap leaks`, taken for a plural
        return answer.of_all or either or done != (answer.auxiliary in BEING)

    def found(self, answer: Answer) -> Draft:
        """What it turns out to be: `it doesn't` denies the words of the claim, `they're right` confirms all of it."""
        at = answer.clause.start
        so = answer.so != self.denied if answer.of_all else answer.so
        if self.told.kind == "check":
            turned: Outcome = "works" if self.told.outcome == "fails" else "fails"
            return replace(self.told, at=at, outcome=self.told.outcome if so else turned)
        if self.told.condition == "not_working" and not so:
            return replace(self.told, at=at, kind="check", condition=None, assertion=None, outcome="works")
        return replace(self.told, at=at, assertion="present" if so else "absent")


@dataclass(frozen=True)
class Answer:
    """A clause that says that it is so, or not: `of_all` where it speaks of the claim and not of the thing."""

    clause: Clause
    so: bool
    auxiliary: str = ""
    of_all: bool = False


@dataclass
class Claims:
    """What was claimed in the sentence before."""

    told: tuple[Claim, ...] = ()
    at: int = -2

    def settle(self, scene: Scene, flaws: Sequence[Flaw], known: Sequence[Draft]) -> list[Draft]:
        """What this sentence confirms or contradicts; remembers what it claims itself."""
        claimed = (*_claimed_flaws(scene, flaws), *_claimed_trials(scene))
        own = tuple({(one.told.kind, one.told.component, one.told.condition): one for one in claimed}.values())
        claims = own or (self.told if scene.number - self.at <= 1 else ())
        answer = _answer(scene.spoken, max((one.told.at for one in own), default=-1)) if claims else None
        self.told, self.at = (own if answer is None else ()), scene.number
        if answer is None or known:
            return []
        words = scene.spoken.words(answer.clause.start, answer.clause.end)
        return [one.found(answer).with_reason(f"claimed, and found '{words}'") for one in claims if one.fits(answer)]


def _answer(spoken: Spoken, since: int) -> Answer | None:
    """The first clause after token `since` that says no more than that a claim is so, or is not."""
    for clause in spoken.clauses:
        if clause.start <= since:
            continue
        norms = spoken.norms(clause.start, clause.end)
        said = [norm for norm in norms if norm not in ASIDE]
        if any(norms[at : at + 3] in CONFIRMED for at in range(len(norms))):
            return Answer(clause, so=True, of_all=True)
        elliptical = len(said) in {2, 3} and said[0] in IT and said[1] in LEFT_TO_STAND and said[2:] in ([], ["not"])
        if elliptical and said[1:] != ["'s"]:
            return Answer(clause, so=not said[2:], auxiliary=said[1])
        said = [norm for norm in norms if norm not in ASIDE - TRUE]
        if len(said) in {3, 4} and said[0] in THEY and said[1] in BEING and said[-1] in TRUE:
            return Answer(clause, so="not" not in said, of_all=True)
    return None


def _is_claimed(scene: Scene, at: int) -> bool:
    """Whether the word at token `at` is claimed; what would follow from a claim, or be charged for, is not."""
    spoken, mode = scene.spoken, scene.mode(at)
    supposed = spoken.has_cue("condition", within=spoken.clause_of(at))
    return mode in CLAIMED and (supposed or mode is not Mode.HYPOTHETICAL) and not CHARGED & set(spoken.norms())


def _claimed_flaws(scene: Scene, flaws: Sequence[Flaw]) -> Iterator[Claim]:
    spoken = scene.spoken
    for flaw in flaws:
        if not _is_claimed(scene, flaw.mention.start) or scene.vocabulary.is_sound(flaw.condition):
            continue
        if not flaw.bearer.component:
            continue
        told = Draft(
            kind="condition",
            room=scene.room,
            component=flaw.bearer.component,
            at=flaw.mention.start,
            because=(f"'{spoken.words(flaw.mention.start, flaw.mention.end)}' was claimed",),
            condition=flaw.condition,
            assertion="present",
            confidence=0.7,
            also=(spoken.sentence,),
        )
        yield Claim(told, deny(spoken, flaw.mention).assertion == "absent", spoken.tokens[flaw.mention.start].tag)


def _claimed_trials(scene: Scene) -> Iterator[Claim]:
    spoken = scene.spoken
    for cue in (*spoken.cues("operates", "fails"), *spoken.terms("works")):
        verb = spoken.tokens[cue.start].tag.startswith(("VB", "MD", "JJ", "NNS"))
        if not verb or not _is_claimed(scene, cue.start) or cue.start in spoken.named_tokens():
            continue
        for bearer in scene.bearers.of(cue, adjective=False, noun=False)[:1]:
            if is_operated(bearer.component, scene.vocabulary):
                told = Draft(
                    kind="check",
                    room=scene.room,
                    component=bearer.component,
                    at=cue.start,
                    because=(f"'{spoken.words(cue.start, cue.end)}' was claimed", bearer.how),
                    outcome="fails" if any(sense.id == "fails" for sense in cue.senses) else "works",
                    confidence=0.7,
                    also=(spoken.sentence,),
                )
                clause = spoken.clause_of(cue.start)
                yield Claim(told, negation_before(spoken, clause, cue.start) is not None, spoken.tokens[cue.start].tag)
