"""Decisions in, what they changed out: the same for whatever record the page is about."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from pydantic import Field, ValidationError
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from narrate2report.errors import NarrateError
from narrate2report.records.base import Value
from narrate2report.records.journal_file import KindOfLine
from narrate2report.review import requests as ask
from narrate2report.review.answers import first_fault, missing, told, whole
from narrate2report.review.deciding import Deciding, Stale

Json = dict[str, Any]
Asked = TypeVar("Asked")


class Decided(Value, Generic[Asked]):
    """What the page sends: a decision, by whom, and the last line of the journal that it has seen."""

    request: Asked
    by: ask.Name
    seen: int = Field(ge=0)


@dataclass(frozen=True)
class Exchange(Generic[KindOfLine]):
    """The one way from the page to a desk. `changes` tells what these new lines have changed, as it stands now."""

    desk: Deciding[KindOfLine, Any]
    form: type[Decided[Any]]
    changes: Callable[[Sequence[KindOfLine]], Json]

    def routes(self) -> list[Route]:
        """Where the page sends and asks."""
        return [Route("/api/since/{head}", self.since), Route("/api/decide", self.decide, methods=["POST"])]

    def since(self, request: Request) -> Response:
        """`GET /api/since/{head}`: what was decided after line `head`, in whichever window."""
        head = whole(request.path_params["head"])
        if head is None:
            return missing("decision")
        self.desk.look()
        return JSONResponse(self._changes(head))

    async def decide(self, request: Request) -> Response:
        """`POST /api/decide`: one decision; answered when it is on disk, with what it changed."""
        raw = await request.body()
        return await run_in_threadpool(self._decide, raw)

    def _decide(self, raw: bytes) -> Response:
        try:
            wanted = self.form.model_validate_json(raw)
        except ValidationError as error:
            return told(first_fault(error), 422)
        try:
            self.desk.decide(wanted.request, wanted.by, wanted.seen)
        except Stale as error:
            return told(str(error), 409, **self._changes(wanted.seen))
        except NarrateError as error:
            return told(str(error), 422)
        return JSONResponse(self._changes(wanted.seen))

    def _changes(self, seen: int) -> Json:
        return self.changes(self.desk.lines[seen:])
