"""A flaw put right while one stands before it: `I'm tightening it now ... there, solid`, `popped it back in`.

Takes the flaws told lately and what a sentence says of a piece of work; gives the repair as a condition of its own, for
both facts are recorded. Work that is only planned is left to `follow_ups`, work of another day to `conditions`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from narrate2report.read.across.work_verbs import BACK, PLAIN, form_of
from narrate2report.read.drafts.draft import Draft
from narrate2report.read.meant.negations import negation_before
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import LEADING, Clause
from narrate2report.read.speech.modes import Mode
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.things.focus import is_adverse
from narrate2report.read.work.suited import suited_flaw

NEW: Final = frozenset({"new", "fresh", "spare", "another"})

DOING: Final = (
    ["i", "am"], ["i", "'m"], ["we", "are"], ["let", "me"], ["i", "will", "just"], ["let", "us"],
)  # fmt: skip

SUBJECTS: Final = frozenset(
    "i we so and just then 've have also already quickly simply even actually here okay".split()
)
"""All that may stand before a verb of work done."""

EARLIER: Final = frozenset(
    "before ago last since yesterday year years year's month months week weeks summer winter spring fall autumn will"
    " needs need either gonna going tomorrow if had monday tuesday wednesday thursday friday saturday sunday".split()
)
"""Words that tell of work of another day, or only planned."""

DONE: Final = re.compile(
    r"(?:okay |ok |and |so |right |yep |yes |all |oh |that is |that 's |it is |it 's |now )*"
    r"(?:there|done|sorted|fixed|set|better|much better|got (?:it|him|her)|there (?:we|you|it|she) (?:go|goes|is)"
    r"|good as new|(?:that )?(?:'ll |will )?do(?:es)?(?: it)?|that did it|that (?:'s|is|has) (?:got )?it|good to go"
    r"|back (?:in|on|up))(?: now| then)?"
)
"""A clause that says no more than that the work is done."""

HELD: Final = re.compile(r"\b(?:holds|holding|solid|tight|firm|snug|quiet|straight|steady|secure)\b|\bnow$")
"""Words for what it is like afterwards."""

WAITS: Final = 2
"""For how many sentences work that was begun waits for its end."""


@dataclass
class Mending:
    """Work that was begun and not yet said to be done."""

    component: str | None = None
    since: int = -9
    at: int = -1
    """Where the work of the last sentence stands in it, where it is done; -1 where none is."""

    def put_right(self, scene: Scene, drafts: list[Draft], flaws: Sequence[str], turn: int) -> list[Draft]:
        """The drafts of a sentence with the repair that it tells, and without what the repair explains.

        `flaws` are the components of the flaws told lately, this sentence's among them, the newest first.
        """
        waiting = self.component if turn - self.since <= WAITS else None
        self.component, self.at = None, -1
        work = next(_works_done(scene), None)
        if work is None:
            return self._ended(scene, drafts, waiting)
        at, over = work
        component = _mended(scene, drafts, flaws, at)
        if component is None:
            return drafts
        if not over and _told_done(scene, scene.spoken.clause_of(at)) is None:
            self.component, self.since = component, turn
            return drafts
        self.at = at
        return self._repaired(scene, drafts, component, at)

    def _ended(self, scene: Scene, drafts: list[Draft], waiting: str | None) -> list[Draft]:
        """`I'm tightening it now. There.`: a sentence that begins with the end of the work."""
        first = scene.spoken.clauses[:1]
        if waiting is None or not first or not _is_done(scene.spoken, first[0]):
            return drafts
        self.at = first[0].start
        return self._repaired(scene, drafts, waiting, first[0].start)

    def _repaired(self, scene: Scene, drafts: list[Draft], component: str, at: int) -> list[Draft]:
        after = [one for one in drafts if one.at >= at and one.component == component]
        held = {id(one) for one in after if is_adverse(one, scene.vocabulary) and _is_like_now(scene.spoken, one.at)}
        kept = [one for one in drafts if id(one) not in held]
        if any(one.kind == "check" and one.outcome == "works" for one in after):
            return kept
        sound = [one for one in after if one.kind == "condition" and scene.vocabulary.is_sound(one.condition or "")]
        if any(one.assertion == "present" for one in sound):
            return kept
        words = scene.spoken.words(at, scene.spoken.clause_of(at).end)
        return [
            *kept,
            Draft(
                kind="condition",
                room=scene.room,
                component=component,
                at=at,
                condition="repaired",
                assertion="present",
                because=(f"'{words}': put right on the spot",),
                confidence=0.65,
            ),
        ]


def _works_done(scene: Scene) -> Iterator[tuple[int, bool]]:
    """Where work on the spot is told, and whether it is told as done."""
    spoken = scene.spoken
    for clause in spoken.clauses:
        for at in range(clause.start, clause.end):
            told = _tense(spoken, clause, at)
            if (
                told is None
                or EARLIER & set(spoken.norms(0, clause.end))
                or (told == "done" and not _is_said(scene, clause, at))
            ):
                continue
            if negation_before(spoken, clause, at) or spoken.ends_with_question():
                continue
            yield at, told == "done"
            break


def _is_said(scene: Scene, clause: Clause, at: int) -> bool:
    """Whether work is told of now; `back in`, which tells of years ago elsewhere, may end it."""
    ends = scene.spoken.norms(clause.end - 2, clause.end) == ["back", "in"]
    return scene.is_said(at) or (ends and scene.mode(at) is Mode.PAST)


def _tense(spoken: Spoken, clause: Clause, at: int) -> str | None:
    """`doing` or `done`, where the token is a verb of work by the speaker; else None."""
    norm, before = spoken.tokens[at].norm, spoken.norms(clause.start, at)
    verb, form = form_of(norm)
    if verb is None or not _takes_it(spoken, clause, at, verb):
        return None
    lead = [one for one in before if one not in LEADING]
    doing = any(lead[: len(one)] == one and len(lead) <= len(one) + 1 for one in DOING)
    if doing and form in {"ing", "base", "base or ed"}:
        return "doing"
    if form == "ing" and not lead:
        return "doing"
    past = form.endswith("ed") and set(before) <= SUBJECTS | LEADING
    at_once = "i" in before and spoken.norms(at + 1, at + 2) in (["it"], ["that"], ["them"])
    opens = clause.index == 0 and not lead
    if form == "base or ed" and not ({"just", "'ve", "have"} & set(before) or opens or at_once):
        return None  # and we put it new: of any time
    if "we" in before and "just" not in before:
        return None
    return "done" if past and spoken.tokens[at].tag in {"VBD", "VBN", "VB", "VBP", "JJ", "NN"} else None


def _takes_it(spoken: Spoken, clause: Clause, at: int, verb: str) -> bool:
    """Whether the work is done to something: `it`, `that`, a thing named, something new; `put` only back or new."""
    after = spoken.norms(at + 1, clause.end)
    if verb in BACK and verb not in PLAIN and not ({"back"} | NEW) & set(after):
        return False
    object_opens = {
        "it",
        "that",
        "them",
        "this",
        "these",
        "those",
        "the",
        "a",
        "two",
        "both",
        "one",
        "her",
        "him",
        "up",
        "in",
        "back",
    }
    return bool(object_opens & set(after[:2]))


def _mended(scene: Scene, drafts: Sequence[Draft], flaws: Sequence[str], at: int) -> str | None:
    """Which of the flawed things the work is on: one it names, one it suits, the last of this sentence, the newest."""
    clause = scene.spoken.clause_of(at)
    named = [one.component for one in scene.spoken.named_in(clause) if one.component in flaws]
    if named:
        return named[0]
    if (was := _was_flawed(scene, clause)) is not None:
        return was
    others = {one.component for one in scene.spoken.named if one.relation == "topic"} - set(flaws)
    owners = {owner for one in flaws for owner in scene.vocabulary.components[one].part_of} | set(flaws)
    if others and not any(owners & {one, *scene.vocabulary.components[one].part_of} for one in others):
        return None  # the toilet doesn't run, I changed the flapper: nothing to do with the bar before it
    suited = suited_flaw(scene.spoken, flaws, scene.vocabulary)
    before = [one.component for one in drafts if one.at < at and is_adverse(one, scene.vocabulary)]
    return suited or next(iter([*before[-1:], *flaws[:1]]), None)


def _was_flawed(scene: Scene, work: Clause) -> str | None:
    """`the knob was loose so I snugged it down`: what was at fault until just now, and named there."""
    for clause in scene.spoken.clauses[: work.index]:
        named = [one.component for one in scene.spoken.named_in(clause) if one.relation == "topic"]
        was = {"was", "were"} & set(scene.spoken.norms(clause.start, clause.end))
        if named and was and scene.spoken.has_term("condition", within=clause):
            return named[-1]
    return None


def _told_done(scene: Scene, work: Clause) -> Clause | None:
    """The clause after the work that says that it is done, or what it is like now."""
    return next(
        (
            clause
            for clause in scene.spoken.clauses[work.index + 1 :]
            if _is_done(scene.spoken, clause) or _is_like_now(scene.spoken, clause.start)
        ),
        None,
    )


def _is_done(spoken: Spoken, clause: Clause) -> bool:
    return DONE.fullmatch(" ".join(spoken.norms(clause.start, clause.end))) is not None


def _is_like_now(spoken: Spoken, at: int) -> bool:
    clause = spoken.clause_of(at)
    return HELD.search(" ".join(spoken.norms(clause.start, clause.end))) is not None
