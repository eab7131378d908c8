"""What speaks for or against a draft: the words around it and what the vocabulary makes of them, the grammar of its
clause, the rule that drafted it and what was drafted beside it; and what shows that a sentence tells of a task.

Only observes; what each sign weighs was learned from narrations that were marked by hand (`doubts`, `tasks`). Things,
flaws and rooms stand as what they are (`<thing> has <flaw>`), so that what is learned of one is known of all.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import cached_property
from itertools import accumulate, compress, pairwise
from typing import Final

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.learned import Sign
from narrate2report.read.lexis.phrase_tree import COMPONENT_ROLES
from narrate2report.read.meant.scene import Scene
from narrate2report.records.findings import Kind

TASKS: Final[tuple[Kind, ...]] = ("follow_up", "advice")
"""The kinds of drafts that tell what somebody is to do."""

QUOTED = re.compile(r"(?<!\w)'(?:[^']|(?<=\w)'(?=\w))*'(?!\w)")
"""The speaker's own words in a reason: the rule stays when they are taken out."""

REACH = 4
"""How many words on either side of a draft are told with their distance."""

BEFORE, AFTER = "<<", ">>"
"""What stands where a sentence has not begun or is over."""

MOST_BESIDE, MOST_CLAUSES, MOST_THINGS, FURTHEST = 4, 5, 3, 6
"""Beyond these, how many drafts, clauses or things there are and how far one is off is not told more precisely."""

PAUSES = frozenset({",", ";", ".", "-", "--"})
"""Marks that are left out: each recogniser sets them its own way, and without them they were guessed."""

NAMES = {"NNP": "NN", "NNPS": "NNS"}
"""Without capitals the tagger's guess at a name says nothing."""

LENGTHS = ((4, "4"), (8, "8"), (13, "13"), (20, "20"), (30, "30"))
"""Words of a sentence, and how they are told; more is `more`."""


