"""The page's server: the record as JSON, decisions in, recordings and pictures by number; on this machine only."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from pydantic import Field, TypeAdapter, ValidationError
from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import FileResponse, JSONResponse, Response
from starlette.routing import Route

from narrate2report.errors import NarrateError
from narrate2report.records.base import Value
from narrate2report.records.beside import place_of
from narrate2report.review import requests as ask
from narrate2report.review.choices import Choices
from narrate2report.review.deciding import Stale
from narrate2report.review.desk import Desk
from narrate2report.review.guard import Guard, Pass
from narrate2report.review.view import Json, changes_view, whole_view
from narrate2report.shipped import PACKAGE

LONGEST_NUMBER = 9
"""Digits of a number in an address."""
PAGE = PACKAGE / "page"
TYPES = {".html": "text/html", ".css": "text/css", ".js": "text/javascript", ".svg": "image/svg+xml"}


@dataclass(frozen=True)
class Playing:
    """How a recording can be played: a file, or how far its review copy has come, or why not."""

    file: Path | None = None
    progress: float | None = None
    why: str | None = None


class Recordings(Protocol):
    """The recordings of the walk, by their number in it."""

    def playing(self, number: int) -> Playing:
        """How this recording can be played now."""

    def frame(self, number: int, moment: float, steps: int) -> tuple[bytes, float]:
        """The picture `steps` frames from the one shown at a moment, as JPEG, and its own time in seconds."""

    def sharpest(self, number: int, start: float, end: float) -> float:
        """The moment of the sharpest picture between two moments."""


class Sealing(Protocol):
    """Seals the walk under review."""

    def __call__(self, by: str, statement: str) -> str:
        """The seal's hash; raises NarrateError where something is still open."""


class Decided(Value):
    """What the page sends: a decision, by whom, and the last line of the journal that it has seen."""

    request: ask.Request
    by: ask.Said = Field(max_length=200)
    seen: int = Field(ge=0)


class SealWanted(Value):
    """What the page sends to seal."""

    by: ask.Said = Field(max_length=200)
    statement: ask.Said


_DECIDED: TypeAdapter[Decided] = TypeAdapter(Decided)


