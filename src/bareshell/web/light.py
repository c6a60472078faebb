"""Day or garage light: a choice kept in a cookie, never guessed from the phone.

A phone does not know that the bay is dark. The button is an ordinary form, so it works without a
script, and the server writes the choice on the page.
"""

from __future__ import annotations

from typing import Annotated, Literal

from fastapi import APIRouter, Form
from starlette.requests import Request
from starlette.responses import RedirectResponse

from bareshell.web import cookies

Light = Literal["day", "garage"]
router = APIRouter()


def light_of(request: Request) -> Light:
    """The light this browser chose; day until it chooses."""
    return "garage" if request.cookies.get(cookies.LIGHT) == "garage" else "day"


def local_path(asked: str) -> str:
    """A path on this server to go back to, or the front page for anything else.

    Examples
    --------
    >>> local_path("/proofs?gate=road"), local_path("//elsewhere/x"), local_path("javascript:1")
    ('/proofs?gate=road', '/', '/')
    """
    plain = asked.isprintable() and "\\" not in asked
    return asked if plain and asked.startswith("/") and not asked.startswith("//") else "/"


@router.post("/light", include_in_schema=False)
def choose(
    request: Request, light: Annotated[Light, Form()], back: Annotated[str, Form()] = "/"
) -> RedirectResponse:
    """Keep the choice and show the page again."""
    response = RedirectResponse(local_path(back), status_code=303)
    cookies.keep(request, response, cookies.LIGHT, light)
    return response
