"""The review of a walk as the page's server answers it: record, decisions, recordings, pictures, the seal."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Protocol

from pydantic import ValidationError
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from narrate2report.errors import NarrateError
from narrate2report.records.base import Value
from narrate2report.records.journal import JournalLine
from narrate2report.review import requests as ask
from narrate2report.review.answers import first_fault, missing, told
from narrate2report.review.choices import Choices
from narrate2report.review.desk import Desk
from narrate2report.review.exchange import Decided, Exchange, Json
from narrate2report.review.playback import Playable, Playback, still_answer
from narrate2report.review.view import changes_view, whole_view


class Recordings(Playable, Protocol):
    """The recordings of the walk, by their number in it, and pictures from them."""

    def frame(self, number: int, moment: float, steps: int) -> tuple[bytes, float]:
        """The picture `steps` frames from the one shown at a moment, as JPEG, and its own time in seconds."""

    def sharpest(self, number: int, start: float, end: float) -> float:
        """The moment of the sharpest picture between two moments."""


class Sealing(Protocol):
    """Seals the walk under review."""

    def __call__(self, by: str, statement: str) -> str:
        """The seal's hash; raises NarrateError where something is still open."""


class SealWanted(Value):
    """What the page sends to seal."""

    by: ask.Name
    statement: ask.Said


@dataclass(frozen=True)
class WalkSite:
    """All that the server shows: the walk, what there is to choose from, its recordings."""

    desk: Desk
    choices: Choices
    recordings: Recordings
    seal: Sealing | None = None
    reviewer: str = ""
    statement: str = ""
    """What whoever seals is proposed to declare."""

    page = "index.html"

    @cached_property
    def playback(self) -> Playback:
        """The walk's recordings, to be played."""
        return Playback(self.recordings, len(self.desk.findings.recordings))

    def routes(self) -> list[Route]:
        """Everything that is answered."""
        return [
            Route("/api/walk", self.walk),
            Route("/api/seal", self.seal_it, methods=["POST"]),
            Route("/api/sharpest/{entry}", self.sharpest),
            Route("/frame/{number}", self.frame),
            Route("/still/{sha256}", self.still),
            *Exchange(self.desk, Decided[ask.Request], self._changes).routes(),
            *self.playback.routes(),
        ]

    def walk(self, _: Request) -> Response:
        """`GET /api/walk`: the whole record."""
        self.desk.look()
        view = whole_view(self.desk.findings, self.desk.spine, self.desk.lines, self.choices)
        can_seal = self.seal is not None and not view["sealed"]
        return JSONResponse({**view, "reviewer": self.reviewer, "statement": self.statement, "can_seal": can_seal})

    async def seal_it(self, request: Request) -> Response:
        """`POST /api/seal`: seal the record."""
        raw = await request.body()
        return await run_in_threadpool(self._seal, raw)

    def frame(self, request: Request) -> Response:
        """`GET /frame/{number}?at=12.5&steps=-1`: one picture of a recording; its time is in `X-Moment`."""
        number = self.playback.number(request)
        try:
            moment, steps = float(request.query_params["at"]), int(request.query_params.get("steps", "0"))
        except (KeyError, ValueError):
            return told("a picture needs its moment in seconds", 422)
        if number is None or not 0 <= moment < 1e8 or abs(steps) > 1000:
            return missing("picture")
        try:
            picture, time = self.recordings.frame(number, moment, steps)
        except NarrateError as error:
            return told(str(error), 422)
        return Response(picture, media_type="image/jpeg", headers={"X-Moment": f"{time:.3f}"})

    def sharpest(self, request: Request) -> Response:
        """`GET /api/sharpest/{entry}`: the moment of the sharpest picture of an entry's statement."""
        entry = next((one for one in self.desk.findings.entries if one.id == request.path_params["entry"]), None)
        if entry is None:
            return missing("entry")
        piece = entry.evidence[0]
        number = self.desk.findings.numbers()[piece.recording]
        try:
            moment = self.recordings.sharpest(number, piece.start, piece.end)
        except NarrateError as error:
            return told(str(error), 422)
        return JSONResponse({"recording": number, "at": moment})

    def still(self, request: Request) -> Response:
        """`GET /still/{sha256}`: a picture that an entry keeps."""
        return still_answer(request.path_params["sha256"], [(self.desk.findings, self.desk.path)])

    def _seal(self, raw: bytes) -> Response:
        if self.seal is None:
            return told("this record cannot be sealed from here", 422)
        try:
            wanted = SealWanted.model_validate_json(raw)
            return JSONResponse({"sha256": self.seal(wanted.by, wanted.statement)})
        except ValidationError as error:
            return told(first_fault(error), 422)
        except NarrateError as error:
            return told(str(error), 422)

    def _changes(self, new: Sequence[JournalLine]) -> Json:
        return changes_view(self.desk.findings, self.desk.lines, new, self.choices)
