"""One comparison under review: as it stands, with both records and its journal, and the one way to decide about it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

from narrate2report.records.compared import Records, judged, read_records
from narrate2report.records.comparison import SIDES, Comparison, Side
from narrate2report.records.comparison_fold import folded, id_of, places_of
from narrate2report.records.comparison_journal import FlawAltered, JudgingLine
from narrate2report.records.files import read_record, write_record
from narrate2report.review import judging_requests as ask
from narrate2report.review.deciding import Deciding, Name
from narrate2report.review.hand import Hand
from narrate2report.review.judging import Standing, judge


class JudgingDesk(Deciding[JudgingLine, ask.Decide]):
    """A comparison that is being judged.

    Raises BrokenRecord where the comparison names what its records do not hold.
    """

    made_by = "compared"

    def __init__(self, comparison: Path, now: Callable[[], str] | None = None) -> None:
        super().__init__(comparison, JudgingLine, now)
        on_disk = read_record(comparison, Comparison)
        self.records: Records = read_records(on_disk, comparison)
        with self._journal.locked():
            self._journal.refresh()
        stands = judged(on_disk, self._journal.lines, comparison)
        self._draft, self._draft_sha256 = stands.draft, stands.draft_sha256
        self.comparison = stands.comparison
        self.adverse: Mapping[Side, frozenset[str]] = {
            side: frozenset(name for name, entry in record.entries.items() if entry.stands and entry.is_adverse)
            for side, record in self.records.items()
        }

    @property
    def standing(self) -> Standing:
        """The comparison with what its rules need to know."""
        return Standing(self.comparison, places_of(self._draft, self._journal.lines), self.adverse)

    def _decided(self, wanted: ask.Decide, hand: Hand) -> tuple[FlawAltered, ...]:
        return judge(self.standing, wanted, hand)

    def _names(self, wanted: ask.Decide) -> set[Name]:
        match wanted:
            case ask.Confirm() | ask.Judge() | ask.Reopen() | ask.Join():
                return {(change,) for change in wanted.changes}
            case ask.Pair():
                return {(wanted.change,), (wanted.side, wanted.entry)}
            case ask.SetOutcome() | ask.Split():
                return {(wanted.change,)}

    def _touched(self, line: JudgingLine) -> set[Name]:
        """The changes, and each of their entries: one that stands elsewhere by now is not paired unseen."""
        both = [change for altered in line.changes for change in (altered.before, altered.after) if change]
        entries = {(side, entry) for change in both for side in SIDES for entry in change.of(side)}
        return {(id_of(altered),) for altered in line.changes} | entries

    def _fold(self) -> None:
        self.comparison = folded(self._draft, self._journal.lines)

    def _draft_on_file(self) -> str:
        return judged(read_record(self.path, Comparison), self._journal.lines, self.path).draft_sha256

    def _write(self) -> None:
        write_record(self.path, self.comparison)
