"""`Scratch that`, `no, sorry, the right one`, `a dimple, no, that's a proper hole`: what the speaker takes back."""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.draft import Draft
from narrate2report.read.entries import Ledger
from narrate2report.read.spoken import Spoken
from narrate2report.read.stance import Mode, Stance

TAKEN_BACK = Stance(Mode.QUESTION, "taken back")
HARMLESS = frozenset("dust just shadow nothing fine okay good wipes".split())


class Corrections:
    """The corrections of one sentence."""

    def __init__(self, spoken: Spoken) -> None:
        self._spoken = spoken
        self._withdrawal = next(spoken.cues("withdrawal"), None)

    def apply(self, stances: Sequence[Stance]) -> tuple[Stance, ...]:
        """Stances in which a flaw that is corrected later in its own sentence is taken back."""
        spoken, found = self._spoken, list(stances)
        for clause in spoken.clauses[1:-1]:
            slip = next((cue for cue in spoken.cues("slip", within=clause) if cue.start == clause.start), None)
            if slip is None or clause.end - slip.end > 0:
                continue
            before, after = spoken.clauses[clause.index - 1], spoken.clauses[clause.index + 1]
            if self._last_flaw(before.start, before.end) is None or self._last_flaw(after.start, after.end) is None:
                continue
            for at in range(before.start, before.end):
                found[at] = TAKEN_BACK
        return tuple(found)

    def _last_flaw(self, start: int, end: int) -> int | None:
        return max((m.start for m in self._spoken.found.terms if m.of("condition") and start <= m.start < end), default=None)

    def withdraw(self, drafts: list[Draft], ledger: Ledger, number: int) -> None:
        """Take back what the sentence withdraws: of its own drafts before the words, else of the one before."""
        if self._withdrawal is None:
            return
        cue = self._withdrawal
        after = [draft for draft in drafts if draft.at >= cue.end]
        rest = set(self._spoken.norms(cue.end))
        wanted = self._replaced_kinds(after, rest)
        if not wanted:
            return
        own = [draft for draft in drafts if draft.at < cue.start and draft.kind in wanted]
        if own:
            drafts.remove(own[-1])
        elif cue.start <= 3:
            ledger.withdraw_last(number, wanted)

    def _replaced_kinds(self, after: Sequence[Draft], rest: set[str]) -> set[str]:
        """What the words after the withdrawal put in place of what was said."""
        kinds = {draft.kind for draft in after}
        if "condition" in kinds or "check" in kinds:
            return {"condition", "check"}
        if kinds:
            return set(kinds)
        return {"condition", "check", "handover"} if rest & HARMLESS or not rest - {".", ","} else set()
