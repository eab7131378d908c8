"""`Scratch that`, `no, sorry, the right one`, `a dimple, no, that's a proper hole`: what the speaker takes back."""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.drafts.entries import Ledger
from narrate2report.read.speech.modes import Mode, Stance
from narrate2report.read.speech.spoken import Spoken

TAKEN_BACK = Stance(Mode.QUESTION, "taken back")
SIDES = frozenset("left right upper lower top bottom front back other first second third middle".split())
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
        return max(
            (m.start for m in self._spoken.terms("condition") if start <= m.start < end),
            default=None,
        )

    def correct_place(self, drafts: Sequence[Draft], ledger: Ledger, number: int) -> bool:
        """`No, sorry, not the left door, the right one.`: corrects where the flaw before is, and says nothing else."""
        spoken = self._spoken
        first = spoken.clauses[0] if spoken.clauses else None
        slips = first is not None and any(cue.start == 0 for cue in spoken.cues("slip", within=first))
        if drafts or not slips or self._withdrawal is not None:
            return False
        placed = [clause for clause in spoken.clauses if set(spoken.norms(clause.start, clause.end)) & SIDES]
        if not placed or "not" in spoken.norms(placed[-1].start, placed[-1].end):
            return False
        return ledger.correct_place(spoken, number, spoken.words(placed[-1].start, placed[-1].end))

    def withdraw(self, drafts: list[Draft], ledger: Ledger, number: int, *, pending: bool) -> bool:
        """Take back what the sentence withdraws: of its own drafts before the words, else of the sentences before.

        `Scratch that.` alone waits for the next sentence (`Two stains.`) to tell what it replaces: then True is
        returned, and `pending` is to be given with the next sentence.
        """
        if pending:
            if drafts:
                ledger.withdraw(number, {draft.kind for draft in drafts}, drafts)
            else:
                ledger.withdraw(number, {"condition", "check", "handover"}, ())
        if self._withdrawal is None:
            return False
        cue = self._withdrawal
        if cue.start <= 2 and not any(token.is_word for token in self._spoken.tokens[cue.end :]):
            return True
        after = [draft for draft in drafts if draft.at >= cue.end]
        wanted = self._replaced_kinds(after, set(self._spoken.norms(cue.end)))
        own = [draft for draft in drafts if draft.at < cue.start and draft.kind in wanted]
        if own:
            drafts.remove(own[-1])
        elif wanted and cue.start <= 3:
            ledger.withdraw(number, wanted, after)
        return False

    def _replaced_kinds(self, after: Sequence[Draft], rest: set[str]) -> set[str]:
        """What the words after the withdrawal put in place of what was said."""
        kinds: set[str] = {draft.kind for draft in after}
        if kinds & {"condition", "check"}:
            return {"condition", "check"}
        if kinds:
            return kinds
        if self._withdrawal is not None and {"wrong", "mistake", "mistaken", "bad"} & set(
            self._spoken.norms(self._withdrawal.start, self._withdrawal.end)
        ):
            return {"condition", "check"}  # no, I am wrong, the handle is on the inside
        return {"condition", "check", "handover"} if rest & HARMLESS else set()
