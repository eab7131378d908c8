"""Who may talk to the page's server: the browser that the person opened it in, and nobody else.

A page on the open web can make a browser send requests to this machine. So: one address that works once becomes a
cookie that scripts and other sites cannot use; only our own host name is answered (against DNS rebinding); a write
must come from our own page (Origin and Sec-Fetch-Site, Fetch Metadata); nothing from outside is ever loaded
(Content-Security-Policy Level 3); bodies are small.

A browser shows a cookie to every port of a machine (RFC 6265, section 8.5), so to any other server that runs here,
but only below the cookie's path (section 5.1.4). So everything lies below a folder whose name nobody can guess and
no other page is told (Referrer-Policy), and the cookie is for that folder alone.
"""

from __future__ import annotations

import hmac
import secrets

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

LARGEST_BODY = 64 * 1024
"""Bytes of one request; a decision about a thousand entries fits."""

HEADERS = {
    "Content-Security-Policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; media-src 'self'; "
        "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
    ),
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cache-Control": "no-store",
}
OPENING = "/open/"
SAFE = frozenset({"GET", "HEAD"})


class Pass:
    """What lets one browser in: a word in the address that works once, and the cookie that it becomes.

    `folder` is the path, without a slash at its end, below which everything lies.
    """

    def __init__(self, port: int) -> None:
        self.hosts = frozenset({f"127.0.0.1:{port}", f"localhost:{port}"})
        self.cookie = f"narrate2report_{port}"
        self.folder = f"/{secrets.token_urlsafe(24)}"
        self._token: str | None = secrets.token_urlsafe(24)
        self._session = secrets.token_urlsafe(32)
        self.address = f"http://127.0.0.1:{port}{self.folder}{OPENING}{self._token}"

    def spend(self, token: str) -> str | None:
        """The session for the right word, once; None for any other."""
        if self._token is None or not hmac.compare_digest(token.encode(), self._token.encode()):
            return None
        self._token = None
        return self._session

    def knows(self, header: str) -> bool:
        """Whether a Cookie header carries the session, whatever cookies of this name others have set beside it."""
        pairs = (pair.strip().partition("=") for pair in header.split(";"))
        values = [value for name, _, value in pairs if name == self.cookie]
        return any(hmac.compare_digest(value.encode(), self._session.encode()) for value in values)

    def inside(self, path: str) -> str | None:
        """What a path names in the folder; None for one that lies elsewhere."""
        folder, slash, rest = path[1:].partition("/")
        ours = hmac.compare_digest(folder.encode(), self.folder[1:].encode())
        return slash + rest if ours and slash else None


class Guard:
    """ASGI middleware: answers what may not pass, and puts the safety headers on everything."""

    def __init__(self, app: ASGIApp, entry: Pass) -> None:
        self._app = app
        self._pass = entry

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request through, or say why not."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return

        async def with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                MutableHeaders(scope=message).update(HEADERS)
            await send(message)

        answer = self._answer(scope)
        if answer is not None:
            await answer(scope, receive, with_headers)
            return
        scope = {**scope, "root_path": self._pass.folder}
        if scope["method"] in SAFE:
            await self._app(scope, receive, with_headers)
            return
        body = await _body(receive)
        if body is None:
            await _refused(413, "this request is too large")(scope, receive, with_headers)
            return
        await self._app(scope, _again(body, receive), with_headers)

    def _answer(self, scope: Scope) -> Response | None:
        headers = Headers(scope=scope)
        host = headers.get("host", "")
        if host not in self._pass.hosts:
            return _refused(421, "this server answers only on its own address")
        known = self._pass.knows(headers.get("cookie", ""))
        path = self._pass.inside(scope["path"])
        if path is not None and path.startswith(OPENING) and scope["method"] == "GET":
            return self._open(path.removeprefix(OPENING), known)
        if path is None or not known:
            return _refused(403, "open the page with the address that narrate2report printed; it works once")
        if scope["method"] not in SAFE:
            return _foreign(headers, host)
        return None

    def _open(self, token: str, known: bool) -> Response:
        session = self._pass.spend(token)
        if session is None and not known:
            return _refused(403, "this address was used already; start the review again for a new one")
        answer = RedirectResponse(f"{self._pass.folder}/", status_code=303)
        if session is not None:
            cookie, below = self._pass.cookie, f"{self._pass.folder}/"
            answer.set_cookie(cookie, session, httponly=True, samesite="strict", path=below)
        return answer


def _foreign(headers: Headers, host: str) -> Response | None:
    """A write that does not come from our own page."""
    if headers.get("origin") != f"http://{host}":
        return _refused(403, "decisions are taken only from the review page")
    if headers.get("sec-fetch-site", "same-origin") != "same-origin":
        return _refused(403, "decisions are taken only from the review page")
    if headers.get("content-type", "").partition(";")[0].strip() != "application/json":
        return _refused(415, "a decision is sent as JSON")
    return None


async def _body(receive: Receive) -> bytes | None:
    """The whole body, or None when it is larger than any decision."""
    body = b""
    while True:
        message = await receive()
        if message["type"] != "http.request":
            return body
        body += bytes(message.get("body", b""))
        if len(body) > LARGEST_BODY:
            return None
        if not message.get("more_body"):
            return body


def _again(body: bytes, receive: Receive) -> Receive:
    """Gives a body that was read already once more, then whatever comes."""
    waiting: list[Message] = [{"type": "http.request", "body": body, "more_body": False}]

    async def next_message() -> Message:
        return waiting.pop() if waiting else await receive()

    return next_message


def _refused(status: int, why: str) -> Response:
    return PlainTextResponse(why + "\n", status_code=status)