@dataclass(frozen=True)
class Site:
    """All that the server shows: the walk, what there is to choose from, its recordings."""

    desk: Desk
    choices: Choices
    recordings: Recordings
    seal: Sealing | None = None
    reviewer: str = ""
    statement: str = ""
    """What whoever seals is proposed to declare."""

    def walk(self, _: Request) -> Response:
        """`GET /api/walk`: the whole record."""
        self.desk.look()
        view = whole_view(self.desk.findings, self.desk.spine, self.desk.lines, self.choices)
        can_seal = self.seal is not None and not view["sealed"]
        return JSONResponse({**view, "reviewer": self.reviewer, "statement": self.statement, "can_seal": can_seal})

    def since(self, request: Request) -> Response:
        """`GET /api/since/{head}`: what was decided after line `head`, in whichever window."""
        head = _whole(request.path_params["head"])
        if head is None:
            return _missing("decision")
        self.desk.look()
        return JSONResponse(self._changes(head))

    async def decide(self, request: Request) -> Response:
        """`POST /api/decide`: one decision; answered when it is on disk, with what it changed."""
        raw = await request.body()
        return await run_in_threadpool(self._decide, raw)

    async def seal_it(self, request: Request) -> Response:
        """`POST /api/seal`: seal the record."""
        raw = await request.body()
        return await run_in_threadpool(self._seal, raw)

    def playing(self, request: Request) -> Response:
        """`GET /api/playing/{number}`: whether a recording can be played by now."""
        number = self._number(request)
        if number is None:
            return _missing("recording")
        state = self.recordings.playing(number)
        return JSONResponse({"ready": state.file is not None, "progress": state.progress, "why": state.why})

    def recording(self, request: Request) -> Response:
        """`GET /recording/{number}`: a recording, whole or by range (RFC 9110, section 14)."""
        number = self._number(request)
        state = self.recordings.playing(number) if number is not None else Playing()
        path = state.file
        return FileResponse(path) if path and path.is_file() else _told(state.why or "there is no such recording", 404)

    def frame(self, request: Request) -> Response:
        """`GET /frame/{number}?at=12.5&steps=-1`: one picture of a recording; its time is in `X-Moment`."""
        number = self._number(request)
        try:
            moment, steps = float(request.query_params["at"]), int(request.query_params.get("steps", "0"))
        except (KeyError, ValueError):
            return _told("a picture needs its moment in seconds", 422)
        if number is None or not 0 <= moment < 1e8 or abs(steps) > 1000:
            return _missing("picture")
        try:
            picture, time = self.recordings.frame(number, moment, steps)
        except NarrateError as error:
            return _told(str(error), 422)
        return Response(picture, media_type="image/jpeg", headers={"X-Moment": f"{time:.3f}"})

    def sharpest(self, request: Request) -> Response:
        """`GET /api/sharpest/{entry}`: the moment of the sharpest picture of an entry's statement."""
        entry = next((one for one in self.desk.findings.entries if one.id == request.path_params["entry"]), None)
        if entry is None:
            return _missing("entry")
        piece = entry.evidence[0]
        number = self.desk.findings.numbers()[piece.recording]
        try:
            moment = self.recordings.sharpest(number, piece.start, piece.end)
        except NarrateError as error:
            return _told(str(error), 422)
        return JSONResponse({"recording": number, "at": moment})

    def still(self, request: Request) -> Response:
        """`GET /still/{sha256}`: a picture that an entry keeps."""
        every = (still for entry in self.desk.findings.entries for still in entry.stills)
        still = next((one for one in every if one.sha256 == request.path_params["sha256"]), None)
        if still is None:
            return _missing("picture")
        try:
            place = place_of(still.file, self.desk.path)
        except NarrateError as error:
            return _told(str(error), 422)
        return FileResponse(place, media_type="image/jpeg") if place.is_file() else _missing("picture")

    def _decide(self, raw: bytes) -> Response:
        try:
            wanted = _DECIDED.validate_json(raw)
        except ValidationError as error:
            return _told(_first_fault(error), 422)
        try:
            self.desk.decide(wanted.request, wanted.by, wanted.seen)
        except Stale as error:
            return _told(str(error), 409, **self._changes(wanted.seen))
        except NarrateError as error:
            return _told(str(error), 422)
        return JSONResponse(self._changes(wanted.seen))

    def _seal(self, raw: bytes) -> Response:
        if self.seal is None:
            return _told("this record cannot be sealed from here", 422)
        try:
            wanted = SealWanted.model_validate_json(raw)
            return JSONResponse({"sha256": self.seal(wanted.by, wanted.statement)})
        except ValidationError as error:
            return _told(_first_fault(error), 422)
        except NarrateError as error:
            return _told(str(error), 422)

    def _changes(self, seen: int) -> Json:
        lines = self.desk.lines
        return changes_view(self.desk.findings, lines, lines[seen:], self.choices)

    def _number(self, request: Request) -> int | None:
        number = _whole(request.path_params["number"])
        return number if number is not None and number < len(self.desk.findings.recordings) else None


def application(site: Site, entry: Pass) -> Starlette:
    """The whole server as an ASGI application, behind its guard."""
    files: list[Route] = [
        Route(f"/page/{path.name}", _static(path)) for path in sorted(PAGE.iterdir()) if path.suffix in TYPES
    ]
    routes = [
        Route("/", _static(PAGE / "index.html")),
        *files,
        Route("/api/walk", site.walk),
        Route("/api/since/{head}", site.since),
        Route("/api/decide", site.decide, methods=["POST"]),
        Route("/api/seal", site.seal_it, methods=["POST"]),
        Route("/api/playing/{number}", site.playing),
        Route("/api/sharpest/{entry}", site.sharpest),
        Route("/recording/{number}", site.recording),
        Route("/frame/{number}", site.frame),
        Route("/still/{sha256}", site.still),
    ]
    return Starlette(routes=routes, middleware=[Middleware(Guard, entry=entry)])


def _static(path: Path) -> Callable[[Request], Response]:
    def answer(_: Request) -> Response:
        return FileResponse(path, media_type=TYPES[path.suffix])

    return answer


def _whole(digits: str) -> int | None:
    """A number out of an address; None for what is none, or longer than anything is counted here."""
    return int(digits) if digits.isascii() and digits.isdigit() and len(digits) <= LONGEST_NUMBER else None


def _missing(what: str) -> Response:
    return _told(f"there is no such {what}", 404)


def _told(why: str, status: int, **more: object) -> Response:
    return JSONResponse({"error": " ".join(why.split()), **more}, status_code=status)


def _first_fault(error: ValidationError) -> str:
    first = error.errors(include_url=False)[0]
    where = ".".join(str(part) for part in first["loc"] if part != "request") or "the request"
    return f"{where}: {json.dumps(first['msg'].removeprefix('Value error, '))[1:-1]}"
