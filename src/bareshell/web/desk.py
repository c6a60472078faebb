"""The open build that the pages read and write, and who is writing."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, tzinfo

from fastapi import FastAPI
from starlette.requests import Request

from bareshell.app.door import Door
from bareshell.errors import NotFound
from bareshell.web import cookies
from bareshell.web.pairing import desk_of, is_this_computer
from bareshell.web.settings import Masthead
from bareshell.whole.garage_time import zone_of

OWNER = "owner"
"""Who writes on the garage computer itself."""


class NoBuildYet(NotFound):
    """The folder that is served holds no build."""

    def __init__(self) -> None:
        super().__init__("there is no build here yet", "begin one: open the page /begin")


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
    """The door of the build these pages are about.

    Raises
    ------
    NoBuildYet
        When no build lies open.
    """
    door = getattr(request.app.state, "door", None)
    if not isinstance(door, Door):
        raise NoBuildYet
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


def zone_for(door: Door) -> tzinfo:
    """The zone that the owner's clock shows."""
    return zone_of(door.build())


@dataclass(frozen=True, slots=True)
class Blank:
    """What the twin of an empty form says: which build it would be written into."""

    made_at: datetime
    seq: int
    car: str
    invented: bool


def blank_of(request: Request) -> Blank:
    """The build that an empty form belongs to."""
    door = door_of(request)
    build = door.build()
    car = build.car
    return Blank(door.now(), build.seq, car.name if car else "", bool(car and car.invented))