class Observed:
    """A sentence with its drafts, ready to be asked about each of them."""

    def __init__(self, scene: Scene, drafts: Sequence[Draft]) -> None:
        self.scene, self.drafts = scene, tuple(drafts)
        self._spoken = scene.spoken
        tokens = scene.spoken.tokens
        said = [token.norm not in PAUSES for token in tokens]
        self._words = list(compress(_words(scene), said))
        self._tags = list(compress((NAMES.get(token.tag, token.tag) for token in tokens), said))
        self._place = list(accumulate(said, initial=0))

    def signs(self, draft: Draft) -> list[Sign]:
        """The signs of one of the drafts."""
        kind = self._kind(draft)
        return [*self._said, *self._of_draft(draft, kind), *self._around(draft.at), *self._clause(draft, kind)]

    def of_task(self, kind: str) -> set[Sign]:
        """What shows whether the sentence tells of a task of this kind, drafted or not."""
        signs = {*self._said, *self._openings}
        for draft in self.drafts:
            signs |= {"drafted", rules_of(draft)} if draft.kind == kind else {f"other {self._kind(draft)}"}
        return signs

    def around(self, at: int) -> tuple[str, str, str]:
        """The word right before the token `at`, with the one before that, and the words right after it."""
        words = [BEFORE, BEFORE, *self._words, AFTER, AFTER]
        at = self._place[at] + 2
        return words[at - 1], f"{words[at - 2]} {words[at - 1]}", words[at + 1]

    @property
    def words(self) -> Sequence[str]:
        """What is said, without marks of a pause; what the vocabulary knows stands as what it is."""
        return self._words

    @cached_property
    def _openings(self) -> set[Sign]:
        """How each clause begins, how words are meant, and of which things the sentence speaks."""
        things = {one.component for one in self._spoken.named}
        signs = {f"things {min(len(things), MOST_THINGS)}", *(f"thing {component}" for component in things)}
        signs |= {f"meant {mode.name}" for mode in {stance.mode for stance in self.scene.stances}}
        for clause in self._spoken.clauses:
            span = slice(self._place[clause.start], self._place[clause.end])
            words, tags = self._words[span], self._tags[span]
            signs |= {f"opens {' '.join(words[:many])}" for many in (1, 2, 3)}
            signs.add(f"opens tags {' '.join(tags[:3])}")
        return signs

    @cached_property
    def _said(self) -> list[Sign]:
        """What the sentence says, whatever was drafted of it."""
        words = [BEFORE, *self._words, AFTER]
        length = next((name for most, name in LENGTHS if len(self._words) <= most), "more")
        return [
            *sorted({f"w {word}" for word in self._words}),
            *sorted({f"b {one} {other}" for one, other in pairwise(words)}),
            f"length {length}",
            f"clauses {min(len(self._spoken.clauses), MOST_CLAUSES)}",
        ]

    def _of_draft(self, draft: Draft, kind: str) -> Iterator[Sign]:
        """What was drafted, by which rules, and what beside it."""
        what = draft.condition or draft.outcome or draft.action or ""
        yield from (f"kind {kind}", f"what {what}", f"thing {draft.component}", f"thing what {draft.component} {what}")
        rules = [QUOTED.sub("X", reason) for reason in draft.because]
        yield from (f"because {rule}" for rule in rules)
        yield f"because {kind} {'; '.join(rules)}"
        beside = {self._kind(one) for one in self.drafts if one is not draft}
        yield from (f"beside {kind} {other}" for other in sorted(beside) or ["none"])
        yield f"beside {min(len(self.drafts) - 1, MOST_BESIDE)}"
        details = (("where", draft.where), ("quantity", draft.quantity), ("severity", draft.severity))
        yield from (f"{name} {kind}" for name, told in details if told is not None)
        named = next((one for one in self._spoken.named if one.component == draft.component), None)
        yield f"named {kind} {named.relation if named else 'elsewhere'}"
        if named:
            yield f"off {max(-FURTHEST, min(FURTHEST, draft.at - named.start))}"
            same = self._spoken.clause_of(named.start) == self._spoken.clause_of(draft.at)
            yield f"{'same' if same else 'other'} clause"

    def _around(self, at: int) -> Iterator[Sign]:
        """The words and tags around what the draft hangs on."""
        words = [BEFORE] * REACH + self._words + [AFTER] * REACH
        tags = [BEFORE] * REACH + self._tags + [AFTER] * REACH
        at = self._place[at] + REACH
        for off in (*range(-REACH, 0), *range(1, REACH + 1)):
            yield f"w{off:+d} {words[at + off]}"
        yield f"w-2-1 {words[at - 2]} {words[at - 1]}"
        yield f"w-1+1 {words[at - 1]} {words[at + 1]}"
        yield f"w+1+2 {words[at + 1]} {words[at + 2]}"
        yield f"t {tags[at]}"
        yield f"t-1 {tags[at - 1]} {tags[at]}"
        yield f"t+1 {tags[at]} {tags[at + 1]}"
        yield f"t-2 {tags[at - 2]} {tags[at - 1]} {tags[at]}"
        yield f"t+2 {tags[at]} {tags[at + 1]} {tags[at + 2]}"

    def _clause(self, draft: Draft, kind: str) -> Iterator[Sign]:
        """The clause that the draft stands in: what joins it, how it begins, who does what in it."""
        clause = self._spoken.clause_of(draft.at)
        span = slice(self._place[clause.start], self._place[clause.end])
        words, tags = self._words[span], self._tags[span]
        yield f"link {clause.link}"
        for word in sorted(set(words)):
            yield f"c {word}"
            yield f"c {kind} {word}"
        yield f"first {' '.join(words[:2])}"
        yield f"first tags {' '.join(tags[:3])}"
        finite = next((at for at in range(clause.start, clause.end) if self._spoken.tokens[at].is_finite), None)
        if finite is None:
            yield f"finite {kind} none"
        else:
            at = self._place[finite] - span.start
            verb, tag = words[at], tags[at]
            subject = words[at - 1] if at else BEFORE
            yield f"subject {subject} {tag}"
            yield f"verb {verb}"
            yield f"says {kind} {subject} {verb}"
            yield f"finite {kind} {tag}"
            yield f"{kind} {'after' if draft.at > finite else 'before'} verb"

    def _kind(self, draft: Draft) -> str:
        """What sort of statement a draft is: something good, something wrong, something denied, an outcome, work."""
        if draft.kind != "condition" or draft.condition is None or draft.assertion is None:
            return draft.outcome or draft.kind
        sound = draft.assertion == "present" and self.scene.vocabulary.is_sound(draft.condition)
        return "sound" if sound else draft.assertion


def rules_of(draft: Draft) -> Sign:
    """The rules that made a draft, without the speaker's words."""
    return f"because {'; '.join(QUOTED.sub('X', reason) for reason in draft.because)}"


def _words(scene: Scene) -> list[str]:
    """The words of a sentence; what the vocabulary knows stands as what it is, as often as it has words."""
    spoken = scene.spoken
    words = ["#" if token.norm.isdigit() else token.norm for token in spoken.tokens]

    def write(name: str, start: int, end: int) -> None:
        words[start:end] = [name] * (end - start)

    for term in spoken.terms("works"):
        write("<works>", term.start, term.end)
    for term in spoken.terms("condition"):
        sound = all(scene.vocabulary.is_sound(sense.id) for sense in term.of("condition"))
        write("<sound>" if sound else "<flaw>", term.start, term.end)
    for term in spoken.terms("room"):
        write("<room>", term.start, term.end)
    for term in spoken.terms(*COMPONENT_ROLES):
        write("<thing>", term.start, term.end)
    return words
