"""The open build that the pages read and write, and who is writing."""

from __future__ import annotations

from fastapi import FastAPI
from starlette.requests import Request

from bareshell.app.door import Door
from bareshell.web import cookies
from bareshell.web.pairing import desk_of, is_this_computer
from bareshell.web.settings import Masthead

OWNER = "owner"
"""Who writes on the garage computer itself."""


def lay_open(app: FastAPI, door: Door) -> None:
    """Lay a build open for the pages.

    Parameters
    ----------
    app : FastAPI
        Made by ``create_app``.
    door : Door
        The build's one door; whoever opened it closes it.
    """
    app.state.door = door


def door_of(request: Request) -> Door:
    """The door of the build these pages are about."""
    door = getattr(request.app.state, "door", None)
    if not isinstance(door, Door):
        raise TypeError("No build lies open here; call lay_open first.")
    return door


def author_of(request: Request) -> str:
    """Who writes: a paired phone by the name it was given, else the owner."""
    if is_this_computer(request):
        return OWNER
    device = desk_of(request).device(request.cookies.get(cookies.DEVICE, ""))
    return device.name if device else OWNER


def masthead_of(door: Door) -> Masthead:
    """What the head of each page says about a build."""
    car = door.build().car
    return Masthead(car.name, car.invented) if car else Masthead()
