"""One context, two forms: the page a person reads and its JSON twin.

A page hands over a reading, a frozen dataclass. Asked for under a path that ends in ``.json``, or
by someone who prefers JSON, the reading's own fields are written out as data, the same that the
command line's ``--json`` gives. What a page needs besides (its forms, which part of a long list is
shown) is no news of the build and stays with the template.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import is_dataclass
from typing import Any, TypeVar

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from bareshell.app.plain import FORMAT, document, plain
from bareshell.web import cookies
from bareshell.web.templating import views_of

_Endpoint = TypeVar("_Endpoint", bound=Callable[..., Any])


def as_json(content: Mapping[str, object], status: int = 200) -> Response:
    """A JSON answer with its format number."""
    body = json.dumps({"format": FORMAT} | dict(content), ensure_ascii=False, allow_nan=False)
    return Response(body, status, media_type="application/json")


def wants_json(request: Request) -> bool:
    """Whether the twin is asked for: by the path, or by a clear preference.

    A browser's ``*/*`` is no preference; the page is meant for people first.
    """
    if request.url.path.endswith(".json"):
        return True
    weights: dict[str, float] = {}
    for part in request.headers.get("accept", "").split(","):
        media, _, rest = part.strip().partition(";")
        weights[media.strip().lower()] = _weight(rest)
    html = max(weights.get(media, 0.0) for media in ("text/html", "application/xhtml+xml"))
    return weights.get("application/json", 0.0) > html


def _weight(parameters: str) -> float:
    for parameter in parameters.split(";"):
        name, _, value = parameter.strip().partition("=")
        if name.strip().lower() == "q":
            try:
                return float(value)
            except ValueError:
                return 0.0
    return 1.0


def wants_part(request: Request) -> bool:
    """Whether a script on the page asks for a part of it only."""
    partial = request.headers.get("hx-request-type", "partial") == "partial"
    return request.headers.get("hx-request") == "true" and partial


def page(
    request: Request,
    template: str,
    context: object,
    *,
    also: object = None,
    status: int = 200,
    part: str | None = None,
) -> Response:
    """Answer with a page or its twin.

    Parameters
    ----------
    request : Request
        What is answered.
    template : str
        The template; it knows the context as ``page``.
    context : dataclass
        Everything the page says, frozen; the twin is its fields.
    also : object
        What only the template needs, which knows it as ``also``: forms, the part of a list.
    status : int
        422 when a form comes back with what is wrong.
    part : str, optional
        A block of the template that stands alone when a script asks for a part.
    """
    if not is_dataclass(context) or isinstance(context, type):
        raise TypeError(f"A page's context is a dataclass, not {type(context).__name__}.")
    if wants_json(request):
        return _private(as_json(document(context), status))
    block = part if part is not None and wants_part(request) else None
    views = views_of(request)
    body = views.render(request, template, block=block, page=context, also=also)
    response = HTMLResponse(body, status)
    if block is None and cookies.SAID in request.cookies:
        cookies.drop(response, cookies.SAID)
    return _private(response)


def done(request: Request, to: str, words: str, result: object = None) -> Response:
    """Answer to something a person did: go to a page that says so, or say it as data.

    Parameters
    ----------
    request : Request
        What is answered.
    to : str
        The path of the page to show next.
    words : str
        What was done, shown once on that page.
    result : dataclass, optional
        What the twin hands back besides.
    """
    if wants_json(request):
        return _private(as_json({"done": {"said": words, "see": to, "result": plain(result)}}))
    response = RedirectResponse(to, status_code=303)
    cookies.leave_word(request, response, words)
    return _private(response)


def _private(response: Response) -> Response:
    """Pages belong to one person and are asked for anew each time."""
    response.headers.setdefault("Cache-Control", "private, no-cache")
    response.headers["Vary"] = "Accept, Cookie, HX-Request"
    return response


class PageRouter(APIRouter):
    """A router whose pages come with their twins."""

    def page(self, path: str) -> Callable[[_Endpoint], _Endpoint]:
        """Register a page and its twin.

        Parameters
        ----------
        path : str
            The page's path; its twin is the same with ``.json``. The front page's twin is
            ``/index.json``.
        """
        twin = "/index.json" if path == "/" else f"{path}.json"

        def register(endpoint: _Endpoint) -> _Endpoint:
            # The twin first: a last part such as {proof} would take "x.json" for its own.
            self.get(twin, name=f"{endpoint.__name__}.json", response_model=None)(endpoint)
            self.get(path, response_model=None)(endpoint)
            return endpoint

        return register
