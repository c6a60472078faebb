"""How far the brakes' answers can be trusted, worked out beside the pages.

Ten thousand combinations take a second or two, which no page of the brakes waits for: it shows
what there is, and the shares once they are there.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

from starlette.requests import Request

from bareshell.app import brakes_trust
from bareshell.app.brakes_found import system_of
from bareshell.app.door import Door
from bareshell.web.beside import PATIENCE_S, Beside, StillWorking
from bareshell.whole.brake_trust import TrustAsked, TrustView

Work: TypeAlias = Callable[[Door, str, TrustAsked], TrustView]

_USUAL = TrustAsked()


class TrustDesk:
    """Asks for each set of brakes once, for each state of the build.

    Parameters
    ----------
    work : callable
        What works it out.
    patience_s : float
        How long a page that shows nothing else waits. [s]
    """

    def __init__(self, work: Work = brakes_trust.trust, patience_s: float = PATIENCE_S) -> None:
        self.patience_s = patience_s
        self._work = work
        self._beside = Beside(1, "what the brakes' answers are worth")

    def trust(
        self,
        door: Door,
        system_id: str,
        asked: TrustAsked = _USUAL,
        *,
        wait_s: float | None = None,
    ) -> TrustView:
        """How far the answers can be trusted.

        Raises
        ------
        StillWorking
            When it takes longer than `wait_s`; it goes on being worked out.
        NotFound
            When the build describes no such brakes.
        """
        return self._beside.answer(
            (str(door.folder), door.latest(), system_id, asked),
            lambda: self._work(door, system_id, asked),
            self.patience_s if wait_s is None else wait_s,
        )

    def soon(self, door: Door, system_id: str, asked: TrustAsked = _USUAL) -> TrustView | None:
        """The same if it is there; else None, and it will be."""
        try:
            return self.trust(door, system_id, asked, wait_s=0.0)
        except StillWorking:
            return None

    def warm_up(self, door: Door | None) -> None:
        """Work out beforehand what the page of the brakes will show first, if there are brakes."""
        build = door.build() if door is not None else None
        if door is not None and build is not None and build.brakes:
            self.soon(door, system_of(build).id)

    def close(self) -> None:
        """Begin nothing more."""
        self._beside.close()


def trust_desk_of(request: Request) -> TrustDesk | None:
    """The desk of these pages; None where they stand at no bench."""
    desk = getattr(request.app.state, "trust_desk", None)
    return desk if isinstance(desk, TrustDesk) else None
