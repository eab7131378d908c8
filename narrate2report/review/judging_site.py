"""The review of a comparison as the page's server answers it: the changes as JSON, decisions, both recordings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from narrate2report.records.comparison import SIDES
from narrate2report.records.comparison_journal import JudgingLine
from narrate2report.review import judging_requests as ask
from narrate2report.review.answers import missing
from narrate2report.review.exchange import Decided, Exchange, Json
from narrate2report.review.judging_desk import JudgingDesk
from narrate2report.review.judging_view import changes_view, whole_view
from narrate2report.review.pairable import pairable
from narrate2report.review.playback import Playable, Playback, still_answer


@dataclass(frozen=True)
class JudgingSite:
    """All that the server shows: the comparison, and the recordings of the earlier and then of the later walk."""

    desk: JudgingDesk
    recordings: Playable
    reviewer: str = ""

    page = "judging.html"

    def routes(self) -> list[Route]:
        """Everything that is answered."""
        count = sum(len(record.findings.recordings) for record in self.desk.records.values())
        return [
            Route("/api/changes", self.changes),
            Route("/api/pairable/{change}", self.pairable),
            Route("/still/{sha256}", self.still),
            *Exchange(self.desk, Decided[ask.Request], self._changes).routes(),
            *Playback(self.recordings, count).routes(),
        ]

    def changes(self, _: Request) -> Response:
        """`GET /api/changes`: the whole comparison, with the entries that it names."""
        self.desk.look()
        return JSONResponse({**whole_view(self.desk), "reviewer": self.reviewer})

    def pairable(self, request: Request) -> Response:
        """`GET /api/pairable/{change}`: which entries may stand in a change, the nearest first."""
        found = next((one for one in self.desk.comparison.changes if one.id == request.path_params["change"]), None)
        if found is None:
            return missing("change")
        every = pairable(found, self.desk.records, self.desk.standing)
        return JSONResponse({"entries": [[side, entry.id] for side, entry in every]})

    def still(self, request: Request) -> Response:
        """`GET /still/{sha256}`: a picture that an entry of one of the records keeps."""
        records = [self.desk.records[side] for side in SIDES]
        return still_answer(request.path_params["sha256"], [(one.findings, one.path) for one in records])

    def _changes(self, new: Sequence[JudgingLine]) -> Json:
        return changes_view(self.desk, new)
