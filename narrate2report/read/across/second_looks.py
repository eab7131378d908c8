"""What a second look makes of what was just said: `no, that's a hair`, `nope, it wipes off`.

Takes a sentence that opens with words that take something back, or has them after a flaw of its own; what such words do
by themselves, or to a place, is told by `corrections`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from narrate2report.read.across.openings import BEING, MERELY, POINTING, SIGHS, Opening, opening_of
from narrate2report.read.drafts.draft import Draft
from narrate2report.read.drafts.entries import Ledger
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.focus import is_adverse

STARTS_NOUN = frozenset({"DT", "PRP$", "NN", "NNS", "NNP", "CD", "JJ", "VBG"})
FROM = frozenset("from off part".split())
OWN = frozenset("my own our".split())
HOW = frozenset("where how when".split())
"""`that's where two pieces meet`, `that's how it's made`."""

NO_EXPLANATION = frozenset(
    "one ones shame pity problem issue mess lot bit thing trip hazard disaster joke deal way time day fault guy pain"
    " job phone call boss office doorbell plumber lunch ride bus cue name first second third other same left"
    " right question point story reason worst best last tenant tenants resident residents damage abuse wear fist"
    " kick".split()
)
"""What is said in passing, picks one of several, judges or blames: it tells of no mistake."""

FINE = frozenset("fine good okay ok nothing alright right".split())
LONGEST_BARE = 4
"""Words of an answer that only names what it is: `No. Toothpaste.`"""

ANOTHER = frozenset("other more else another further".split())


def is_trifle(spoken: Spoken, condition: str | None, at: int) -> bool:
    """`that's a hair`: a single thing that was mistaken for a flaw is none itself."""
    return condition == "debris" and spoken.norms(max(0, at - 1), at) in (["a"], ["an"])


def look_again(
    scene: Scene, pausing: Opening | None, drafts: list[Draft], ledger: Ledger, number: int
) -> Opening | None:
    """Take back what sentence `number` explains away, from its `drafts` or from the sentences before.

    `pausing` is the opening that the sentence before ended with: `Oh, wait.`; gives the one that this sentence ends
    with, for the next.
    """
    opening = opening_of(scene.spoken, pausing)
    if opening is None:
        return None
    return _SecondLook(scene, opening, paused=pausing is not None).settle(drafts, ledger, number)


class _SecondLook:
    """What one sentence takes back because it was mistaken for something else."""

    def __init__(self, scene: Scene, opening: Opening, *, paused: bool) -> None:
        """`paused` where the sentence before ended with the opening."""
        self._scene, self._spoken = scene, scene.spoken
        self._opening, self._paused = opening, paused

    def settle(self, drafts: list[Draft], ledger: Ledger, number: int) -> Opening | None:
        """Take back what is explained away; gives the opening where the sentence ends with it."""
        opening, spoken = self._opening, self._spoken
        alone = set(spoken.norms(0, opening.start)) <= SIGHS
        if not any(token.is_word for token in spoken.tokens[opening.end :]):
            return opening if alone else None
        misread = any(not self._scene.is_said(at) for at in range(opening.start, opening.end))  # hang on: an order
        if not misread and not self._scene.is_said(opening.end):
            return None
        after = [draft for draft in drafts if draft.at >= opening.end]
        if alone:
            taken = ledger.take_back(number - (2 if self._paused else 1), lambda draft: self._is_mistaken(draft, after))
            drafts += self._is_of_another(taken)
        else:
            before = spoken.clauses[max(0, spoken.clause_of(opening.start).index - 1)]
            own = [draft for draft in reversed(drafts) if draft.at in before and self._is_mistaken(draft, after)]
            for draft in own[:1]:
                drafts.remove(draft)
        for trifle in [draft for draft in after if is_trifle(spoken, draft.condition, draft.at)]:
            drafts.remove(trifle)
        return None

    def _is_of_another(self, taken: Sequence[Draft]) -> list[Draft]:
        """`the trap's dripping. No, it's the valve.`: a fault was seen, and it is another component's."""
        clause = self._spoken.clause_of(self._opening.end)
        named = [one for one in self._spoken.named_in(clause) if one.relation == "topic" and one.end == clause.end]
        faulty = [one for one in taken if self._is_fault(one) and one.condition != "not_working"]
        if not named or not faulty or not self._is_pointed():
            return []
        words = self._spoken.words(self._opening.end, clause.end)
        return [replace(faulty[0], component=named[-1].component, at=named[-1].start).with_reason(f"'{words}'")]

    def _is_fault(self, draft: Draft) -> bool:
        known = self._scene.vocabulary.conditions
        return draft.condition is not None and known[draft.condition].class_ == "fault"

    def _is_mistaken(self, before: Draft, after: Sequence[Draft]) -> bool:
        """Whether what follows the opening shows that a flaw or failure is none."""
        opening = self._opening
        if not is_adverse(before, self._scene.vocabulary):
            return False
        for one in after:
            if one.kind == before.kind == "condition" and one.condition == before.condition:
                near = one.component == before.component or one.confidence < before.confidence
                return one.assertion == "absent" and near and not ANOTHER & set(self._spoken.norms(opening.end))
            if one.condition == "good" and one.component == before.component and self._is_pointed():
                return opening.firm
            if one.outcome == "works" and one.component == before.component:
                return before.outcome == "fails" or self._is_fault(before)
        if before.kind == "check":
            return False
        return self._comes_off() or self._is_something_else(before) or self._is_fine()

    def _rest(self) -> list[str]:
        clause = self._spoken.clause_of(self._opening.end)
        return self._spoken.norms(self._opening.end, clause.end)

    def _comes_off(self) -> bool:
        """`it rubs right out`."""
        clause = self._spoken.clause_of(self._opening.end)
        return any(cue.start >= self._opening.end for cue in self._spoken.cues("comes_off", within=clause))

    def _is_fine(self) -> bool:
        """`no, it's fine`."""
        rest = self._rest()
        plain = len(rest) <= LONGEST_BARE and rest[:1] and rest[0] in POINTING and rest[-1] in FINE
        return self._opening.firm and bool(plain)

    def _is_pointed(self) -> bool:
        """Whether it goes on with `that's`, and then with what it is."""
        rest = self._spoken.norms(self._opening.end)
        return len(rest) > 2 and rest[0] in POINTING and rest[1] in BEING

    def _is_something_else(self, before: Draft) -> bool:
        """`that's just a shadow`, `it's from my bottle`, `Toothpaste`: what it is, said with a noun that judges nothing
        and is not the flaw again. After a mere pause it takes a `just`, or what is often taken for a flaw."""
        spoken, at = self._spoken, self._opening.end
        end = spoken.clause_of(at).end
        if not self._is_pointed() and not (self._opening.firm and self._is_bare_noun()):
            return False
        at += 2 if self._is_pointed() else 0
        said = at
        while at < end and spoken.tokens[at].norm in MERELY:
            at += 1
        ahead = set(spoken.norms(at, min(end, at + 4)))
        if at == len(spoken.tokens) or NO_EXPLANATION & ahead:
            return False
        if any(one.id == before.condition for term in spoken.found.terms if term.start >= at for one in term.senses):
            return False
        if spoken.tokens[at].norm in FROM or (self._opening.firm and spoken.tokens[at].norm in HOW):
            return True
        noun = any(spoken.tokens[here].tag in {"NN", "NNS", "NNP"} for here in range(at, min(end, at + 5)))
        plainly = self._opening.firm or at > said or OWN & ahead or spoken.has_cue("trifle")
        return noun and bool(plainly) and spoken.tokens[at].tag in STARTS_NOUN

    def _is_bare_noun(self) -> bool:
        """`No. Toothpaste.`: a sentence of its own that only names a thing."""
        tokens = [token for token in self._spoken.tokens if token.is_word]
        return (
            self._paused
            and len(tokens) <= LONGEST_BARE
            and not any(token.is_verb or token.is_finite for token in tokens)
            and not self._spoken.named
        )
