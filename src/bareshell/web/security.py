"""The gates before the pages: headers, the name we are called by, who sends a form, how much.

bareshell has no accounts and trusts whoever reaches it on its own computer. So a page elsewhere
in the same browser must not be able to reach it: not by a name that points here (the Host
header is checked), not by a form or script of its own (Sec-Fetch-Site, else Origin, is checked).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final
from urllib.parse import urlsplit

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from bareshell.errors import BareshellError

CONTENT_POLICY: Final = (
    "default-src 'none'; "
    "style-src 'self'; "
    "script-src 'self'; "
    "connect-src 'self'; "
    "img-src 'self' data: blob:; "
    "form-action 'self'; "
    "frame-ancestors 'none'; "
    "base-uri 'none'"
)
"""What a page may load: this server's own files and pictures made in the page."""

HEADERS: Final = {
    "Content-Security-Policy": CONTENT_POLICY,
    "X-Content-Type-Options": "nosniff",
    # Not "no-referrer": a browser would then send "Origin: null" with our own forms.
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
}

_SAFE_METHODS: Final = frozenset({"GET", "HEAD", "OPTIONS"})


class NotFromHere(BareshellError):
    """A request that another site seems to have made."""

    kind = "not from here"
    status = 403


class OtherAddress(BareshellError):
    """A request for a name this computer is not called by."""

    kind = "other address"
    status = 421


class SafeHeaders:
    """Put the protecting headers on every answer, errors included."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on and add to the answer."""

        async def with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                present = {name.lower() for name, _ in message["headers"]}
                message["headers"] = [
                    *message["headers"],
                    *(
                        (name.lower().encode(), value.encode())
                        for name, value in HEADERS.items()
                        if name.lower().encode() not in present
                    ),
                ]
            await send(message)

        await self._app(scope, receive, with_headers)


class HostGate:
    """Refuse a request for any name but ours, so that no foreign name can be pointed here.

    Parameters
    ----------
    app : ASGI application
        What is inside.
    allowed : frozenset of str
        The names, in small letters.
    """

    def __init__(self, app: ASGIApp, allowed: frozenset[str]) -> None:
        self._app = app
        self._allowed = allowed

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass on what calls us by one of our names."""
        if scope["type"] == "http":
            host = Request(scope).headers.get("host", "")
            if host_name(host) not in self._allowed:
                raise OtherAddress(
                    f"bareshell does not answer to the name {host!r}",
                    "open the address that was printed when bareshell started",
                )
        await self._app(scope, receive, send)


def host_name(host: str) -> str:
    """The name in a Host header, without its port, in small letters.

    Examples
    --------
    >>> host_name("LocalHost:8642"), host_name("[::1]:8642"), host_name("")
    ('localhost', '::1', '')
    """
    try:
        return (urlsplit(f"//{host}").hostname or "").lower()
    except ValueError:
        return ""


class OriginGate:
    """Take a change only from a page of our own."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass on what only reads, and what our own pages send."""
        if scope["type"] == "http" and scope["method"] not in _SAFE_METHODS:
            _require_own(Request(scope))
        await self._app(scope, receive, send)


def _require_own(request: Request) -> None:
    """Judge by Sec-Fetch-Site; plain http on a home network carries only Origin."""
    site = request.headers.get("sec-fetch-site")
    if site is not None:
        own = site == "same-origin"
    else:
        origin = request.headers.get("origin", "")
        own = origin == f"{request.url.scheme}://{request.headers.get('host', '')}"
    if not own:
        raise NotFromHere(
            "this change did not come from one of bareshell's own pages, so it was not made",
            "use the form on the page; a program sends the header Origin with the address it "
            "calls, or uses the command line instead",
        )


class BodyLimit:
    """Refuse a request larger than we take, by what it says and by what it sends.

    Parameters
    ----------
    app : ASGI application
        What is inside.
    most : int
        The largest body. [B]
    uploads : mapping of str to int, optional
        The largest body of the few addresses that take files. [B]
    """

    def __init__(self, app: ASGIApp, most: int, uploads: Mapping[str, int] | None = None) -> None:
        self._app = app
        self._most = most
        self._uploads = dict(uploads or {})

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on while it keeps within the limit."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        most = self._uploads.get(scope["path"], self._most)
        said = Request(scope).headers.get("content-length", "0")
        if not said.isdigit():
            raise HTTPException(400)
        if int(said) > most:
            raise HTTPException(413)
        got = 0

        async def counted() -> Message:
            nonlocal got
            message = await receive()
            got += len(message.get("body", b""))
            if got > most:
                raise HTTPException(413)
            return message

        await self._app(scope, counted, send)
