"""The application: gates, frame, errors and the routers of the pages."""

from __future__ import annotations

from collections.abc import Iterable

from fastapi import APIRouter, FastAPI

from bareshell import __version__
from bareshell.web import errors, light
from bareshell.web.assets import PREFIX, Assets
from bareshell.web.pages import pairing as pairing_pages
from bareshell.web.pairing import PairingDesk, PairingGate
from bareshell.web.security import BodyLimit, HostGate, OriginGate, SafeHeaders
from bareshell.web.settings import WebSettings
from bareshell.web.templating import Views

UPLOADS = ("/bring-in", "/photos")
"""Where files are sent to."""


def create_app(
    settings: WebSettings, *, pages: Iterable[APIRouter] = (), desk: PairingDesk | None = None
) -> FastAPI:
    """Make the application.

    Parameters
    ----------
    settings : WebSettings
        How the pages are served.
    pages : iterable of APIRouter
        The areas of the site; each is asked in this order.
    desk : PairingDesk, optional
        Where codes are handed out; made from the settings when not given.

    Returns
    -------
    app : FastAPI
        Ready for a server or a test client.
    """
    app = FastAPI(title="bareshell", version=__version__, docs_url=None, redoc_url=None)
    assets = Assets()
    app.state.views = Views(settings, assets)
    app.state.views.environment.globals["qr"] = pairing_pages.qr_drawing
    app.state.pairing = desk or PairingDesk(settings.devices, settings.clock)
    errors.add_handlers(app)
    app.add_route(PREFIX + "{name}", assets.respond, include_in_schema=False)
    app.include_router(light.router)
    app.include_router(pairing_pages.router)
    for router in pages:
        app.include_router(router)
    # The last one added stands outermost.
    app.add_middleware(PairingGate, desk=app.state.pairing, home=settings.home)
    uploads = dict.fromkeys(UPLOADS, settings.max_upload_bytes)
    app.add_middleware(BodyLimit, most=settings.max_body_bytes, uploads=uploads)
    app.add_middleware(OriginGate)
    app.add_middleware(HostGate, allowed=settings.allowed_hosts)
    app.add_middleware(errors.Problems)
    app.add_middleware(SafeHeaders)
    return app
