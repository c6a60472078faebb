"""The bench the pages stand at: one build's folder, its door, the plan beside it.

The folder may hold no build yet; the pages then begin one, and the door is opened meanwhile.
"""

from __future__ import annotations

import threading
from dataclasses import dataclass, field
from pathlib import Path

from fastapi import FastAPI
from starlette.requests import Request

from bareshell.app.door import Clock, Door
from bareshell.errors import NotFound
from bareshell.web.desk import lay_open, masthead_of
from bareshell.web.plan_desk import PlanDesk
from bareshell.web.settings import Masthead
from bareshell.web.trust_desk import TrustDesk


@dataclass(slots=True)
class Bench:
    """A build's folder, opened for the pages.

    Parameters
    ----------
    folder : Path
        Where the build is, or will be.
    zone : str
        The time zone of the clock on the garage wall, for a build that is begun here.
    plan : PlanDesk
        Works beside the pages.
    trust : TrustDesk
        So does this, for what the brakes' answers are worth.
    clock : callable or None
        What the time is told by; None for this machine's clock.
    """

    folder: Path
    zone: str = "UTC"
    plan: PlanDesk = field(default_factory=PlanDesk)
    clock: Clock | None = None
    door: Door | None = None
    trust: TrustDesk = field(default_factory=TrustDesk)
    turn: threading.Lock = field(default_factory=threading.Lock)
    """Held while a build is opened or begun: two forms at once make one build."""

    def open(self) -> Door | None:
        """Open the build if there is one."""
        with self.turn:
            if self.door is None:
                try:
                    self.door = Door.open(self.folder, clock=self.clock)
                except NotFound:
                    return None
            return self.door

    def close(self) -> None:
        """Close what is open."""
        self.plan.close()
        self.trust.close()
        if self.door is not None:
            self.door.close()
            self.door = None

    def masthead(self) -> Masthead:
        """What the head of each page says."""
        return masthead_of(self.door) if self.door else Masthead()

    def lay_open(self, app: FastAPI) -> Door | None:
        """Lay the build open for an application's pages, if there is one."""
        app.state.bench = self
        app.state.plan_desk = self.plan
        app.state.trust_desk = self.trust
        door = self.open()
        if door is not None:
            lay_open(app, door)
        return door


def bench_of(request: Request) -> Bench:
    """The bench of the application that got this request."""
    bench = getattr(request.app.state, "bench", None)
    if not isinstance(bench, Bench):
        raise TypeError("These pages stand at no bench; call Bench.lay_open first.")
    return bench
