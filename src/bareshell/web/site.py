"""The whole site: every page, the build they are about, the plan beside them.

A site may be opened on a folder that holds no build yet: then it begins with the first
questions, and the build is laid when they are answered.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from fastapi import APIRouter, FastAPI
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from bareshell.web.application import create_app
from bareshell.web.bench import Bench
from bareshell.web.beside import StillWorking
from bareshell.web.desk import NoBuildYet
from bareshell.web.devices import DeviceStore, JsonDeviceStore, NoDevices
from bareshell.web.errors import problem_response
from bareshell.web.pages import begin, books, front, keeping, road, tonight, tonight_taps, trial
from bareshell.web.settings import WebSettings
from bareshell.web.templating import views_of
from bareshell.web.twin import wants_json

LOOK_AGAIN_S = 2
"""How soon a page that waits for the plan looks again. [s]"""


def pages() -> tuple[APIRouter, ...]:
    """Every area of the site."""
    return (
        front.router,
        begin.router,
        tonight.router,
        tonight_taps.router,
        trial.router,
        road.router,
        *books.ROUTERS,
        *keeping.ROUTERS,
    )


def prepare(app: FastAPI, bench: Bench) -> None:
    """Lay a bench's build open for an application, and lead astray visitors to it.

    Parameters
    ----------
    app : FastAPI
        Made by ``create_app`` with these pages.
    bench : Bench
        The build's folder.
    """
    bench.lay_open(app)
    app.add_exception_handler(NoBuildYet, _to_the_beginning)
    app.add_exception_handler(StillWorking, _wait)


def site_app(bench: Bench, settings: WebSettings | None = None) -> FastAPI:
    """The whole site as an application, for a test client or a server of one's own."""
    settings = replace(settings or WebSettings(), masthead=bench.masthead)
    app = create_app(settings, pages=pages())
    prepare(app, bench)
    return app


async def _to_the_beginning(request: Request, error: Exception) -> Response:
    """Lead whoever asks for a page of a build that is not there to where one is begun."""
    if wants_json(request) or request.method not in ("GET", "HEAD"):
        return problem_response(request, error)
    return RedirectResponse("/begin", status_code=303)


async def _wait(request: Request, error: Exception) -> Response:
    """Say that something is being worked out, and look again by itself."""
    if wants_json(request):
        response = problem_response(request, error)
    else:
        what = error.what if isinstance(error, StillWorking) else "the answer"
        body = views_of(request).render(
            request, "front/wait.html", here=request.url.path, what=what
        )
        response = HTMLResponse(body, StillWorking.status)
        if request.method in ("GET", "HEAD"):
            response.headers["Refresh"] = str(LOOK_AGAIN_S)
    response.headers["Retry-After"] = str(LOOK_AGAIN_S)
    response.headers["Cache-Control"] = "no-store"
    return response


def device_store(folder: Path, *, home: bool) -> DeviceStore:
    """Where the paired devices of a build are kept.

    In the user's own configuration folder, under a name made from the build's path: the build's
    folder is copied, synchronised and handed on, and keys to this computer must not travel
    with it.

    Parameters
    ----------
    folder : Path
        The build's folder.
    home : bool
        Whether phones may be paired at all.
    """
    if not home:
        return NoDevices()
    from platformdirs import user_config_path

    kept = user_config_path("bareshell", appauthor=False) / "paired"
    kept.mkdir(parents=True, exist_ok=True, mode=0o700)
    name = hashlib.sha256(str(folder.resolve()).encode()).hexdigest()[:24]
    return JsonDeviceStore(kept / f"{name}.json")


def serve_site(bench: Bench, *, home: bool, port: int, say: Callable[[str], None]) -> None:
    """Serve a site until interrupted; the plan is made ready beside it.

    Parameters
    ----------
    bench : Bench
        The build's folder.
    home : bool
        Whether the home network may reach the pages.
    port : int
        The port; 0 takes any free one.
    say : callable
        Where to print the address and how far the plan is.

    Raises
    ------
    PortTaken
        When the port cannot be had.
    """
    from bareshell.web.serve import serve

    # A build that cannot be opened is said before an address is given out.
    bench.open()
    devices = device_store(bench.folder, home=home)
    settings = WebSettings(home=home, devices=devices, masthead=bench.masthead)

    def ready(app: FastAPI) -> None:
        prepare(app, bench)
        if bench.door is None:
            say(f"There is no build in {bench.folder} yet: the first page begins one.")
        say("Making the plan ready; the first time on a computer takes some seconds.")
        bench.plan.warm_up(say, bench.door)
        bench.trust.warm_up(bench.door)

    try:
        serve(settings, pages=pages(), say=say, port=port, prepare=ready)
    finally:
        bench.close()
