"""The recordings of both walks of a comparison, counted through: first those of the earlier one."""

from __future__ import annotations

from narrate2report.commands.walk_recordings import WalkRecordings
from narrate2report.records.compared import Records
from narrate2report.records.comparison import SIDES
from narrate2report.review.playback import Playing


class BothRecordings:
    """Plays the recordings that lie beside two findings files; each walk's are looked after on their own."""

    def __init__(self, records: Records) -> None:
        self._walks = [WalkRecordings(records[side].path, records[side].findings.recordings) for side in SIDES]
        self._earlier = len(records["before"].findings.recordings)

    def playing(self, number: int) -> Playing:
        """How this recording can be played now."""
        before, after = self._walks
        return before.playing(number) if number < self._earlier else after.playing(number - self._earlier)

    def close(self) -> None:
        """Stop making copies and throw them away."""
        for walk in self._walks:
            walk.close()
