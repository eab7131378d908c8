"""Recordings and pictures as the page gets them: by number and by hash, never by path."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from starlette.requests import Request
from starlette.responses import FileResponse, JSONResponse, Response
from starlette.routing import Route

from narrate2report.errors import NarrateError
from narrate2report.records.beside import place_of
from narrate2report.records.findings import Findings
from narrate2report.review.answers import missing, told, whole


@dataclass(frozen=True)
class Playing:
    """How a recording can be played: a file, or how far its review copy has come, or why not."""

    file: Path | None = None
    progress: float | None = None
    why: str | None = None


class Playable(Protocol):
    """Recordings by number."""

    def playing(self, number: int) -> Playing:
        """How this recording can be played now."""


@dataclass(frozen=True)
class Playback:
    """What is played: so many recordings."""

    recordings: Playable
    count: int

    def routes(self) -> list[Route]:
        """Where the page asks for them."""
        return [Route("/api/playing/{number}", self.playing), Route("/recording/{number}", self.recording)]

    def playing(self, request: Request) -> Response:
        """`GET /api/playing/{number}`: whether a recording can be played by now."""
        number = self.number(request)
        if number is None:
            return missing("recording")
        state = self.recordings.playing(number)
        return JSONResponse({"ready": state.file is not None, "progress": state.progress, "why": state.why})

    def recording(self, request: Request) -> Response:
        """`GET /recording/{number}`: a recording, whole or by range (RFC 9110, section 14)."""
        number = self.number(request)
        state = self.recordings.playing(number) if number is not None else Playing()
        path = state.file
        return FileResponse(path) if path and path.is_file() else told(state.why or "there is no such recording", 404)

    def number(self, request: Request) -> int | None:
        """Which recording an address names; None for one that there is not."""
        number = whole(request.path_params["number"])
        return number if number is not None and number < self.count else None


def still_answer(sha256: str, records: Iterable[tuple[Findings, Path]]) -> Response:
    """`GET /still/{sha256}`: a picture that an entry of one of these records keeps; each comes with its file."""
    for findings, path in records:
        for still in (still for entry in findings.entries for still in entry.stills):
            if still.sha256 != sha256:
                continue
            try:
                place = place_of(still.file, path)
            except NarrateError as error:
                return told(str(error), 422)
            return FileResponse(place, media_type="image/jpeg") if place.is_file() else missing("picture")
    return missing("picture")
