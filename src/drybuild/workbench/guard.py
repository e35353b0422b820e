"""Who may ask: only this computer's own browser that was let in, from our own pages, in bounds.

Any web page can make a browser send requests to a port of this computer, so each one must name us
as its host, carry the run's token in a cookie that other sites' requests never carry, and, when it
changes something, come from our own pages.
"""

from __future__ import annotations

import secrets

from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import cookie_parser
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

LARGEST_REQUEST = 128 * 1024
"""Bytes; a form's longest note has thousands, not more."""
POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data:",
        "connect-src 'self'",
        "form-action 'self'",
        "frame-ancestors 'none'",
        "base-uri 'none'",
    )
)
HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), microphone=(), geolocation=()",
}
ENTER = "/enter/"
SAFE = ("GET", "HEAD")


class Guard:
    """Lets in what is ours, and gives every answer the headers that keep it so."""

    def __init__(self, app: ASGIApp, *, token: str, port: int) -> None:
        self.app = app
        self.token = token
        self.cookie = f"drybuild-{port}"
        self.hosts = {f"{name}:{port}" for name in ("127.0.0.1", "localhost")}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request, or hand it on."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return

        async def sealed(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in HEADERS.items():
                    headers[name] = value
                headers.setdefault("Cache-Control", "no-store")
            await send(message)

        refused = self._refusal(scope)
        if refused is not None:
            await refused(scope, receive, sealed)
            return
        body = await _within_bounds(scope, receive)
        if body is None:
            await PlainTextResponse("This is larger than any form here.", 413)(
                scope, receive, sealed
            )
            return
        await self.app(scope, _replay(body, receive), sealed)

    def _refusal(self, scope: Scope) -> Response | None:
        """Return the answer to a request that is not let in; the entrance counts as one."""
        headers, path = Headers(scope=scope), scope["path"]
        host = headers.get("host", "")
        if host not in self.hosts:
            return PlainTextResponse("The workbench answers only under its own address.", 421)
        if path.startswith(ENTER):
            return self._entrance(path.removeprefix(ENTER), scope["method"])
        bearer = headers.get("authorization", "").removeprefix("Bearer ")
        given = cookie_parser(headers.get("cookie", "")).get(self.cookie, "")
        if not (_same(bearer, self.token) or _same(given, self.token)):
            words = "Open the workbench by the address that the terminal printed."
            return PlainTextResponse(words, 403)
        if scope["method"] not in SAFE and not self._from_here(headers, host, bearer):
            return PlainTextResponse("Changes are taken from the workbench's own pages only.", 403)
        return None

    def _from_here(self, headers: Headers, host: str, bearer: str) -> bool:
        """Whether a change comes from our own pages, or from a program that knows the token."""
        origin = headers.get("origin")
        if origin is not None:
            return origin == f"http://{host}"
        return _same(bearer, self.token)

    def _entrance(self, token: str, method: str) -> Response:
        if method not in SAFE or not _same(token, self.token):
            return PlainTextResponse("This address was good for another run.", 403)
        answer = RedirectResponse("/", 303)
        answer.set_cookie(self.cookie, self.token, httponly=True, samesite="strict", path="/")
        return answer


def _same(one: str, other: str) -> bool:
    return secrets.compare_digest(one.encode(), other.encode())


async def _within_bounds(scope: Scope, receive: Receive) -> bytes | None:
    """Return the whole body, or nothing when it is larger than any of ours."""
    if scope["method"] in SAFE:
        return b""
    said = Headers(scope=scope).get("content-length", "0")
    if not said.isdecimal() or int(said) > LARGEST_REQUEST:
        return None
    parts, size, more = [], 0, True
    while more:
        message = await receive()
        if message["type"] != "http.request":
            return None
        parts.append(message.get("body", b""))
        size += len(parts[-1])
        more = message.get("more_body", False)
        if size > LARGEST_REQUEST:
            return None
    return b"".join(parts)


def _replay(body: bytes, receive: Receive) -> Receive:
    sent = False

    async def once() -> Message:
        nonlocal sent
        if sent:
            return await receive()
        sent = True
        return {"type": "http.request", "body": body, "more_body": False}

    return once
