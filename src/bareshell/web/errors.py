"""Whatever goes wrong, as one page in the look and one form of JSON; never a traceback.

Errors of bareshell's own tree carry their sentence, remedy and status. Everything else becomes
one of a few plain sentences here; what really happened goes to the log, not to the page.
"""

from __future__ import annotations

import logging
from dataclasses import asdict, dataclass
from http import HTTPStatus

from fastapi import FastAPI
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from bareshell.errors import BadInput, BareshellError, Problem
from bareshell.web.settings import Masthead
from bareshell.web.templating import views_of
from bareshell.web.twin import as_json, wants_json, wants_part

_log = logging.getLogger("bareshell.web")

_TITLES = {
    400: "That could not be read",
    401: "Not paired yet",
    403: "Not from here",
    404: "Nothing here",
    405: "Not done this way",
    409: "Not as it stands",
    413: "Too large",
    421: "Another address",
    422: "Not written down",
    429: "Wait a little",
    500: "Something gave way",
    503: "Busy just now",
    507: "No room",
}
_SENTENCES = {
    400: ("what was sent could not be read", "go back and send it again"),
    404: ("there is no such page", "choose one of the words at the head"),
    405: ("this address takes no such request", "go back and use the page's own form"),
    413: (
        "what was sent is larger than bareshell takes",
        "send a smaller file, or fewer at a time",
    ),
}
_GAVE_WAY = (
    "bareshell stumbled over something nobody foresaw, and nothing of this request was kept",
    "go back and try once more; if it happens again, the log in the terminal says what it was",
)


@dataclass(frozen=True, slots=True)
class ProblemPage:
    """One error as a page or its twin shows it.

    Parameters
    ----------
    status : int
        The HTTP status.
    kind : str
        A stable word for programs.
    title : str
        What the page is headed with.
    message : str
        What happened.
    remedy : str
        What would put it right; may be empty.
    problems : tuple of Problem
        Each field that was wrong, when it was a form.
    """

    status: int
    kind: str
    title: str
    message: str
    remedy: str
    problems: tuple[Problem, ...] = ()


def problem_of(error: Exception) -> ProblemPage:
    """Any exception as something a person can read.

    Examples
    --------
    >>> problem_of(BadInput("bore", "'wide' is no length", "write 19.05 mm")).title
    'Not written down'
    >>> problem_of(RuntimeError("secret detail")).status
    500
    """
    if isinstance(error, BareshellError):
        problems = error.problems if isinstance(error, BadInput) else ()
        title = _TITLES.get(error.status, _TITLES[500])
        return ProblemPage(error.status, error.kind, title, error.message, error.remedy, problems)
    if isinstance(error, RequestValidationError):
        return problem_of(BadInput.together([_field(row) for row in error.errors()]))
    if isinstance(error, HTTPException):
        status = error.status_code
        phrase = HTTPStatus(status).phrase.lower()
        message, remedy = _SENTENCES.get(status, (phrase, ""))
        return ProblemPage(
            status, phrase, _TITLES.get(status, phrase.capitalize()), message, remedy
        )
    return ProblemPage(500, "error", _TITLES[500], *_GAVE_WAY)


def _field(row: dict[str, object]) -> Problem:
    """Name the field a form check stumbled over, in words a reader knows."""
    place = row.get("loc", ())
    names = [str(part) for part in place][1:] if isinstance(place, (list, tuple)) else []
    where = " ".join(names).replace("_", " ") or "the form"
    said = str(row.get("msg", "cannot be used"))
    return Problem(where, said[0].lower() + said[1:], "correct it and send the form again")


def problem_response(request: Request, error: Exception) -> Response:
    """Answer with an error page, a part of one, or its twin.

    Someone who is not known yet is told what went wrong and nothing about the build.
    """
    problem = problem_of(error)
    if problem.status >= HTTPStatus.INTERNAL_SERVER_ERROR:
        # What bareshell itself says needs no more words; what nobody foresaw needs its trace.
        foreseen = isinstance(error, BareshellError)
        said = error.describe() if isinstance(error, BareshellError) else str(error)
        trace = None if foreseen else error
        _log.error("%s %s: %s", request.method, request.url.path, said, exc_info=trace)
    response = _shown(request, problem)
    response.headers["Cache-Control"] = "no-store"
    if isinstance(error, HTTPException) and error.headers:
        response.headers.update(error.headers)
    if problem.status == HTTPStatus.UNAUTHORIZED:
        response.headers["WWW-Authenticate"] = 'Pairing realm="bareshell"'
    return response


def _shown(request: Request, problem: ProblemPage) -> Response:
    if wants_json(request):
        return as_json({"error": asdict(problem)}, problem.status)
    views = views_of(request)
    if problem.status == HTTPStatus.UNAUTHORIZED:
        body = views.render(request, "pair.html", masthead=Masthead(), code="", name="", error=None)
        return HTMLResponse(body, problem.status)
    part = "problem" if wants_part(request) else None
    masthead, layout = Masthead(), "plain.html"
    if known(request):
        try:
            masthead, layout = views.settings.masthead(), "base.html"
        except BareshellError:  # the build itself cannot be read: say so without it
            _log.warning("The head of the page could not be read.", exc_info=True)
    body = views.render(
        request, "problem.html", masthead=masthead, block=part, problem=problem, layout=layout
    )
    return HTMLResponse(body, problem.status)


def known(request: Request) -> bool:
    """Whether the one who asks may see anything of the build."""
    return bool(request.scope.get("state", {}).get("known", False))


def make_known(scope: Scope) -> None:
    """Mark a request as coming from someone who may see the build."""
    scope.setdefault("state", {})["known"] = True


def add_handlers(app: FastAPI) -> None:
    """Let errors raised by pages become problem pages."""

    async def handle(request: Request, error: Exception) -> Response:
        return problem_response(request, error)

    for kind in (BareshellError, HTTPException, RequestValidationError):
        app.add_exception_handler(kind, handle)


class Problems:
    """The outermost catch: errors of the gates before the pages, and what nobody foresaw.

    Parameters
    ----------
    app : ASGI application
        What is inside.
    """

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on; answer with a problem page if nothing was answered yet."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        begun = False

        async def watched(message: Message) -> None:
            nonlocal begun
            begun = begun or message["type"] == "http.response.start"
            await send(message)

        try:
            await self._app(scope, receive, watched)
        except Exception as error:
            if begun:
                raise
            response = problem_response(Request(scope, receive), error)
            await response(scope, receive, send)
