"""`I'm looking for dents. ... Don't see any.`: what the next sentences settle."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.modes import Mode, Stance
from narrate2report.read.speech.spoken import Named, Spoken
from narrate2report.read.state.conditions import Flaw
from narrate2report.read.things.whereabouts import ROOM_GENERAL

SEARCH_SENTENCES = 2
"""For how many sentences a search waits for `I don't see any`."""

SHORT_ANSWER = 6
"""Words of a sentence, or 2 of a clause, in which a lone `none` or `nothing` is the answer."""


def opens_search(spoken: Spoken) -> bool:
    """`What I'm looking for.`: what comes next is only a list of it."""
    last = max(spoken.cues("search"), key=lambda cue: cue.end, default=None)
    words = [at for at, token in enumerate(spoken.tokens) if token.is_word]
    return last is not None and bool(words) and last.end == words[-1] + 1


def as_sought(spoken: Spoken, stances: tuple[Stance, ...], *, searching: bool) -> tuple[Stance, ...]:
    """How words are meant; after a sentence that opened a search, a bare list is what is looked for."""
    if not searching or not _is_bare_list(spoken):
        return stances
    return tuple(Stance(Mode.SEARCH, "looking for") if one.mode is Mode.ASSERTED else one for one in stances)


def _is_bare_list(spoken: Spoken) -> bool:
    """`Dents, scuffs, holes.`: things in a row, and nothing said of them; `last thing, garage` walks on."""
    verbs = any(token.is_finite for token in spoken.tokens)
    return len(spoken.clauses) > 1 and not verbs and not spoken.has_term("room", "rooms")


@dataclass
class Waiting:
    """What was looked for, until it is settled or forgotten."""

    searched: tuple[Draft, ...] = ()
    searched_at: int = -SEARCH_SENTENCES - 1

    def is_answered_by(self, scene: Scene) -> bool:
        """Whether a short `nothing` answers a search and no trial."""
        spoken = scene.spoken
        recent = bool(self.searched) and scene.number - self.searched_at <= SEARCH_SENTENCES
        return recent and spoken.has_cue("found_none") and not spoken.named

    def settle(self, scene: Scene, flaws: Sequence[Flaw]) -> list[Draft]:
        """The conditions that this sentence settles; remembers what it leaves open."""
        searches = tuple(_looked_for(scene, flaws))
        found = self._found_none(scene, flaws, searches)
        if searches and not found:
            told = (scene.spoken.sentence,)
            self.searched = tuple(replace(draft, also=told) for draft in searches)
            self.searched_at = scene.number
        elif any(one.component not in self._components() for one in _topics(scene)):
            self.searched = ()
        return found

    def turn_up(self, scene: Scene, drafts: Sequence[Draft]) -> tuple[list[Draft], list[Draft]]:
        """`no chips here ... hold on, there is one`: what is found after all, and the denials that it ends."""
        spoken = scene.spoken
        one = next((cue for cue in spoken.cues("found_one") if _is_alone(scene, cue)), None)
        if one is None:
            return [], []
        denied = [draft for draft in drafts if draft.assertion == "absent" and draft.at < one.start]
        lately = scene.number - self.searched_at <= 1
        sought = denied[-1:] or (list(self.searched[-1:]) if lately else [])
        reason = f"'{spoken.words(one.start, one.end)}'"
        found = [
            replace(draft, at=one.start, room=scene.room, assertion="present", quantity=1).with_reason(reason)
            for draft in sought
        ]
        return found, denied[-1:]

    def _components(self) -> set[str]:
        return {draft.component for draft in self.searched}

    def _answers_something_else(self, scene: Scene, answer: Mention) -> bool:
        """`I looked for moth and found none`, `call button: pressed it, nothing`, `the screen on it's fine`, `dryer
        vent, can't see one`: what the sentence itself looked for, tried or spoke of."""
        spoken = scene.spoken
        if any(cue.end <= answer.start for cue in spoken.cues("search")):
            return True
        if ELSEWHERE & set(spoken.norms(answer.end)):
            return True  # I have not seen one in this building in four years
        of_thing = any(cue.start == answer.start for cue in spoken.cues("no_response"))
        of_thing = of_thing or spoken.norms(answer.start, answer.start + 1) == ["it"]
        of_thing = of_thing or spoken.norms(answer.end - 2, answer.end) in SEES_ONE
        others = [one for one in _topics(scene) if one.component not in self._components()]
        pointed = set(pairwise(spoken.norms(0, answer.start))) & {("the", "one"), ("this", "one"), ("that", "one")}
        return of_thing and (bool(pointed) or any(one.end <= answer.start for one in others))

    def _found_none(self, scene: Scene, flaws: Sequence[Flaw], searches: tuple[Draft, ...]) -> list[Draft]:
        spoken = scene.spoken
        adverse = any(
            scene.is_said(flaw.mention.start)
            and not scene.vocabulary.is_sound(flaw.condition)
            and flaw.condition != "patched"
            for flaw in flaws
        )
        answer = next((cue for cue in spoken.cues("found_none") if _answers(scene, cue)), None)
        if answer is None or adverse:
            return []
        recent = scene.number - self.searched_at <= SEARCH_SENTENCES
        remembered = self.searched if recent and not self._answers_something_else(scene, answer) else ()
        reason = f"'{spoken.words(answer.start, answer.end)}'"
        found = [replace(draft, room=scene.room).with_reason(reason) for draft in searches] or [
            replace(draft, at=answer.start, room=scene.room).with_reason(reason) for draft in remembered
        ]
        self.searched = ()
        return found


def _looked_for(scene: Scene, flaws: Sequence[Flaw]) -> list[Draft]:
    """The flaws of a sentence that are looked for, as what would be denied of them."""
    return [
        Draft(
            kind="condition",
            room=scene.room,
            component=_searched(scene.spoken, flaw) or flaw.bearer.component or ROOM_GENERAL,
            at=flaw.mention.start,
            because=(f"'{scene.spoken.words(flaw.mention.start, flaw.mention.end)}' was looked for",),
            condition=flaw.condition,
            assertion="absent",
            confidence=0.75,
        )
        for flaw in flaws
        if scene.mode(flaw.mention.start) is Mode.SEARCH and not scene.vocabulary.is_sound(flaw.condition)
    ]


def _searched(spoken: Spoken, flaw: Flaw) -> str | None:
    """`I hunted all round the window for mold`: where the search went, as it stands before its `for`."""
    if flaw.bearer.direct:
        return None
    clause = spoken.clause_of(flaw.mention.start)
    before = [one for one in spoken.named_in(clause) if "for" in spoken.norms(one.end, flaw.mention.start)]
    return before[-1].component if before else None


SEES_ONE = [[saw, "one"] for saw in ("see", "seen", "find", "found")]
"""After a thing that is named, `one` is that thing."""

ELSEWHERE = frozenset("building years months property complex".split())

NO_ANSWER = frozenset("new else other different to".split())
"""`I don't see anything new`, `I'm not one to point fingers`: after `anything` and `one` they tell of other things."""


def _answers(scene: Scene, cue: Mention) -> bool:
    """Whether `none`, `don't see any` stands for itself and is not the start of something else."""
    if NO_ANSWER & set(scene.spoken.norms(cue.end, cue.end + 1)):
        return False
    if not scene.is_said(cue.start):
        return False
    return cue.end - cue.start > 1 or _is_short(scene.spoken, cue)


def _is_alone(scene: Scene, cue: Mention) -> bool:
    """Whether `there's one` means one of what was looked for, and not `there's one slat bent`."""
    after = scene.spoken.tokens[cue.end : cue.end + 1]
    return scene.is_said(cue.start) and not any(token.tag in {"NN", "NNS", "JJ", "JJR"} for token in after)


def _topics(scene: Scene) -> list[Named]:
    """The components that the sentence says something of."""
    return [one for one in scene.spoken.named if one.relation == "topic" and scene.is_said(one.start)]


def _is_short(spoken: Spoken, cue: Mention) -> bool:
    clause = spoken.clause_of(cue.start)
    return len(spoken.tokens) <= SHORT_ANSWER or clause.end - clause.start <= 2
