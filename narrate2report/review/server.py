"""The page's server: the page itself and what its site answers, behind the guard; on this machine only."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Protocol

from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import FileResponse, Response
from starlette.routing import Route

from narrate2report.review.guard import Guard, Pass
from narrate2report.shipped import PACKAGE

PAGE = PACKAGE / "page"
TYPES = {".html": "text/html", ".css": "text/css", ".js": "text/javascript", ".svg": "image/svg+xml"}


class Site(Protocol):
    """What a page shows and takes."""

    @property
    def page(self) -> str:
        """The name of its first file."""

    def routes(self) -> list[Route]:
        """Everything that it answers besides its files."""


def application(site: Site, entry: Pass) -> Starlette:
    """The whole server as an ASGI application, behind its guard."""
    files = [Route(f"/page/{path.name}", _static(path)) for path in sorted(PAGE.iterdir()) if path.suffix in TYPES]
    routes = [Route("/", _static(PAGE / site.page)), *files, *site.routes()]
    return Starlette(routes=routes, middleware=[Middleware(Guard, entry=entry)])


def _static(path: Path) -> Callable[[Request], Response]:
    def answer(_: Request) -> Response:
        return FileResponse(path, media_type=TYPES[path.suffix])

    return answer
