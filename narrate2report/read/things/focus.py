"""What `that` and `it` mean where work or care is spoken of: the last flaw, else the last thing an entry was made of.

Takes the drafts of each sentence as they come; leaves the component that a word names to `place`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.things.whereabouts import ROOM_GENERAL

FLAW_LASTS = 4
"""For how many sentences a flaw is what `that needs doing` means."""

TOLD_LASTS = 2
"""For how many sentences what an entry was made of is what `test those once a month` means."""

KEPT = 12
"""How many flaws are remembered."""

SEEN = frozenset({"condition", "check", "description"})


@dataclass
class Focus:
    """The flaws and findings of the sentences before, with the number of the sentence that told them."""

    _flaws: tuple[str, ...] = ()
    _flaw_at: int = -99
    _general_at: int = -99
    _all: tuple[tuple[str, int, str], ...] = ()
    _told: str | None = None
    _told_at: int = -99

    def flaw(self, number: int, *, first: bool = False) -> str | None:
        """The component of the last flaw that was told in or shortly before sentence `number`.

        Of several told in one sentence `it` means the first, `that` the last. What is said of the room as a whole
        (a smell, a pest) counts in its own sentence, or where nothing else was wrong.
        """
        if self._general_at == number or (self._flaw_at < self._general_at and number - self._flaw_at > FLAW_LASTS):
            return ROOM_GENERAL if number - self._general_at <= FLAW_LASTS else None
        if number - self._flaw_at > FLAW_LASTS or not self._flaws:
            return None
        return self._flaws[0 if first else -1]

    def lately(self, number: int) -> tuple[str, ...]:
        """The components of the flaws told in or shortly before sentence `number`, the newest first."""
        return tuple(component for component, when, _ in reversed(self._all) if number - when <= FLAW_LASTS)

    def suffers(self, component: str, number: int) -> frozenset[str]:
        """The flaws of a component that were told in or shortly before sentence `number`."""
        return frozenset(flaw for one, when, flaw in self._all if one == component and number - when <= FLAW_LASTS)

    def together(self, number: int) -> tuple[str, ...]:
        """The components of the flaws that the last sentence with any told, if that was shortly before `number`."""
        return self._flaws if number - self._flaw_at <= TOLD_LASTS else ()

    def told(self, number: int) -> str | None:
        """The component that the last finding was of, if it was told in or shortly before sentence `number`."""
        return self._told if number - self._told_at <= TOLD_LASTS else None

    @property
    def told_at(self) -> int:
        """The number of the sentence that told the last finding."""
        return self._told_at

    @property
    def flaw_at(self) -> int:
        """The number of the sentence that told the last flaw."""
        return max(self._flaw_at, self._general_at)

    def remember(self, drafts: Sequence[Draft], number: int, vocabulary: Vocabulary) -> None:
        """Note what sentence `number` told so far."""
        for draft in drafts:
            if is_adverse(draft, vocabulary):
                told = (draft.component, number, draft.condition or "not_working")
                self._all = (*self._all, told)[-KEPT:]
            if is_adverse(draft, vocabulary) and draft.component == ROOM_GENERAL:
                self._general_at = number
            elif is_adverse(draft, vocabulary):
                earlier = self._flaws if self._flaw_at == number else ()
                self._flaws, self._flaw_at = (*earlier, draft.component), number
            if draft.kind in SEEN and draft.component != ROOM_GENERAL:
                self._told, self._told_at = draft.component, number

    def leave(self) -> None:
        """Walk into another room: what was in focus stays behind."""
        self._flaws, self._all, self._told, self._general_at = (), (), None, -99


def is_adverse(draft: Draft, vocabulary: Vocabulary) -> bool:
    """Whether a draft tells of a flaw that is or may be there, or of a failed trial."""
    if draft.kind == "check":
        return draft.outcome == "fails"
    told = draft.kind == "condition" and draft.condition is not None and draft.assertion != "absent"
    return told and not vocabulary.is_sound(draft.condition or "")
