"""The few cookies, all of one kind.

For this host only, out of reach of scripts, never sent along by another site.
"""

from __future__ import annotations

from urllib.parse import quote, unquote

from starlette.requests import Request
from starlette.responses import Response

YEAR_S = 365 * 24 * 3600
LIGHT = "bareshell_light"
DEVICE = "bareshell_device"
SAID = "bareshell_said"
_SAID_MOST = 400


def keep(
    request: Request, response: Response, name: str, value: str, seconds: int = YEAR_S
) -> None:
    """Set a cookie.

    Parameters
    ----------
    request, response : Request, Response
        What is answered, and the answer.
    name, value : str
        The cookie.
    seconds : int
        How long it lasts. [s]
    """
    response.set_cookie(
        name,
        value,
        max_age=seconds,
        path="/",
        secure=request.url.scheme == "https",
        httponly=True,
        samesite="strict",
    )


def drop(response: Response, name: str) -> None:
    """Take a cookie back."""
    response.delete_cookie(name, path="/", httponly=True, samesite="strict")


def leave_word(request: Request, response: Response, words: str) -> None:
    """Leave a sentence for the next page to show once."""
    keep(request, response, SAID, quote(words[:_SAID_MOST]), seconds=60)


def word_left(request: Request) -> str:
    """The sentence left for this page, if any."""
    return unquote(request.cookies.get(SAID, ""))[:_SAID_MOST]
