"""Where a moment of a recording opens: beside the report, or wherever the firm keeps its videos."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from urllib.parse import quote

from narrate2report.publish.report_values import Moment
from narrate2report.records.findings import Evidence, Findings
from narrate2report.records.moments import fragment
from narrate2report.wording import moment


@dataclass(frozen=True)
class Links:
    """`places` holds, by file name, the address of each recording at hand; `base` goes before all of them.

    `base` is an address in which `{file}` and `{seconds}` stand for name and start; without them it is the folder
    in which the recordings lie.
    """

    places: Mapping[str, str] = field(default_factory=dict)
    base: str | None = None

    def to(self, recording: str, start: float, end: float) -> str | None:
        """The address of a stretch, from start to end in seconds, or None where the recording cannot be opened."""
        link = fragment(recording, start, end)
        if self.base is not None and ("{file}" in self.base or "{seconds}" in self.base):
            return self.base.replace("{file}", quote(recording)).replace("{seconds}", f"{start:.2f}")
        if self.base is not None:
            return f"{self.base.rstrip('/')}/{link}"
        place = self.places.get(recording)
        return None if place is None else place + link[link.rindex("#") :]


def moments(evidence: tuple[Evidence, ...], findings: Findings, links: Links) -> tuple[Moment, ...]:
    """When an entry was said, each with its address; words that were typed have a time but nothing to play."""
    media = {recording.file for recording in findings.recordings if recording.media}
    return tuple(
        Moment(
            moment(piece.recording, piece.start, len(findings.recordings)),
            links.to(piece.recording, piece.start, piece.end) if piece.recording in media else None,
        )
        for piece in evidence
    )
