"""The pages that keep a build: bring in, write out, photographs, looking it over."""

from __future__ import annotations

from fastapi import APIRouter

from bareshell.web.pages import bring_in, look_over, photos, write_out

ROUTERS: tuple[APIRouter, ...] = (
    bring_in.router,
    write_out.router,
    photos.router,
    look_over.router,
)
"""In the order in which they are asked."""
