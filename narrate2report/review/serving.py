"""The server on a free port of this machine, until the person is done."""

from __future__ import annotations

import socket
from collections.abc import Callable

import uvicorn

from narrate2report.review.guard import Pass
from narrate2report.review.server import Site, application

LOOPBACK = "127.0.0.1"
PATIENCE_S = 2
"""How long an open connection, such as a film that plays, may hold up the end of the review."""


def serve(site: Site, opened: Callable[[str], None]) -> None:
    """Answer until interrupted. `opened` is told the address once the server answers there."""
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    with listening:
        listening.bind((LOOPBACK, 0))
        listening.listen()
        entry = Pass(listening.getsockname()[1])
        config = uvicorn.Config(
            application(site, entry),
            log_level="error",
            access_log=False,
            lifespan="off",
            timeout_graceful_shutdown=PATIENCE_S,
        )
        opened(entry.address)
        uvicorn.Server(config).run(sockets=[listening])
